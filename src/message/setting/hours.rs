//! Times of day and days of the week, as they are kept.

/// A local time of day, to the minute.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Clock {
    hour: u8,
    minute: u8,
}

impl Clock {
    /// The first minute of a day.
    pub const MIDNIGHT: Self = Self { hour: 0, minute: 0 };

    /// A time of day; none if no clock shows it.
    pub const fn new(hour: u8, minute: u8) -> Option<Self> {
        if hour < 24 && minute < 60 {
            Some(Self { hour, minute })
        } else {
            None
        }
    }

    /// 0 to 23.
    pub const fn hour(self) -> u8 {
        self.hour
    }

    /// 0 to 59.
    pub const fn minute(self) -> u8 {
        self.minute
    }

    /// As it is kept and shown: `16:30`.
    pub fn text(self) -> String {
        format!("{:02}:{:02}", self.hour, self.minute)
    }

    /// Reads `16:30`, `16.30` and `16`; with `afternoon` told, as 12-hour time.
    pub fn typed(text: &str, afternoon: Option<bool>) -> Option<Self> {
        let (hour, minute) = text.split_once([':', '.', ',']).unwrap_or((text, "0"));
        if hour.is_empty() || minute.is_empty() || minute.len() > 2 {
            return None;
        }
        let (hour, minute): (u8, u8) = (hour.parse().ok()?, minute.parse().ok()?);
        match afternoon {
            None => Self::new(hour, minute),
            Some(_) if !(1..=12).contains(&hour) => None,
            Some(later) => Self::new(hour % 12 + if later { 12 } else { 0 }, minute),
        }
    }
}

/// A day of the week.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Weekday {
    Monday,
    Tuesday,
    Wednesday,
    Thursday,
    Friday,
    Saturday,
    Sunday,
}

use Weekday::{Friday, Monday, Saturday, Sunday, Thursday, Tuesday, Wednesday};

impl Weekday {
    /// From Monday on.
    pub const ALL: [Self; 7] = [Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday];

    /// 0 for Monday to 6 for Sunday.
    pub const fn from_monday(self) -> usize {
        self as usize
    }

    /// As it is kept.
    pub const fn text(self) -> &'static str {
        match self {
            Monday => "mon",
            Tuesday => "tue",
            Wednesday => "wed",
            Thursday => "thu",
            Friday => "fri",
            Saturday => "sat",
            Sunday => "sun",
        }
    }

    /// Reads what [`Weekday::text`] wrote.
    pub fn kept(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|day| day.text() == text)
    }

    /// Reads a day's name or its usual short form, in English or Spanish, plain and small.
    pub fn typed(text: &str) -> Option<Self> {
        let text = match text.len() {
            4.. => text.strip_suffix('s').unwrap_or(text),
            _ => text,
        };
        Some(match text {
            "mon" | "monday" | "lun" | "lune" | "lunes" => Monday,
            "tue" | "tues" | "tuesday" | "mar" | "marte" | "martes" => Tuesday,
            "wed" | "wednesday" | "mie" | "miercole" | "miercoles" => Wednesday,
            "thu" | "thur" | "thurs" | "thursday" | "jue" | "jueve" | "jueves" => Thursday,
            "fri" | "friday" | "vie" | "vierne" | "viernes" => Friday,
            "sat" | "saturday" | "sab" | "sabado" => Saturday,
            "sun" | "sunday" | "dom" | "domingo" => Sunday,
            _ => return None,
        })
    }
}

/// Some days of the week, at least one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Days([bool; 7]);

impl Days {
    /// Monday to Friday.
    pub const MONDAY_TO_FRIDAY: Self = Self([true, true, true, true, true, false, false]);

    /// These days, from Monday on; none if there is none.
    pub fn new(days: [bool; 7]) -> Option<Self> {
        days.contains(&true).then_some(Self(days))
    }

    /// Whether a day is one of them.
    pub fn includes(self, day: Weekday) -> bool {
        self.0[day.from_monday()]
    }

    /// Which they are, from Monday on.
    pub fn days(self) -> impl Iterator<Item = Weekday> {
        Weekday::ALL.into_iter().filter(move |day| self.includes(*day))
    }

    /// How many.
    pub fn count(self) -> usize {
        self.days().count()
    }

    /// As they are kept: `mon,tue,sat`.
    pub fn text(self) -> String {
        self.days().map(Weekday::text).collect::<Vec<_>>().join(",")
    }

    /// Reads what [`Days::text`] wrote.
    pub fn kept(text: &str) -> Option<Self> {
        let mut days = [false; 7];
        for day in text.split(',') {
            days[Weekday::kept(day)?.from_monday()] = true;
        }
        Self::new(days)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_in_both_clocks() {
        let at = |hour, minute| Clock::new(hour, minute);
        assert_eq!(Clock::typed("16:30", None), at(16, 30));
        assert_eq!(Clock::typed("7", None), at(7, 0));
        assert_eq!(Clock::typed("4.30", Some(true)), at(16, 30));
        assert_eq!(Clock::typed("12", Some(false)), at(0, 0));
        assert_eq!(Clock::typed("12", Some(true)), at(12, 0));
        for bad in ["24:00", "16:60", "", ":", "16:300", "x"] {
            assert_eq!(Clock::typed(bad, None), None, "{bad}");
        }
    }
}
