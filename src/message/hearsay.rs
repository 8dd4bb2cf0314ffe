//! Values that are said, but hardly by one who has just read them from a meter: told by others, wished, remembered,
//! denied, guessed, or the number of some other thing. They are asked about.

use super::framing::{REACH, is_light};
use super::groups::Group;
use super::labels::Measured;
use super::senses::Sense;
use super::tokens::{Kind, Token};

/// Whether the words around the values of a group call for a question.
pub(super) fn is_doubtful(tokens: &[Token], group: &Group, measured: &[Measured]) -> bool {
    let (Some(first), Some(last)) = (measured.first(), measured.last()) else {
        return false;
    };
    let from = first.at;
    is_reported(tokens, from)
        || is_wished(tokens, from)
        || is_leading(tokens, from)
        || first.role.is_none() && last.role.is_none() && is_of_other_thing(tokens, from)
        || is_remembered(tokens, group, from)
        || is_taken_back(tokens, from, last.at)
        || is_left_open(tokens, last.at)
}

/// The tokens before the value up to the last mark or number, nearest first.
fn stretch(tokens: &[Token], first: usize) -> impl Iterator<Item = &Token> {
    let ends = |token: &&Token| {
        token.number().is_some()
            || token.is_any_mark(",.;!?()")
            || token.kind == Kind::Break
            || token.has(Sense::Contrast)
    };
    tokens[first.saturating_sub(REACH)..first]
        .iter()
        .rev()
        .take_while(move |token| !ends(token))
}

/// "Id swap otter at 205/30", "no chance otter is 205/16", "otter maybe 205/10": said before the value.
fn is_leading(tokens: &[Token], first: usize) -> bool {
    let mut named = false;
    for token in stretch(tokens, first) {
        let denies = named && token.has(Sense::Not) && !token.has_any(&[Sense::LeftOut, Sense::Greeting, Sense::No]);
        let bounds = token.has(Sense::Bound) && !token.has(Sense::Over) || named && token.has(Sense::Until);
        let guesses = token.has(Sense::Either)
            && !token.has_any(&[Sense::Now, Sense::And])
            && token.word().is_some_and(|word| word.len() > 2);
        if token.has(Sense::Modal) || denies || bounds || guesses {
            return true;
        }
        named |= token.mention().is_some();
    }
    false
}

/// "Otter ticket 205/16", "threshold for otter 205/40", "certificate: otter 205/10": what the numbers are is a word that
/// no table knows.
fn is_of_other_thing(tokens: &[Token], first: usize) -> bool {
    let strange = |token: &Token| token.is_unknown() && token.word().is_some_and(|word| word.len() > 3);
    let thing = |token: &Token| strange(token) || token.has(Sense::Numbered) && !token.has(Sense::Vehicle);
    let place = |token: &Token| token.has_any(&[Sense::At, Sense::Address, Sense::FeedWeak, Sense::To]);
    let between = || stretch(tokens, first).take_while(|token| token.mention().is_none());
    let behind_rig = stretch(tokens, first).take(4).any(|token| token.mention().is_some());
    let words_only = between().all(|token| token.word().is_some() && !place(token));
    if behind_rig && words_only && between().next().is_some_and(thing) {
        return true;
    }
    let Some(rig) = (first.saturating_sub(4)..first).find(|&at| tokens[at].mention().is_some()) else {
        return false;
    };
    let [.., noun, link] = &tokens[..rig] else { return false };
    let from = rig.checked_sub(3).is_some_and(|from| tokens[from].has(Sense::From));
    let begins = (rig == 2 || from) && link.is_mark(':');
    strange(noun) && (begins || link.has(Sense::MeantFor))
}

