//! A typed setting cut into words, numbers and signs, each with its own text.

use deunicode::deunicode;

/// A word, a number or a sign.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece<'a> {
    /// Plain and small; a number as typed.
    pub plain: String,
    /// Where it stands in the text.
    start: usize,
    end: usize,
    text: &'a str,
}

/// The text that some pieces stand in, as it was typed.
pub fn typed<'a>(pieces: &[Piece<'a>]) -> &'a str {
    match (pieces.first(), pieces.last()) {
        (Some(first), Some(last)) => first.text.get(first.start..last.end).unwrap_or_default(),
        _ => "",
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Class {
    Number,
    Word,
    Sign,
    Space,
}

/// Cuts a text; none for a question, which sets nothing.
pub fn cut(text: &str) -> Option<Vec<Piece<'_>>> {
    if text.contains(['?', '¿']) {
        return None;
    }
    let letters: Vec<(usize, char)> = text.char_indices().collect();
    let class_at = |at: usize| letters.get(at).map(|(_, letter)| class(*letter));
    let mut pieces = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        let kind = class(letters[at].1);
        let first = at;
        at += 1;
        while let Some(next) = class_at(at) {
            let mark = kind == Class::Number && matches!(letters[at].1, '.' | ',' | ':');
            let inside = mark && class_at(at + 1) == Some(Class::Number);
            if kind == Class::Sign || (next != kind && !inside) {
                break;
            }
            at += 1;
        }
        let (start, end) = (letters[first].0, letters.get(at).map_or(text.len(), |(end, _)| *end));
        let plain = plain(&text[start..end], kind);
        if kind != Class::Space && !matches!(plain.as_str(), "" | "." | "!" | ";" | ":") {
            pieces.push(Piece {
                plain,
                start,
                end,
                text,
            });
        }
    }
    Some(pieces)
}

fn class(letter: char) -> Class {
    match letter {
        _ if letter.is_ascii_digit() => Class::Number,
        _ if letter.is_alphabetic() || matches!(letter, '\'' | '’') => Class::Word,
        _ if letter.is_whitespace() => Class::Space,
        _ => Class::Sign,
    }
}

fn plain(text: &str, class: Class) -> String {
    match (class, text) {
        (Class::Word, _) => {
            let micro = text.replace(['µ', 'μ'], "u");
            let mut plain = deunicode(&micro).to_lowercase();
            plain.retain(|letter| letter.is_ascii_alphanumeric());
            plain
        }
        (Class::Sign, "–" | "—") => "-".to_owned(),
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_and_signs_come_apart_from_numbers() {
        let plain = |text| -> Vec<String> {
            cut(text)
                .unwrap_or_default()
                .into_iter()
                .map(|piece| piece.plain)
                .collect()
        };
        assert_eq!(plain("Resin $9.50/L"), ["resin", "$", "9.50", "/", "l"]);
        assert_eq!(plain("quiet 20:00-7:00."), ["quiet", "20:00", "-", "7:00"]);
        assert_eq!(plain("línea 85%"), ["linea", "85", "%"]);
        assert_eq!(plain("medidor µS 0,5"), ["medidor", "us", "0,5"]);
        assert_eq!(cut("resin costs 9?"), None);
    }

    #[test]
    fn the_typed_text_is_kept() {
        let pieces = cut("Heron also called  Big  Bird ").unwrap_or_default();
        assert_eq!(typed(&pieces[3..]), "Big  Bird");
        assert_eq!(typed(&pieces[..1]), "Heron");
    }
}
