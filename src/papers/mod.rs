//! Rows into files, as bytes: spreadsheet, calendar, text table.
