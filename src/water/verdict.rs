//! The one verdict of a rig at an instant: its state, its level and what that rests on, and what is to be done, most
//! urgent first. Whatever is shown of a rig takes it; nothing else decides.

use std::cmp::Ordering;

use jiff::civil::Date;

use super::assess::{Assessment, Basis, Doubted, Question};
use super::condition::Condition;
use super::dates::{days_between, local_date};
use super::forecast::Interval;
use super::jump::{Cause, NextTest};
use super::prefilter;
use super::renewal_verdict;
use super::resin::BedState;

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
    /// The rejection of the last reading as it is, a fraction.
    pub seen: Option<f64>,
    /// The resin.
    pub resin: Resin,
    /// What is to be done, most urgent first.
    pub deeds: Vec<Deed>,
}

/// What is told of a membrane in one word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// The membrane's state.
    State(Condition),
    /// Far from its trend: it says nothing of the state until it is read again.
    Doubtful,
    /// A jump stands, but this reading is back where it was before.
    Back,
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
    /// The last reading is not to be believed as it is: read it again.
    ReadAgain,
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
    pub const ALL: [Self; 14] = [
        Self::ChangeResin,
        Self::RepackResin,
        Self::FindLeak,
        Self::ReadAgain,
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
            Self::FindLeak | Self::ReadAgain => Risk::Fault,
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
            Self::ReadAgain => "read_again",
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

/// When a membrane is best renewed. Local dates, none before today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Due {
    /// Now: it pays for itself.
    Now,
    /// Cheapest in this range.
    About {
        /// Not before this.
        early: Date,
        /// As likely before as after.
        likely: Date,
        /// Hardly after this.
        late: Date,
    },
    /// Its line is crossed, but nobody can say when it pays.
    LineCrossed {
        /// Whether prices are set: then readings are too few.
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

/// Something to do, and why: for a rig, or for the outfit or a person, whom the digest asks beside. Local dates, those
/// ahead not before today; money in the outfit's currency.
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
        since: Date,
        /// Permeate before and now, ppm.
        permeate_ppm: Option<(f64, f64)>,
        /// The likeliest cause.
        cause: Option<Cause>,
        /// The next test to make.
        next_test: NextTest,
        /// Resin that it costs a month.
        costs_per_month: Option<f64>,
    },
    /// The last reading is not to be believed as it is.
    ReadAgain {
        /// Its rejection as read, a fraction.
        seen: f64,
        /// Why.
        why: Doubted,
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
        at_hand_by: Date,
        /// As likely before as after: change it.
        change_by: Date,
        /// Working days left: low, likely, high.
        working_days: [f64; 3],
    },
    /// Prefilters.
    Prefilters {
        /// When they are or were due.
        due: Date,
        /// Whether that is past.
        overdue: bool,
    },
    /// A membrane change that nobody logged.
    AskMembrane {
        /// About since when it reads like a new one.
        since: Date,
    },
    /// Flushes missed this week.
    Flush {
        /// Days worked.
        worked: u32,
        /// Of them flushed.
        flushed: u32,
    },
    /// A rig that stands.
    IdleRig {
        /// Last reading.
        last: Date,
        /// Days since.
        days: u32,
        /// Whether it has stood so long that the membrane wants preserving.
        preserve: bool,
    },
    /// Frost.
    Frost {
        /// The coldest water given lately, degrees Celsius; none when only the season says so.
        water_c: Option<f64>,
    },
    /// A rig without readings this week.
    QuietRig {
        /// Last reading.
        last: Date,
    },
    /// A person without readings this week.
    QuietPerson {
        /// Readings in the four weeks before.
        before: u32,
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
            Self::ReadAgain { .. } => Kind::ReadAgain,
            Self::NewMembrane {
                due: Due::About { .. }, ..
            } => Kind::PlanMembrane,
            Self::NewMembrane { .. } => Kind::NewMembrane,
            Self::ResinSoon { .. } => Kind::ResinSoon,
            Self::Prefilters { .. } => Kind::Prefilters,
            Self::AskMembrane { .. } => Kind::AskMembrane,
            Self::Flush { .. } => Kind::Flush,
            Self::IdleRig { .. } => Kind::IdleRig,
            Self::Frost { .. } => Kind::Frost,
            Self::QuietRig { .. } => Kind::QuietRig,
            Self::QuietPerson { .. } => Kind::QuietPerson,
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

    /// The day by which it wants to be done; none when that is at once.
    #[must_use]
    pub fn by(&self) -> Option<Date> {
        match *self {
            Self::ResinSoon { change_by, .. } => Some(change_by),
            Self::Prefilters { due, .. } => Some(due),
            Self::NewMembrane {
                due: Due::About { likely, .. },
                ..
            } => Some(likely),
            _ => None,
        }
    }

    /// Among deeds of one kind that lose the same money: the higher product, the more flushes missed, the longer rest.
    fn pressing(&self) -> f64 {
        match *self {
            Self::ChangeResin { product_ppm } | Self::RepackResin { product_ppm, .. } => product_ppm,
            Self::Flush { worked, flushed } => f64::from(worked.saturating_sub(flushed)),
            Self::IdleRig { days, .. } => f64::from(days),
            _ => 0.0,
        }
    }

    /// The order of two deeds: kind, then money a month, then what presses more, then the day.
    #[must_use]
    pub fn by_urgency(&self, other: &Self) -> Ordering {
        (self.kind().cmp(&other.kind()))
            .then_with(|| other.money_per_month().total_cmp(&self.money_per_month()))
            .then_with(|| other.pressing().total_cmp(&self.pressing()))
            .then_with(|| self.by().cmp(&other.by()))
    }
}

impl Verdict {
    /// The verdict on what was assessed.
    #[must_use]
    pub fn of(assessment: &Assessment, ground: &Ground) -> Self {
        let mut deeds: Vec<Deed> = [
            resin_deed(assessment, ground),
            leak(assessment, ground),
            membrane(assessment, ground),
            prefilters(assessment, ground),
            assessment
                .question
                .map(|Question::WasMembraneChanged { since }| Deed::AskMembrane {
                    since: day(since, ground),
                }),
        ]
        .into_iter()
        .flatten()
        .collect();
        deeds.sort_by(Deed::by_urgency);
        Self {
            state: assessment.condition,
            level: assessment.rejection.map(|rejection| Level {
                rejection,
                basis: assessment.basis,
                readings: assessment.readings_used,
            }),
            seen: assessment.seen.map(|seen| seen.rejection),
            resin: resin(assessment),
            deeds,
        }
    }

    /// What is to be done first.
    #[must_use]
    pub fn deed(&self) -> Option<&Deed> {
        self.deeds.first()
    }

    /// What is told beside the last reading; none on a DI-only rig.
    #[must_use]
    pub fn told(&self) -> Option<Told> {
        let doubted = self.deeds.iter().find_map(|deed| match deed {
            Deed::ReadAgain { why, .. } => Some(*why),
            _ => None,
        });
        match doubted {
            Some(Doubted::Back) => Some(Told::Back),
            Some(Doubted::Far { .. }) => Some(Told::Doubtful),
            Some(Doubted::LowUnproven) | None => self.state.map(Told::State),
        }
    }

    /// What is held of the membrane, in one word: its state, but for a jump that reads as mended. None on a DI-only rig.
    #[must_use]
    pub fn held(&self) -> Option<Told> {
        match self.told() {
            Some(Told::Doubtful) => self.state.map(Told::State),
            told => told,
        }
    }

    /// The deed for its membrane, if there is one.
    #[must_use]
    pub fn membrane_due(&self) -> Option<Due> {
        self.deeds.iter().find_map(|deed| match deed {
            Deed::NewMembrane { due, .. } => Some(*due),
            _ => None,
        })
    }

    /// The order of two rigs: by what is to be done first, then by state, then by rejection, lowest first; as read,
    /// where no more can be told.
    #[must_use]
    pub fn by_urgency(&self, other: &Self) -> Ordering {
        let rejection = |verdict: &Self| {
            let level = verdict.level.map(|level| level.rejection.mid);
            level.or(verdict.seen).unwrap_or(1.0)
        };
        let deeds = match (self.deed(), other.deed()) {
            (Some(a), Some(b)) => a.by_urgency(b),
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

/// The local date of an instant.
fn day(at: i64, ground: &Ground) -> Date {
    local_date(at, ground.utc_offset_seconds)
}

/// The local date of an instant ahead: today, if it is past.
fn day_ahead(at: i64, assessment: &Assessment, ground: &Ground) -> Date {
    day(at.max(assessment.now), ground)
}

/// Local days from the assessment's instant to another.
fn days_until(at: i64, assessment: &Assessment, ground: &Ground) -> i64 {
    days_between(day(assessment.now, ground), day(at, ground))
}

/// Whether nobody has read it for so long that it is laid up.
#[must_use]
pub fn is_laid_up(assessment: &Assessment, utc_offset_seconds: i64) -> bool {
    let day = |at: i64| local_date(at, utc_offset_seconds);
    assessment
        .last_reading_at
        .is_some_and(|last| days_between(day(last), day(assessment.now)) >= LAID_UP_FROM_DAYS)
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
                will_spot: bed.spots().is_some(),
            });
        }
        BedState::Exhausted => return Some(Deed::ChangeResin { product_ppm }),
        BedState::Holding | BedState::GivingWay => {}
    }
    let (empty, working_days) = (bed.empty?, bed.working_days?);
    let is_soon = days_until(empty.likely, assessment, ground) < RESIN_AHEAD_DAYS;
    (is_soon && !is_laid_up(assessment, ground.utc_offset_seconds)).then_some(Deed::ResinSoon {
        at_hand_by: day_ahead(empty.early, assessment, ground),
        change_by: day_ahead(empty.likely, assessment, ground),
        working_days,
    })
}

