//! What somebody wants of the settings, for the outfit or for one rig.

use serde::{Deserialize, Serialize};

use super::hours::{Clock, Days, Weekday};
use super::{Field, Setting, Value};

/// What somebody wants of the settings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Wish {
    /// This value from now on.
    Set(Setting),
    /// What holds, but for this part of it.
    Change(Change),
    /// The default again.
    Default(Field),
    /// To see what holds.
    ShowAll,
}

/// A part of a setting, the rest of which stays.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Change {
    /// No work on these days, from Monday on.
    NotOn([bool; 7]),
    /// The digest's day, from Monday on.
    DigestDay(usize),
    /// The digest's hour and minute.
    DigestTime(u8, u8),
    /// When quiet begins.
    QuietFrom(u8, u8),
    /// When it ends.
    QuietUntil(u8, u8),
}

impl Change {
    /// Which setting.
    pub fn field(self) -> Field {
        match self {
            Self::NotOn(_) => Field::WorkingDays,
            Self::DigestDay(_) | Self::DigestTime(..) => Field::DigestAt,
            Self::QuietFrom(..) | Self::QuietUntil(..) => Field::QuietHours,
        }
    }

    /// The setting with this part changed; none if nothing would be left of it.
    pub fn of(self, held: &Setting) -> Option<Setting> {
        let clock = Clock::new;
        let quiet = || held.get::<Option<(Clock, Clock)>>().flatten();
        let digest = || held.get::<(Weekday, Clock)>();
        let changed: Value = match self {
            Self::NotOn(off) => {
                let days: Days = held.get()?;
                let works = Weekday::ALL.map(|day| days.includes(day) && !off[day.from_monday()]);
                Days::new(works)?.into()
            }
            Self::DigestDay(day) => (*Weekday::ALL.get(day)?, digest()?.1).into(),
            Self::DigestTime(hour, minute) => (digest()?.0, clock(hour, minute)?).into(),
            Self::QuietFrom(hour, minute) => Some((clock(hour, minute)?, quiet()?.1)).into(),
            Self::QuietUntil(hour, minute) => Some((quiet()?.0, clock(hour, minute)?)).into(),
        };
        Some(self.field().to(changed)).filter(Setting::is_plausible)
    }
}

/// A wish, and the rig's name as typed if it is for one rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WishFor {
    /// None: for the outfit.
    pub rig: Option<String>,
    /// What is wanted.
    pub wish: Wish,
    /// It was said with a yes behind it: what is asked about otherwise is done.
    #[serde(default)]
    pub sure: bool,
}

impl WishFor {
    /// A value for the outfit, or for a rig as typed.
    pub fn set(rig: Option<&str>, setting: Setting) -> Self {
        Self {
            rig: rig.map(str::to_owned),
            wish: Wish::Set(setting),
            sure: false,
        }
    }

    /// The value that it sets for the outfit; none if it is anything else.
    pub fn of_outfit(self) -> Option<Setting> {
        match self {
            Self {
                rig: None,
                wish: Wish::Set(setting),
                ..
            } => Some(setting),
            _ => None,
        }
    }
}
