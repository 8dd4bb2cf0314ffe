//! `import`: rows out of a spreadsheet, or settings as they are typed.

pub(super) mod accepted;
pub(super) mod bad_lines;
pub(super) mod offers;
pub(super) mod plan;
pub(super) mod preview;
pub(super) mod settings_text;
pub(super) mod undone;
mod workbook;
