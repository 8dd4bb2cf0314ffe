//! A sheet into the bytes of a PNG.

use std::sync::{Arc, LazyLock};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{self, Tree, fontdb};

use super::sheet::{HEIGHT, Sheet, WIDTH};
use super::typeface::Weight;

/// A picture that could not be drawn: an error of ours, never of the facts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Undrawn(String);

impl std::fmt::Display for Undrawn {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "the picture could not be drawn: {}", self.0)
    }
}

impl std::error::Error for Undrawn {}

static OPTIONS: LazyLock<usvg::Options<'static>> = LazyLock::new(|| {
    let mut fonts = fontdb::Database::new();
    for weight in Weight::ALL {
        fonts.load_font_source(fontdb::Source::Binary(Arc::new(weight.file())));
    }
    usvg::Options {
        fontdb: Arc::new(fonts),
        ..usvg::Options::default()
    }
});

/// Draws a sheet. Tens of milliseconds of one core: not on a thread that answers,
/// and one at a time, since each holds its 3.5 MB of pixels and as much again.
///
/// # Errors
/// [`Undrawn`] when our SVG is not one.
pub fn png(sheet: &Sheet) -> Result<Vec<u8>, Undrawn> {
    let tree = Tree::from_str(&sheet.svg(), &OPTIONS).map_err(|error| Undrawn(error.to_string()))?;
    let mut pixels = Pixmap::new(WIDTH, HEIGHT).ok_or_else(|| Undrawn("no room for its pixels".to_owned()))?;
    resvg::render(&tree, Transform::default(), &mut pixels.as_mut());
    pixels.encode_png().map_err(|error| Undrawn(error.to_string()))
}
