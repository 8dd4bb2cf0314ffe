//! Reads a setting as it was typed: for the outfit, or behind or before a rig's name.

use serde::{Deserialize, Serialize};

use super::pattern::{Caught, matches};
use super::pieces::{Piece, cut, typed};
use super::{Field, Setting, english, spanish};

/// What somebody wants of the settings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Wish {
    /// This value from now on.
    Set(Setting),
    /// The default again.
    Default(Field),
    /// To see what holds.
    ShowAll,
}

/// A wish, and the rig's name as typed if it is for one rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WishFor {
    /// None: for the outfit.
    pub rig: Option<String>,
    /// What is wanted.
    pub wish: Wish,
}

/// What a row makes of its values; none if they cannot be meant.
pub type Make = fn(&Caught) -> Option<Setting>;

/// Longer texts set nothing.
const PIECES: usize = 32;
/// A rig's name has at most so many words.
const NAME_WORDS: usize = 3;

/// The wish that a text is, if it is one and nothing else.
pub fn read(text: &str) -> Option<WishFor> {
    if asks_what_is_set(text) {
        let wish = Wish::ShowAll;
        return Some(WishFor { rig: None, wish });
    }
    let pieces = cut(text)?;
    if pieces.len() > PIECES {
        return None;
    }
    if let Some(wish) = wish(&pieces) {
        return Some(WishFor { rig: None, wish });
    }
    // "settings heron"
    if let Some((first, name)) = pieces.split_first()
        && name.len() <= NAME_WORDS
        && wish(std::slice::from_ref(first)) == Some(Wish::ShowAll)
    {
        return Some(WishFor {
            rig: Some(typed(name).to_owned()),
            wish: Wish::ShowAll,
        });
    }
    let most = NAME_WORDS.min(pieces.len().saturating_sub(1));
    let ahead = (1..=most).map(|words| pieces.split_at(words));
    let behind = (1..pieces.len().saturating_sub(1)).filter_map(|at| {
        let links = matches!(pieces[at].plain.as_str(), "on" | "for" | "en" | "de" | "para");
        let name = &pieces[at + 1..];
        (links && name.len() <= NAME_WORDS).then_some((name, &pieces[..at]))
    });
    ahead.chain(behind).find_map(|(name, said)| {
        let named = name.iter().any(|piece| piece.plain.chars().any(char::is_alphanumeric));
        let wish = wish(said).filter(|_| named)?;
        Some(WishFor {
            rig: Some(typed(name).to_owned()),
            wish,
        })
    })
}

/// "What is the resin price?", "prices": answered by what is set.
pub fn asks_what_is_set(text: &str) -> bool {
    let Some(pieces) = cut(text.trim_matches(['¿', '?', ' '])) else {
        return false;
    };
    let rows = english::ASKS.iter().chain(spanish::ASKS);
    pieces.len() <= PIECES && rows.into_iter().any(|row| matches(row, &pieces).is_some())
}

