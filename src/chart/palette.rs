//! The colours: few, told apart by lightness too, so that they hold in grey, in the
//! sun and for eyes that do not tell red from green.
//!
//! Blue against rust is the pair that all common kinds of colour blindness keep
//! apart; both are dark, so each comes with its own shape as well.

/// A colour of sRGB.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub u8, pub u8, pub u8);

/// The ground of every sheet.
pub const GROUND: Colour = Colour(0xFF, 0xFF, 0xFF);
/// Headlines, figures, readings, the floor.
pub const INK: Colour = Colour(0x0E, 0x14, 0x1B);
/// What is said in a lower voice: axes.
pub const QUIET: Colour = Colour(0x35, 0x40, 0x4C);
/// Thin lines of the grid.
pub const RULE: Colour = Colour(0xA9, 0xB2, 0xBD);
/// What is known: the trend, a good membrane.
pub const BLUE: Colour = Colour(0x0A, 0x4C, 0x9C);
/// The range of what is known, or its amount.
pub const PALE: Colour = Colour(0xC3, 0xD8, 0xF0);
/// The range of what is ahead.
pub const PALEST: Colour = Colour(0xE1, 0xEC, 0xF8);
/// Act now, and nothing else: worn out, a leak, resin used up.
pub const RUST: Colour = Colour(0x8F, 0x34, 0x00);
/// Behind the first job.
pub const SAND: Colour = Colour(0xFB, 0xE6, 0xD3);
/// Below the floor.
pub const STONE: Colour = Colour(0xE6, 0xE9, 0xED);
/// Far below it.
pub const STONE_DARK: Colour = Colour(0xCD, 0xD3, 0xDA);

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

    /// Whether words cannot stand on it.
    #[must_use]
    pub fn is_dark(self) -> bool {
        self.luminance() < 0.4
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
    fn words_stand_out_from_every_pale_ground() {
        for word in [INK, QUIET, BLUE, RUST] {
            for ground in [GROUND, PALEST, SAND, STONE] {
                let contrast = word.contrast(ground);
                assert!(contrast >= LEAST, "{word} on {ground}: {contrast:.2}");
            }
        }
        assert!(INK.contrast(STONE_DARK) >= LEAST && INK.contrast(PALE) >= LEAST);
    }

    #[test]
    fn what_lies_upon_each_other_differs_in_grey() {
        for (above, below) in [
            (BLUE, PALE),
            (RUST, STONE),
            (INK, STONE_DARK),
            (RULE, GROUND),
            (RULE, STONE),
        ] {
            let contrast = above.contrast(below);
            assert!(contrast >= 1.5, "{above} on {below}: {contrast:.2}");
        }
    }
}
