//! Prefilters: age and litres since the change, and when the next is due.
//!
//! An old carbon filter lets chlorine through, and chlorine shortens a membrane's
//! life; so it is changed by the calendar or by litres, whichever comes first
//! (intervals are the owner's; common practice, no source, is half a year).

use serde::{Deserialize, Serialize};

const DAY: i64 = 86_400;
const SOON: i64 = 14 * DAY;

/// The owner's interval for prefilters.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Interval {
    /// Days between changes.
    pub days: f64,
    /// Litres of permeate between changes, when the owner goes by litres too.
    pub litres: Option<f64>,
}

impl Default for Interval {
    fn default() -> Self {
        Self {
            days: 180.0,
            litres: None,
        }
    }
}

/// How the prefilters stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum State {
    /// In date.
    InDate,
    /// Due within two weeks.
    DueSoon,
    /// Overdue.
    Overdue,
    /// No change was ever logged.
    NeverLogged,
}

/// What can be said of the prefilters.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Assessment {
    /// How they stand.
    pub state: State,
    /// Age, days.
    pub age_days: Option<f64>,
    /// Litres of permeate since the change.
    pub litres: f64,
    /// When they are due, UTC seconds.
    pub due_at: Option<i64>,
}

/// Assesses prefilters changed at `changed_at`, with `litres` made since and
/// `daily_litres` on an average calendar day.
#[must_use]
pub fn assess(
    changed_at: Option<i64>,
    litres: f64,
    daily_litres: Option<f64>,
    interval: &Interval,
    now: i64,
) -> Assessment {
    let Some(changed) = changed_at else {
        return Assessment {
            state: State::NeverLogged,
            age_days: None,
            litres,
            due_at: None,
        };
    };
    #[allow(clippy::cast_precision_loss)]
    let age_days = now.saturating_sub(changed) as f64 / 86_400.0;
    let mut left_days = interval.days - age_days;
    if let (Some(most), Some(daily)) = (interval.litres, daily_litres.filter(|&d| d > 0.0)) {
        left_days = left_days.min((most - litres) / daily);
    }
    #[allow(clippy::cast_possible_truncation)]
    let due_at = now.saturating_add((left_days.clamp(-1e5, 1e5) * 86_400.0) as i64);
    let state = match due_at - now {
        ..=0 => State::Overdue,
        1..=SOON => State::DueSoon,
        _ => State::InDate,
    };
    Assessment {
        state,
        age_days: Some(age_days),
        litres,
        due_at: Some(due_at),
    }
}
