//! Tapside: a chat bot for crews who clean windows with purified water.
//!
//! The house, from the inside out. The first rooms are pure: no clock, no
//! input or output, no database.
//!
//! - [`domain`]: ids, roles, kinds of service; what comes in, what goes out, what a message comes to.
//! - [`water`]: what two readings tell of a membrane.
//! - [`language`]: characters into tokens, words into senses.
//! - [`grammar`]: what a text means, given the fleet and the open question.
//! - [`message`]: what commands, settings and answers to the set-up guide say.
//! - [`replies`]: facts into words; the only place that formats a number.
//! - [`digest`]: what an owner should do this week.
//! - [`papers`]: rows into files: spreadsheet, calendar.
//! - [`chart`]: facts into pictures.
//! - [`schedule`]: which scheduled messages fall due, in local time.
//! - [`store`]: all SQL, on SQLite and PostgreSQL.
//! - [`outbox`]: messages on their way out, in memory, under leases of the store.
//! - [`bot`]: two doors, [`bot::Bot::hear`] and [`bot::Bot::due`].
//! - [`transport`]: the outside world to and from [`domain::envelope`].
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
pub mod domain;
pub mod grammar;
pub mod history;
pub mod intake;
pub mod language;
pub mod message;
pub mod outbox;
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
