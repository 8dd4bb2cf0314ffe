//! Names of rigs in a text: exact, joined, slipped, shortened; or a name of their family that no rig has.

use super::lexer::{Form, Kind, Token, lex};
use super::lexicon::{Entry, LEXICON, Spoken};
use super::senses::{Sense, Senses};

/// What stands where a name was found.
#[derive(Clone, Debug, PartialEq)]
pub enum Hit {
    /// A rig, by its place in the fleet.
    One(usize),
    /// Several rigs fit.
    Many(Vec<usize>),
    /// It looks like a name, and no rig has it.
    Unknown,
}

/// A name, cut into its words.
struct Name {
    rig: usize,
    parts: Vec<Token>,
}

/// The names that the rigs of a fleet have.
pub struct Names {
    all: Vec<Name>,
}

const ARTICLES: [&str; 9] = ["the", "la", "el", "le", "los", "las", "big", "old", "little"];
const LEADING_ARTICLES: [&str; 4] = ["the", "la", "el", "le"];
const NUMBER_SIGNS: [&str; 7] = ["no", "n", "nr", "num", "number", "numero", "nro"];

/// The tokens of a text with the numbers of their words.
#[derive(Clone, Copy)]
pub struct Words<'a> {
    /// The tokens.
    pub tokens: &'a [Token],
    /// The number of each in the lexicon.
    pub ids: &'a [u32],
    /// The languages of the text.
    pub spoken: Spoken,
}

impl Words<'_> {
    fn entry(&self, at: usize) -> Option<Entry> {
        self.ids.get(at).and_then(|id| LEXICON.get(*id, self.spoken))
    }
    fn senses(&self, at: usize) -> Senses {
        self.entry(at).map_or(Senses::NONE, |entry| entry.senses)
    }
    fn text(&self, at: usize) -> &str {
        self.tokens.get(at).map_or("", |token| &token.text)
    }
    fn is_word(&self, at: usize) -> bool {
        self.tokens.get(at).is_some_and(|token| token.kind == Kind::Word)
    }
    fn numbers(&self, from: usize, most: usize) -> usize {
        self.tokens
            .iter()
            .skip(from)
            .take(most)
            .filter(|token| token.is_number())
            .count()
    }
    /// A word that no table has, or that only stands in the list of ordinary words.
    fn is_free(&self, at: usize) -> bool {
        self.senses(at).without(Senses::of([Sense::ordinary])).is_empty()
    }
}