/// A leak; what already reads as mended sends nobody to look for it, but wants another reading. So does whatever else
/// is doubted.
fn leak(assessment: &Assessment, ground: &Ground) -> Option<Deed> {
    if let Some(seen) = assessment.seen
        && let Some(why) = seen.doubted
        && !is_laid_up(assessment, ground.utc_offset_seconds)
    {
        return Some(Deed::ReadAgain {
            seen: seen.rejection,
            why,
        });
    }
    let fault = assessment.fault.as_ref()?;
    // The bills of the healthy membrane grow by what the leak adds to its salt passage.
    let costs_per_month = assessment
        .renewal
        .map(|renewal| renewal.running_cost_per_year * (fault.passage_ratio - 1.0).max(0.0) / 12.0);
    Some(Deed::FindLeak {
        since: day(fault.since, ground),
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
            let ahead = |at: i64| day_ahead(at, assessment, ground);
            let due = Due::About {
                early: ahead(range.early),
                likely: ahead(range.likely),
                // So near ahead its range ends within what is looked at.
                late: ahead(range.late.unwrap_or(range.likely)),
            };
            (crossed || is_near && state != Condition::Good).then(|| deed(due, None, rule))
        }
        renewal_verdict::Verdict::NotYetKnown => line_crossed(true),
        renewal_verdict::Verdict::NotInSight => None,
    }
}

fn prefilters(assessment: &Assessment, ground: &Ground) -> Option<Deed> {
    let due = day(assessment.prefilter.due_at?, ground);
    match assessment.prefilter.state {
        prefilter::State::Overdue => Some(Deed::Prefilters {
            due: due.min(day(assessment.now, ground)),
            overdue: true,
        }),
        prefilter::State::DueSoon => Some(Deed::Prefilters { due, overdue: false }),
        prefilter::State::InDate | prefilter::State::NeverLogged => None,
    }
}
