//! The number in an answer to a question that asks for one.

use super::super::setting::{Country, Ways};
use super::{Part, Step};

/// What the number is that a question asks for.
#[derive(Clone, Copy, PartialEq)]
pub enum Count {
    Price,
    LitresADay,
    ResinLitres,
    Days,
    Nothing,
}

impl Count {
    /// What a question to the owner asks for.
    pub fn of(step: Step) -> Self {
        match step {
            Step::MembranePrice | Step::ResinPrice => Self::Price,
            Step::LitresPerDay => Self::LitresADay,
            _ => Self::Nothing,
        }
    }

    /// What a question about a rig asks for.
    pub fn of_part(part: Part) -> Self {
        match part {
            Part::Resin => Self::ResinLitres,
            Part::Prefilters => Self::Days,
            _ => Self::Nothing,
        }
    }

    /// An answer to a question about a number, as its command takes it: "about 9" is 9, "a
    /// membrane is 1 200 zl" is 1200 zl, and a number alone is in the unit of the buttons
    /// beside it.
    pub fn bare(self, text: &str, country: Option<Country>) -> String {
        if self == Self::Nothing {
            return text.to_owned();
        }
        let from = text.find(|letter: char| letter.is_ascii_digit() || "$£€".contains(letter));
        let number = text.get(from.unwrap_or(0)..).unwrap_or(text);
        let number = number.split(" + ").next().unwrap_or(number);
        let number = thousands_joined(number);
        if !number
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'.' || byte == b',')
        {
            return number;
        }
        let gallons = country.is_some_and(|country| country.ways() == Ways::American);
        match self {
            Self::LitresADay if gallons => format!("{number} gallons"),
            Self::ResinLitres if gallons => match number.as_str() {
                "1" => "1 cubic foot".to_owned(),
                _ => format!("{number} cubic feet"),
            },
            Self::Days => format!("{number} days"),
            _ => number,
        }
    }
}

/// "1 200" is 1200: a space before three figures parts thousands.
fn thousands_joined(text: &str) -> String {
    let mut parts = text.split(' ');
    let mut joined = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let is_group = |digits: &str| digits.len() == 3 && digits.bytes().all(|byte| byte.is_ascii_digit());
        if !(joined.ends_with(|letter: char| letter.is_ascii_digit()) && is_group(part)) {
            joined.push(' ');
        }
        joined.push_str(part);
    }
    joined
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_taken_out_of_what_is_said_around_it() {
        let bare = |count: Count, text: &str, code| count.bare(text, Country::of_code(code));
        for (text, number) in [
            ("a membrane is 180", "180"),
            ("membranes are 180", "180"),
            ("about 9", "9"),
            ("1 200", "1200"),
            ("1 200 zl", "1200 zl"),
            ("unos 200", "200"),
            ("$420 + GST", "$420"),
            ("no idea", "no idea"),
            ("25 litres cost 180", "25 litres cost 180"),
        ] {
            assert_eq!(bare(Count::Price, text, "GB"), number, "{text}");
        }
        for (count, text, code, read) in [
            (Count::LitresADay, "150", "US", "150 gallons"),
            (Count::LitresADay, "about 600", "GB", "600"),
            (Count::ResinLitres, "1", "US", "1 cubic foot"),
            (Count::ResinLitres, "0.5", "US", "0.5 cubic feet"),
            (Count::ResinLitres, "about 25 litres", "US", "25 litres"),
            (Count::Days, "180", "GB", "180 days"),
        ] {
            assert_eq!(bare(count, text, code), read, "{text}");
        }
    }
}
