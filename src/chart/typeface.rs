//! The one typeface: which letters it has, how wide they are, and how a text is
//! made to fit both.
//!
//! Fira Sans (SIL Open Font License 1.1, see `typeface/`): a plain zero, and digits that
//! are told apart when small. It is cut down to the letters of Western and Central
//! European languages, without the ligature of f and i, whose dot is lost. No font of the
//! machine is used, so a picture is the same everywhere.

use std::sync::LazyLock;

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider};

/// The family's name, as the SVG asks for it.
pub const FAMILY: &str = "Fira Sans";

/// How bold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// What is quiet: axes, grounds.
    Medium,
    /// What is said: words beside things.
    Semi,
    /// What is found: headlines, names, figures.
    Heavy,
}

impl Weight {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Medium, Self::Semi, Self::Heavy];

    /// As CSS counts it.
    #[must_use]
    pub fn css(self) -> u16 {
        match self {
            Self::Medium => 500,
            Self::Semi => 600,
            Self::Heavy => 800,
        }
    }

    /// The font file.
    #[must_use]
    pub fn file(self) -> &'static [u8] {
        match self {
            Self::Medium => include_bytes!("typeface/FiraSans_500Medium.ttf"),
            Self::Semi => include_bytes!("typeface/FiraSans_600SemiBold.ttf"),
            Self::Heavy => include_bytes!("typeface/FiraSans_800ExtraBold.ttf"),
        }
    }
}

/// The sign for what was left out.
const ELLIPSIS: char = '\u{2026}';
/// More letters than any line holds.
const MOST_LETTERS: usize = 200;
/// Stands for a text of which no letter can be drawn.
const NAMELESS: &str = "?";

/// A letter's measures, in shares of the size: how far it advances, and how far it
/// reaches above and below the line.
#[derive(Clone, Copy)]
struct Letter {
    advance: f32,
    above: f32,
    below: f32,
}

struct Face {
    /// The letters that our languages are written in, by number.
    near: Vec<Option<Letter>>,
    font: FontRef<'static>,
}

/// Numbers of the letters that are looked up once: Latin with its accents.
const NEAR: u32 = 0x250;

static FACES: LazyLock<[Option<Face>; 3]> = LazyLock::new(|| {
    Weight::ALL.map(|weight| {
        let font = FontRef::new(weight.file()).ok()?;
        let near = (0..NEAR)
            .map(|number| measure(&font, char::from_u32(number)?))
            .collect();
        Some(Face { near, font })
    })
});

fn measure(font: &FontRef<'_>, letter: char) -> Option<Letter> {
    let units = f32::from(font.metrics(Size::unscaled(), LocationRef::default()).units_per_em);
    let glyph = font.charmap().map(letter)?;
    let metrics = font.glyph_metrics(Size::unscaled(), LocationRef::default());
    let bounds = metrics.bounds(glyph).unwrap_or_default();
    Some(Letter {
        advance: metrics.advance_width(glyph)? / units,
        above: bounds.y_max / units,
        below: -bounds.y_min / units,
    })
}

fn letter_in(weight: Weight, letter: char) -> Option<Letter> {
    let face = FACES[weight as usize].as_ref()?;
    match face.near.get(letter as usize) {
        Some(letter) => *letter,
        None => measure(&face.font, letter),
    }
}

/// Whether the typeface has a character, in every weight.
#[must_use]
pub fn has(letter: char) -> bool {
    Weight::ALL.iter().all(|&weight| letter_in(weight, letter).is_some())
}

/// Width of a text in pixels, without kerning (which is mostly negative: a pixel or
/// two less in a line).
#[must_use]
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    let letters = text.chars().filter_map(|letter| letter_in(weight, letter));
    f64::from(letters.map(|letter| letter.advance).sum::<f32>()) * size
}

/// How far a text reaches above and below its line, pixels.
#[must_use]
pub fn reach(text: &str, size: f64, weight: Weight) -> (f64, f64) {
    let letters = text.chars().filter_map(|letter| letter_in(weight, letter));
    let (above, below) = letters.fold((0.0_f32, 0.0_f32), |(above, below), letter| {
        (above.max(letter.above), below.max(letter.below))
    });
    (f64::from(above) * size, f64::from(below) * size)
}

/// The largest size, from `largest` down to `smallest`, at which a text fits; the
/// smallest if none does.
#[must_use]
pub fn fitting_size(text: &str, largest: f64, smallest: f64, weight: Weight, room: f64) -> f64 {
    let whole = width(&drawable(text), 1.0, weight).max(1e-9);
    (((room / whole).min(largest) / 2.0).floor() * 2.0).max(smallest)
}

