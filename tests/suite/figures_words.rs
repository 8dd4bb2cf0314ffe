//! Months and uncertain days in both languages, from January to December.

use jiff::civil::date;
use tapside::replies::Words;
use tapside::replies::figures::rough;

const ENGLISH: [[&str; 3]; 12] = [
    ["early Jan", "mid Jan", "late Jan"],
    ["early Feb", "mid Feb", "late Feb"],
    ["early Mar", "mid Mar", "late Mar"],
    ["early Apr", "mid Apr", "late Apr"],
    ["early May", "mid May", "late May"],
    ["early Jun", "mid Jun", "late Jun"],
    ["early Jul", "mid Jul", "late Jul"],
    ["early Aug", "mid Aug", "late Aug"],
    ["early Sep", "mid Sep", "late Sep"],
    ["early Oct", "mid Oct", "late Oct"],
    ["early Nov", "mid Nov", "late Nov"],
    ["early Dec", "mid Dec", "late Dec"],
];
const SPANISH: [[&str; 3]; 12] = [
    ["principios de ene", "mediados de ene", "finales de ene"],
    ["principios de feb", "mediados de feb", "finales de feb"],
    ["principios de mar", "mediados de mar", "finales de mar"],
    ["principios de abr", "mediados de abr", "finales de abr"],
    ["principios de may", "mediados de may", "finales de may"],
    ["principios de jun", "mediados de jun", "finales de jun"],
    ["principios de jul", "mediados de jul", "finales de jul"],
    ["principios de ago", "mediados de ago", "finales de ago"],
    ["principios de sep", "mediados de sep", "finales de sep"],
    ["principios de oct", "mediados de oct", "finales de oct"],
    ["principios de nov", "mediados de nov", "finales de nov"],
    ["principios de dic", "mediados de dic", "finales de dic"],
];

#[test]
fn an_uncertain_day_is_told_by_the_third_of_its_month() {
    for (tag, table) in [("en", ENGLISH), ("es", SPANISH)] {
        for (month, told) in (1..).zip(table) {
            let today = date(2026, month, 1);
            for (day, told) in [5, 15, 25].into_iter().zip(told) {
                assert_eq!(rough(Words::of(Some(tag)), date(2026, month, day), today), told);
            }
        }
    }
}
