//! Time off as people tell it: of the outfit or of a rig, from when, until when, and why.

use serde::{Deserialize, Serialize};

/// Why somebody or something is off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Why {
    /// Nobody said.
    #[default]
    Off,
    /// It stands somewhere.
    Parked,
    /// At the garage, for repair or a test.
    Garage,
    /// It broke down.
    Broken,
    /// Laid up for the cold months.
    Winter,
    /// Its membrane lies in preservative.
    Preserved,
    /// Somebody else has it.
    Lent,
}

impl Why {
    /// All of them with their lasting names, by which the tables of words call them, too.
    pub const ALL: [(Self, &'static str); 7] = [
        (Self::Off, "off"),
        (Self::Parked, "parked"),
        (Self::Garage, "garage"),
        (Self::Broken, "broken"),
        (Self::Winter, "winter"),
        (Self::Preserved, "preserved"),
        (Self::Lent, "lent"),
    ];

    /// Its lasting name.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::ALL
            .iter()
            .find(|(why, _)| *why == self)
            .map_or("off", |(_, name)| name)
    }

    /// The one of a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.iter().find(|(_, known)| *known == name).map(|(why, _)| *why)
    }

    /// Whether it says that a rig is away even without any day: one that is only off or parked may be out tomorrow.
    #[must_use]
    pub fn lasts(self) -> bool {
        !matches!(self, Self::Off | Self::Parked)
    }
}

/// Who is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Whose {
    /// A rig.
    Rig(i64),
    /// Everybody: "we're closed".
    Outfit,
    /// Nobody said: "off till Monday".
    Unsaid,
    /// The sender alone: "I'm off till Monday".
    Sender,
}

/// A day, or a week or month, that is still to come, as it was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ahead {
    /// So many days after today.
    Days(u16),
    /// The week so many weeks after this one.
    Week(u8),
    /// The month so many months after this one.
    Month(u8),
    /// The next such day of the week, 1 for Monday to 7.
    Weekday(u8),
    /// The next such day of a month.
    DayOfMonth(u8),
    /// The next such month, 1 to 12, of a year where that was said.
    InMonth(Option<i16>, u8),
    /// A date: the year where it was said, month, day.
    On(Option<i16>, u8, u8),
}

/// When it ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Until {
    /// Nobody said.
    Open,
    /// Work goes on at its beginning: "until Monday".
    Back(Ahead),
    /// It is the last day off, or the last stretch: "to 2 January".
    Last(Ahead),
    /// So many days from its beginning on.
    Lasts(u16),
}

/// What was said of time off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Said {
    /// Off from then on; none: from today.
    Off {
        /// The first day, or the stretch that is off.
        from: Option<Ahead>,
        /// Its end.
        until: Until,
        /// The reason.
        why: Why,
    },
    /// Back at work.
    Back,
}

/// What a message tells of time off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TimeOff {
    /// Who.
    pub whose: Whose,
    /// What.
    pub said: Said,
}
