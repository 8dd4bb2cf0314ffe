//! Tapside: a chat bot for crews who clean windows with purified water.
//!
//! The house, from the inside out. The first rooms are pure: no clock, no
//! input or output, no database.
//!
//! - [`water`]: what two readings tell of a membrane.
//! - [`message`]: what a text means, given the fleet and the open question.
//! - [`replies`]: facts into words; the only place that formats a number.
//! - [`digest`]: what an owner should do this week.
//! - [`papers`]: rows into files: spreadsheet, calendar.
//! - [`chart`]: facts into pictures.
//! - [`schedule`]: which scheduled messages fall due, in local time.
//! - [`store`]: all SQL, on SQLite and PostgreSQL.
//! - [`bot`]: two doors, [`bot::Bot::hear`] and [`bot::Bot::due`].
//! - [`transport`]: the outside world to and from [`bot::envelope`].
//! - [`desk`]: a conversation without a platform.
//! - [`chat`], [`play`], [`read_lines`], [`spreadsheet`], [`serve`], [`check`],
//!   [`outfits`], [`backup`], [`digest_files`]: the subcommands.

pub mod backup;
pub mod bot;
pub mod chart;
pub mod chat;
pub mod check;
pub mod clock;
pub mod config;
pub mod desk;
pub mod digest;
pub mod digest_files;
pub mod intake;
pub mod message;
pub mod outfits;
pub mod papers;
pub mod play;
pub mod read_lines;
pub mod replies;
pub mod schedule;
pub mod serve;
pub mod spreadsheet;
pub mod store;
pub mod transport;
pub mod water;
