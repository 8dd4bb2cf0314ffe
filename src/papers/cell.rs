//! What a table's cell can hold.

use jiff::civil::Date;

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Text, already in the reader's language.
    Text(String),
    /// A whole or broken number; its unit stands in the column's title.
    Number(f64),
    /// A fraction, shown as a percentage with one decimal.
    Share(f64),
    /// A day.
    Date(Date),
}

impl Cell {
    /// Text.
    #[must_use]
    pub fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// A number, or nothing.
    #[must_use]
    pub fn number(number: Option<f64>) -> Self {
        number
            .filter(|number| number.is_finite())
            .map_or(Self::Empty, Self::Number)
    }

    /// A fraction, or nothing.
    #[must_use]
    pub fn share(share: Option<f64>) -> Self {
        share.filter(|share| share.is_finite()).map_or(Self::Empty, Self::Share)
    }

    /// A day, or nothing.
    #[must_use]
    pub fn date(date: Option<Date>) -> Self {
        date.map_or(Self::Empty, Self::Date)
    }
}
