//! What a message can mean, and what the reader may know when it reads one.

use serde::{Deserialize, Serialize};

use super::query::Query;
use super::service::ServiceKind as What;
use super::time_off::TimeOff;

/// What the reader may know besides the text itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Scene {
    /// The outfit's rigs; no other is known.
    pub fleet: Vec<Rig>,
    /// The sender's own rig.
    pub own_rig: Option<i64>,
    /// The sender's last recorded readings of one message (rig filled in), of the last 12 hours; empty if none.
    pub last: Vec<Reading>,
    /// The services of the sender's last message, where it told of services only and after the readings of `last`: what
    /// is corrected by rig or time, or withdrawn, are these then.
    #[serde(default)]
    pub last_services: Vec<Service>,
    /// The text stands in a group and replies to nothing: only what says plainly that it corrects does so.
    #[serde(default)]
    pub overheard: bool,
    /// The sender's last message is a few minutes old at most.
    #[serde(default = "yes")]
    pub just_sent: bool,
    /// The open question to this sender, not expired.
    pub open: Option<Ask>,
    /// The rigs of the flush nudge that the sender was just sent: "done" or a thumbs-up means flushed.
    pub nudged: Vec<i64>,
    /// An owner's or lead's "all flushed" counts; a crew member is asked which rig.
    pub may_speak_for_all: bool,
    /// The unit of bare degrees: true Celsius, false Fahrenheit.
    pub celsius: bool,
    /// The outfit is off today.
    #[serde(default)]
    pub all_off: bool,
    /// The outfit writes the month before the day: 3/14.
    #[serde(default)]
    pub month_first: bool,
    /// The outfit's meter factor from uS/cm at 25 C to ppm; 0.5 on the NaCl scale.
    pub us_to_ppm: f64,
    /// The outfit's meters show conductivity: bare readings are uS/cm.
    #[serde(default)]
    pub reads_conductivity: bool,
}

fn yes() -> bool {
    true
}

impl Default for Scene {
    fn default() -> Self {
        Scene {
            fleet: Vec::new(),
            own_rig: None,
            last: Vec::new(),
            last_services: Vec::new(),
            overheard: false,
            just_sent: true,
            open: None,
            nudged: Vec::new(),
            may_speak_for_all: false,
            celsius: true,
            all_off: false,
            month_first: false,
            us_to_ppm: 0.5,
            reads_conductivity: false,
        }
    }
}

/// A rig as the reader knows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Rig {
    /// The rig's number, given back in the meaning.
    pub id: i64,
    /// The name that the owner gave it.
    pub name: String,
    /// Other names that the crew uses.
    pub short_names: Vec<String>,
    /// No membrane: tap and product are the reading.
    pub di_only: bool,
    /// Flushed by hand at the end of the day.
    pub manual_flush: bool,
    /// It is off today: "heron's back" ends that.
    #[serde(default)]
    pub off: bool,
    /// It was read today, so "all flushed" includes it.
    pub worked_today: bool,
    /// The usual range of the rig's own feed (low, high) in ppm; `None` when there are too few readings.
    pub usual_feed_ppm: Option<(f64, f64)>,
    /// The usual range of the rig's own permeate (low, high) in ppm; `None` when there are too few readings.
    pub usual_permeate_ppm: Option<(f64, f64)>,
    /// The tap as it was read last, ppm: on a rig without a membrane one number is the glass, beside this tap.
    #[serde(default)]
    pub last_feed_ppm: Option<f64>,
}

/// All that one message means. Empty is chatter.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Meaning {
    /// Ready to record: the rig is known and the values were checked.
    pub readings: Vec<Reading>,
    /// What was done, not what is intended.
    pub services: Vec<Service>,
    /// A price was said of several rigs or parts together, and is kept for none of them.
    #[serde(default)]
    pub price_left_out: bool,
    /// What changes of the sender's last readings.
    pub corrections: Vec<Correction>,
    /// What changes of the services that the sender told of last.
    #[serde(default)]
    pub amends: Vec<Amend>,
    /// What the sender wants to know.
    pub queries: Vec<Query>,
    /// At most one question. Readings beside it are the good ones, to be recorded.
    pub ask: Option<Ask>,
    /// The open question was answered with "no": its drafts are given up and nothing is recorded.
    pub dropped: bool,
    /// The answer to a flush nudge was that these rigs were not used today.
    pub not_used: Vec<i64>,
    /// The answer to a flush nudge was "later".
    pub postponed: Option<Postponed>,
    /// Somebody may be hurt or something may break: said before everything else.
    #[serde(default)]
    pub danger: Option<Danger>,
    /// What was withdrawn last is wanted back.
    #[serde(default)]
    pub put_back: bool,
    /// Time off, or its end.
    #[serde(default)]
    pub time_off: Vec<TimeOff>,
    /// Parts that are used up and not yet changed.
    #[serde(default)]
    pub spent: Vec<Spent>,
}

