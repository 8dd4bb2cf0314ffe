//! What is known of outfits: the only way from the store into the computation.
//!
//! An outfit is kept in memory ([`outfit::Outfit`]): people, fleet, settings, and of each rig the state that its readings
//! and services came to ([`rig_state::RigState`]). A new reading moves that state on in constant time. On disk stands a
//! snapshot of each state; what came after it is taken from the rows ([`load`]). What changes rows that are already in a
//! state (an edit, a withdrawal, a late reading) deletes the snapshot, and the rig is replayed ([`replay`]).
//!
//! Pictures and files, which show all that ever happened, follow a rig through its rows ([`course`]).

pub mod course;
pub mod followed;
pub mod known_rig;
pub mod load;
pub mod outfit;
pub mod replay;
pub mod rig_state;
pub mod rules;

use jiff::tz::TimeZone;

use crate::store::outfits;

pub use followed::Followed;
pub use outfit::{Memory, Outfit};

/// An outfit's zone; its name was checked when it was set.
pub fn zone_of(outfit: &outfits::Outfit) -> TimeZone {
    TimeZone::get(&outfit.zone).unwrap_or(TimeZone::UTC)
}
