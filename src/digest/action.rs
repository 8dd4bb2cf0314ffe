//! What a digest can ask for: closed, with the facts that the words need.

use jiff::civil::Date;

use crate::water::jump::{Cause, NextTest};
use crate::water::verdict::{Deed, Due};
pub use crate::water::verdict::{Kind, Risk};

use super::dates::local_date;

/// One thing to do, for one rig or several.
#[derive(Clone, Debug, PartialEq)]
pub struct Action {
    /// What.
    pub kind: Kind,
    /// For whom, most pressing first; never empty. The finding of each is of
    /// the action's kind.
    pub items: Vec<Item>,
}

/// One rig or person of an action.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Whom it is about.
    pub subject: Subject,
    /// Why, by when, and what it saves or risks.
    pub finding: Finding,
    /// The date of the first digest in a row that asked for it; today when new.
    pub since: Date,
    /// How many digests in a row have asked for it, this one included.
    pub mondays: u32,
}

/// Whom an action is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Subject {
    /// A rig: number and name.
    Rig(i64, String),
    /// A person: number and first name.
    Person(i64, String),
    /// The whole outfit.
    Outfit,
}

impl Subject {
    /// The name; empty for the outfit.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Rig(_, name) | Self::Person(_, name) => name,
            Self::Outfit => "",
        }
    }

    /// The rig's number.
    #[must_use]
    pub fn rig(&self) -> Option<i64> {
        match self {
            Self::Rig(id, _) => Some(*id),
            Self::Person(..) | Self::Outfit => None,
        }
    }

    /// The person's number.
    #[must_use]
    pub fn person(&self) -> Option<i64> {
        match self {
            Self::Person(id, _) => Some(*id),
            Self::Rig(..) | Self::Outfit => None,
        }
    }
}

/// The facts behind an item. Money is in the outfit's currency.
#[derive(Clone, Debug, PartialEq)]
pub enum Finding {
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
    /// The resin runs out before the next digest.
    ResinSoon {
        /// It may be empty from here on: have resin on the rig.
        at_hand_by: Date,
        /// As likely before as after: change it.
        change_by: Date,
        /// Working days left: low, likely, high.
        working_days: [f64; 3],
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
    /// A new membrane.
    NewMembrane {
        /// When.
        window: Window,
        /// Rejection now, a fraction.
        rejection: f64,
        /// What waiting costs a month; none when nothing or not known.
        waiting_per_month: Option<f64>,
        /// What waiting for the spent line would cost over this life.
        rule_of_thumb_costs: Option<f64>,
    },
    /// Prefilters.
    Prefilters {
        /// When they are or were due.
        due: Date,
        /// Whether that is past.
        overdue: bool,
    },
    /// Flushes missed this week.
    Flush {
        /// Days worked.
        worked: u32,
        /// Of them flushed.
        flushed: u32,
    },
    /// A membrane change that nobody logged.
    AskMembrane {
        /// About since when it reads like a new one.
        since: Date,
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
        /// The coldest water told lately, degrees Celsius; none when only the
        /// season says so.
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

/// When a membrane is best renewed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Window {
    /// Now: it pays for itself.
    Now,
    /// Cheapest in this range.
    Between {
        /// Not before this.
        early: Date,
        /// As likely before as after.
        likely: Date,
        /// Hardly after this.
        late: Date,
    },
    /// Its line is crossed, but nobody can say when it pays.
    LineCrossed {
        /// Whether prices are told: then readings are too few.
        priced: bool,
        /// Whether it is done, whatever the money says.
        spent: bool,
    },
    /// It is below its line or its water spots, on a rig without resin: no price
    /// decides, the glass does.
    GlassDecides {
        /// Whether it is done, whatever the glass says.
        spent: bool,
    },
}

impl Finding {
    /// A rig's deed with its instants as local dates, none of those ahead before `today`.
    #[must_use]
    pub fn of(deed: &Deed, today: Date, utc_offset_seconds: i64) -> Self {
        let past = |at: i64| local_date(at, utc_offset_seconds);
        let ahead = |at: i64| past(at).max(today);
        match *deed {
            Deed::ChangeResin { product_ppm } => Self::ChangeResin { product_ppm },
            Deed::RepackResin { product_ppm, will_spot } => Self::RepackResin { product_ppm, will_spot },
            Deed::ResinSoon {
                early,
                likely,
                working_days,
            } => Self::ResinSoon {
                at_hand_by: ahead(early),
                change_by: ahead(likely),
                working_days,
            },
            Deed::FindLeak {
                since,
                permeate_ppm,
                cause,
                next_test,
                costs_per_month,
            } => Self::FindLeak {
                since: past(since),
                permeate_ppm,
                cause,
                next_test,
                costs_per_month,
            },
            Deed::NewMembrane {
                due,
                rejection,
                waiting_per_month,
                rule_of_thumb_costs,
            } => Self::NewMembrane {
                window: match due {
                    Due::Now => Window::Now,
                    Due::About(range) => Window::Between {
                        early: ahead(range.early),
                        likely: ahead(range.likely),
                        // So near ahead its range ends within what is looked at.
                        late: ahead(range.late.unwrap_or(range.likely)),
                    },
                    Due::LineCrossed { priced, spent } => Window::LineCrossed { priced, spent },
                    Due::GlassDecides { spent } => Window::GlassDecides { spent },
                },
                rejection,
                waiting_per_month,
                rule_of_thumb_costs,
            },
            Deed::Prefilters { due, overdue: true } => Self::Prefilters {
                due: past(due).min(today),
                overdue: true,
            },
            Deed::Prefilters { due, overdue } => Self::Prefilters {
                due: past(due),
                overdue,
            },
            Deed::AskMembrane { since } => Self::AskMembrane { since: past(since) },
        }
    }

    /// The kind that it belongs to.
    #[must_use]
    pub fn kind(&self) -> Kind {
        match self {
            Self::ChangeResin { .. } => Kind::ChangeResin,
            Self::RepackResin { .. } => Kind::RepackResin,
            Self::ResinSoon { .. } => Kind::ResinSoon,
            Self::FindLeak { .. } => Kind::FindLeak,
            Self::NewMembrane {
                window: Window::Between { .. },
                ..
            } => Kind::PlanMembrane,
            Self::NewMembrane { .. } => Kind::NewMembrane,
            Self::Prefilters { .. } => Kind::Prefilters,
            Self::Flush { .. } => Kind::Flush,
            Self::AskMembrane { .. } => Kind::AskMembrane,
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

    /// The day by which it wants to be done; `today` when that is at once.
    #[must_use]
    pub fn by(&self, today: Date) -> Date {
        match self {
            Self::ResinSoon { change_by, .. } => *change_by,
            Self::Prefilters { due, .. } => *due,
            Self::NewMembrane {
                window: Window::Between { likely, .. },
                ..
            } => *likely,
            _ => today,
        }
    }
}