impl Names {
    /// The names of a fleet: for each rig its own and the short ones.
    pub fn new<'a>(names: impl Iterator<Item = (usize, &'a str)>) -> Names {
        let cut = |(rig, name): (usize, &str)| Name {
            rig,
            parts: lex(name).tokens,
        };
        Names {
            all: names.map(cut).filter(|name| !name.parts.is_empty()).collect(),
        }
    }

    /// The best hit that starts at `at`, and how many tokens it takes.
    pub fn find(&self, words: Words, at: usize) -> Option<(usize, Hit)> {
        if !matches!(words.tokens.get(at)?.kind, Kind::Word | Kind::Number(..)) {
            return None;
        }
        if let Some(found) = self.listed(words, at).or_else(|| self.short(words, at)) {
            return Some(found);
        }
        if let Some((len, hit)) = self.whole(words, at, false) {
            return Some(self.mind_siblings(words, at, len, hit));
        }
        if !words.is_word(at) {
            return None;
        }
        self.family(words, at)
            .or_else(|| self.joined(words, at))
            .or_else(|| self.whole(words, at, true))
            .or_else(|| self.partial(words, at))
            .or_else(|| stranger(words, at))
    }

    /// Whether so many tokens are less than any name of the rig.
    pub fn is_part(&self, rig: usize, tokens: usize) -> bool {
        self.all
            .iter()
            .filter(|name| name.rig == rig)
            .all(|name| name.parts.len() > tokens)
    }

    /// "v3" for Van 3, "#3"
    fn short(&self, words: Words, at: usize) -> Option<(usize, Hit)> {
        let number = |i: usize| words.tokens.get(i).and_then(Token::whole);
        let letter = words.is_word(at) && words.text(at).len() == 1 && words.tokens.get(at + 1)?.glued;
        if let Some(value) = number(at + 1).filter(|_| letter && words.numbers(at + 2, 4) >= 2) {
            let begins = |name: &Token| name.text.starts_with(words.text(at));
            let of = |parts: &[Token]| matches!(parts, [name, own] if begins(name) && own.whole() == Some(value));
            if let [rig] = self.rigs(of)[..] {
                return Some((2, Hit::One(rig)));
            }
        }
        let sign = at > 0 && words.tokens.get(at - 1)?.kind == Kind::Mark('#') && words.tokens.get(at)?.glued;
        let value = number(at).filter(|_| sign)?;
        match self.rigs(|parts| matches!(parts, [_, own] if own.whole() == Some(value)))[..] {
            [rig] => Some((1, Hit::One(rig))),
            _ => None,
        }
    }

    /// The rigs of which the longest name fits.
    fn whole(&self, words: Words, at: usize, slips: bool) -> Option<(usize, Hit)> {
        let mut best = 0;
        let mut those: Vec<usize> = Vec::new();
        for name in &self.all {
            let Some(len) = match_parts(&name.parts, words, at, slips) else {
                continue;
            };
            if len > best {
                (best, those) = (len, vec![name.rig]);
            } else if len == best && !those.contains(&name.rig) {
                those.push(name.rig);
            }
        }
        (best > 0).then(|| (best, hit_of(those)))
    }

    /// "A and B trailers": the family's name stands once, behind the list.
    fn listed(&self, words: Words, at: usize) -> Option<(usize, Hit)> {
        let short = |i: usize| {
            let token = words.tokens.get(i)?;
            (token.whole().is_some() || token.kind == Kind::Word && token.text.len() == 1).then_some(token)
        };
        let first = short(at)?;
        let link = |i: usize| {
            matches!(words.tokens.get(i)?.kind, Kind::Mark(',' | '&' | '+' | '/'))
                .then_some(())
                .or_else(|| words.senses(i).has(Sense::and).then_some(()))
        };
        let mut last = at;
        while link(last + 1).is_some() && short(last + 2).is_some() && last < at + 8 {
            last += 2;
        }
        let behind = at >= 2 && link(at - 1).is_some() && short(at - 2).is_some();
        // "trailer b and c"
        let mut first_of_list = at;
        while first_of_list >= 2 && link(first_of_list - 1).is_some() && short(first_of_list - 2).is_some() {
            first_of_list -= 2;
        }
        let ahead = first_of_list.checked_sub(1).map(|i| words.text(i)).filter(|_| behind);
        let is_ahead = |name: &Token| Some(name.text.as_str()) == ahead;
        let of_ahead = |parts: &[Token]| matches!(parts, [name, own] if is_ahead(name) && own.text == first.text);
        if let [rig] = self.rigs(of_ahead)[..] {
            return Some((1, Hit::One(rig)));
        }
        let family = words.text(last + 1).strip_suffix('s').filter(|_| last > at || behind)?;
        let of = |parts: &[Token]| matches!(parts, [name, own] if name.text == family && own.text == first.text);
        match self.rigs(of)[..] {
            [rig] => Some((if last == at { 2 } else { 1 }, Hit::One(rig))),
            _ => None,
        }
    }

    /// "both herons"
    fn family(&self, words: Words, at: usize) -> Option<(usize, Hit)> {
        let token = words.tokens.get(at)?;
        let single = token
            .text
            .strip_suffix('s')
            .filter(|_| token.stem == token.text.len() && token.text.len() > 3)?;
        let those = self.rigs(|parts| parts.len() <= 2 && parts[0].text == single);
        (those.len() > 1).then_some((1, Hit::Many(those)))
    }

    fn rigs(&self, fits: impl Fn(&[Token]) -> bool) -> Vec<usize> {
        let mut out: Vec<usize> = Vec::new();
        for name in self.all.iter().filter(|name| fits(&name.parts)) {
            if !out.contains(&name.rig) {
                out.push(name.rig);
            }
        }
        out
    }

    /// "heron 1 180/12" where there is a Heron and a Heron 2: the number is part of a name that no rig has.
    fn mind_siblings(&self, words: Words, at: usize, len: usize, hit: Hit) -> (usize, Hit) {
        let Hit::One(rig) = hit else { return (len, hit) };
        let own = self.all.iter().find(|name| name.rig == rig && name.parts.len() <= len);
        let family = own.is_some_and(|own| {
            self.all.iter().any(|name| {
                name.parts.len() == own.parts.len() + 1
                    && name.parts.iter().zip(&own.parts).all(|(a, b)| a.text == b.text)
            })
        });
        let next = words.tokens.get(at + len);
        let small = next.and_then(Token::whole).is_some_and(|value| value < 20.0);
        if family && small && words.numbers(at + len, 4) >= 3 {
            return (len + 1, Hit::Unknown);
        }
        (len, hit)
    }

    /// "bigblue", "big blue" for Bigblue, "heronin" is not it; "LR", "T.A" before a number.
    fn joined(&self, words: Words, at: usize) -> Option<(usize, Hit)> {
        let mut text = String::new();
        for len in 1..=2 {
            if !words.is_word(at + len - 1) {
                break;
            }
            text.push_str(words.text(at + len - 1));
            let same = |parts: &[Token]| {
                let mut rest = text.as_str();
                text.len() > 3
                    && parts.len() + len > 2
                    && parts.iter().all(|part| {
                        let found = rest.strip_prefix(part.text.as_str());
                        rest = found.unwrap_or(rest);
                        found.is_some()
                    })
                    && rest.is_empty()
            };
            if let [rig] = self.rigs(same)[..] {
                return Some((len, Hit::One(rig)));
            }
        }
        let mut letters = String::new();
        let mut len = 0;
        while let Some(token) = words.tokens.get(at + len) {
            match token.kind {
                Kind::Word if token.text.len() == 1 || len == 0 => letters.push_str(&token.text),
                Kind::Mark('.') if len > 0 && token.glued => {}
                _ => break,
            }
            len += 1;
        }
        let number = words.tokens.get(at + len).is_some_and(Token::is_number);
        let plain = len > 1 || words.is_free(at);
        if !number || !plain || letters.len() < 2 || letters.len() > 4 {
            return None;
        }
        let initials = |parts: &[Token]| {
            parts.len() == letters.len()
                && parts
                    .iter()
                    .zip(letters.chars())
                    .all(|(p, c)| p.kind == Kind::Word && p.text.starts_with(c))
        };
        match self.rigs(initials)[..] {
            [rig] => Some((len, Hit::One(rig))),
            _ => None,
        }
    }

    /// One word of a name of several, or a family name with a number or letter that no rig has.
    fn partial(&self, words: Words, at: usize) -> Option<(usize, Hit)> {
        let token = words.tokens.get(at)?;
        if token.text.len() < 3 || ARTICLES.contains(&token.text.as_str()) {
            return None;
        }
        let senses = words.senses(at);
        let next = words.tokens.get(at + 1).map(|token| token.kind);
        let valued = matches!(next, Some(Kind::Number(..) | Kind::Mark(':' | '-' | '>')))
            || next.is_none()
            || senses.has(Sense::vehicle);
        let nameable = Senses::of([Sense::vehicle, Sense::ordinary, Sense::numbered]);
        if !senses.without(nameable).is_empty() || (!senses.is_empty() && !valued) {
            return None;
        }
        let stem = token.text.get(..token.stem).unwrap_or(&token.text);
        let stems = [
            token.text.as_str(),
            stem,
            token.text.strip_suffix('s').unwrap_or(&token.text),
        ];
        let is_part = |part: &Token| {
            let name = part.text.as_str();
            let begun = senses.is_empty() && token.text.len() >= 4 && name.starts_with(&token.text);
            let longer = senses.without(Senses::of([Sense::vehicle])).is_empty()
                && name.len() >= 4
                && token.text.starts_with(name)
                && name.len() + 5 > token.text.len();
            part.kind == Kind::Word
                && name.len() > 2
                && !ARTICLES.contains(&name)
                && (stems.contains(&name) || begun || longer)
        };
        let those = self.rigs(|parts| parts.iter().any(is_part));
        if those.is_empty() {
            return None;
        }
        let names = |fits: &dyn Fn(&[Token]) -> bool| {
            self.all
                .iter()
                .filter(|name| those.contains(&name.rig))
                .all(|name| fits(&name.parts))
        };
        // "big red" where there is a Big Blue and a Little Red: a word of another rig's name before this one.
        let before = at.checked_sub(1).map_or("", |i| words.text(i));
        let of_another = before.len() > 2
            && self
                .all
                .iter()
                .any(|n| n.parts.len() > 1 && n.parts[0].text == before && !those.contains(&n.rig));
        if of_another {
            return Some((1, Hit::Unknown));
        }
        // "the new van"
        let another = at > 0 && words.senses(at - 1).any(Senses::of([Sense::fresh, Sense::other_rig]));
        if another && senses.has(Sense::vehicle) {
            return Some((1, Hit::Unknown));
        }
        let value = words.tokens.get(at + 1).and_then(Token::whole);
        let numbered = |parts: &[Token]| parts.iter().any(Token::is_number);
        if let Some(value) = value {
            let of =
                |parts: &[Token]| parts.iter().any(|part| part.whole() == Some(value)) && parts.iter().any(is_part);
            if let [rig] = self.rigs(of)[..] {
                return Some((2, Hit::One(rig)));
            }
            let alone = value < 20.0 && words.numbers(at + 1, 5) == 1;
            if value < 100.0 && (words.numbers(at + 1, 5) >= 3 || alone) && names(&numbered) {
                return Some((2, Hit::Unknown));
            }
        }
        // "trailer c", "truck seven"
        let lettered = |parts: &[Token]| {
            parts.len() > 1 && parts.iter().skip(1).any(|p| p.kind == Kind::Word && p.text.len() == 1)
        };
        let single = words.is_word(at + 1) && words.text(at + 1).len() == 1;
        if single && names(&lettered) && words.numbers(at + 1, 5) > 0 {
            return Some((2, Hit::Unknown));
        }
        let num = |i: usize| words.is_word(i) && words.senses(i).has(Sense::num);
        let small = words.entry(at + 1).is_some_and(|entry| (1..20).contains(&entry.value));
        if num(at + 1) && small && num(at + 2) && names(&numbered) {
            return Some((2, Hit::Unknown));
        }
        Some((1, hit_of(those)))
    }
}

