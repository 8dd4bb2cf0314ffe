//! The command that a text was meant to be, though it is none: half typed, or
//! with something behind it that cannot be.

use super::wording;

/// Behind a command's words stands no more than a name.
const MORE_WORDS: usize = 3;
/// Longer texts are talk.
const LETTERS: usize = 120;

/// What a text seems to have been meant as: the key of the tables' `try/`
/// lines, and what stands behind its words.
pub fn nearest(text: &str) -> Option<(&'static str, &str)> {
    let text = text.trim().trim_matches(['¿', '?', '/', '.', '!']).trim();
    if text.len() > LETTERS {
        return None;
    }
    let ends: Vec<usize> = text
        .char_indices()
        .filter(|(_, letter)| letter.is_whitespace())
        .map(|(at, _)| at)
        .chain([text.len()])
        .collect();
    let words = ends.len();
    (1..=words).rev().find_map(|count| {
        let said = text.get(..ends[count - 1])?;
        let key = wording::named("try", said).or_else(|| wording::slip_of("try", said).filter(|_| count > 1))?;
        let rest = text.get(ends[count - 1]..)?.trim();
        (words - count <= MORE_WORDS).then_some((key, rest))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_half_typed_is_recognised() {
        for (text, meant) in [
            ("add rig", Some(("add rigs", ""))),
            ("ad rig lynx", Some(("add rigs", "lynx"))),
            ("make bob boss", Some(("roles", "bob boss"))),
            ("Picture wolf?", Some(("picture", "wolf"))),
            ("resin picture", Some(("resin picture", ""))),
            ("what does foo mean?", Some(("words", "foo mean"))),
            ("agregar equipo", Some(("add rigs", ""))),
            ("hacer jefe a bob", Some(("roles", "jefe a bob"))),
            ("imagen lobo", Some(("picture", "lobo"))),
            ("heron 180 12", None),
            ("remove the old filter from the van", None),
            ("", None),
            ("¿?", None),
        ] {
            assert_eq!(nearest(text), meant, "{text}");
        }
    }
}
