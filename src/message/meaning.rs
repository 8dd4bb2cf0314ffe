//! What a message can mean, and what the reader may know when it reads one.

use serde::{Deserialize, Serialize};

/// What the reader may know besides the text itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Scene {
    pub fleet: Vec<Rig>,
    /// The sender's own rig.
    pub own_rig: Option<i64>,
    /// The sender's last recorded readings of one message (rig filled in), of the last 12 hours; empty if none.
    pub last: Vec<Reading>,
    /// The open question to this sender, not expired.
    pub open: Option<Ask>,
    /// The rig of a flush nudge that the sender was just sent: "done" or a thumbs-up means flushed.
    pub nudged: Option<i64>,
    /// An owner's or lead's "all flushed" counts; a crew member is asked which rig.
    pub may_speak_for_all: bool,
    /// The unit of bare degrees: true Celsius, false Fahrenheit.
    pub celsius: bool,
    /// The outfit's meter factor from uS/cm at 25 C to ppm; 0.5 on the NaCl scale.
    pub us_to_ppm: f64,
}

impl Default for Scene {
    fn default() -> Self {
        Scene {
            fleet: Vec::new(),
            own_rig: None,
            last: Vec::new(),
            open: None,
            nudged: None,
            may_speak_for_all: false,
            celsius: true,
            us_to_ppm: 0.5,
        }
    }
}

/// A rig as the reader knows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Rig {
    pub id: i64,
    pub name: String,
    pub short_names: Vec<String>,
    /// No membrane: tap and product are the reading.
    pub di_only: bool,
    pub manual_flush: bool,
    pub worked_today: bool,
    /// The usual range of the rig's own feed (low, high) in ppm; `None` when there are too few readings.
    pub usual_feed_ppm: Option<(f64, f64)>,
    /// The usual range of the rig's own permeate (low, high) in ppm; `None` when there are too few readings.
    pub usual_permeate_ppm: Option<(f64, f64)>,
}

/// All that one message means. Empty is chatter.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Meaning {
    /// Ready to record: the rig is known and the values were checked.
    pub readings: Vec<Reading>,
    pub services: Vec<Service>,
    pub corrections: Vec<Correction>,
    pub queries: Vec<Query>,
    /// At most one question. Readings beside it are the good ones, to be recorded.
    pub ask: Option<Ask>,
    /// The open question was answered with "no": its drafts are given up and nothing is recorded.
    pub dropped: bool,
    /// The answer to a flush nudge was that this rig was not used today.
    pub not_used: Option<i64>,
}

/// Feed and permeate at one time on one rig, with what else was said of the water.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    pub rig: Option<i64>,
    pub feed: Option<Solids>,
    pub permeate: Option<Solids>,
    /// Behind the DI resin: what reaches the glass.
    pub product: Option<Solids>,
    pub temperature_c: Option<f64>,
    /// Gauge pressure.
    pub pressure_kpa: Option<f64>,
    pub permeate_lpm: Option<f64>,
    pub waste_lpm: Option<f64>,
    pub when: Option<When>,
}

/// Dissolved solids.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Solids {
    pub ppm: f64,
    /// The conductivity in uS/cm as typed, when it was typed so.
    pub raw_us: Option<f64>,
}

/// When a reading was taken or a service done, as far as the message says; in the outfit's zone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum When {
    At {
        days_back: u16,
        hour: u8,
        minute: u8,
    },
    DaysBack(u16),
    Morning,
    Afternoon,
    Evening,
    /// A date as typed. Without a year the last such date is meant.
    On {
        year: Option<i16>,
        month: u8,
        day: u8,
        hour_minute: Option<(u8, u8)>,
    },
}

/// Something done to a rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Service {
    pub rig: i64,
    pub what: What,
    pub minutes: Option<u16>,
    /// The price in the outfit's smallest coin.
    pub price_minor: Option<i64>,
    pub when: Option<When>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum What {
    Resin,
    Repack,
    Membrane,
    Prefilter,
    Flush,
    ORing,
}

/// A change of the sender's last reading on `from_rig`: only what changes is `Some` in `change`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Correction {
    /// Withdraws the reading. `change.when`, if given, says which one.
    pub void: bool,
    pub from_rig: i64,
    /// `change.rig = Some(other)` moves the reading to the other rig.
    pub change: Reading,
}

/// A question that the crew asks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Query {
    pub rig: Option<i64>,
    pub topic: Topic,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Topic {
    Status,
    LastReading,
    Rejection,
    Trend,
    History,
    MembraneWhen,
    ResinWhen,
    FlushStatus,
    Fleet,
    /// Who has not logged.
    Quiet,
    Shopping,
    Help,
}

/// A question back to the sender, kept until it is answered, superseded or expired.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ask {
    pub about: About,
    /// What waits for the answer; the rig is `None` where it is not known.
    pub drafts: Vec<Reading>,
    /// "Changed resin" without a rig.
    pub service: Option<What>,
    /// None to three buttons.
    pub choices: Vec<Choice>,
    /// The unknown or ambiguous name as typed.
    pub typed_name: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum About {
    WhichRig,
    Swapped,
    WhichIsWhich,
    MissingReading,
    UnknownRig,
    Implausible,
}

/// A button. `says` is the text that does the same when it is typed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Choice {
    pub label: Label,
    pub says: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Label {
    Rig(i64),
    /// In ppm.
    Pair {
        feed: f64,
        permeate: f64,
    },
    AsSent,
    Keep,
    Drop,
    /// The number is the product, in ppm.
    Product(f64),
}
