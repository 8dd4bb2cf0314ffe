//! When a reading was taken or a service done: dates in numbers, days in words, and what looks like one.

use tapside::grammar::{Meaning, Scene, When, read};

use crate::message_scene::{compare, scene, short};

fn when(meaning: &Meaning) -> String {
    let readings = meaning.readings.iter().map(|reading| reading.when);
    let services = meaning.services.iter().map(|service| service.when);
    let told: Vec<String> = readings.chain(services).map(spoken).collect();
    told.join("; ")
}

fn spoken(when: Option<When>) -> String {
    match when {
        None => "now".to_owned(),
        Some(When::On { year, month, day, .. }) => match year {
            Some(year) => format!("{day}/{month}/{year}"),
            None => format!("{day}/{month}"),
        },
        Some(When::Weekday {
            weekday, before_today, ..
        }) => format!("{}day {weekday}", if before_today { "last " } else { "" }),
        Some(When::DayOfMonth { day, .. }) => format!("the {day}."),
        Some(When::InMonth { year, month }) => format!("month {month} {}", year.unwrap_or_default()),
        Some(other) => format!("{other:?}"),
    }
}

fn check(rows: &[(&str, &str, &str)], scene: &Scene) {
    compare(rows.iter().map(|(text, meant, at)| {
        let meaning = read(text, scene);
        (
            text,
            format!("{meant} @ {at}"),
            format!("{} @ {}", short(&meaning), when(&meaning)),
        )
    }));
}

#[test]
fn a_pair_behind_a_service_is_its_date() {
    check(
        &[
            ("lynx resina nueva 27/02", "resin Lynx", "27/2"),
            ("lynx new membrane 15/01", "membrane Lynx", "15/1"),
            (
                "badger, lynx: new filters 28/2",
                "prefilter Badger; prefilter Lynx",
                "28/2; 28/2",
            ),
            ("lynx new resin 1/5", "resin Lynx", "1/5"),
            ("lynx flushed 27/02", "flush Lynx", "27/2"),
            // A flush may stand behind a reading of soft water.
            // Values stay values.
            ("lynx di changed 180/12/3", "Lynx 180/12/3; resin Lynx", "now; now"),
            ("lynx 180/12 new resin 27/2", "Lynx 180/12; resin Lynx", "now; 27/2"),
            ("lynx 25/3", "Lynx 25/3", "now"),
        ],
        &scene(),
    );
}

#[test]
fn the_outfit_says_which_of_two_numbers_is_the_month() {
    let american = Scene {
        month_first: true,
        ..scene()
    };
    check(
        &[
            (
                "lynx new membrane 03/05/2026 $120",
                "membrane Lynx for 120 $",
                "5/3/2026",
            ),
            ("lynx new resin 2/27", "resin Lynx", "27/2"),
            ("lynx new resin 3/2", "resin Lynx", "2/3"),
        ],
        &american,
    );
}

#[test]
fn a_date_beside_a_reading_is_no_value_of_it() {
    check(
        &[
            ("lynx 200 14 02.03.", "Lynx 200/14", "2/3"),
            // A glass value and the end of the sentence look the same.
            ("lynx 200/15 badger 20/2", "Lynx 200/15; Badger 20/2", "now; now"),
        ],
        &scene(),
    );
}

#[test]
fn the_day_of_a_service_may_be_told_in_words() {
    check(
        &[
            ("lynx resin changed on friday", "resin Lynx", "day 5"),
            ("resin on lynx was changed on monday", "resin Lynx", "day 1"),
            ("lynx changed resin sunday", "resin Lynx", "day 7"),
            (
                "lynx new resin 3 days ago (£140)",
                "resin Lynx for 140 £",
                "DaysBack(3)",
            ),
            ("lynx new resin 2 weeks ago", "resin Lynx", "DaysBack(14)"),
            ("lynx new resin a week ago", "resin Lynx", "DaysBack(7)"),
            ("lynx resina nueva hace 3 días", "resin Lynx", "DaysBack(3)"),
            ("lynx resina nueva hace 3 semanas", "resin Lynx", "DaysBack(21)"),
            ("lynx filtros cambiados el martes", "prefilter Lynx", "day 2"),
            ("lynx new resin last friday", "resin Lynx", "last day 5"),
            ("lynx resina nueva el lunes pasado", "resin Lynx", "last day 1"),
            ("lynx resina nueva la semana pasada", "resin Lynx", "DaysBack(7)"),
            ("lynx membrane changed in january", "membrane Lynx", "month 1 0"),
            ("lynx membrane changed last month", "membrane Lynx", "LastMonth"),
            ("lynx new membrane june 2025", "membrane Lynx", "month 6 2025"),
            ("lynx flushed 20 min ago", "flush Lynx", "MinutesBack(20)"),
            // Plans and talk.
            ("lynx new resin friday", "-", ""),
            ("lynx needs resin changed on friday", "-", ""),
        ],
        &scene(),
    );
}

#[test]
fn the_day_of_a_reading_may_be_told_in_words() {
    check(
        &[
            ("lynx mon 190 12", "Lynx 190/12", "day 1"),
            ("lynx sunday 190 13", "Lynx 190/13", "day 7"),
            ("lynx last friday 190 14", "Lynx 190/14", "last day 5"),
            ("lynx 190 12 3 days ago", "Lynx 190/12", "DaysBack(3)"),
            ("lynx 190 12 2 hours ago", "Lynx 190/12", "MinutesBack(120)"),
            ("lynx el lunes 182 13", "Lynx 182/13", "day 1"),
            ("see you friday, lynx 180 12", "Lynx 180/12", "now"),
            ("lynx 180 12 see you tomorrow", "Lynx 180/12", "now"),
            // Nobody has read tomorrow's water.
        ],
        &scene(),
    );
}
