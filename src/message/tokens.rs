//! Cuts a text into words, numbers, marks and line breaks.

use super::languages::{TABLES, fold};
use super::rig_name::Mention;
use super::senses::{Sense, Senses};

/// Longer texts are no message of a crew member; they are not read at all.
pub const MAX_BYTES: usize = 16 * 1024;
const MAX_TOKENS: usize = 4200;

#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    pub kind: Kind,
    /// No space stands before it.
    pub glued: bool,
    pub senses: Senses,
    /// A number or word that an earlier step has explained: a time, a house number, a count.
    pub spent: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// Lower case, without accents.
    Word(String),
    Number(Number),
    Mark(char),
    /// A picture sign that says something; others are left out.
    Drop,
    Splash,
    Yes,
    Break,
    Rig(Mention),
}

#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    pub value: f64,
    /// Digits as typed, without separators; empty for number words.
    pub digits: String,
    pub decimals: u8,
    /// Typed in number words.
    pub in_words: bool,
    /// A lone small number word ("one", "two"), which is often no number at all.
    pub shy: bool,
    /// Digit after digit, so that its end is unsure ("one nine three one five").
    pub spelled: bool,
}

impl Number {
    /// One or two digits, as rigs are numbered.
    pub fn is_short_whole(&self) -> bool {
        self.decimals == 0 && (1..=2).contains(&self.digits.len())
    }
}

impl Token {
    fn new(kind: Kind, glued: bool) -> Token {
        Token {
            kind,
            glued,
            senses: Senses::default(),
            spent: false,
        }
    }

    pub fn word(&self) -> Option<&str> {
        match &self.kind {
            Kind::Word(word) => Some(word),
            _ => None,
        }
    }

    pub fn number(&self) -> Option<&Number> {
        match &self.kind {
            Kind::Number(number) => Some(number),
            _ => None,
        }
    }

    pub fn mention(&self) -> Option<&Mention> {
        match &self.kind {
            Kind::Rig(mention) => Some(mention),
            _ => None,
        }
    }

    pub fn is_mark(&self, mark: char) -> bool {
        self.kind == Kind::Mark(mark)
    }

    pub fn is_any_mark(&self, marks: &str) -> bool {
        matches!(self.kind, Kind::Mark(mark) if marks.contains(mark))
    }

    pub fn has(&self, sense: Sense) -> bool {
        self.senses.has(sense)
    }

    pub fn has_any(&self, senses: &[Sense]) -> bool {
        self.senses.has_any(senses)
    }

    /// A word that no table knows.
    pub fn is_unknown(&self) -> bool {
        matches!(self.kind, Kind::Word(_)) && self.senses.is_empty() && !self.spent
    }
}

/// Cuts the text; `None` when it is too long to be a message.
pub fn cut(text: &str) -> Option<Vec<Token>> {
    if text.len() > MAX_BYTES {
        return None;
    }
    let chars: Vec<char> = text.chars().filter_map(plain).collect();
    let mut tokens = Vec::new();
    let mut at = 0;
    while at < chars.len() {
        let glued = at > 0 && !chars[at - 1].is_whitespace();
        let next = match chars[at] {
            '\n' => push_one(&mut tokens, Kind::Break, glued, at),
            c if c.is_whitespace() => at + 1,
            c if c.is_ascii_digit() => number(&chars, at, glued, &mut tokens),
            c if is_letter(c) => word(&chars, at, glued, &mut tokens),
            c => sign(c).map_or(at + 1, |kind| push_one(&mut tokens, kind, glued, at)),
        };
        at = next;
        if tokens.len() > MAX_TOKENS {
            return None;
        }
    }
    Some(tokens)
}

fn push_one(tokens: &mut Vec<Token>, kind: Kind, glued: bool, at: usize) -> usize {
    tokens.push(Token::new(kind, glued));
    at + 1
}

/// Digits of other scripts and look-alike signs in their plain form; joiners and variation signs fall away.
fn plain(c: char) -> Option<char> {
    match c {
        '\u{fe0f}' | '\u{fe0e}' | '\u{20e3}' | '\u{200d}' | '\u{200b}' | '\u{feff}' | '\r' => None,
        '\u{1f3fb}'..='\u{1f3ff}' => None,
        '\u{ff10}'..='\u{ff19}' => char::from_digit(c as u32 - 0xff10, 10),
        '\u{660}'..='\u{669}' => char::from_digit(c as u32 - 0x660, 10),
        'µ' | 'μ' => Some('u'),
        '’' | '‘' | '`' | '´' => Some('\''),
        '“' | '”' | '«' | '»' => Some('"'),
        '–' | '—' | '−' => Some('-'),
        '…' => Some('.'),
        '∕' | '⁄' | '／' | '\\' => Some('/'),
        '→' | '➡' | '⇒' | '▶' | '➜' | '➔' => Some('>'),
        '¿' | '¡' => None,
        '❓' | '❔' | '🤔' => Some('?'),
        _ => Some(c),
    }
}

fn is_letter(c: char) -> bool {
    c.is_alphabetic() && c != 'º' && c != 'ª'
}

fn sign(c: char) -> Option<Kind> {
    match c {
        '💧' | '🚰' => Some(Kind::Drop),
        '💦' => Some(Kind::Splash),
        '✅' | '👍' | '✔' | '☑' | '👌' => Some(Kind::Yes),
        'º' | '°' | '˚' => Some(Kind::Mark('°')),
        '/' | '>' | '-' | ',' | '.' | ':' | ';' | '?' | '!' | '=' | '*' | '|' | '+' | '%' | '#' | '(' | ')' | '"'
        | '&' | '@' | '$' | '£' | '€' | '~' | '^' | '\'' => Some(Kind::Mark(c)),
        _ => None,
    }
}

