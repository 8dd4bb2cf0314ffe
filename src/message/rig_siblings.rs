//! Rigs that share the head of their names: "both vans", "A and B trailers", and "trailer c" or "van 3" where there is none.

use super::languages::TABLES;
use super::number_words::value_of;
use super::rig_name::{Mention, Name, Sure, is_digits, text_of, typed};
use super::senses::Sense;
use super::tokens::{Kind, Number, Token};

/// "vans", "vans 1 and 3", "A and B trailers"
pub(super) fn group(tokens: &[Token], names: &[Name], found: &mut Vec<Token>) -> Option<(Mention, usize)> {
    let head = tokens[0].word()?.strip_suffix('s').filter(|head| head.len() >= 3)?;
    let siblings: Vec<&Name> = names.iter().filter(|name| name.parts[0] == head).collect();
    if siblings.len() < 2 {
        return None;
    }
    let by_suffix = |token: &Token| {
        let text = text_of(token);
        siblings
            .iter()
            .find(|name| !text.is_empty() && name.parts[1..].concat() == text)
            .map(|name| name.rig)
    };
    let links = |token: &Token| {
        token.is_any_mark(",&+") || token.word().is_some_and(|word| TABLES.senses(word).has(Sense::Joins))
    };
    let mut rigs: Vec<i64> = Vec::new();
    let mut used = 1;
    while let Some(rig) = tokens.get(used).and_then(by_suffix) {
        rigs.push(rig);
        used += 1;
        if !(tokens.get(used).is_some_and(links) && tokens.get(used + 1).and_then(by_suffix).is_some()) {
            break;
        }
        used += 1;
    }
    if rigs.is_empty() {
        let mut from = found.len();
        while from > 0 && (by_suffix(&found[from - 1]).is_some() || links(&found[from - 1])) {
            from -= 1;
        }
        rigs.extend(found.drain(from..).filter_map(|token| by_suffix(&token)));
    }
    let all_of_them = !rigs.is_empty()
        || found
            .last()
            .and_then(Token::word)
            .is_some_and(|word| TABLES.senses(word).has_any(&[Sense::Both, Sense::All]));
    if rigs.is_empty() {
        rigs = siblings.iter().map(|name| name.rig).collect();
    }
    Some((
        Mention {
            rigs,
            sure: Sure::Part,
            all_of_them,
            typed: typed(&tokens[..used]),
        },
        used,
    ))
}

/// "rig 1 and 2 flushed": one head and two suffixes, with no pair behind that the second could belong to.
pub(super) fn two(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    let head = tokens[0].word().filter(|head| head.len() >= 3)?;
    let by_suffix = |token: &Token| {
        let text = text_of(token);
        names
            .iter()
            .filter(|name| name.parts[0] == head && name.parts.len() > 1)
            .find(|name| !text.is_empty() && name.parts[1..].concat() == text)
            .map(|name| name.rig)
    };
    let [_, first, link, second, rest @ ..] = tokens else {
        return None;
    };
    let links = link.is_mark('&') || link.word().is_some_and(|word| TABLES.senses(word).has(Sense::Joins));
    let rigs = vec![by_suffix(first)?, by_suffix(second)?];
    let numbers = rest.iter().take(3).any(|token| token.number().is_some());
    (links && !numbers && rigs[0] != rigs[1]).then(|| {
        let typed = typed(&tokens[..4]);
        let mention = Mention {
            rigs,
            sure: Sure::Part,
            all_of_them: true,
            typed,
        };
        (mention, 4)
    })
}

/// "trailer c", "van 4 190/14": the name goes on with what no rig of this name has.
pub(super) fn has_strange_suffix(tokens: &[Token], end: usize, mention: &Mention, names: &[Name]) -> bool {
    let Some(head) = mention.typed.split(' ').next() else {
        return false;
    };
    let siblings = names
        .iter()
        .filter(|name| name.parts.len() > 1 && name.parts[0] == head);
    let (digits, letters): (Vec<&Name>, Vec<&Name>) = siblings.partition(|name| is_digits(&name.parts[1]));
    let whole_has_digits = mention.typed.bytes().any(|byte| byte.is_ascii_digit());
    let has_suffix = mention.typed.split(' ').count() > 1;
    match tokens.get(end).map(|token| &token.kind) {
        Some(Kind::Number(number)) if !digits.is_empty() && !whole_has_digits => {
            let suffix = Number::is_short_whole(number);
            let begins_name = |token: &&Token| {
                token
                    .word()
                    .is_some_and(|word| names.iter().any(|name| name.parts[0] == word))
            };
            let is_number = |token: &&Token| token.number().is_some();
            let behind = tokens[end + 1..].iter().take_while(|token| !begins_name(token));
            let more = behind.filter(is_number).count();
            let others = tokens.iter().filter(is_number).count() - 1;
            suffix && (more >= 2 || others == 0)
        }
        // "van seven one eighty"
        Some(Kind::Word(word)) if !digits.is_empty() && !has_suffix && is_small_number_word(word) => tokens
            .get(end + 1)
            .and_then(Token::word)
            .is_some_and(|next| value_of(next).is_some_and(|next| next < 10.0)),
        Some(Kind::Word(word)) if letters.iter().any(|name| name.parts[1].len() == 1) && !has_suffix => {
            let labels_number = tokens
                .get(end + 1)
                .is_some_and(|next| next.glued && next.number().is_some());
            word.len() == 1 && !labels_number && !TABLES.senses(word).has(Sense::LetterLabel)
        }
        _ => false,
    }
}

/// "van 3 is 160/8" where no rig is called van or 3: a name, since a pair stands beside it.
pub(super) fn numbered_stranger(tokens: &[Token], at: usize, names: &[Name]) -> Option<(Mention, usize)> {
    let [vehicle, number, rest @ ..] = tokens.get(at..)? else {
        return None;
    };
    let digits = &number.number().filter(|number| number.is_short_whole())?.digits;
    let is_vehicle = TABLES.senses(vehicle.word()?).has(Sense::Vehicle);
    let known = names.iter().any(|name| {
        name.parts.len() > 1 && (name.parts.contains(digits) || Some(name.parts[0].as_str()) == vehicle.word())
    });
    let in_pair = rest
        .first()
        .is_some_and(|next| next.is_any_mark("/.") || next.glued && next.word().is_some());
    let others = tokens.iter().filter(|token| token.number().is_some()).count() - 1;
    (is_vehicle && !known && !in_pair && others == 2).then(|| {
        let mention = Mention {
            rigs: Vec::new(),
            sure: Sure::Full,
            all_of_them: false,
            typed: typed(&tokens[at..at + 2]),
        };
        (mention, 2)
    })
}

fn is_small_number_word(word: &str) -> bool {
    value_of(word).is_some_and(|value| (1.0..=20.0).contains(&value))
}