/// Nothing but a question back.
impl From<Ask> for Meaning {
    fn from(ask: Ask) -> Self {
        Self {
            ask: Some(ask),
            ..Self::default()
        }
    }
}

/// Nothing but corrections.
impl From<Vec<Correction>> for Meaning {
    fn from(corrections: Vec<Correction>) -> Self {
        Self {
            corrections,
            ..Self::default()
        }
    }
}

/// What a message warns of, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Danger {
    /// A chemical on somebody.
    Chemical,
    /// Electric current where somebody may touch it.
    Electric,
    /// Somebody is hurt.
    Hurt,
    /// Something under pressure burst, or water is where it must not be.
    Burst,
    /// A frozen rig: the membrane is ruined and the housing may split.
    Frozen,
    /// Somebody means to drink the water.
    Drink,
}

/// A part that is used up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spent {
    /// The rig.
    pub rig: i64,
    /// The part.
    pub part: What,
}

/// What became of one number of a message.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Disposition {
    /// The number as typed.
    pub typed: String,
    /// What it was used as, or why it was not.
    pub fate: Fate,
}

/// What a number of a message was used as.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Fate {
    /// Recorded in this slot.
    Slot(String),
    /// Explained by this word, sign or form.
    Explained(String),
    /// Part of the question that is asked.
    Asked,
    /// Neither; the message is not about a rig's water.
    Unread,
}

/// A flush that is put off.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Postponed {
    /// The rigs of the nudge.
    pub rigs: Vec<i64>,
    /// How long, where that was said; at most twelve hours.
    pub minutes: Option<u16>,
}

/// Feed and permeate at one time on one rig, with what else was said of the water.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// The rig, where it is known.
    pub rig: Option<i64>,
    /// The tap.
    pub feed: Option<Solids>,
    /// The RO outlet.
    pub permeate: Option<Solids>,
    /// Behind the DI resin: what reaches the glass.
    pub product: Option<Solids>,
    /// Temperature of the feed water, degrees Celsius.
    pub temperature_c: Option<f64>,
    /// Gauge pressure.
    pub pressure_kpa: Option<f64>,
    /// Permeate flow, litres a minute.
    pub permeate_lpm: Option<f64>,
    /// Flow to waste, litres a minute.
    pub waste_lpm: Option<f64>,
    /// When, as far as the message says.
    pub when: Option<When>,
}

/// Dissolved solids.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Solids {
    /// In ppm, which is mg/L in fresh water.
    pub ppm: f64,
    /// The conductivity in uS/cm as typed, when it was typed so.
    pub raw_us: Option<f64>,
}

/// When a reading was taken or a service done, as far as the message says; in the outfit's zone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum When {
    /// At a time of day, today or some days back.
    At {
        /// Days before today.
        days_back: u16,
        /// 0 to 23.
        hour: u8,
        /// 0 to 59.
        minute: u8,
    },
    /// Some days back, at no particular time.
    DaysBack(u16),
    /// This morning.
    Morning,
    /// This afternoon.
    Afternoon,
    /// This evening.
    Evening,
    /// The latest such day of the week, today included.
    Weekday {
        /// 1 for Monday to 7.
        weekday: u8,
        /// "Last friday" is not today.
        before_today: bool,
        /// The time of day, if it was typed.
        hour_minute: Option<(u8, u8)>,
    },
    /// The latest such day of a month: "on the 3rd".
    DayOfMonth {
        /// 1 to 31.
        day: u8,
        /// The time of day, if it was typed.
        hour_minute: Option<(u8, u8)>,
    },
    /// Some day of a month, of which its middle is taken.
    InMonth {
        /// The year, if it was typed.
        year: Option<i16>,
        /// 1 to 12.
        month: u8,
    },
    /// Some day of the month before this one.
    LastMonth,
    /// So many minutes before the message.
    MinutesBack(u16),
    /// A time that is still to come.
    Ahead,
    /// A date as typed. Without a year the last such date is meant.
    On {
        /// The year, if it was typed.
        year: Option<i16>,
        /// 1 to 12.
        month: u8,
        /// 1 to 31.
        day: u8,
        /// The time of day, if it was typed.
        hour_minute: Option<(u8, u8)>,
    },
}