/// "On delivery otter was 205/10", "under the last owner otter did 205/10": long ago, unless a time of now stands by.
fn is_remembered(tokens: &[Token], group: &Group, first: usize) -> bool {
    let past = stretch(tokens, first)
        .take(2)
        .any(|token| token.has_any(&[Sense::Past, Sense::ItRead, Sense::ItWas]));
    let has = |senses: &[Sense]| group.indices.iter().any(|&at| tokens[at].has_any(senses));
    let lately = has(&[
        Sense::Today,
        Sense::Now,
        Sense::Morning,
        Sense::Afternoon,
        Sense::Evening,
        Sense::Yesterday,
        Sense::LastNight,
    ]);
    let said_more = group.indices.iter().any(|&at| tokens[at].is_unknown());
    past && said_more && !lately
}

/// "Ignore the otter 205/16", "otter 205/16 please delete it", "otter 205/16 typo"
fn is_taken_back(tokens: &[Token], first: usize, last: usize) -> bool {
    let before = stretch(tokens, first).take_while(|token| is_light(token) || token.has(Sense::Undo));
    let behind = tokens[last + 1..]
        .iter()
        .take(REACH)
        .take_while(|token| token.number().is_none() && token.mention().is_none() && token.kind != Kind::Break);
    let undoes = |token: &Token| token.has(Sense::Undo) && !token.has(Sense::Filler);
    before.into_iter().any(undoes) || behind.into_iter().any(undoes)
}

/// "Otter 205/16 probably", "otter 205/16 says dave", "otter 205/16 so dave says": the last words behind the value.
fn is_left_open(tokens: &[Token], last: usize) -> bool {
    let rest = tokens.get(last + 1..).unwrap_or_default();
    let words: Vec<&Token> = rest.iter().filter(|token| token.word().is_some()).take(5).collect();
    match words[..] {
        [only] if only.has(Sense::Either) && !only.has_any(&[Sense::Now, Sense::And]) => true,
        [verb, name] if verb.has(Sense::Says) && name.is_unknown() => rest.len() == 2,
        [.., name, verb]
            if words.len() <= 4 && verb.has(Sense::Says) && (name.is_unknown() || name.has(Sense::Foreign)) =>
        {
            true
        }
        _ => false,
    }
}

/// "Tom says heron is 180/12", "you wrote heron 180/12": somebody says it who is neither the sender, a rig nor a meter.
pub(super) fn is_reported(tokens: &[Token], first: usize) -> bool {
    for at in (first.saturating_sub(REACH)..first).rev() {
        let token = &tokens[at];
        if token.number().is_some() || token.is_any_mark(".;!") || token.kind == Kind::Break {
            return false;
        }
        let begins = tokens[..at].iter().all(|token| token.word().is_none());
        if token.has(Sense::Settles) && !token.has(Sense::Greeting) && begins {
            return true;
        }
        if token.has(Sense::And) && token.word().is_some() {
            return false;
        }
        // "Tell dave van 3 is 160/12"
        if token.has(Sense::Says) && begins && tokens.get(at + 1).is_some_and(Token::is_unknown) {
            return true;
        }
        if token.has(Sense::Says) {
            return is_somebody(&tokens[..at]);
        }
    }
    false
}

/// "We need heron back to 180/9": small words and a name stand between the wish and the value.
fn is_wished(tokens: &[Token], first: usize) -> bool {
    let before = tokens[first.saturating_sub(REACH)..first].iter().rev();
    let mut named = false;
    for token in before {
        if named && token.has(Sense::Intent) && !token.has(Sense::Filler) {
            return true;
        }
        named |= token.mention().is_some();
        if !is_light(token) {
            return false;
        }
    }
    false
}

/// The subject of a verb that stands behind these tokens: "tom", "the sticker on heron"; not the sender, a meter, a rig.
fn is_somebody(before: &[Token]) -> bool {
    let mut rest = before.iter().rev().take(4).peekable();
    while let Some(token) = rest.next() {
        if token.has(Sense::And) {
            return false;
        }
        if token.is_unknown() || token.has_any(&[Sense::Speaker, Sense::Foreign, Sense::Intent]) {
            return true;
        }
        let on_rig = token.mention().is_some() && rest.peek().is_some_and(|before| before.has(Sense::Filler));
        if !(on_rig || token.has(Sense::Filler)) {
            return false;
        }
    }
    false
}
