//! The one typeface: which letters it has, how wide they are, and how a text is
//! made to fit both.
//!
//! Atkinson Hyperlegible Next (SIL Open Font License 1.1, see `typeface/`), drawn for
//! readers with low vision: 0 and O, 1 and l cannot be taken for each other. No font of
//! the machine is used, so a picture is the same everywhere.

use std::sync::LazyLock;

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider};

/// The family's name, as the SVG asks for it.
pub const FAMILY: &str = "Atkinson Hyperlegible Next";

/// How bold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// Axes and keys.
    Regular,
    /// Names, words beside things.
    Semi,
    /// Headlines and figures.
    Heavy,
}

impl Weight {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Regular, Self::Semi, Self::Heavy];

    /// As CSS counts it.
    #[must_use]
    pub fn css(self) -> u16 {
        match self {
            Self::Regular => 400,
            Self::Semi => 600,
            Self::Heavy => 800,
        }
    }

    /// The font file.
    #[must_use]
    pub fn file(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("typeface/AtkinsonHyperlegibleNext_400Regular.ttf"),
            Self::Semi => include_bytes!("typeface/AtkinsonHyperlegibleNext_600SemiBold.ttf"),
            Self::Heavy => include_bytes!("typeface/AtkinsonHyperlegibleNext_800ExtraBold.ttf"),
        }
    }
}

/// The sign for what was left out.
const ELLIPSIS: char = '\u{2026}';
/// More letters than any line holds.
const MOST_LETTERS: usize = 200;
/// Stands for a text of which no letter can be drawn.
const NAMELESS: &str = "?";

/// How far letters advance, in shares of the size.
struct Face {
    /// Of the letters that our languages are written in, by number.
    near: Vec<Option<f32>>,
    font: FontRef<'static>,
}

/// Numbers of the letters that are looked up once: Latin with its accents.
const NEAR: u32 = 0x250;

static FACES: LazyLock<[Option<Face>; 3]> = LazyLock::new(|| {
    Weight::ALL.map(|weight| {
        let font = FontRef::new(weight.file()).ok()?;
        let near = (0..NEAR)
            .map(|number| advance(&font, char::from_u32(number)?))
            .collect();
        Some(Face { near, font })
    })
});

fn advance(font: &FontRef<'_>, letter: char) -> Option<f32> {
    let units = font.metrics(Size::unscaled(), LocationRef::default()).units_per_em;
    let glyph = font.charmap().map(letter)?;
    let advance = font
        .glyph_metrics(Size::unscaled(), LocationRef::default())
        .advance_width(glyph)?;
    Some(advance / f32::from(units))
}

fn advance_in(weight: Weight, letter: char) -> Option<f32> {
    let face = FACES[weight as usize].as_ref()?;
    match face.near.get(letter as usize) {
        Some(advance) => *advance,
        None => advance(&face.font, letter),
    }
}

/// Whether the typeface has a character, in every weight.
#[must_use]
pub fn has(letter: char) -> bool {
    Weight::ALL.iter().all(|&weight| advance_in(weight, letter).is_some())
}

/// Width of a text in pixels, without kerning (which is mostly negative: a pixel or
/// two less in a line).
#[must_use]
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    let shares: f32 = text.chars().filter_map(|letter| advance_in(weight, letter)).sum();
    f64::from(shares) * size
}

/// The first of some sizes, from the largest down, at which a text fits; the last if
/// none does.
#[must_use]
pub fn fitting_size(text: &str, sizes: &[f64], weight: Weight, room: f64) -> f64 {
    let text = drawable(text);
    let fits = |&&size: &&f64| width(&text, size, weight) <= room;
    sizes.iter().find(fits).or(sizes.last()).copied().unwrap_or_default()
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

/// A drawable text in lines at most `room` pixels wide, broken between words; the
/// last of `lines` is shortened.
#[must_use]
pub fn broken(text: &str, size: f64, weight: Weight, room: f64, lines: usize) -> Vec<String> {
    let text = drawable(text);
    let mut rest = text.as_str();
    let mut broken = Vec::new();
    while broken.len() + 1 < lines && width(rest, size, weight) > room {
        let fits = |&(at, _): &(usize, &str)| width(&rest[..at], size, weight) <= room;
        let Some((at, _)) = rest.match_indices(' ').rfind(fits) else {
            break;
        };
        broken.push(rest[..at].to_owned());
        rest = rest[at..].trim_start();
    }
    broken.push(fitted(rest, size, weight, room));
    broken
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
        let one = width("0", 30.0, Weight::Regular);
        assert!((width("00", 30.0, Weight::Regular) - 2.0 * one).abs() < 1e-3);
        assert!((width("0", 60.0, Weight::Regular) - 2.0 * one).abs() < 1e-3);
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
        let lines = broken(text, 40.0, Weight::Semi, 400.0, 2);
        assert_eq!(lines.len(), 2);
        assert!(
            lines.iter().all(|line| width(line, 40.0, Weight::Semi) <= 400.0),
            "{lines:?}"
        );
    }
}