/// Something done to a rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Service {
    /// The rig.
    pub rig: i64,
    /// What was done.
    pub what: What,
    /// How long it took, where that was said.
    pub minutes: Option<u16>,
    /// What it cost, where that was said.
    pub price: Option<Price>,
    /// When, as far as the message says.
    pub when: Option<When>,
}

/// What something cost, as typed: how many of the smallest coins it is, the outfit's currency says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Price {
    /// In whole units of the currency, with up to two decimals.
    pub amount: f64,
    /// The currency's sign or word as typed, in lower case: "$", "euros".
    pub currency: Option<String>,
}

/// A change of the sender's last reading on `from_rig`: only what changes is `Some` in `change`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Correction {
    /// Withdraws the reading. `change.when`, if given, says which one.
    pub void: bool,
    /// The rig of the reading that is corrected.
    pub from_rig: i64,
    /// `change.rig = Some(other)` moves the reading to the other rig.
    pub change: Reading,
}

/// A change of a service that the sender told of last: only what changes is `Some`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Amend {
    /// The rig that it was told of.
    pub from_rig: i64,
    /// Withdraws it.
    pub void: bool,
    /// The rig that was meant.
    pub rig: Option<i64>,
    /// When it was done.
    pub when: Option<When>,
    /// What it cost.
    pub price: Option<Price>,
    /// How long it took.
    pub minutes: Option<u16>,
}

/// A question back to the sender, kept until it is answered, superseded or expired.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ask {
    /// What is not clear.
    pub about: About,
    /// What waits for the answer; the rig is `None` where it is not known.
    pub drafts: Vec<Reading>,
    /// "Changed resin" without a rig.
    pub service: Option<What>,
    /// What was said of that service.
    #[serde(default)]
    pub told: Told,
    /// None to three buttons.
    pub choices: Vec<Choice>,
    /// The unknown or ambiguous name as typed.
    pub typed_name: Option<String>,
}

/// What was said of a service besides its rig.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Told {
    /// How long it took.
    pub minutes: Option<u16>,
    /// What it cost.
    pub price: Option<Price>,
    /// When it was done.
    pub when: Option<When>,
}

/// What a question back is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum About {
    /// Several rigs fit, or none was named.
    WhichRig,
    /// The permeate is above the feed.
    Swapped,
    /// The numbers fit no usual order.
    WhichIsWhich,
    /// One of the two readings is missing.
    MissingReading,
    /// No rig has this name.
    UnknownRig,
    /// Far from what this rig has shown so far.
    Implausible,
    /// "Resin finished": is it used up, or already changed?
    UsedUp,
    /// "Half the resin", "topped up": does it count as a change?
    Portion,
    /// "Swapped membranes heron and otter": new ones, or from one rig to the other?
    Moved,
    /// The same was told of this rig a few hours ago: once more, or the same change?
    Again,
    /// "That was wrong": shall the last reading be withdrawn?
    Undo,
}

/// A button. `says` is the text that does the same when it is typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Choice {
    /// What the button shows.
    pub label: Label,
    /// The text that does the same.
    pub says: String,
}

/// What a button shows; the words are made elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Label {
    /// A rig.
    Rig(i64),
    /// In ppm.
    Pair {
        /// The tap.
        feed: f64,
        /// The RO outlet.
        permeate: f64,
    },
    /// Keep the order as it was sent.
    AsSent,
    /// Keep the unusual reading.
    Keep,
    /// Record nothing.
    Drop,
    /// The number is the product, in ppm.
    Product(f64),
    /// The part is used up and not yet changed.
    UsedUp,
    /// The part was changed.
    Changed,
    /// It was changed once more.
    Another,
    /// It is the change that was told before.
    Same,
    /// Withdraw the last reading.
    Undo,
    /// Leave the last reading as it is.
    Leave,
}
