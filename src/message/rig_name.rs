//! Finds the rigs that a text names: whole names, unique parts, slips of the thumb, and names that no rig has.

use super::languages::{TABLES, fold};
use super::meaning::Rig;
use super::name_slips::{shortened, slips_between};
use super::number_words::value_of;
use super::rig_siblings;
use super::senses::{Sense, Senses};
use super::tokens::{Kind, Token};

/// A rig named in a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Mention {
    /// One when it is clear, several when the name fits several, none when no rig has this name.
    pub rigs: Vec<i64>,
    pub sure: Sure,
    /// All of `rigs` are meant: "both vans".
    pub all_of_them: bool,
    pub typed: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sure {
    /// A slip, an abbreviation, the beginning of a name.
    Guess,
    /// A word of a name.
    Part,
    /// The whole name.
    Full,
}

/// A name or short name of a rig, cut as texts are.
pub(super) struct Name {
    pub(super) rig: i64,
    pub(super) parts: Vec<String>,
    joined: String,
    initials: String,
}

/// Replaces the words that name a rig by mentions.
pub fn find(tokens: Vec<Token>, fleet: &[Rig]) -> Vec<Token> {
    let names: Vec<Name> = fleet.iter().flat_map(names_of).collect();
    let mut found: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while at < tokens.len() {
        let rest = &tokens[at..];
        if let Some((mention, used)) = rig_siblings::two(rest, &names) {
            push(&mut found, mention, tokens[at].glued);
            at += used;
            continue;
        }
        let whole = full(rest, &names);
        let (whole, slip) = match whole {
            Some((mention, used)) if mention.sure == Sure::Full => (Some((mention, used)), None),
            slip => (None, slip),
        };
        let leads = found.last().is_none_or(|token| token.kind == Kind::Break);
        let hit = whole
            .or_else(|| leads.then(|| leading_number(rest, &names)).flatten())
            .or_else(|| rig_siblings::group(rest, &names, &mut found))
            .or(slip)
            .or_else(|| leads.then(|| behind_article(rest, &names)).flatten())
            .or_else(|| part(rest, &names))
            .or_else(|| rig_siblings::numbered_stranger(&tokens, at, &names))
            .or_else(|| guess(rest, &names));
        let Some((mut mention, used)) = hit else {
            found.push(tokens[at].clone());
            at += 1;
            continue;
        };
        let mut end = at + used;
        if !mention.all_of_them && rig_siblings::has_strange_suffix(&tokens, end, &mention, &names) {
            mention.typed = format!("{} {}", mention.typed, text_of(&tokens[end]));
            mention.rigs.clear();
            end += 1;
        }
        push(&mut found, mention, tokens[at].glued);
        at = end;
    }
    found
}

/// Two parts of different names side by side ("little blue") are one name that no rig has.
fn push(found: &mut Vec<Token>, mention: Mention, glued: bool) {
    if let Some(Kind::Rig(before)) = found.last_mut().map(|token| &mut token.kind) {
        let same = before.rigs == mention.rigs;
        let partial = before.sure < Sure::Full && mention.sure < Sure::Full && !mention.all_of_them;
        if same && !mention.rigs.is_empty() {
            return;
        }
        if partial {
            before.rigs.retain(|rig| mention.rigs.contains(rig));
            before.typed = format!("{} {}", before.typed, mention.typed);
            return;
        }
    }
    found.push(Token {
        kind: Kind::Rig(mention),
        glued,
        senses: Senses::default(),
        spent: false,
    });
}

fn names_of(rig: &Rig) -> impl Iterator<Item = Name> {
    let id = rig.id;
    std::iter::once(&rig.name)
        .chain(&rig.short_names)
        .filter_map(move |name| {
            let parts = parts_of(name);
            let letters = parts.iter().filter(|part| !is_digits(part));
            let initials = letters.filter_map(|part| part.chars().next()).collect();
            (!parts.is_empty()).then(|| Name {
                rig: id,
                joined: parts.concat(),
                initials,
                parts,
            })
        })
}

/// Letters and digits apart, without signs (a picture sign must not become a word).
fn parts_of(name: &str) -> Vec<String> {
    let mut parts: Vec<String> = Vec::new();
    let mut last = None;
    for c in name.chars() {
        let class = (c.is_ascii_digit(), c.is_alphanumeric());
        if class.1 || (c == 'º' && last == Some((false, true))) {
            match parts.last_mut().filter(|_| last == Some(class)) {
                Some(part) => part.push(c),
                None => parts.push(c.to_string()),
            }
        }
        if c != '\'' && c != '’' {
            last = Some(class);
        }
    }
    parts
        .iter()
        .map(|part| fold(part))
        .filter(|part| !part.is_empty())
        .collect()
}

pub(super) fn is_digits(part: &str) -> bool {
    part.bytes().all(|byte| byte.is_ascii_digit())
}

pub(super) fn text_of(token: &Token) -> String {
    match &token.kind {
        Kind::Word(word) => word.clone(),
        Kind::Number(number) => number.digits.clone(),
        Kind::Mark(mark) => mark.to_string(),
        _ => String::new(),
    }
}

