//! What an owner should do this week, and what is worth saying in between:
//! facts in, decisions out. No words, no clock, no I/O.
//!
//! The way through: a [`Week`] of facts goes into [`decide()`], which gives a
//! [`Digest`]; its [`Digest::decisions`] are kept and handed in again next
//! Monday. [`notes::due`] decides what is said between Mondays.

pub mod action;
pub mod decide;
pub mod due_dates;
pub mod findings;
pub mod fleet;
pub mod followed;
pub mod headline;
pub mod notes;
pub mod quiet;
pub mod resin_need;
mod rig_findings;
pub mod season;
pub mod shopping;
pub mod week;

pub use crate::water::verdict::Kind;
pub use action::{Action, Item, Subject};
pub use decide::{Digest, decide};
pub use week::Week;
