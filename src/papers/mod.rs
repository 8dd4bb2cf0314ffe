//! Rows into files, as bytes: spreadsheet, calendar, text table. Titles and
//! texts come worded.

pub mod calendar;
pub mod cell;
pub mod csv_rows;
pub mod workbook;

pub use calendar::{DayEvent, calendar};
pub use cell::Cell;
pub use csv_rows::csv_rows;
pub use workbook::{Sheet, workbook};
