//! The names of rigs: how they are compared, and which can be one.

use deunicode::deunicode;

use crate::domain::name::is_hidden;
use crate::message::command;

/// A name as it is compared: letters and digits alone, plain and small. What
/// is neither is dropped first, since an emoji would fold to a word.
pub(super) fn fold(name: &str) -> String {
    let letters: String = name.chars().filter(|letter| letter.is_alphanumeric()).collect();
    deunicode(&letters)
        .to_lowercase()
        .chars()
        .filter(char::is_ascii_alphanumeric)
        .collect()
}

/// A name as an owner may give it: none if it could not be told from a reading.
pub(super) fn proper_name(typed: &str) -> Option<String> {
    let name = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let folded = fold(&name);
    let readable = (1..=30).contains(&name.chars().count()) && !name.chars().any(is_hidden);
    let told_from_a_number = folded.chars().any(|letter| letter.is_ascii_alphabetic());
    // "help 180 12" must stay a reading, and "help" a command.
    if !readable || !told_from_a_number || command::read(&name).is_some() {
        return None;
    }
    let small = name.chars().all(|letter| !letter.is_uppercase());
    Some(if small { capitalised(&name) } else { name })
}

fn capitalised(name: &str) -> String {
    let word = |word: &str| {
        let mut letters = word.chars();
        letters.next().map_or_else(String::new, |first| {
            first.to_uppercase().chain(letters).collect::<String>()
        })
    };
    name.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_by_letters_and_digits() {
        for (name, folded) in [
            ("Big Blue", "bigblue"),
            ("Nº 7", "nº7"),
            ("Señor 🐢", "senor"),
            ("van-3", "van3"),
        ] {
            assert_eq!(fold(name), deunicode(folded).to_lowercase(), "{name}");
        }
    }

    #[test]
    fn a_name_must_be_told_from_a_number() {
        assert_eq!(proper_name("heron").as_deref(), Some("Heron"));
        assert_eq!(proper_name("  big   blue ").as_deref(), Some("Big Blue"));
        assert_eq!(proper_name("MULE").as_deref(), Some("MULE"));
        for bad in [
            "",
            "12",
            "🐢",
            "help",
            "History",
            "deshacer",
            "my\u{202e}rig",
            "a very long name that nobody would ever thumb",
        ] {
            assert_eq!(proper_name(bad), None, "{bad}");
        }
    }
}
