//! Matches pieces against a row of a table: words, optional words, slots.
//!
//! `resin|resins price [is] <money>`: a bar stands between words that mean the
//! same here, brackets around what may be missing, and a slot takes a value.

use super::amount::{Amount, typed_number};
use super::currency::is_money;
use super::hours::{Clock, Days, Weekday, month_typed};
use super::pieces::{Piece, typed};
use crate::water::quantity::{Flow, LITRES_PER_CUBIC_FOOT, LITRES_PER_US_GALLON, Pressure, Temperature};

/// The values that the slots of a row took, in order.
#[derive(Clone, Debug, Default)]
pub struct Caught {
    pub amounts: Vec<Amount>,
    /// Numbers, percentages, days, and quantities in the unit that is kept.
    pub numbers: Vec<f64>,
    pub clocks: Vec<Clock>,
    pub weekday: Option<Weekday>,
    pub days: Option<Days>,
    /// January first.
    pub months: Option<[bool; 12]>,
    /// What a `<name>` took: plain and small, and as typed.
    pub name: (String, String),
}

/// The values, if the pieces are what the row says, to the last one.
pub fn matches(row: &str, pieces: &[Piece<'_>]) -> Option<Caught> {
    let elements: Vec<&str> = row.split(' ').collect();
    go(&elements, pieces, Caught::default())
}

fn go(elements: &[&str], pieces: &[Piece<'_>], caught: Caught) -> Option<Caught> {
    let Some((element, others)) = elements.split_first() else {
        return pieces.is_empty().then_some(caught);
    };
    if let Some(slot) = element.strip_prefix('<').and_then(|slot| slot.strip_suffix('>')) {
        let mut caught = caught;
        let taken = take(slot, pieces, &mut caught)?;
        return go(others, pieces.get(taken..)?, caught);
    }
    let optional = element.strip_prefix('[').and_then(|words| words.strip_suffix(']'));
    let said = |words: &str| {
        pieces
            .first()
            .is_some_and(|piece| words.split('|').any(|word| word == piece.plain))
    };
    match optional {
        Some(words) if said(words) => go(others, &pieces[1..], caught.clone()).or_else(|| go(others, pieces, caught)),
        Some(_) => go(others, pieces, caught),
        None if said(element) => go(others, &pieces[1..], caught),
        None => None,
    }
}

/// Takes a slot's value from the beginning of the pieces: how many it took.
fn take(slot: &str, pieces: &[Piece<'_>], caught: &mut Caught) -> Option<usize> {
    match slot {
        "money" => {
            // At most two: R$ comes as two pieces.
            let before = pieces.iter().take(2).take_while(|piece| is_money(&piece.plain)).count();
            let (main, used) = grouped(&pieces[before..])?;
            caught.amounts.push(Amount::of_main(main)?);
            let after = pieces.get(before + used).is_some_and(|piece| is_money(&piece.plain));
            Some(before + used + usize::from(after))
        }
        "number" => {
            caught.numbers.push(number(pieces.first()?)?);
            Some(1)
        }
        "percent" => {
            // 67.8 / 100 is not quite 0.678; a hundredth of a per cent is close enough.
            caught
                .numbers
                .push((number(pieces.first()?)? * 100.0).round() / 10_000.0);
            Some(1 + usize::from(pieces.get(1).is_some_and(|piece| piece.plain == "%")))
        }
        "volume" => {
            let (litres, taken) = volume_unit(pieces.get(1..)?)?;
            caught.numbers.push(number(pieces.first()?)? * litres);
            Some(1 + taken)
        }
        "unit" => {
            let (litres, taken) = volume_unit(pieces)?;
            caught.numbers.push(litres);
            Some(taken)
        }
        "every" => {
            let days = match pieces.get(1)?.plain.as_str() {
                "day" | "days" | "dia" | "dias" => 1.0,
                "week" | "weeks" | "semana" | "semanas" => 7.0,
                "month" | "months" | "mes" | "meses" => 30.0,
                _ => return None,
            };
            caught.numbers.push(number(pieces.first()?)? * days);
            Some(2)
        }
        "clock" => clock(pieces, caught),
        "weekday" => {
            caught.weekday = Some(Weekday::typed(&pieces.first()?.plain)?);
            Some(1)
        }
        "days" => {
            let (days, taken) = run::<7>(pieces, |text| Weekday::typed(text).map(Weekday::from_monday))?;
            caught.days = Days::new(days);
            Some(taken)
        }
        "months" => {
            let (months, taken) = run::<12>(pieces, |text| month_typed(text).map(|month| month - 1))?;
            caught.months = Some(months);
            Some(taken)
        }
        "flow" | "warmth" | "pressure" => rating(slot, pieces, caught),
        _ if pieces.is_empty() => None,
        _ => {
            let plain: Vec<&str> = pieces.iter().map(|piece| piece.plain.as_str()).collect();
            caught.name = (plain.join(" "), typed(pieces).to_owned());
            Some(pieces.len())
        }
    }
}

/// A number, and how many pieces it is: "1 200" has two.
fn grouped(pieces: &[Piece<'_>]) -> Option<(f64, usize)> {
    let digits = |at: usize| {
        let plain = &pieces.get(at)?.plain;
        plain
            .bytes()
            .all(|byte| byte.is_ascii_digit())
            .then_some(plain.as_str())
    };
    match (digits(0), digits(1)) {
        (Some(thousands @ ("1" | "2" | "3" | "4" | "5" | "6" | "7" | "8" | "9")), Some(rest)) if rest.len() == 3 => {
            Some((format!("{thousands}{rest}").parse().ok()?, 2))
        }
        _ => Some((number(pieces.first()?)?, 1)),
    }
}

fn number(piece: &Piece<'_>) -> Option<f64> {
    match piece.plain.as_str() {
        "one" | "una" | "un" => Some(1.0),
        "two" | "dos" => Some(2.0),
        "three" | "tres" => Some(3.0),
        text => typed_number(text),
    }
}

/// Litres in a unit, and how many pieces name it.
fn volume_unit(pieces: &[Piece<'_>]) -> Option<(f64, usize)> {
    let word = |at: usize| pieces.get(at).map_or("", |piece| piece.plain.as_str());
    match (word(0), word(1)) {
        ("l" | "litre" | "litres" | "liter" | "liters" | "litro" | "litros", _) => Some((1.0, 1)),
        ("gal" | "gals" | "gallon" | "gallons" | "galon" | "galones", _) => Some((LITRES_PER_US_GALLON, 1)),
        ("ft", "3") | ("cubic" | "cu", "foot" | "feet" | "ft") | ("pie" | "pies", "cubico" | "cubicos") => {
            Some((LITRES_PER_CUBIC_FOOT, 2))
        }
        _ => None,
    }
}

/// `16:30`, `16h30`, `4 pm`.
fn clock(pieces: &[Piece<'_>], caught: &mut Caught) -> Option<usize> {
    let word = |at: usize| pieces.get(at).map_or("", |piece| piece.plain.as_str());
    let (text, after) = match (word(0), word(1), word(2)) {
        (hour, "h", minute) if minute.parse::<u8>().is_ok() => (format!("{hour}:{minute}"), 3),
        (time, "h" | "hs" | "hrs", _) => (time.to_owned(), 2),
        (time, ..) => (time.to_owned(), 1),
    };
    let afternoon = match word(after) {
        "am" => Some(false),
        "pm" => Some(true),
        _ => None,
    };
    caught.clocks.push(Clock::typed(&text, afternoon)?);
    Some(after + usize::from(afternoon.is_some()))
}

/// Names in a row and from one to another, around the end if need be:
/// `mon-fri`, `mon, wed and fri`, `november to february`.
fn run<const N: usize>(pieces: &[Piece<'_>], place: impl Fn(&str) -> Option<usize>) -> Option<([bool; N], usize)> {
    let mut found = [false; N];
    let mut last: Option<usize> = None;
    let (mut at, mut taken, mut through) = (0, 0, false);
    while let Some(piece) = pieces.get(at) {
        at += 1;
        if let Some(one) = place(&piece.plain) {
            let mut next = last.filter(|_| through).map_or(one, |from| (from + 1) % N);
            while next != one {
                found[next] = true;
                next = (next + 1) % N;
            }
            found[one] = true;
            (last, through, taken) = (Some(one), false, at);
            continue;
        }
        match piece.plain.as_str() {
            "-" | "to" | "till" | "until" | "through" | "a" | "al" | "hasta" if last.is_some() => through = true,
            "," | "&" | "+" | "/" | "and" | "y" | "e" => {}
            _ => break,
        }
    }
    (taken > 0).then_some((found, taken))
}

/// Parts of a membrane's rating: US gallons a day, degrees Fahrenheit, psi.
fn rating(slot: &str, pieces: &[Piece<'_>], caught: &mut Caught) -> Option<usize> {
    let value = number(pieces.first()?)?;
    let word = |at: usize| pieces.get(at).map_or("", |piece| piece.plain.as_str());
    let signed = usize::from(matches!(word(1), "°" | "º" | "deg" | "degrees" | "grados"));
    let (number, taken) = match (slot, word(1 + signed)) {
        ("flow", "gpd") => (value, 2),
        ("flow", _) => {
            let (litres, unit) = volume_unit(pieces.get(1..)?)?;
            let rest = pieces.get(1 + unit..)?;
            let per = matches!(rest.first()?.plain.as_str(), "a" | "per" | "/" | "al" | "por" | "cada");
            let day = matches!(rest.get(1)?.plain.as_str(), "day" | "d" | "dia");
            let flow = Flow::from_litres_per_minute(value * litres / 1440.0).ok()?;
            (per && day).then_some((flow.us_gallons_per_day(), 3 + unit))?
        }
        ("warmth", "f") => (value, 2 + signed),
        ("warmth", "c") => (Temperature::from_celsius(value).ok()?.fahrenheit(), 2 + signed),
        ("pressure", "psi") => (value, 2),
        ("pressure", "bar" | "bares") => (Pressure::from_bar(value).ok()?.psi(), 2),
        _ => return None,
    };
    caught.numbers.push(number);
    Some(taken)
}
