//! What the crew can ask: a rig, a topic, and what else the question says.

use serde::{Deserialize, Serialize};

use super::service::ServiceKind as What;
use super::term::Term;

/// A question that the crew asks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Query {
    /// The rig, where it is known.
    pub rig: Option<i64>,
    /// About what.
    pub topic: Topic,
    /// What else it says.
    pub detail: Detail,
}

impl Query {
    /// A question that says nothing else.
    pub fn of(rig: Option<i64>, topic: Topic) -> Query {
        Query {
            rig,
            topic,
            detail: Detail::default(),
        }
    }
}

/// What a question says besides its rig and topic.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Detail {
    /// The part that it is about: "what if *resin* costs 12?", "who changed the *membrane*?".
    pub part: Option<What>,
    /// A supposed price, in whole units of the currency.
    pub amount: Option<f64>,
    /// Or by how many per cent the price is supposed to change: below zero, cheaper.
    #[serde(default)]
    pub percent: Option<f64>,
    /// The time it asks about.
    pub span: Option<Span>,
    /// The word to explain.
    pub term: Option<Term>,
}

/// A stretch of time that a question is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Span {
    /// Since midnight.
    Today,
    /// The day before.
    Yesterday,
    /// The calendar week so far.
    ThisWeek,
    /// The calendar week before.
    LastWeek,
    /// The calendar month so far.
    ThisMonth,
    /// The calendar month before.
    LastMonth,
    /// The quarter of the calendar year so far.
    ThisQuarter,
    /// The quarter before.
    LastQuarter,
    /// Months of a year: of the one that was told, else the latest that have begun.
    Months {
        /// The year, if it was told.
        year: Option<i16>,
        /// The first, 1 to 12.
        from: u8,
        /// The last; none until today.
        to: Option<u8>,
    },
    /// The calendar year so far.
    ThisYear,
    /// The calendar year before.
    LastYear,
}

/// What a question is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Topic {
    /// How a rig is.
    Status,
    /// What was read last.
    LastReading,
    /// Its rejection.
    Rejection,
    /// Whether it fades.
    Trend,
    /// Its readings.
    History,
    /// When its membrane is due.
    MembraneWhen,
    /// How long its resin lasts.
    ResinWhen,
    /// Whether it was flushed.
    FlushStatus,
    /// How all rigs are.
    Fleet,
    /// Who has not logged.
    Quiet,
    /// What to buy.
    Shopping,
    /// What to type, how to measure, what is good.
    Help,
    /// Why a rig has its state; without a rig: why the last answer.
    Why,
    /// A picture of a rig's readings.
    Picture,
    /// Who sent a reading or did a service.
    WhoLogged,
    /// Rigs beside each other: a query for each, or one without a rig for all.
    Compare,
    /// What a word means (`Detail::term`).
    Explain,
    /// What a rig, or a part of all rigs, costs (`Detail::part`, `Detail::span`).
    Cost,
    /// What another price or another date would change (`Detail::part`, `Detail::amount`).
    WhatIf,
}