pub(super) fn typed(tokens: &[Token]) -> String {
    tokens.iter().map(text_of).collect::<Vec<_>>().join(" ")
}

fn mention(rigs: Vec<i64>, sure: Sure, tokens: &[Token]) -> Option<(Mention, usize)> {
    Some((
        Mention {
            rigs,
            sure,
            all_of_them: false,
            typed: typed(tokens),
        },
        tokens.len(),
    ))
}

/// The whole name, with at most one slip of the thumb; digits must agree. The longest name wins, then the fewest slips.
fn full(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    let hits = names
        .iter()
        .filter_map(|name| fits(name, tokens).map(|(used, slips)| (used, slips, name.rig)));
    let hits: Vec<_> = hits.collect();
    let best = hits
        .iter()
        .map(|&(used, slips, _)| (slips, std::cmp::Reverse(used)))
        .min()?;
    let mut rigs: Vec<i64> = hits
        .iter()
        .filter(|&&(used, slips, _)| (slips, std::cmp::Reverse(used)) == best)
        .map(|&(_, _, rig)| rig)
        .collect();
    rigs.dedup();
    let sure = if best.0 == 0 { Sure::Full } else { Sure::Guess };
    mention(rigs, sure, &tokens[..best.1.0])
}

fn fits(name: &Name, tokens: &[Token]) -> Option<(usize, u8)> {
    if let Some(used) = fits_joined(name, tokens) {
        return Some(used);
    }
    let mut at = 0;
    let mut slips = 0;
    for (index, part) in name.parts.iter().enumerate() {
        if index > 0 && tokens.get(at).is_some_and(|token| token.is_any_mark("-.#:")) {
            at += 1;
        }
        if is_digits(part) {
            at += digits_fit(part, &tokens[at..], name.parts.len() > 1)?;
            continue;
        }
        let word = tokens.get(at)?.word()?;
        // An article supports no slip: "the best" is not The Beast.
        let one_of_many = name.parts.iter().filter(|part| !is_article(part)).count() > 1;
        slips += slips_between(word, part, one_of_many)?;
        at += 1;
    }
    (slips <= 1).then_some((at, slips))
}

/// "bigblue", "her on"
fn fits_joined(name: &Name, tokens: &[Token]) -> Option<(usize, u8)> {
    let word = tokens[0].word()?;
    if name.joined.len() < 5 {
        return None;
    }
    if name.parts.len() > 1
        && (word == name.joined || (word.len() > 6 && slips_between(word, &name.joined, false) == Some(1)))
    {
        return Some((1, u8::from(word != name.joined)));
    }
    let next = tokens.get(1)?.word()?;
    let split = name.parts.len() == 1 && name.joined.len() == word.len() + next.len();
    (split && name.joined.starts_with(word) && name.joined.ends_with(next)).then_some((2, 1))
}

/// Digits or number words; dictation may write what sounds alike ("rig won").
fn digits_fit(part: &str, tokens: &[Token], behind_word: bool) -> Option<usize> {
    match &tokens.first()?.kind {
        Kind::Number(number) => (number.digits == part && number.decimals == 0).then_some(1),
        Kind::Word(word) => {
            let wanted: f64 = part.parse().ok()?;
            let next = tokens.get(1).and_then(Token::word).and_then(value_of);
            let sum = value_of(word)
                .zip(next)
                .filter(|&(tens, ones)| tens >= 20.0 && ones < 10.0);
            if sum.is_some_and(|(tens, ones)| tens + ones == wanted) {
                return Some(2);
            }
            let sounds = TABLES.value(Sense::SoundsLike, word) == Some(part);
            (behind_word && (value_of(word) == Some(wanted) || sounds)).then_some(1)
        }
        Kind::Mark('#') => digits_fit(part, &tokens[1..], behind_word).map(|used| used + 1),
        _ => None,
    }
}

pub(super) fn rigs_with(names: &[Name], has: impl Fn(&Name) -> bool) -> Vec<i64> {
    let mut rigs: Vec<i64> = names.iter().filter(|name| has(name)).map(|name| name.rig).collect();
    rigs.dedup();
    rigs
}

/// "3 180/12": the number of a rig, before a pair.
fn leading_number(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    let number = tokens.first()?.number().filter(|number| number.is_short_whole())?;
    let colon = usize::from(tokens.get(1)?.is_any_mark(":-"));
    let pair = tokens.get(1 + colon)?.number().is_some()
        && tokens.get(2 + colon)?.is_mark('/')
        && tokens.get(3 + colon)?.number().is_some();
    let rigs = rigs_with(names, |name| {
        name.parts.len() > 1 && name.parts.contains(&number.digits)
    });
    (pair && rigs.len() == 1)
        .then(|| mention(rigs, Sure::Part, &tokens[..1 + colon]))
        .flatten()
}

