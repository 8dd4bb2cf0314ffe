//! What a person tells the bot to do: commands, settings and the guide that sets an outfit up.
//!
//! Pure and total: no clock, no storage, and no text makes it fail. What the crew says of its rigs is read by
//! [`crate::grammar`].

pub mod command;
pub mod setting;
pub mod setup;
