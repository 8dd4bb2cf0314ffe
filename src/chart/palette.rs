//! The colours: few, told apart by lightness too, so that they hold in grey, in the
//! sun and for eyes that do not tell red from green.
//!
//! Blue against rust is the pair that all common kinds of colour blindness keep
//! apart; both are dark, so each comes with its own shape or hatching as well.

/// A colour of sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8);

/// The ground of every sheet.
pub const GROUND: Colour = Colour(0xFF, 0xFF, 0xFF);
/// Headlines, figures, readings, limits.
pub const INK: Colour = Colour(0x0E, 0x14, 0x1B);
/// What is said in a lower voice: axes, keys.
pub const QUIET: Colour = Colour(0x3D, 0x48, 0x55);
/// Thin lines of the grid.
pub const RULE: Colour = Colour(0xC3, 0xCA, 0xD3);
/// What is known and well: the trend, a sound membrane.
pub const BLUE: Colour = Colour(0x0A, 0x4C, 0x9C);
/// The band about the trend.
pub const BLUE_PALE: Colour = Colour(0xBC, 0xD3, 0xEE);
/// What is ahead or wants a hand.
pub const RUST: Colour = Colour(0x94, 0x36, 0x00);
/// The ground of a forecast.
pub const AMBER_PALE: Colour = Colour(0xFC, 0xDF, 0xB4);
/// A row that wants a hand.
pub const SAND: Colour = Colour(0xFB, 0xE9, 0xD8);
/// The ground of a limit zone, and its stripes.
pub const STONE: Colour = Colour(0xE3, 0xE6, 0xEA);
/// See [`STONE`].
pub const STONE_DARK: Colour = Colour(0xB4, 0xBB, 0xC5);

/// Letters on the ground that they may stand on; a test holds each pair to the contrast.
pub const PAIRS: [(Colour, Colour); 10] = [
    (INK, GROUND),
    (QUIET, GROUND),
    (BLUE, GROUND),
    (RUST, GROUND),
    (INK, SAND),
    (QUIET, SAND),
    (RUST, SAND),
    (BLUE, SAND),
    (INK, STONE),
    (INK, BLUE_PALE),
];

impl std::fmt::Display for Colour {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "#{:02X}{:02X}{:02X}", self.0, self.1, self.2)
    }
}

impl Colour {
    /// Relative luminance, 0 for black and 1 for white.
    ///
    /// # References
    /// WCAG 2.2, "relative luminance" (glossary of <https://www.w3.org/TR/WCAG22/>).
    #[must_use]
    pub fn luminance(self) -> f64 {
        let linear = |part: u8| {
            let part = f64::from(part) / 255.0;
            if part <= 0.04045 {
                part / 12.92
            } else {
                ((part + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * linear(self.0) + 0.7152 * linear(self.1) + 0.0722 * linear(self.2)
    }

    /// Contrast with another colour, 1 to 21.
    ///
    /// # References
    /// WCAG 2.2, "contrast ratio": (L1 + 0.05)/(L2 + 0.05). Black on white is 21;
    /// #767676 on white is the lightest grey of at least 4.5, 4.54.
    #[must_use]
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What we ask: between WCAG's 4.5 (AA) and 7 (AAA), for a screen in the sun.
    const LEAST: f64 = 5.8;

    #[test]
    fn contrast_is_that_of_the_standard() {
        let black = Colour(0, 0, 0);
        assert!((black.contrast(GROUND) - 21.0).abs() < 1e-9);
        let grey = Colour(0x76, 0x76, 0x76);
        assert!(
            (grey.contrast(GROUND) - 4.54).abs() < 0.005,
            "{}",
            grey.contrast(GROUND)
        );
        assert!((GROUND.contrast(GROUND) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn every_letter_stands_out_from_its_ground() {
        for (letter, ground) in PAIRS {
            let contrast = letter.contrast(ground);
            assert!(contrast >= LEAST, "{letter} on {ground}: {contrast:.2}");
        }
    }

    #[test]
    fn what_lies_upon_each_other_differs_in_grey() {
        for (above, below) in [
            (BLUE, BLUE_PALE),
            (RUST, AMBER_PALE),
            (INK, STONE_DARK),
            (STONE_DARK, STONE),
        ] {
            let contrast = above.contrast(below);
            assert!(contrast >= 1.5, "{above} on {below}: {contrast:.2}");
        }
    }
}
