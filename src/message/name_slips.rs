//! How far a typed word is from a word of a rig's name, and names cut short before their number.

use super::languages::{TABLES, one_slip_apart};
use super::rig_name::{Name, rigs_with};
use super::senses::Sense;
use super::tokens::Token;

/// 0, 1, or none when it is another word. Ordinary words are no slips, unless the rest of the name stands beside.
pub(super) fn slips_between(word: &str, part: &str, one_of_many: bool) -> Option<u8> {
    if word == part {
        return Some(0);
    }
    let number_sign = |word: &str| word == "n" || TABLES.senses(word).has(Sense::NumberSign);
    if part.len() <= 3 && number_sign(part) && number_sign(word) {
        return Some(0);
    }
    // "trlr b": a word of a name without its vowels
    if word.len() >= 3 && part.len() >= word.len() + 2 && is_skeleton(word, part) && !TABLES.is_ordinary(word) {
        return Some(1);
    }
    // "furgoneta 3" for "Furgo 3"
    if one_of_many && part.len() >= 5 && word.starts_with(part) {
        return Some(1);
    }
    if word.len() < 3 {
        return None;
    }
    let swapped = word.len() == 3 && part.len() == 3 && word.as_bytes()[0] == part.as_bytes()[0];
    if word.len() == 3 && !(one_of_many && swapped) {
        return None;
    }
    let long = word.len().min(part.len()) >= 6 && word.as_bytes()[0] == part.as_bytes()[0];
    let near = part.len() >= 3 && one_slip_apart(word.as_bytes(), part.as_bytes())
        || long && strsim::osa_distance(word, part) == 2;
    // The tables are asked last: few words come near a name.
    let ordinary = |word: &str| {
        if one_of_many {
            !TABLES.senses(word).is_empty()
        } else {
            TABLES.is_ordinary(word)
        }
    };
    (near && !ordinary(word)).then_some(1)
}

/// Whether `word` is the consonants of `part`, behind its first letter.
fn is_skeleton(word: &str, part: &str) -> bool {
    let vowel = |byte: u8| matches!(byte, b'a' | b'e' | b'i' | b'o' | b'u');
    let mut letters = part.bytes().enumerate().filter(|&(at, byte)| at == 0 || !vowel(byte));
    part.is_ascii()
        && word
            .bytes()
            .all(|byte| letters.next().is_some_and(|(_, letter)| letter == byte))
        && letters.next().is_none()
}

/// "cam 3": the beginning of a name, and its number.
pub(super) fn shortened(word: &str, tokens: &[Token], names: &[Name]) -> Option<Vec<i64>> {
    let number = tokens.get(1)?.number().filter(|number| number.is_short_whole())?;
    let fits = |name: &Name| name.parts.len() == 2 && name.parts[0].starts_with(word) && name.parts[1] == number.digits;
    let rigs = rigs_with(names, fits);
    (word.len() == 3 && !TABLES.is_ordinary(word) && rigs.len() == 1).then_some(rigs)
}
