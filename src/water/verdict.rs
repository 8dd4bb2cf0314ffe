//! The one verdict of a rig at an instant: its state, its level and what that rests on, and what is to be done, most
//! urgent first. Whatever is shown of a rig takes it; nothing else decides.

use std::cmp::Ordering;

use super::assess::{Assessment, Basis, Question};
use super::condition::Condition;
use super::forecast::{Interval, Range};
use super::jump::{Cause, NextTest};
use super::prefilter;
use super::renewal_verdict;
use super::resin::{BedState, SPOTS_FROM_PPM};

const DAY: i64 = 86_400;
/// Resin is asked for when it is likely empty before the same day of the next week.
const RESIN_AHEAD_DAYS: i64 = 7;
/// A new membrane is planned this long before its cheapest date, to order it.
const PLAN_AHEAD_DAYS: i64 = 45;
/// Not read for so long, a rig is laid up, and its owner knows.
pub const LAID_UP_FROM_DAYS: i64 = 60;

/// What a membrane feeds, which says what decides about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Behind {
    /// Resin, which a new membrane saves: the money decides.
    Resin,
    /// The glass, which gets the RO water as it is: no price decides.
    Glass {
        /// Whether it spots, and a new membrane is what keeps it from that.
        wants_new: bool,
    },
}

/// What the verdict takes in beside the assessment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ground {
    /// The outfit's offset from UTC, seconds east: a deed is due on local days.
    pub utc_offset_seconds: i64,
    /// What the membrane feeds.
    pub behind: Behind,
    /// The last permeate before a jump that stands and the last one since, ppm.
    pub jump_ppm: Option<(f64, f64)>,
}

/// A rejection and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// The rejection with its 80 % interval, fractions; of the membrane alone while it leaks.
    pub rejection: Interval,
    /// What it rests on.
    pub basis: Basis,
    /// From so many readings.
    pub readings: u32,
}

/// What is left of the bed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Resin {
    /// Not known, or there is none.
    Unknown,
    /// Nothing: the glass spots.
    Nothing,
    /// Water slips past it, so the glass does not tell what is left.
    Loose,
    /// Working days: low, likely, high.
    Days([f64; 3]),
}

/// The verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The membrane's state; none on a DI-only rig.
    pub state: Option<Condition>,
    /// Its level; none until it can be told.
    pub level: Option<Level>,
    /// Rejection of the whole rig while it leaks, a fraction.
    pub with_leak: Option<f64>,
    /// The resin.
    pub resin: Resin,
    /// What is to be done, most urgent first.
    pub deeds: Vec<Deed>,
}

/// What is asked for. The order of the variants is the one order of urgency: of deeds, of rigs, of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// The glass will spot: change the resin before the next window.
    ChangeResin,
    /// The bed lets water slip although it has taken little: repack it tight.
    RepackResin,
    /// The permeate jumped: find the leak.
    FindLeak,
    /// A new membrane pays, or its line is crossed and nobody can say.
    NewMembrane,
    /// The resin runs out within a week.
    ResinSoon,
    /// Prefilters are overdue or due within two weeks.
    Prefilters,
    /// It reads as if the membrane was changed without a word.
    AskMembrane,
    /// It wears, and the cheapest date for a new membrane comes near.
    PlanMembrane,
    /// Flushes were missed.
    Flush,
    /// The rig stands: flush it, or preserve the membrane.
    IdleRig,
    /// Frost may come: drain or bring in.
    Frost,
    /// A rig that was read before sent nothing this week.
    QuietRig,
    /// A person who sent readings before sent none this week.
    QuietPerson,
}

