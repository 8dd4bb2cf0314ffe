//! What is worth saying between two digests, each once and within a budget.
//!
//! [`due`] gives all that is due, most important first; the caller leaves out
//! what the outfit has turned off, and stops at [`MOST_A_DAY`] for each person.

use jiff::civil::Date;

use crate::water::assess::Assessment;
use crate::water::resin::BedState;
use crate::water::verdict::{Behind, Deed, Due, Ground, Kind, LAID_UP_FROM_DAYS, Verdict};

use super::rig_findings::{PRESERVE_FROM_DAYS, STANDS_FROM_DAYS};
use super::season;
use crate::water::dates::{days_between, local_date};

/// No person gets more unasked messages a day.
pub const MOST_A_DAY: usize = 3;
/// A new membrane is spoken of after this many digests in a row that asked for it.
const MEMBRANE_FROM_MONDAYS: u32 = 2;
/// From this day on a standing membrane wants a flush (common practice, no source).
const IDLE_FROM_DAYS: i64 = 5;

/// An outfit now. Dates are its local dates.
#[derive(Clone, Debug, PartialEq)]
pub struct Now {
    /// Today.
    pub today: Date,
    /// The next day after today on which the outfit works.
    pub next_workday: Date,
    /// The outfit's offset from UTC, seconds east.
    pub utc_offset_seconds: i64,
    /// Whether the outfit works south of the equator.
    pub southern: bool,
    /// The fleet, in any order.
    pub rigs: Vec<RigNow>,
}

/// One rig now.
#[derive(Clone, Debug, PartialEq)]
pub struct RigNow {
    /// The rig's number in the store.
    pub id: i64,
    /// Its name.
    pub name: String,
    /// False on a DI-only rig.
    pub has_membrane: bool,
    /// What its membrane feeds.
    pub behind: Behind,
    /// What the computation says of it now.
    pub assessment: Assessment,
    /// Local date of the last reading or service, whichever is later.
    pub last_used_on: Option<Date>,
    /// Whether its membrane lies in preservative.
    pub is_preserved: bool,
    /// Whether it is off today: nothing is said of it then.
    pub is_off: bool,
    /// Local date of the last reading.
    pub last_reading_on: Option<Date>,
    /// Local date of the last resin change.
    pub resin_changed_on: Option<Date>,
    /// Local date of the last change of prefilters.
    pub prefilters_changed_on: Option<Date>,
    /// How many digests in a row have asked for its new membrane
    /// ([`super::week::Decision::mondays`] of the last digest; 0 when it did not).
    pub membrane_mondays: u32,
    /// The last water temperature told, degrees Celsius, and its date.
    pub water: Option<(f64, Date)>,
}

impl RigNow {
    /// What its verdict asks for, of a kind.
    fn asked(&self, now: &Now, kind: Kind) -> Option<Deed> {
        let ground = Ground {
            utc_offset_seconds: now.utc_offset_seconds,
            behind: self.behind,
            jump_ppm: None,
        };
        let deeds = Verdict::of(&self.assessment, &ground).deeds;
        deeds.into_iter().find(|deed| deed.kind() == kind)
    }
}

/// What a note is about. The order of the variants is that of importance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Topic {
    /// The resin is done, or will be before the next working day is over.
    Resin,
    /// Frost may come.
    Frost,
    /// A new membrane, after two digests that asked for it.
    Membrane,
    /// The rig has stood for thirty days: preserve the membrane.
    Idle30,
    /// The rig has stood for fourteen days: flush, and think of preserving.
    Idle14,
    /// The rig has stood for five days: flush.
    Idle5,
    /// Prefilters are due.
    Prefilters,
    /// A membrane change that nobody logged.
    AskMembrane,
}

/// Something to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// What it is about.
    pub topic: Topic,
    /// The rig: number and name; none when it is about the whole outfit.
    pub rig: Option<(i64, String)>,
    /// The facts that the words need.
    pub facts: Facts,
}

