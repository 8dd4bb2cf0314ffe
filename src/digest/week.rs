//! The facts of an outfit's week, as the decisions take them in.

use jiff::civil::Date;

use crate::domain::Role;

use crate::water::assess::Assessment;
use crate::water::days_off::DaysOff;
use crate::water::history::ServiceKind;
use crate::water::verdict::{Behind, Ground, Kind, Verdict};

/// What is missing to count a rig's resin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lack {
    /// How much resin is in it.
    BedSize,
    /// Litres on a working day.
    Litres,
    /// When its resin was last changed.
    Change,
    /// A reading: what water comes to it.
    Reading,
}

/// An outfit's week. Dates are the outfit's local dates.
#[derive(Clone, Debug, PartialEq)]
pub struct Week {
    /// The outfit's name.
    pub outfit: String,
    /// First day of the week that is told of, a Monday as a rule.
    pub from: Date,
    /// Its last day.
    pub to: Date,
    /// The day of the digest, the one after `to` as a rule.
    pub today: Date,
    /// The outfit's offset from UTC on that day, seconds east. Dates months
    /// ahead are an hour off where the clocks change in between: no matter for
    /// a range.
    pub utc_offset_seconds: i64,
    /// Whether the outfit works south of the equator.
    pub southern: bool,
    /// The fleet, in any order.
    pub rigs: Vec<RigWeek>,
    /// The people, in any order.
    pub people: Vec<PersonWeek>,
    /// What the last digest asked for: its [`super::Digest::decisions`].
    pub decisions: Vec<Decision>,
    /// When frost was last spoken of, in a digest or a note.
    pub frost_said_on: Option<Date>,
    /// Whether the outfit was off on a day of the week, or is on the day of the digest.
    pub was_closed: bool,
}

/// Time off of a rig, its own and its outfit's.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Off {
    /// The span of its own in which it is away on the day of the digest.
    pub away: Option<DaysOff>,
    /// It was off on a day of the week, or is on the day of the digest.
    pub lately: bool,
    /// Share of the two weeks ahead on which it is off.
    pub ahead: f64,
}

/// One rig's week.
#[derive(Clone, Debug, PartialEq)]
pub struct RigWeek {
    /// The rig's number in the store.
    pub id: i64,
    /// Its name.
    pub name: String,
    /// False on a DI-only rig.
    pub has_membrane: bool,
    /// Whether a valve is turned by hand at the end of the day.
    pub manual_flush: bool,
    /// What the computation says of it, at the time of the digest.
    pub assessment: Assessment,
    /// Litres on a working day, as told or learned.
    pub litres_per_workday: Option<f64>,
    /// Litres of resin in its bed.
    pub resin_litres: Option<f64>,
    /// Working days that a full bed lasts at present:
    /// [`super::resin_need::bed_workdays`].
    pub bed_workdays: Option<f64>,
    /// Working days a week.
    pub workdays_per_week: f64,
    /// What its membrane feeds; resin, where that is all that it has.
    pub behind: Behind,
    /// What is missing to count its resin.
    pub resin_lacks: Vec<Lack>,
    /// What a litre of resin costs, in the outfit's currency.
    pub resin_price: Option<f64>,
    /// How many membranes it has.
    pub membranes: f64,
    /// What they cost together, in the outfit's currency.
    pub membrane_price: Option<f64>,
    /// Until when somebody put a new membrane off.
    pub membrane_put_off_until: Option<Date>,
    /// What a set of prefilters costs, in the outfit's currency.
    pub prefilter_price: Option<f64>,
    /// Readings of this week that count, set-aside ones included.
    pub readings: u32,
    /// Readings in the four weeks before.
    pub readings_before: u32,
    /// Local date of the last reading ever.
    pub last_reading_on: Option<Date>,
    /// Days of this week on which the rig worked.
    pub days_worked: u32,
    /// Those of them at whose end it was flushed.
    pub days_flushed: u32,
    /// The jump that stands or that ended this week, with what was read.
    pub jump: Option<Jump>,
    /// What was done to it this week.
    pub services: Vec<Done>,
    /// Whether its membrane lies in preservative.
    pub is_preserved: bool,
    /// When it does not work.
    pub off: Off,
    /// Readings of this week that were set aside.
    pub set_aside: u32,
    /// The last water temperature told, degrees Celsius, and its date.
    pub water: Option<(f64, Date)>,
}

impl RigWeek {
    /// The verdict on it, at an offset from UTC in seconds.
    #[must_use]
    pub fn verdict(&self, utc_offset_seconds: i64) -> Verdict {
        let standing = self.jump.filter(|jump| jump.closed_on.is_none());
        let ground = Ground {
            utc_offset_seconds,
            behind: self.behind,
            jump_ppm: standing.map(|jump| (jump.before_ppm, jump.after_ppm)),
        };
        Verdict::of(&self.assessment, &ground)
    }
}

/// A jump of the permeate, for the words beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jump {
    /// Local date of the first reading after it.
    pub opened_on: Date,
    /// Local date on which it was mended or went away; none while it stands.
    pub closed_on: Option<Date>,
    /// The last permeate before it, ppm.
    pub before_ppm: f64,
    /// The last permeate while it stood, ppm.
    pub after_ppm: f64,
}

/// Something done to a rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Done {
    /// What.
    pub what: ServiceKind,
    /// The local date.
    pub on: Date,
}

/// One person's week.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PersonWeek {
    /// The person's number in the store.
    pub id: i64,
    /// First name.
    pub name: String,
    /// What the person may do.
    pub role: Role,
    /// Readings sent this week.
    pub readings: u32,
    /// Readings sent in the four weeks before.
    pub readings_before: u32,
}

/// Something that a digest asked for, to be kept until the next one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Decision {
    /// What was asked for.
    pub kind: Kind,
    /// Of which rig; none when of a person or of the whole outfit.
    pub rig: Option<i64>,
    /// Of which person.
    pub person: Option<i64>,
    /// The date of the first digest in a row that asked for it.
    pub since: Date,
    /// How many digests in a row have asked for it, 1 after the first.
    pub mondays: u32,
}