/// Why a kind stands where it stands among the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Risk {
    /// Windows will spot.
    Glass,
    /// Something is broken; it eats resin and hides how the membrane is.
    Fault,
    /// Money is lost every month.
    Money,
    /// Something runs out.
    Supply,
    /// A date or a habit; late, it harms the membrane.
    Care,
    /// Nothing is known to be wrong, but nobody says.
    Silence,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 13] = [
        Self::ChangeResin,
        Self::RepackResin,
        Self::FindLeak,
        Self::NewMembrane,
        Self::ResinSoon,
        Self::Prefilters,
        Self::AskMembrane,
        Self::PlanMembrane,
        Self::Flush,
        Self::IdleRig,
        Self::Frost,
        Self::QuietRig,
        Self::QuietPerson,
    ];

    /// The risk it belongs to.
    #[must_use]
    pub fn risk(self) -> Risk {
        match self {
            Self::ChangeResin | Self::RepackResin => Risk::Glass,
            Self::FindLeak => Risk::Fault,
            Self::NewMembrane => Risk::Money,
            Self::ResinSoon => Risk::Supply,
            Self::PlanMembrane | Self::Prefilters | Self::Flush | Self::AskMembrane | Self::IdleRig | Self::Frost => {
                Risk::Care
            }
            Self::QuietRig | Self::QuietPerson => Risk::Silence,
        }
    }

    /// A short fixed name for the store.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::ChangeResin => "change_resin",
            Self::RepackResin => "repack_resin",
            Self::ResinSoon => "resin_soon",
            Self::FindLeak => "find_leak",
            Self::NewMembrane => "new_membrane",
            Self::PlanMembrane => "plan_membrane",
            Self::Prefilters => "prefilters",
            Self::Flush => "flush",
            Self::AskMembrane => "ask_membrane",
            Self::IdleRig => "idle_rig",
            Self::Frost => "frost",
            Self::QuietRig => "quiet_rig",
            Self::QuietPerson => "quiet_person",
        }
    }

    /// The kind of a [`Kind::code`].
    #[must_use]
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.code() == code)
    }
}

/// When a membrane is best renewed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Due {
    /// Now: it pays for itself.
    Now,
    /// Cheapest in this range.
    About(Range),
    /// Its line is crossed, but nobody can say when it pays.
    LineCrossed {
        /// Whether prices are told: then readings are too few.
        priced: bool,
        /// Whether it is done, whatever the money says.
        spent: bool,
    },
    /// It is below its line or its water spots, on a rig without resin: no price decides, the glass does.
    GlassDecides {
        /// Whether it is done, whatever the glass says.
        spent: bool,
    },
}

/// Something to do for a rig, and why. Instants in UTC seconds, money in the outfit's currency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Deed {
    /// The product spots.
    ChangeResin {
        /// Last product reading of this bed, ppm.
        product_ppm: f64,
    },
    /// High product from a bed that has taken little.
    RepackResin {
        /// Last product reading of this bed, ppm.
        product_ppm: f64,
        /// Whether it is high enough to spot.
        will_spot: bool,
    },
    /// A jump that stands.
    FindLeak {
        /// Since when.
        since: i64,
        /// Permeate before and now, ppm.
        permeate_ppm: Option<(f64, f64)>,
        /// The likeliest cause.
        cause: Option<Cause>,
        /// The next test to make.
        next_test: NextTest,
        /// Resin that it costs a month.
        costs_per_month: Option<f64>,
    },
    /// A new membrane.
    NewMembrane {
        /// When.
        due: Due,
        /// Rejection now, a fraction.
        rejection: f64,
        /// What waiting costs a month; none when nothing or not known.
        waiting_per_month: Option<f64>,
        /// What waiting for the spent line would cost over this life.
        rule_of_thumb_costs: Option<f64>,
    },
    /// The resin runs out within a week.
    ResinSoon {
        /// It may be empty from here on: have resin on the rig.
        early: i64,
        /// As likely before as after: change it.
        likely: i64,
        /// Working days left: low, likely, high.
        working_days: [f64; 3],
    },
    /// Prefilters are due.
    Prefilters {
        /// When they are or were.
        due: i64,
        /// Whether that is past.
        overdue: bool,
    },
    /// A membrane change that nobody logged.
    AskMembrane {
        /// About since when it reads like a new one.
        since: i64,
    },
}

impl Deed {
    /// Its kind, which is its urgency.
    #[must_use]
    pub fn kind(&self) -> Kind {
        match self {
            Self::ChangeResin { .. } => Kind::ChangeResin,
            Self::RepackResin { .. } => Kind::RepackResin,
            Self::FindLeak { .. } => Kind::FindLeak,
            Self::NewMembrane { due: Due::About(_), .. } => Kind::PlanMembrane,
            Self::NewMembrane { .. } => Kind::NewMembrane,
            Self::ResinSoon { .. } => Kind::ResinSoon,
            Self::Prefilters { .. } => Kind::Prefilters,
            Self::AskMembrane { .. } => Kind::AskMembrane,
        }
    }

