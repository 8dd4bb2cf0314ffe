//! Whether a rig wants a new membrane: the one decision behind the digest, its
//! shopping list, and what is answered about buying.

use jiff::civil::Date;

use crate::water::assess::Assessment;
use crate::water::condition::Condition;
use crate::water::renewal_verdict::Verdict;

use super::action::Window;
use super::dates::{days_between, local_date};

/// A new membrane is planned this long before its cheapest date, to order it.
const AHEAD_DAYS: i64 = 45;

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

/// What a rig's membrane asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MembraneNeed {
    /// Nothing, or nothing yet.
    Nothing,
    /// A jump stands: the fault is found before anything is bought.
    FaultFirst,
    /// A new one pays for itself now: buy it.
    Buy,
    /// It wears, and its cheapest date comes near: plan it, buy nothing yet.
    Plan(Window),
    /// It is below its line, but nobody can say whether a new one pays.
    Weigh {
        /// Whether prices are told: then readings are too few.
        priced: bool,
        /// Whether it is done, whatever the money says.
        spent: bool,
    },
    /// It is below its line or its water spots, and no resin follows: the glass
    /// decides, and no price is asked.
    GlassDecides {
        /// Whether it is done: then a new one is bought.
        spent: bool,
    },
}

impl MembraneNeed {
    /// When a new one is due; none where nothing is to do for it.
    #[must_use]
    pub fn window(self) -> Option<Window> {
        match self {
            Self::Nothing | Self::FaultFirst => None,
            Self::Buy => Some(Window::Now),
            Self::Plan(window) => Some(window),
            Self::Weigh { priced, spent } => Some(Window::LineCrossed { priced, spent }),
            Self::GlassDecides { spent } => Some(Window::GlassDecides { spent }),
        }
    }
}

/// Decides it as of `today`, at an offset from UTC in seconds.
#[must_use]
pub fn of(assessment: &Assessment, behind: Behind, today: Date, utc_offset_seconds: i64) -> MembraneNeed {
    if assessment.fault.is_some() {
        return MembraneNeed::FaultFirst;
    }
    // It may be a new one already: that is asked first.
    let (None, Some(_), Some(condition)) = (assessment.question, assessment.rejection, assessment.condition) else {
        return MembraneNeed::Nothing;
    };
    let verdict = assessment.renewal.map(|renewal| renewal.verdict);
    let spent = condition == Condition::Spent;
    let crossed = spent || condition == Condition::Due;
    if let Behind::Glass { wants_new } = behind {
        return match crossed || wants_new {
            true => MembraneNeed::GlassDecides { spent },
            false => MembraneNeed::Nothing,
        };
    }
    match verdict {
        Some(Verdict::Now) => MembraneNeed::Buy,
        Some(Verdict::Later(range)) => {
            let local = |at: i64| local_date(at, utc_offset_seconds).max(today);
            let likely = local(range.likely);
            if condition == Condition::Sound || days_between(today, likely) > AHEAD_DAYS {
                return MembraneNeed::Nothing;
            }
            MembraneNeed::Plan(Window::Between {
                early: local(range.early),
                likely,
                // So near ahead its range ends within what is looked at.
                late: range.late.map_or(likely, local),
            })
        }
        Some(Verdict::NotYetKnown) | None if crossed => MembraneNeed::Weigh {
            priced: verdict.is_some(),
            spent,
        },
        Some(Verdict::NotInSight | Verdict::NotYetKnown) | None => MembraneNeed::Nothing,
    }
}