/// A text in letters that the typeface has: others are spelled in plain letters
/// where there is a spelling, and left out where there is none (emoji, marks of
/// writing direction), so that no hollow box is ever drawn.
#[must_use]
pub fn drawable(text: &str) -> String {
    let mut drawn = String::new();
    for letter in text.chars().take(MOST_LETTERS) {
        if letter.is_whitespace() {
            drawn.push(' ');
        } else if has(letter) && !is_mark(letter) {
            drawn.push(letter);
        } else if letter.is_alphanumeric() || letter.is_ascii_punctuation() || is_sign(letter) {
            let spelled = deunicode::deunicode_char(letter).unwrap_or_default();
            drawn.extend(spelled.chars().filter(|&letter| has(letter)));
        }
    }
    let words: Vec<&str> = drawn.split_whitespace().collect();
    if words.is_empty() && !text.trim().is_empty() {
        return NAMELESS.to_owned();
    }
    words.join(" ")
}

/// Accents that would be set above the letter before, and could be piled up.
fn is_mark(letter: char) -> bool {
    matches!(letter, '\u{0300}'..='\u{036F}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}')
}

/// Signs that people use in writing, as against pictures: dashes, quotes, arrows,
/// currencies, fractions.
fn is_sign(letter: char) -> bool {
    matches!(letter, '\u{00A0}'..='\u{00FF}' | '\u{2010}'..='\u{2027}' | '\u{2030}'..='\u{205E}' | '\u{20A0}'..='\u{20CF}' | '\u{2190}'..='\u{2193}' | '\u{2200}'..='\u{22FF}')
}

/// A drawable text that is at most `room` pixels wide, shortened with an ellipsis.
#[must_use]
pub fn fitted(text: &str, size: f64, weight: Weight, room: f64) -> String {
    let text = drawable(text);
    if width(&text, size, weight) <= room {
        return text;
    }
    let mut left = room - width(&ELLIPSIS.to_string(), size, weight);
    let fits = |&(_, letter): &(usize, char)| {
        left -= width(letter.encode_utf8(&mut [0; 4]), size, weight);
        left >= 0.0
    };
    let end = text.char_indices().take_while(fits).last();
    let kept = end.map_or("", |(at, letter)| &text[..at + letter.len_utf8()]);
    format!("{}{ELLIPSIS}", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_letters_of_our_languages_are_there() {
        let letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,:;!?()/%&+-–'\"\
                       ÁÉÍÓÚÜÑáéíóúüñ¡¿ÀÂÇÈÊËÎÏÔÙÛàâçèêëîïôùûœŒĄĆĘŁŃÓŚŹŻąćęłńóśźż$€£¥°·…½";
        for letter in letters.chars() {
            assert!(has(letter), "{letter}");
        }
        assert!(!has('Ж') && !has('\u{1F6BF}'));
    }

    #[test]
    fn widths_are_those_of_the_font() {
        // Digits are of one width in this typeface's figures, and scale with the size.
        let one = width("0", 30.0, Weight::Medium);
        assert!((width("00", 30.0, Weight::Medium) - 2.0 * one).abs() < 1e-3);
        assert!((width("0", 60.0, Weight::Medium) - 2.0 * one).abs() < 1e-3);
        assert!(width("0", 30.0, Weight::Heavy) > one);
    }

    #[test]
    fn what_cannot_be_drawn_is_spelled_or_left_out() {
        for (text, drawn) in [
            ("Señor Garza 2", "Señor Garza 2"),
            ("Чайка", "Chaika"),
            ("\u{1F699} van", "van"),
            ("\u{1F699}", "?"),
            ("a\u{202E}b\u{200F}c", "abc"),
            ("Zal\u{0335}\u{0322}go", "Zalgo"),
            ("two\nlines\tand", "two lines and"),
            ("", ""),
        ] {
            assert_eq!(drawable(text), drawn, "{text:?}");
        }
    }

    #[test]
    fn a_long_text_ends_in_an_ellipsis_and_fits() {
        let text = "The trailer of the north yard with the green stripe";
        let short = fitted(text, 40.0, Weight::Semi, 300.0);
        assert!(
            short.ends_with('…') && width(&short, 40.0, Weight::Semi) <= 300.0,
            "{short}"
        );
        assert_eq!(fitted("Heron", 40.0, Weight::Semi, 300.0), "Heron");
    }
}