    /// Money lost a month while nothing is done; 0 when none or not known.
    #[must_use]
    pub fn money_per_month(&self) -> f64 {
        match self {
            Self::FindLeak { costs_per_month, .. } => costs_per_month.unwrap_or(0.0),
            Self::NewMembrane { waiting_per_month, .. } => waiting_per_month.unwrap_or(0.0),
            _ => 0.0,
        }
    }

    /// Among deeds of one kind that lose the same money: the product that the glass gets, and how soon it is due.
    fn pressing(&self) -> (f64, i64) {
        match *self {
            Self::ChangeResin { product_ppm } | Self::RepackResin { product_ppm, .. } => (product_ppm, 0),
            Self::ResinSoon { likely, .. } => (0.0, likely),
            Self::NewMembrane {
                due: Due::About(range), ..
            } => (0.0, range.likely),
            Self::Prefilters { due, .. } => (0.0, due),
            Self::FindLeak { .. } | Self::NewMembrane { .. } | Self::AskMembrane { .. } => (0.0, 0),
        }
    }
}

/// The order of two deeds: kind, then money a month, then what presses more.
fn by_urgency(a: &Deed, b: &Deed) -> Ordering {
    let ((a_ppm, a_due), (b_ppm, b_due)) = (a.pressing(), b.pressing());
    (a.kind().cmp(&b.kind()))
        .then_with(|| b.money_per_month().total_cmp(&a.money_per_month()))
        .then_with(|| b_ppm.total_cmp(&a_ppm))
        .then_with(|| a_due.cmp(&b_due))
}

impl Verdict {
    /// The verdict on what was assessed.
    #[must_use]
    pub fn of(assessment: &Assessment, ground: &Ground) -> Self {
        let mut deeds: Vec<Deed> = [
            resin_deed(assessment, ground),
            leak(assessment, ground),
            membrane(assessment, ground),
            prefilters(assessment),
            assessment
                .question
                .map(|Question::WasMembraneChanged { since }| Deed::AskMembrane { since }),
        ]
        .into_iter()
        .flatten()
        .collect();
        deeds.sort_by(by_urgency);
        Self {
            state: assessment.condition,
            level: assessment.rejection.map(|rejection| Level {
                rejection,
                basis: assessment.basis,
                readings: assessment.readings_used,
            }),
            with_leak: assessment.fault.as_ref().map(|fault| fault.seen_rejection),
            resin: resin(assessment),
            deeds,
        }
    }

    /// What is to be done first.
    #[must_use]
    pub fn deed(&self) -> Option<&Deed> {
        self.deeds.first()
    }

    /// The deed for its membrane, if there is one.
    #[must_use]
    pub fn membrane_due(&self) -> Option<Due> {
        self.deeds.iter().find_map(|deed| match deed {
            Deed::NewMembrane { due, .. } => Some(*due),
            _ => None,
        })
    }

    /// The order of two rigs: by what is to be done first, then by state, then by rejection, lowest first.
    #[must_use]
    pub fn by_urgency(&self, other: &Self) -> Ordering {
        let rejection = |verdict: &Self| verdict.level.map_or(1.0, |level| level.rejection.mid);
        let deeds = match (self.deed(), other.deed()) {
            (Some(a), Some(b)) => by_urgency(a, b),
            (a, b) => a.is_none().cmp(&b.is_none()),
        };
        deeds
            .then_with(|| concern(self.state).cmp(&concern(other.state)))
            .then_with(|| rejection(self).total_cmp(&rejection(other)))
    }
}

/// The states from the most pressing on; a DI-only rig last.
fn concern(state: Option<Condition>) -> u8 {
    match state {
        Some(Condition::Fault) => 0,
        Some(Condition::Spent) => 1,
        Some(Condition::Due) => 2,
        Some(Condition::Fading) => 3,
        Some(Condition::Unproven) => 4,
        Some(Condition::Good) => 5,
        None => 6,
    }
}

/// Local days from the assessment's instant to another.
fn days_until(at: i64, assessment: &Assessment, ground: &Ground) -> i64 {
    let day = |at: i64| at.saturating_add(ground.utc_offset_seconds).div_euclid(DAY);
    day(at) - day(assessment.now)
}

/// Whether nobody has read it for so long that it is laid up.
#[must_use]
pub fn is_laid_up(assessment: &Assessment, utc_offset_seconds: i64) -> bool {
    let day = |at: i64| at.saturating_add(utc_offset_seconds).div_euclid(DAY);
    assessment
        .last_reading_at
        .is_some_and(|last| day(assessment.now) - day(last) >= LAID_UP_FROM_DAYS)
}