/// The facts of a note.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Facts {
    /// The resin is done: last product, ppm.
    ResinDone {
        /// Last product reading, ppm.
        product_ppm: f64,
    },
    /// The resin is likely done before the next working day is over.
    ResinLow {
        /// The next working day.
        next_workday: Date,
        /// Last product reading, ppm.
        product_ppm: Option<f64>,
    },
    /// Frost, and the coldest water told lately, degrees Celsius.
    Frost {
        /// None when only the season says so.
        water_c: Option<f64>,
    },
    /// A new membrane.
    Membrane {
        /// When.
        due: Due,
        /// Rejection now, a fraction.
        rejection: f64,
        /// What waiting costs a month, in the outfit's currency.
        waiting_per_month: Option<f64>,
    },
    /// A rig that stands, for so many days.
    Idle {
        /// Days since the last reading or service.
        days: i64,
    },
    /// Prefilters that are or were due.
    Prefilters {
        /// When.
        due: Date,
        /// Whether that is past.
        overdue: bool,
    },
    /// It reads like a new membrane since about this date.
    AskMembrane {
        /// About when.
        since: Date,
    },
}

/// Something that was said before, to the person or chat that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Said {
    /// What it was about.
    pub topic: Topic,
    /// Of which rig; none when of the whole outfit.
    pub rig: Option<i64>,
    /// When.
    pub on: Date,
    /// When it may be said again, if somebody put it off.
    pub again_on: Option<Date>,
}

impl Topic {
    /// All topics.
    pub const ALL: [Self; 8] = [
        Self::Resin,
        Self::Frost,
        Self::Membrane,
        Self::Idle30,
        Self::Idle14,
        Self::Idle5,
        Self::Prefilters,
        Self::AskMembrane,
    ];

    /// A short fixed name for the store.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Resin => "resin",
            Self::Frost => "frost",
            Self::Membrane => "membrane",
            Self::Idle30 => "idle_30",
            Self::Idle14 => "idle_14",
            Self::Idle5 => "idle_5",
            Self::Prefilters => "prefilters",
            Self::AskMembrane => "ask_membrane",
        }
    }

    /// The topic of a [`Topic::code`].
    #[must_use]
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|topic| topic.code() == code)
    }
}

/// All that is due and was not said, most important first, then by rig's name.
#[must_use]
pub fn due(now: &Now, said: &[Said]) -> Vec<Note> {
    let mut notes: Vec<Note> = Vec::new();
    for rig in now.rigs.iter().filter(|rig| !rig.is_off) {
        let candidates = [
            resin(rig, now),
            membrane(rig, now),
            idle(rig, now),
            prefilters(rig, now),
            unlogged(rig, now),
        ];
        // A topic comes with the date on which its matter began: what was said
        // before that was said of another bed, membrane or rest.
        for (topic, began_on, facts) in candidates.into_iter().flatten() {
            if !was_said(said, topic, Some(rig.id), began_on, now.today) {
                let rig = Some((rig.id, rig.name.clone()));
                notes.push(Note { topic, rig, facts });
            }
        }
    }
    notes.extend(frost(now, said));
    let name = |note: &Note| note.rig.clone().map(|(id, name)| (name, id));
    notes.sort_by_key(|note| (note.topic, urgency(note), name(note)));
    notes
}

type Candidate = Option<(Topic, Option<Date>, Facts)>;

fn resin(rig: &RigNow, now: &Now) -> Candidate {
    let bed = rig.assessment.resin?;
    let facts = match bed.state {
        BedState::Exhausted => Facts::ResinDone {
            product_ppm: bed.product_ppm.unwrap_or(bed.spots_ppm),
        },
        // Repacking is told with the reading; no date hangs on it.
        BedState::EarlyBreakthrough => return None,
        BedState::Holding | BedState::GivingWay => {
            let silent = days_between(rig.last_reading_on?, now.today);
            let empty_on = local_date(bed.empty?.likely, now.utc_offset_seconds);
            if silent >= STANDS_FROM_DAYS || empty_on > now.next_workday {
                return None;
            }
            Facts::ResinLow {
                next_workday: now.next_workday,
                product_ppm: bed.product_ppm,
            }
        }
    };
    Some((Topic::Resin, rig.resin_changed_on, facts))
}

