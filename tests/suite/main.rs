//! The suite: what users see. It runs as a whole on SQLite and on PostgreSQL.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod access;
mod api_stand_in;
mod database;
mod demos;
mod first_use;
mod house;
mod kill;
mod misfits;
mod process;
mod putting_right;
mod readings;
mod reminders;
mod wire;
mod words;
mod world;
