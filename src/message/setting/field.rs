//! Which setting: its lasting name, whom it may hold for, who may set it.

use serde::{Deserialize, Serialize};

use super::Setting;
use super::hours::Weekday;

/// A setting without its value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
#[allow(missing_docs)]
pub enum Field {
    Currency,
    Country,
    ResinPrice,
    MembranePrice,
    PrefilterPrice,
    MembraneLabour,
    ResinLabour,
    ResinLitres,
    LitresPerDay,
    BusyMonths,
    WearingLine,
    DueLine,
    SpentLine,
    WorkingDays,
    DayEnds,
    DayEndsOn(Weekday),
    DigestAt,
    Digest,
    Nudges,
    Notices,
    QuietHours,
    Meter,
    Degrees,
    PressureUnit,
    VolumeUnit,
    PrefilterDays,
    Membranes,
    ResinBed,
    Stands,
    Rated,
    ShortNames,
    Keep,
}

/// Whom a setting may hold for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// The outfit as a whole.
    Outfit,
    /// The outfit, or one rig otherwise.
    Either,
    /// One rig, and only that.
    Rig,
}

/// Who may set it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SetBy {
    /// Money, hours, limits: an owner.
    Owner,
    /// What a rig is: an owner or lead.
    Leads,
}

use Reach::{Either, Outfit, Rig};
use SetBy::{Leads, Owner};

/// Field, lasting name, reach, who may; in the order in which they are listed.
const TABLE: [(Field, &str, Reach, SetBy); 38] = [
    (Field::ResinPrice, "resin-price", Either, Owner),
    (Field::MembranePrice, "membrane-price", Either, Owner),
    (Field::PrefilterPrice, "prefilter-price", Either, Owner),
    (Field::MembraneLabour, "membrane-labour", Either, Owner),
    (Field::ResinLabour, "resin-labour", Either, Owner),
    (Field::Currency, "currency", Outfit, Owner),
    (Field::LitresPerDay, "litres-per-day", Either, Leads),
    (Field::ResinLitres, "resin-litres", Either, Leads),
    (Field::BusyMonths, "busy-months", Outfit, Owner),
    (Field::WorkingDays, "working-days", Outfit, Owner),
    (Field::DayEnds, "day-ends", Either, Owner),
    (Field::DayEndsOn(Weekday::Monday), "day-ends-mon", Either, Owner),
    (Field::DayEndsOn(Weekday::Tuesday), "day-ends-tue", Either, Owner),
    (Field::DayEndsOn(Weekday::Wednesday), "day-ends-wed", Either, Owner),
    (Field::DayEndsOn(Weekday::Thursday), "day-ends-thu", Either, Owner),
    (Field::DayEndsOn(Weekday::Friday), "day-ends-fri", Either, Owner),
    (Field::DayEndsOn(Weekday::Saturday), "day-ends-sat", Either, Owner),
    (Field::DayEndsOn(Weekday::Sunday), "day-ends-sun", Either, Owner),
    (Field::DigestAt, "digest-at", Outfit, Owner),
    (Field::Digest, "digest", Outfit, Owner),
    (Field::Nudges, "nudges", Either, Owner),
    (Field::Notices, "notices", Outfit, Owner),
    (Field::QuietHours, "quiet-hours", Outfit, Owner),
    (Field::WearingLine, "wearing-line", Outfit, Owner),
    (Field::DueLine, "due-line", Outfit, Owner),
    (Field::SpentLine, "spent-line", Outfit, Owner),
    (Field::Country, "country", Outfit, Owner),
    (Field::Meter, "meter", Outfit, Owner),
    (Field::Degrees, "degrees", Outfit, Owner),
    (Field::PressureUnit, "pressure-unit", Outfit, Owner),
    (Field::VolumeUnit, "volume-unit", Outfit, Owner),
    (Field::PrefilterDays, "prefilter-days", Either, Leads),
    (Field::Membranes, "membranes", Rig, Leads),
    (Field::ResinBed, "resin-bed", Rig, Leads),
    (Field::Stands, "stands", Rig, Leads),
    (Field::Rated, "rated", Either, Leads),
    (Field::ShortNames, "short-names", Rig, Leads),
    (Field::Keep, "keep-years", Outfit, Owner),
];

impl From<Field> for String {
    fn from(field: Field) -> Self {
        field.name().to_owned()
    }
}

impl TryFrom<String> for Field {
    type Error = String;

    fn try_from(name: String) -> Result<Self, String> {
        Self::named(&name).ok_or(name)
    }
}

impl Field {
    /// All of them, in the order in which they are listed.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(|row| row.0)
    }

    fn row(self) -> &'static (Self, &'static str, Reach, SetBy) {
        TABLE.iter().find(|row| row.0 == self).unwrap_or(&TABLE[0])
    }

    /// Its lasting name in the store; never changed.
    pub fn name(self) -> &'static str {
        self.row().1
    }

    /// The field of a lasting name.
    pub fn named(name: &str) -> Option<Self> {
        TABLE.iter().find(|row| row.1 == name).map(|row| row.0)
    }

    /// Whom it may hold for.
    pub fn reach(self) -> Reach {
        self.row().2
    }

    /// Who may set it.
    pub fn set_by(self) -> SetBy {
        self.row().3
    }
}

impl Setting {
    /// Which setting this is.
    pub fn field(&self) -> Field {
        match self {
            Self::Currency(_) => Field::Currency,
            Self::Country(_) => Field::Country,
            Self::ResinPrice(_) => Field::ResinPrice,
            Self::MembranePrice(_) => Field::MembranePrice,
            Self::PrefilterPrice(_) => Field::PrefilterPrice,
            Self::MembraneLabour(_) => Field::MembraneLabour,
            Self::ResinLabour(_) => Field::ResinLabour,
            Self::ResinLitres(_) => Field::ResinLitres,
            Self::LitresPerDay(_) => Field::LitresPerDay,
            Self::BusyMonths(_) => Field::BusyMonths,
            Self::WearingLine(_) => Field::WearingLine,
            Self::DueLine(_) => Field::DueLine,
            Self::SpentLine(_) => Field::SpentLine,
            Self::WorkingDays(_) => Field::WorkingDays,
            Self::DayEnds(_) => Field::DayEnds,
            Self::DayEndsOn(day, _) => Field::DayEndsOn(*day),
            Self::DigestAt(..) => Field::DigestAt,
            Self::Digest(_) => Field::Digest,
            Self::Nudges(_) => Field::Nudges,
            Self::Notices(_) => Field::Notices,
            Self::QuietHours(_) => Field::QuietHours,
            Self::Meter(_) => Field::Meter,
            Self::Degrees(_) => Field::Degrees,
            Self::PressureUnit(_) => Field::PressureUnit,
            Self::VolumeUnit(_) => Field::VolumeUnit,
            Self::PrefilterDays(_) => Field::PrefilterDays,
            Self::Membranes(_) => Field::Membranes,
            Self::ResinBed(_) => Field::ResinBed,
            Self::Stands(_) => Field::Stands,
            Self::Rated(_) => Field::Rated,
            Self::ShortNames(_) => Field::ShortNames,
            Self::Keep(_) => Field::Keep,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_lead_back_to_their_fields() {
        for field in Field::all() {
            assert_eq!(Field::named(field.name()), Some(field));
        }
        assert_eq!(Field::named("colour"), None);
    }
}