/// A word, with "'s" and elided articles ("l'eau") taken off.
fn word(chars: &[char], from: usize, glued: bool, tokens: &mut Vec<Token>) -> usize {
    let mut to = from;
    let mut text = String::new();
    while to < chars.len() {
        let c = chars[to];
        if is_letter(c) || is_ordinal_of_no(chars, to) {
            text.push(c);
        } else if c == '\'' && chars.get(to + 1).copied().is_some_and(is_letter) {
            let rest = chars[to + 1..].iter().take_while(|c| is_letter(**c)).count();
            if rest == 1 && matches!(chars[to + 1], 's' | 'S') {
                // "What's" is a word of the tables; "lynx's" is the lynx.
                if TABLES.senses(&text.to_ascii_lowercase()).has(Sense::JoinedS) {
                    text.push('s');
                }
                to += 2;
                break;
            }
            if text.chars().count() == 1 && rest > 1 && TABLES.senses(&text.to_ascii_lowercase()).has(Sense::Elided) {
                text.clear();
            }
        } else {
            break;
        }
        to += 1;
    }
    tokens.push(Token::new(Kind::Word(calm(fold(&text))), glued));
    to
}

/// "sooo", "heyyy": letters held down, where the shorter word is known.
fn calm(word: String) -> String {
    let held = word
        .as_bytes()
        .windows(3)
        .any(|three| three[0] == three[1] && three[1] == three[2]);
    if !held {
        return word;
    }
    let shortened = |most: usize| {
        let mut short = String::new();
        for c in word.chars() {
            if !short.chars().rev().take(most).all(|last| last == c) || short.chars().count() < most {
                short.push(c);
            }
        }
        short
    };
    let known = [2, 1]
        .into_iter()
        .map(shortened)
        .find(|short| TABLES.is_ordinary(short));
    known.unwrap_or(word)
}

/// The sign in "Nº 7" belongs to the word; that in "11 ºC" does not.
fn is_ordinal_of_no(chars: &[char], at: usize) -> bool {
    chars[at] == 'º' && at > 0 && is_letter(chars[at - 1])
}

/// A number with its separators: `1,180`, `212,5`, `18O` (a letter for a digit). `180,12` within a list is two numbers.
fn number(chars: &[char], from: usize, glued: bool, tokens: &mut Vec<Token>) -> usize {
    let (mut digits, mut to) = digits(chars, from);
    let whole = digits.len();
    let mut decimals = 0;
    while let Some(&separator @ (',' | '.')) = chars.get(to) {
        let (part, end) = self::digits(chars, to + 1);
        let more_follow =
            matches!(chars.get(end), Some(',' | '.')) && chars.get(end + 1).is_some_and(char::is_ascii_digit);
        let listed = from > 0 && chars[from - 1] == separator;
        let thousands = part.len() == 3 && whole <= 2 && digits.len() <= 6 && !digits.starts_with('0');
        if thousands && !listed {
            digits.push_str(&part);
            to = end;
            continue;
        }
        // Dates ("14.12.2026") and lists ("lynx,180,12") are not decimals.
        if (1..=2).contains(&part.len()) && !more_follow && !listed {
            decimals = part.len();
            digits.push_str(&part);
            to = end;
        }
        break;
    }
    let Ok(value) = format!("{digits}e-{decimals}").parse::<f64>() else {
        return to;
    };
    let number = Number {
        value,
        digits,
        decimals: decimals as u8,
        in_words: false,
        shy: false,
        spelled: false,
    };
    tokens.push(Token::new(Kind::Number(number), glued));
    to
}

/// The digits from `from`, with `O` and `l` taken for 0 and 1 between digits.
fn digits(chars: &[char], from: usize) -> (String, usize) {
    let mut text = String::new();
    let mut to = from;
    while let Some(&c) = chars.get(to) {
        let next = chars.get(to + 1).copied();
        let next_is_digit = next.is_some_and(|c| c.is_ascii_digit());
        let next_is_letter = next.is_some_and(is_letter);
        match c {
            '0'..='9' => text.push(c),
            'O' | 'o' if !text.is_empty() && (next_is_digit || !next_is_letter) => text.push('0'),
            'l' | 'I' if !text.is_empty() && next_is_digit => text.push('1'),
            _ => break,
        }
        to += 1;
    }
    (text, to)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

    use super::*;

    fn numbers(text: &str) -> Vec<f64> {
        cut(text)
            .unwrap()
            .iter()
            .filter_map(|token| token.number().map(|number| number.value))
            .collect()
    }

    #[test]
    fn numbers_are_cut_as_they_are_meant() {
        let table: &[(&str, &[f64])] = &[
            ("180/12", &[180.0, 12.0]),
            ("212,5/18,5", &[212.5, 18.5]),
            ("1,180", &[1180.0]),
            ("lynx,180,12", &[180.0, 12.0]),
            ("18O/12", &[180.0, 12.0]),
            ("1️⃣8️⃣0️⃣", &[180.0]),
            ("203.../17", &[203.0, 17.0]),
            ("14.12.2026", &[14.0, 12.0, 2026.0]),
        ];
        for (text, expected) in table {
            assert_eq!(&numbers(text), expected, "{text}");
        }
    }

    #[test]
    fn a_text_too_long_for_a_message_is_not_cut() {
        assert!(cut(&"lynx 180 12 ".repeat(2000)).is_none());
    }
}
