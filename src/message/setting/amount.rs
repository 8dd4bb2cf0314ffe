//! Money as somebody typed it, without its currency.

/// An amount of money in thousandths of the currency's main unit: exact for
/// every currency of ISO 4217 that anyone buys resin in, and the same number
/// whichever currency the outfit names later.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Amount(i64);

/// More than this is a slip.
const MOST: i64 = 10_000_000_000;

impl Amount {
    /// An amount of so many thousandths; none below zero or beyond ten millions.
    pub fn of_thousandths(thousandths: i64) -> Option<Self> {
        (0..=MOST).contains(&thousandths).then_some(Self(thousandths))
    }

    /// An amount in main units, rounded to a thousandth.
    pub fn of_main(units: f64) -> Option<Self> {
        let thousandths = (units * 1000.0).round();
        if !(0.0..=MOST as f64).contains(&thousandths) {
            return None;
        }
        Self::of_thousandths(thousandths as i64)
    }

    /// The amount in main units, as the computation takes it.
    pub fn main(self) -> f64 {
        self.0 as f64 / 1000.0
    }

    /// The amount in the smallest unit of a currency with so many digits, rounded half up.
    pub fn minor(self, digits: u8) -> i64 {
        let per_minor = 10_i64.pow(u32::from(3_u8.saturating_sub(digits)));
        (self.0 + per_minor / 2) / per_minor
    }

    /// The amount of so many smallest units of a currency with so many digits.
    pub fn of_minor(minor: i64, digits: u8) -> Option<Self> {
        let per_minor = 10_i64.pow(u32::from(3_u8.saturating_sub(digits)));
        Self::of_thousandths(minor.checked_mul(per_minor)?)
    }

    /// As it is kept: `9`, `9.5`, `0.125`.
    pub fn text(self) -> String {
        let (whole, rest) = (self.0 / 1000, self.0 % 1000);
        if rest == 0 {
            return whole.to_string();
        }
        format!("{whole}.{rest:03}").trim_end_matches('0').to_owned()
    }

    /// Reads what [`Amount::text`] wrote.
    pub fn kept(text: &str) -> Option<Self> {
        let (whole, rest) = text.split_once('.').unwrap_or((text, "0"));
        let digits = |part: &str| (1..=10).contains(&part.len()) && part.bytes().all(|byte| byte.is_ascii_digit());
        if !digits(whole) || !digits(rest) || rest.len() > 3 {
            return None;
        }
        let whole: i64 = whole.parse().ok()?;
        let thousandths: i64 = format!("{rest:0<3}").parse().ok()?;
        Self::of_thousandths(whole * 1000 + thousandths)
    }
}

/// A number as people type it: `9`, `9.50`, `9,5`, `1,200`, `1.200`. Three digits
/// behind a mark are thousands, unless a zero stands before it.
pub fn typed_number(text: &str) -> Option<f64> {
    let marks: Vec<usize> = text.match_indices(['.', ',']).map(|(at, _)| at).collect();
    let Some(&last) = marks.last() else {
        return text.parse().ok();
    };
    let (whole, rest) = (&text[..last], &text[last + 1..]);
    let same = marks.iter().all(|&at| text.as_bytes()[at] == text.as_bytes()[last]);
    let plain: String = whole.chars().filter(char::is_ascii_digit).collect();
    let thousands = same && rest.len() == 3 && plain.trim_start_matches('0') == plain && !plain.is_empty();
    if thousands {
        return format!("{plain}{rest}").parse().ok();
    }
    if same && marks.len() > 1 {
        return None;
    }
    format!("{plain}.{rest}").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_people_type_them() {
        for (typed, number) in [
            ("9", 9.0),
            ("9.50", 9.5),
            ("9,5", 9.5),
            ("1,200", 1200.0),
            ("1.200", 1200.0),
            ("1,200.50", 1200.5),
            ("1.200,50", 1200.5),
            ("0.125", 0.125),
            ("0,125", 0.125),
            ("12.75", 12.75),
        ] {
            assert_eq!(typed_number(typed), Some(number), "{typed}");
        }
        assert_eq!(typed_number("1.2.3"), None);
    }

    /// Digits of the smallest unit: ISO 4217.
    #[test]
    fn the_smallest_unit_follows_the_currency() {
        let nine_and_a_half = Amount::of_main(9.5);
        assert_eq!(nine_and_a_half.map(|amount| amount.minor(2)), Some(950));
        assert_eq!(nine_and_a_half.map(|amount| amount.minor(3)), Some(9500));
        assert_eq!(nine_and_a_half.map(|amount| amount.minor(0)), Some(10));
        assert_eq!(Amount::of_minor(950, 2), nine_and_a_half);
        assert_eq!(Amount::of_minor(i64::MAX, 2), None);
        assert_eq!(Amount::of_main(f64::NAN), None);
        assert_eq!(Amount::of_main(-1.0), None);
    }
}