/// "truck 7: 180 12" where no rig is called so.
fn stranger(words: Words, at: usize) -> Option<(usize, Hit)> {
    let number = words
        .tokens
        .get(at + 1)
        .and_then(Token::whole)
        .filter(|value| *value < 100.0);
    let names = words.senses(at).has(Sense::vehicle) && words.numbers(at + 1, 6) >= 3;
    (names && number.is_some()).then_some((2, Hit::Unknown))
}

fn hit_of(mut those: Vec<usize>) -> Hit {
    if those.len() == 1 {
        Hit::One(those.remove(0))
    } else {
        Hit::Many(those)
    }
}

/// A name without the article before it.
#[must_use]
pub fn without_article(name: &str) -> &str {
    match name.split_once(' ') {
        Some((first, rest))
            if LEADING_ARTICLES
                .iter()
                .any(|article| first.eq_ignore_ascii_case(article)) =>
        {
            rest
        }
        _ => name,
    }
}

/// How many tokens the name takes at `from`.
fn match_parts(parts: &[Token], words: Words, from: usize, slips: bool) -> Option<usize> {
    let article = parts.len() > 1 && LEADING_ARTICLES.contains(&parts[0].text.as_str());
    let skip = usize::from(article && words.text(from) != parts[0].text);
    let mut at = from;
    for (place, part) in parts[skip..].iter().enumerate() {
        let joined = words
            .tokens
            .get(at)
            .is_some_and(|token| matches!(token.kind, Kind::Mark('-' | '.' | '_')));
        if place > 0 && joined && words.text(at + 1) == part.text {
            at += 1;
        }
        let token = words.tokens.get(at)?;
        let same = match (part.kind, token.kind) {
            (Kind::Number(a, _), Kind::Number(b, Form::Whole)) => a == b,
            (Kind::Number(a, _), Kind::Word) => {
                let spelled = |entry: Entry| entry.senses.has(Sense::num) && f64::from(entry.value) == a;
                place > 0 && words.entry(at).is_some_and(spelled) || (a == 1.0 && token.text == "won")
            }
            (Kind::Word, Kind::Word) => is_same_word(part, token, parts.len() - skip, slips, words, at),
            _ => false,
        };
        if !same {
            return None;
        }
        at += 1;
    }
    (at > from).then_some(at - from)
}