fn wish(pieces: &[Piece<'_>]) -> Option<Wish> {
    let one_of = |words: &str, piece: &Piece<'_>| words.split('|').any(|word| word == piece.plain);
    if let [only] = pieces
        && (one_of(english::ALL, only) || one_of(spanish::ALL, only))
    {
        return Some(Wish::ShowAll);
    }
    if let Some((last, name)) = pieces.split_last() {
        let of = |names: &[(&str, Field)]| {
            names
                .iter()
                .find(|(row, _)| matches(row, name).is_some())
                .map(|row| row.1)
        };
        let field = match () {
            () if one_of(english::DEFAULT, last) => of(english::NAMES),
            () if one_of(spanish::DEFAULT, last) => of(spanish::NAMES),
            () => None,
        };
        if let Some(field) = field {
            return Some(Wish::Default(field));
        }
    }
    let whole = english::WHOLE.iter().chain(spanish::WHOLE);
    for (row, field, value) in whole {
        if matches(row, pieces).is_some() {
            return Setting::kept(*field, value).map(Wish::Set);
        }
    }
    let rows = english::ROWS.iter().chain(spanish::ROWS);
    rows.filter_map(|(row, make)| make(&matches(row, pieces)?))
        .find(Setting::is_plausible)
        .map(Wish::Set)
}

/// What the rows make of their values.
pub mod make {
    use super::super::country::Country;
    use super::super::currency::Currency;
    use super::super::{Amount, Degrees, Meter, PressureUnit, Rated, VolumeUnit};
    use super::{Caught, Setting};
    use crate::water::quantity::LITRES_PER_US_GALLON;

    pub fn currency(caught: &Caught) -> Option<Setting> {
        Currency::typed(&caught.name.0).map(Setting::Currency)
    }

    pub fn country(caught: &Caught) -> Option<Setting> {
        Country::typed(&caught.name.0).map(Setting::Country)
    }

    pub fn resin_price(caught: &Caught) -> Option<Setting> {
        caught.amounts.first().copied().map(Setting::ResinPrice)
    }

    /// A price for another unit than the litre.
    pub fn resin_price_per(caught: &Caught) -> Option<Setting> {
        Amount::of_main(caught.amounts.first()?.main() / caught.numbers.first()?).map(Setting::ResinPrice)
    }

    /// A price for a bag of so many litres.
    pub fn resin_bag(caught: &Caught) -> Option<Setting> {
        resin_price_per(caught)
    }

    pub fn membrane_price(caught: &Caught) -> Option<Setting> {
        caught.amounts.first().copied().map(Setting::MembranePrice)
    }

    pub fn prefilter_price(caught: &Caught) -> Option<Setting> {
        caught.amounts.first().copied().map(Setting::PrefilterPrice)
    }

    pub fn membrane_labour(caught: &Caught) -> Option<Setting> {
        caught.amounts.first().copied().map(Setting::MembraneLabour)
    }

    pub fn resin_labour(caught: &Caught) -> Option<Setting> {
        caught.amounts.first().copied().map(Setting::ResinLabour)
    }

    pub fn resin_litres(caught: &Caught) -> Option<Setting> {
        caught.numbers.first().copied().map(Setting::ResinLitres)
    }

    pub fn litres(caught: &Caught) -> Option<Setting> {
        caught.numbers.first().copied().map(Setting::LitresPerDay)
    }

    pub fn gallons(caught: &Caught) -> Option<Setting> {
        let litres = caught.numbers.first()? * LITRES_PER_US_GALLON;
        Some(Setting::LitresPerDay(litres))
    }

    pub fn busy(caught: &Caught) -> Option<Setting> {
        let percent = (caught.numbers.first()? * 100.0).round();
        let percent = (0.0..=500.0).contains(&percent).then_some(percent as u16)?;
        Some(Setting::BusyMonths(
            caught.months?.map(|busy| if busy { percent } else { 100 }),
        ))
    }

    pub fn wearing_line(caught: &Caught) -> Option<Setting> {
        caught.numbers.first().copied().map(Setting::WearingLine)
    }

    pub fn due_line(caught: &Caught) -> Option<Setting> {
        caught.numbers.first().copied().map(Setting::DueLine)
    }

    pub fn spent_line(caught: &Caught) -> Option<Setting> {
        caught.numbers.first().copied().map(Setting::SpentLine)
    }

    pub fn working_days(caught: &Caught) -> Option<Setting> {
        caught.days.map(Setting::WorkingDays)
    }

    pub fn day_ends(caught: &Caught) -> Option<Setting> {
        caught.clocks.first().copied().map(Setting::DayEnds)
    }

    pub fn day_ends_on(caught: &Caught) -> Option<Setting> {
        Some(Setting::DayEndsOn(caught.weekday?, *caught.clocks.first()?))
    }

    pub fn digest_at(caught: &Caught) -> Option<Setting> {
        Some(Setting::DigestAt(caught.weekday?, *caught.clocks.first()?))
    }

    pub fn quiet_hours(caught: &Caught) -> Option<Setting> {
        match caught.clocks.as_slice() {
            [from, to] => Some(Setting::QuietHours(Some((*from, *to)))),
            _ => None,
        }
    }

    pub fn meter_factor(caught: &Caught) -> Option<Setting> {
        Some(Setting::Meter(Meter::Conductivity(*caught.numbers.first()?)))
    }

    pub fn pressure(caught: &Caught) -> Option<Setting> {
        match caught.name.0.as_str() {
            "psi" => Some(Setting::PressureUnit(PressureUnit::Psi)),
            "bar" | "bars" | "bares" => Some(Setting::PressureUnit(PressureUnit::Bar)),
            _ => None,
        }
    }

    pub fn volume(caught: &Caught) -> Option<Setting> {
        match caught.name.0.as_str() {
            "l" | "litre" | "litres" | "liter" | "liters" | "litros" => Some(Setting::VolumeUnit(VolumeUnit::Litres)),
            "gal" | "gallon" | "gallons" | "galones" => Some(Setting::VolumeUnit(VolumeUnit::Gallons)),
            _ => None,
        }
    }

    pub fn degrees(caught: &Caught) -> Option<Setting> {
        match caught.name.0.as_str() {
            "c" | "celsius" | "centigrade" => Some(Setting::Degrees(Degrees::Celsius)),
            "f" | "fahrenheit" => Some(Setting::Degrees(Degrees::Fahrenheit)),
            _ => None,
        }
    }

    pub fn prefilter_days(caught: &Caught) -> Option<Setting> {
        whole(caught.numbers.first()?).map(Setting::PrefilterDays)
    }

    pub fn membranes(caught: &Caught) -> Option<Setting> {
        let count = whole(caught.numbers.first()?)?;
        u8::try_from(count).ok().map(Setting::Membranes)
    }

    pub fn rated(caught: &Caught) -> Option<Setting> {
        match *caught.numbers.as_slice() {
            [gallons_per_day, temperature_f, pressure_psi] => Some(Setting::Rated(Rated {
                gallons_per_day,
                temperature_f,
                pressure_psi,
            })),
            _ => None,
        }
    }

    /// With the pressure before the temperature.
    pub fn rated_turned(caught: &Caught) -> Option<Setting> {
        let mut turned = caught.clone();
        turned.numbers.swap(1, 2);
        rated(&turned)
    }

    pub fn short_names_or(caught: &Caught) -> Option<Setting> {
        short_names(&caught.name.1, &["or", "and"])
    }

    pub fn short_names_o(caught: &Caught) -> Option<Setting> {
        short_names(&caught.name.1, &["o", "y", "u"])
    }

    fn short_names(typed: &str, links: &[&str]) -> Option<Setting> {
        let mut names = vec![String::new()];
        for word in typed.replace(',', " , ").split_whitespace() {
            if word == "," || links.iter().any(|link| word.eq_ignore_ascii_case(link)) {
                names.push(String::new());
                continue;
            }
            let name = names.last_mut()?;
            if !name.is_empty() {
                name.push(' ');
            }
            name.push_str(word);
        }
        names.retain(|name| !name.is_empty());
        Some(Setting::ShortNames(names))
    }

    pub fn keep(caught: &Caught) -> Option<Setting> {
        whole(caught.numbers.first()?).map(|years| Setting::Keep(Some(years)))
    }

    fn whole(number: &f64) -> Option<u16> {
        (number.fract() == 0.0 && (0.0..=60_000.0).contains(number)).then_some(*number as u16)
    }
}
