//! `export`: all that is kept of an outfit, as files.

pub(super) mod columns;
pub(super) mod files;
pub(super) mod settings;
pub(super) mod sheets;