fn resin(assessment: &Assessment) -> Resin {
    let Some(bed) = assessment.resin else {
        return Resin::Unknown;
    };
    match (bed.state, bed.working_days) {
        (BedState::Exhausted, _) => Resin::Nothing,
        (BedState::EarlyBreakthrough, _) => Resin::Loose,
        (BedState::Holding | BedState::GivingWay, Some(days)) => Resin::Days(days),
        (BedState::Holding | BedState::GivingWay, None) => Resin::Unknown,
    }
}

/// The resin: spots now, slips, or runs out within a week. What stands for less than two months goes on by the count.
fn resin_deed(assessment: &Assessment, ground: &Ground) -> Option<Deed> {
    let bed = assessment.resin?;
    let product_ppm = bed.product_ppm.unwrap_or(0.0);
    match bed.state {
        BedState::EarlyBreakthrough => {
            return Some(Deed::RepackResin {
                product_ppm,
                will_spot: product_ppm >= SPOTS_FROM_PPM,
            });
        }
        BedState::Exhausted => return Some(Deed::ChangeResin { product_ppm }),
        BedState::Holding | BedState::GivingWay => {}
    }
    let (empty, working_days) = (bed.empty?, bed.working_days?);
    let is_soon = days_until(empty.likely, assessment, ground) < RESIN_AHEAD_DAYS;
    (is_soon && !is_laid_up(assessment, ground.utc_offset_seconds)).then_some(Deed::ResinSoon {
        early: empty.early,
        likely: empty.likely,
        working_days,
    })
}

fn leak(assessment: &Assessment, ground: &Ground) -> Option<Deed> {
    let fault = assessment.fault.as_ref()?;
    // The bills of the healthy membrane grow by what the leak adds to its salt passage.
    let costs_per_month = assessment
        .renewal
        .map(|renewal| renewal.running_cost_per_year * (fault.passage_ratio - 1.0).max(0.0) / 12.0);
    Some(Deed::FindLeak {
        since: fault.since,
        permeate_ppm: ground.jump_ppm,
        cause: fault.causes.first().copied(),
        next_test: fault.next_test,
        costs_per_month,
    })
}

/// A new membrane, where the money asks for it; where it cannot, the line; where no resin follows, the glass. A fault
/// is found before anything is bought, and what may be a new one already is asked about first.
fn membrane(assessment: &Assessment, ground: &Ground) -> Option<Deed> {
    let state = assessment.condition?;
    let rejection = assessment.rejection?.mid;
    if assessment.fault.is_some() || assessment.question.is_some() {
        return None;
    }
    let spent = state == Condition::Spent;
    let crossed = spent || state == Condition::Due;
    let positive = |amount: f64| (amount.is_finite() && amount > 0.0).then_some(amount);
    let deed = |due: Due, waiting: Option<f64>, rule: Option<f64>| Deed::NewMembrane {
        due,
        rejection,
        waiting_per_month: waiting.and_then(positive),
        rule_of_thumb_costs: rule.and_then(positive),
    };
    if let Behind::Glass { wants_new } = ground.behind {
        return (crossed || wants_new).then(|| deed(Due::GlassDecides { spent }, None, None));
    }
    let line_crossed = |priced: bool| crossed.then(|| deed(Due::LineCrossed { priced, spent }, None, None));
    let Some(money) = assessment.renewal else {
        return line_crossed(false);
    };
    let rule = money.rule_of_thumb.map(|rule| rule.extra_cost);
    match money.verdict {
        renewal_verdict::Verdict::Now => Some(deed(Due::Now, Some(money.waiting_per_month), rule)),
        renewal_verdict::Verdict::Later(range) => {
            let is_near = days_until(range.likely, assessment, ground) <= PLAN_AHEAD_DAYS;
            (crossed || is_near && state != Condition::Good).then(|| deed(Due::About(range), None, rule))
        }
        renewal_verdict::Verdict::NotYetKnown => line_crossed(true),
        renewal_verdict::Verdict::NotInSight => None,
    }
}

fn prefilters(assessment: &Assessment) -> Option<Deed> {
    let overdue = match assessment.prefilter.state {
        prefilter::State::Overdue => true,
        prefilter::State::DueSoon => false,
        prefilter::State::InDate | prefilter::State::NeverLogged => return None,
    };
    Some(Deed::Prefilters {
        due: assessment.prefilter.due_at?,
        overdue,
    })
}