fn membrane(rig: &RigNow, now: &Now) -> Candidate {
    if rig.membrane_mondays < MEMBRANE_FROM_MONDAYS {
        return None;
    }
    let Deed::NewMembrane {
        due: due @ (Due::Now | Due::LineCrossed { .. } | Due::GlassDecides { .. }),
        rejection,
        waiting_per_month,
        ..
    } = rig.asked(now, Kind::NewMembrane)?
    else {
        return None;
    };
    let facts = Facts::Membrane {
        due,
        rejection,
        waiting_per_month,
    };
    let began = rig.assessment.membrane_since;
    Some((
        Topic::Membrane,
        began.map(|at| local_date(at, now.utc_offset_seconds)),
        facts,
    ))
}

fn idle(rig: &RigNow, now: &Now) -> Candidate {
    let last = rig.last_used_on.filter(|_| rig.has_membrane && !rig.is_preserved)?;
    let days = days_between(last, now.today);
    let topic = match days {
        ..IDLE_FROM_DAYS | LAID_UP_FROM_DAYS.. => return None,
        IDLE_FROM_DAYS..STANDS_FROM_DAYS => Topic::Idle5,
        STANDS_FROM_DAYS..PRESERVE_FROM_DAYS => Topic::Idle14,
        PRESERVE_FROM_DAYS..LAID_UP_FROM_DAYS => Topic::Idle30,
    };
    Some((topic, Some(last), Facts::Idle { days }))
}

fn prefilters(rig: &RigNow, now: &Now) -> Candidate {
    let Deed::Prefilters { due, overdue } = rig.asked(now, Kind::Prefilters)? else {
        return None;
    };
    Some((
        Topic::Prefilters,
        rig.prefilters_changed_on,
        Facts::Prefilters { due, overdue },
    ))
}

fn unlogged(rig: &RigNow, now: &Now) -> Candidate {
    let Deed::AskMembrane { since } = rig.asked(now, Kind::AskMembrane)? else {
        return None;
    };
    Some((Topic::AskMembrane, Some(since), Facts::AskMembrane { since }))
}

fn frost(now: &Now, said: &[Said]) -> Option<Note> {
    let waters: Vec<_> = now.rigs.iter().filter_map(|rig| rig.water).collect();
    // A fleet that never worked has nothing to freeze yet.
    now.rigs.iter().find(|rig| rig.last_reading_on.is_some())?;
    let last = last_said(said, Topic::Frost, None);
    let said_on = last.filter(|said| !may_come_again(said, now.today)).map(|said| said.on);
    let frost = season::frost(now.today, now.southern, &waters, said_on)?;
    Some(Note {
        topic: Topic::Frost,
        rig: None,
        facts: Facts::Frost {
            water_c: match frost {
                season::Frost::ColdWater(celsius) => Some(celsius),
                season::Frost::Season => None,
            },
        },
    })
}

fn was_said(said: &[Said], topic: Topic, rig: Option<i64>, began_on: Option<Date>, today: Date) -> bool {
    last_said(said, topic, rig).is_some_and(|said| {
        let is_of_this = began_on.is_none_or(|began| said.on >= began);
        is_of_this && !may_come_again(said, today)
    })
}

fn last_said(said: &[Said], topic: Topic, rig: Option<i64>) -> Option<&Said> {
    said.iter()
        .filter(|said| said.topic == topic && said.rig == rig)
        .max_by_key(|said| said.on)
}

fn may_come_again(said: &Said, today: Date) -> bool {
    said.again_on.is_some_and(|on| on <= today)
}

/// Within a topic: what is done or overdue before what will be.
fn urgency(note: &Note) -> u8 {
    match note.facts {
        Facts::ResinDone { .. } | Facts::Prefilters { overdue: true, .. } => 0,
        _ => 1,
    }
}
