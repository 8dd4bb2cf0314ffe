//! Names as people list them. In Spanish "y" and "o" give way before a name
//! that begins with their own sound: "Mula e Ibis", "Garza u Otter".

use super::Words;

/// All of them: `Heron, Mule and Otter`.
pub fn listed(words: Words, names: &[&str]) -> String {
    joined(words, names, |last| {
        let before_i = words.plain("and-before-i");
        let and = if begins_with_i(last) {
            before_i
        } else {
            words.plain("and")
        };
        ("list-and", and)
    })
}

/// One of them: `Heron, Mule or Otter`.
pub fn either(words: Words, names: &[&str]) -> String {
    joined(words, names, |last| {
        let before_o = words.plain("or-before-o");
        let or = if begins_with_o(last) {
            before_o
        } else {
            words.plain("or")
        };
        ("list-or", or)
    })
}

fn joined(words: Words, names: &[&str], link: impl Fn(&str) -> (&'static str, String)) -> String {
    match names {
        [] => String::new(),
        [only] => (*only).to_owned(),
        [first @ .., last] => {
            let (key, link) = link(last);
            let first = first.join(", ");
            words.say(
                key,
                [
                    ("first", (&first).into()),
                    ("link", (&link).into()),
                    ("last", (*last).into()),
                ],
            )
        }
    }
}

/// Whether a name begins with the vowel i as it is spoken in Spanish. "Hiena"
/// and "yegua" begin with the consonant instead.
fn begins_with_i(name: &str) -> bool {
    let mut letters = spoken(name);
    let vowel = |letter: char| "aeouáéóú".contains(letter);
    match (letters.next(), letters.next()) {
        (Some('í'), _) => true,
        (Some('i'), next) => !next.is_some_and(vowel),
        (Some('y'), next) => !next.is_some_and(|letter| vowel(letter) || letter == 'i'),
        _ => false,
    }
}

/// Whether a name begins with the vowel o as it is spoken in Spanish; a number
/// may too, as in "ocho" and "once".
fn begins_with_o(name: &str) -> bool {
    let digits: String = name.chars().take_while(char::is_ascii_digit).collect();
    if !digits.is_empty() {
        // 80 and 811 begin as 8 does; 11 and 11,000 alone begin as "once".
        let head = &digits[..(digits.len() - 1) % 3 + 1];
        return head.starts_with('8') || head == "11";
    }
    matches!(spoken(name).next(), Some('o' | 'ó'))
}

/// The letters of a name from its first sound on, small; an h is silent.
fn spoken(name: &str) -> impl Iterator<Item = char> {
    let small = name.to_lowercase();
    let from = small.find(char::is_alphanumeric).unwrap_or(small.len());
    let heard = small[from..].to_owned();
    let silent = usize::from(heard.starts_with('h'));
    heard.chars().skip(silent).collect::<Vec<_>>().into_iter()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Real Academia Española and ASALE, Diccionario panhispánico de dudas
    /// (2005), entries "y²" and "o²"; the rule and its examples hielo, hiena,
    /// iones and "700 u 800" from memory, the names are ours.
    #[test]
    fn spanish_and_gives_way_before_the_sound_i() {
        let spanish = Words::of(Some("es"));
        for (last, told) in [
            ("Ibis", "Mula e Ibis"),
            ("Íbice", "Mula e Íbice"),
            ("Hidra", "Mula e Hidra"),
            ("Yllana", "Mula e Yllana"),
            ("Y", "Mula e Y"),
            ("Hiena", "Mula y Hiena"),
            ("Hielo", "Mula y Hielo"),
            ("iones", "Mula y iones"),
            ("Yegua", "Mula y Yegua"),
            ("Otter", "Mula y Otter"),
            ("8", "Mula y 8"),
            ("\"Ibis\"", "Mula e \"Ibis\""),
        ] {
            assert_eq!(listed(spanish, &["Mula", last]), told);
        }
        assert_eq!(listed(spanish, &["Garza", "Mula", "Ibis"]), "Garza, Mula e Ibis");
        assert_eq!(listed(spanish, &["Ibis", "Mula"]), "Ibis y Mula");
        assert_eq!(listed(Words::of(None), &["Mule", "Ibis"]), "Mule and Ibis");
    }

    /// The same source, "o²".
    #[test]
    fn spanish_or_gives_way_before_the_sound_o() {
        let spanish = Words::of(Some("es"));
        for (last, told) in [
            ("Otter", "Heron u Otter"),
            ("Óscar", "Heron u Óscar"),
            ("Hornero", "Heron u Hornero"),
            ("8", "Heron u 8"),
            ("800", "Heron u 800"),
            ("11", "Heron u 11"),
            ("11000", "Heron u 11000"),
            ("18", "Heron o 18"),
            ("110", "Heron o 110"),
            ("Mula", "Heron o Mula"),
            ("Ibis", "Heron o Ibis"),
            ("", "Heron o "),
        ] {
            assert_eq!(either(spanish, &["Heron", last]), told);
        }
        assert_eq!(either(Words::of(None), &["Heron", "Otter"]), "Heron or Otter");
    }
}