/// "tank's at 243": a name without its article, at the start, is the rig and not the part.
fn behind_article(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    let word = tokens[0].word().filter(|word| word.len() >= 3)?;
    let rigs = rigs_with(names, |name| match name.parts.as_slice() {
        [article, only] => is_article(article) && only == word,
        _ => false,
    });
    let numbers = tokens.iter().take(12).filter(|token| token.number().is_some()).count();
    (rigs.len() == 1 && numbers >= 2)
        .then(|| mention(rigs, Sure::Part, &tokens[..1]))
        .flatten()
}

fn is_article(word: &str) -> bool {
    TABLES.senses(word).has(Sense::Article)
}

/// One word of a name, or the number of a rig behind a number sign.
fn part(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    // "number two"
    let spelled = tokens.get(1).and_then(Token::word).and_then(value_of);
    if let (Some(value), Some(sign)) = (spelled, tokens[0].word())
        && TABLES.senses(sign).has(Sense::NumberSign)
    {
        let digits = value.to_string();
        let rigs = rigs_with(names, |name| name.parts.len() > 1 && name.parts.contains(&digits));
        if rigs.len() == 1 {
            return mention(rigs, Sure::Part, &tokens[..2]);
        }
    }
    if let (Some(word), Some(number)) = (tokens.first(), tokens.get(1).and_then(Token::number)) {
        let sign = word.is_mark('#')
            || word
                .word()
                .is_some_and(|word| TABLES.senses(word).has(Sense::NumberSign));
        let rigs = rigs_with(names, |name| {
            name.parts.len() > 1 && name.parts.contains(&number.digits)
        });
        return (sign && rigs.len() == 1 && number.decimals == 0)
            .then(|| mention(rigs, Sure::Part, &tokens[..2]))
            .flatten()
            .or_else(|| word_part(tokens, names));
    }
    word_part(tokens, names)
}

fn word_part(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    let word = tokens[0].word()?;
    // "the big number" names no Big Blue.
    let phrase = TABLES.longest(word, |next| tokens.get(next)?.word());
    let labels = [Sense::Feed, Sense::Permeate, Sense::Product];
    if phrase.is_some_and(|(senses, _, used)| used > 1 && senses.has_any(&labels)) {
        return None;
    }
    let senses = TABLES.senses(word);
    if word.len() < 3 || is_article(word) || !(senses.is_empty() || senses.has_any(&[Sense::Vehicle, Sense::Filler])) {
        return None;
    }
    let rigs = rigs_with(names, |name| {
        name.parts.len() > 1 && name.parts.iter().any(|part| part == word)
    });
    // "my rig", "the van": a word for any rig names one only in a fleet where one is called so.
    (!rigs.is_empty())
        .then(|| mention(rigs, Sure::Part, &tokens[..1]))
        .flatten()
}

/// A slip within a word of a name, the beginning of one, or initials.
fn guess(tokens: &[Token], names: &[Name]) -> Option<(Mention, usize)> {
    let word = tokens[0].word()?;
    if let Some((rigs, used)) = initials(word, tokens, names) {
        return mention(rigs, Sure::Guess, &tokens[..used]);
    }
    if let Some(rigs) = shortened(word, tokens, names) {
        return mention(rigs, Sure::Guess, &tokens[..2]);
    }
    if word.len() < 4 || TABLES.is_ordinary(word) {
        return None;
    }
    let near = rigs_with(names, |name| {
        name.parts
            .iter()
            .any(|part| part.len() >= 4 && slips_between(word, part, false).is_some())
    });
    if !near.is_empty() {
        return mention(near, Sure::Guess, &tokens[..1]);
    }
    let begins = |part: &String| part.len() >= word.len() + 2 && part.starts_with(word);
    let begun = rigs_with(names, |name| name.parts.iter().any(begins));
    (!begun.is_empty())
        .then(|| mention(begun, Sure::Guess, &tokens[..1]))
        .flatten()
}

/// "LR", "V3", "T.A"
fn initials(word: &str, tokens: &[Token], names: &[Name]) -> Option<(Vec<i64>, usize)> {
    let next = tokens.get(1);
    let with_letters = |typed: &str| {
        rigs_with(names, |name| {
            name.initials == typed && name.parts.len() == typed.len() && name.parts.len() > 1
        })
    };
    if word.len() >= 2 && !TABLES.is_ordinary(word) {
        let rigs = with_letters(word);
        return (!rigs.is_empty()).then_some((rigs, 1));
    }
    if word.len() != 1 {
        return None;
    }
    if let Some(number) = next.filter(|next| next.glued).and_then(Token::number) {
        let fits = |name: &Name| name.initials == word && name.parts.len() == 2 && name.parts[1] == number.digits;
        let rigs = rigs_with(names, fits);
        return (!rigs.is_empty()).then_some((rigs, 2));
    }
    let letter = tokens
        .get(2)
        .filter(|third| third.glued && next.is_some_and(|next| next.is_mark('.') && next.glued));
    let rigs = with_letters(&format!("{word}{}", letter?.word()?));
    (!rigs.is_empty()).then_some((rigs, 3))
}
