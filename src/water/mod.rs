//! What a rig with two readings can know: the pure computation.
//!
//! No input or output, no clock, no database: numbers in, numbers and closed
//! enums out. Instants are UTC seconds; only a verdict and what follows from it speak of local dates.
//!
//! The way through: [`history::Event`]s go into a kept [`rig::History`] by
//! [`rig::step`] or [`replay::replay`], and [`assess::assess`] says what it means.

pub mod assess;
pub mod condition;
pub mod course;
pub mod dates;
pub mod days_off;
pub mod flow;
pub mod forecast;
pub mod glass;
pub mod history;
pub mod jump;
pub mod lambert;
pub mod observation;
pub mod osmosis;
pub mod prefilter;
pub mod prior;
pub mod quantity;
pub mod rejection;
pub mod renewal;
pub mod renewal_curve;
pub mod renewal_verdict;
pub mod replay;
pub mod resin;
pub mod rig;
pub mod settings;
pub mod temperature_factor;
pub mod trend;
pub mod usage;
pub mod verdict;
mod watch;
pub mod wear;
pub mod year_ahead;
