//! The top of a picture: its headline, its mark, the line beneath.

use super::mark::Mark;
use super::palette::{INK, QUIET};
use super::sheet::{Anchor, LEFT, RIGHT, SMALLEST, Sheet, Style, headline_left};
use super::typeface::{self, Weight};

impl Sheet {
    /// The headline, which is the finding, with its mark, and the line beneath it.
    #[must_use]
    pub fn titled(headline: &str, subline: &str, mark: Option<Mark>) -> Self {
        let mut sheet = Self::default();
        if let Some(mark) = mark {
            mark.draw(&mut sheet, (72.0, 64.0), 1.28);
        }
        // What is long is set smaller before it is cut.
        for (text, x, y, size, weight, ink) in [
            (headline, headline_left(mark.is_some()), 84.0, 66.0, Weight::Heavy, INK),
            (subline, LEFT, 144.0, 46.0, Weight::Medium, QUIET),
        ] {
            let size = typeface::fitting_size(text, size, SMALLEST, weight, RIGHT - x);
            sheet.text((x, y), Style::of(size, weight, ink), Anchor::Start, text, RIGHT - x);
        }
        sheet
    }
}
