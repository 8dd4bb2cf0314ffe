//! Numbers in words: "one hundred and eighty", "one eighty", "two oh five", "ciento sesenta y cinco", "triple zero".

/// What a word is to a number in words.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spoken {
    /// Its value; below zero a factor: -100 for "hundred".
    pub value: Option<i32>,
    /// It joins: "and".
    pub and: bool,
    /// "And" that joins tens and ones only ("y").
    pub joins_ones: bool,
    /// How often the next digit stands: 2 for "double".
    pub times: u8,
    /// The decimal point.
    pub point: bool,
    /// "And a half".
    pub half: bool,
}

/// The number that starts at the first word: how many words it takes, and its value.
pub fn number(word: impl Fn(usize) -> Spoken) -> Option<(usize, f64)> {
    let value = |i: usize| word(i).value;
    if word(0).times > 1 {
        let digit = value(1).filter(|digit| (0..10).contains(digit))?;
        let number = (0..word(0).times).fold(0, |sum, _| sum * 10 + digit);
        return Some((2, f64::from(number)));
    }
    let first = value(0).filter(|first| *first >= 0 || *first <= -100)?;
    let (mut total, mut at) = (0, usize::from(first >= 0));
    let mut part = if first < 0 { 1 } else { first };
    let mut oh = false;
    // Twelve words spell any number that a crew types.
    while at < 12 {
        let and = word(at).and;
        let next = at + usize::from(and);
        let Some(v) = value(next) else { break };
        let tens = part % 100;
        if v == -1000 && !and && total == 0 {
            (total, part, at) = (part.max(1) * 1000, 0, next + 1);
            continue;
        }
        if v == -100 && !and && part < 20 {
            (part, at) = (part.max(1) * 100, next + 1);
            continue;
        }
        let joins = if v < 0 || (v == 0 && !(part < 10 && !and)) {
            false
        } else if v == 0 {
            // "two oh five"
            let ones = value(next + 1).is_some_and(|ones| (1..10).contains(&ones));
            oh = ones;
            part *= if ones { 10 } else { 1 };
            ones
        } else if oh && v < 10 {
            oh = false;
            part *= 10;
            true
        } else if part == 0 || (part >= 100 && tens == 0 && v < 100 && !(word(at).joins_ones && part % 1000 == 0)) {
            !and || part != 0 || total > 0
        } else if tens >= 20 && tens % 10 == 0 && v < 10 {
            true
        } else if !and && (1..20).contains(&part) && (10..100).contains(&v) && total == 0 && (part < 10 || v >= 20) {
            // "one eighty", "eleven forty"; not "twelve fifteen"
            part *= 100;
            true
        } else {
            false
        };
        if !joins {
            break;
        }
        part += v;
        at = next + 1;
    }
    let sum = f64::from(total + part);
    if word(at).point {
        let digits: String = (at + 1..at + 5)
            .map_while(|i| value(i).filter(|digit| (0..10).contains(digit)))
            .map(|digit| digit.to_string())
            .collect();
        if !digits.is_empty() {
            let value = format!("{sum}.{digits}").parse().ok()?;
            return Some((at + 1 + digits.len(), value));
        }
    }
    let half = word(at).half;
    Some((at + usize::from(half), if half { sum + 0.5 } else { sum }))
}