fn is_same_word(part: &Token, token: &Token, parts: usize, slips: bool, words: Words, at: usize) -> bool {
    let (typed, name) = (token.text.as_str(), part.text.as_str());
    if typed == name || typed.get(..token.stem) == Some(name) {
        return true;
    }
    let plural = typed.len() > 3 && typed.len() > token.stem && typed.strip_suffix('s') == Some(name);
    if plural {
        return true;
    }
    if !slips {
        return false;
    }
    let sign = NUMBER_SIGNS.contains(&name) && parts > 1;
    if sign && (NUMBER_SIGNS.contains(&typed) || NUMBER_SIGNS.iter().any(|known| is_near(typed, known))) {
        return true;
    }
    // "TR B" for Trailer B
    let short = parts > 1 && (2..4).contains(&typed.len()) && name.starts_with(typed) && words.is_free(at);
    short && typed.len() * 4 >= name.len() || words.entry(at).is_none() && is_near(typed, name)
}

/// A slip of the thumb: one letter in four to seven, two in more; in three only a swap.
fn is_near(typed: &str, name: &str) -> bool {
    let letters = name.chars().count();
    let most = match letters {
        0..3 => 0,
        3..8 => 1,
        _ => 2,
    };
    if typed.len().abs_diff(name.len()) > most || most == 0 {
        return false;
    }
    if letters == 3 {
        let sorted = |text: &str| {
            let mut letters: Vec<char> = text.chars().collect();
            letters.sort_unstable();
            letters
        };
        return sorted(typed) == sorted(name);
    }
    strsim::osa_distance(typed, name) <= most
}
