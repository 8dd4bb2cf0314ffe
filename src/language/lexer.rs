//! Text to tokens with their places in it.
//!
//! A text is cut once; what a number was written like is kept as its [`Form`], so that nothing behind the lexer looks
//! at characters again. Texts are capped: what is longer than a chat message carries is no message.

/// Characters beyond this are not looked at; a chat message has at most so many.
pub const MOST_BYTES: usize = 4_096;
/// A message of forty rigs has about 250 tokens.
pub const MOST_TOKENS: usize = 640;
/// What a crew types as a count or a measure has fewer digits; more are a phone number or a code.
const MOST_DIGITS: usize = 5;

/// How a number was written. A form that is no plain value explains the number by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// Digits alone.
    Whole,
    /// With a decimal point.
    Decimal,
    /// "180,12": a decimal comma or a pair, of which these are the parts.
    Comma(f64, f64),
    /// "1,180": thousands or a pair.
    Thousands(f64, f64),
    /// Spelled in words.
    Words,
    /// A time of day: hour and minute.
    Clock(u8, u8),
    /// Year (0 if it was not written), month, day.
    Date(i16, u8, u8),
    /// "3rd".
    Ordinal,
    /// With the sign of a currency.
    Money,
    /// With a percent sign.
    Percent,
    /// Too long, or begun by zeros or a plus: a phone number, a code.
    Long,
    /// With letters in it that look like digits ("l88"): the value is what they look like.
    Lookalike,
    /// Two decimal points and the like: nobody can say what it is.
    Garbled,
}

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// Letters.
    Word,
    /// A value and how it was written.
    Number(f64, Form),
    /// A sign of punctuation, brought to its plain ASCII form.
    Mark(char),
    /// Any other sign.
    Emoji(char),
    /// The end of a line.
    Newline,
}

/// A piece of a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Folded: lower case, no accents, no apostrophes.
    pub text: String,
    /// The length of the part before an apostrophe: 6 in "badger's".
    pub stem: usize,
    /// Nothing stands between this token and the one before.
    pub glued: bool,
    /// Where it stands in the text, in bytes.
    pub span: (usize, usize),
}

impl Token {
    /// Whether it is a number in any form.
    pub fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Number(..))
    }

    /// The value of a whole number.
    pub fn whole(&self) -> Option<f64> {
        match self.kind {
            Kind::Number(value, Form::Whole) => Some(value),
            _ => None,
        }
    }
}

/// A text that was cut.
#[derive(Clone, Debug, Default)]
pub struct Text {
    /// Its tokens, in order.
    pub tokens: Vec<Token>,
    /// It was longer than a message may be, and its end was not read.
    pub too_long: bool,
}

/// Words that are written with digits.
const WITH_DIGITS: [&str; 9] = ["b4", "m8", "l8r", "gr8", "l8", "2day", "2moro", "2nite", "2mrw"];

/// Cuts a text into tokens.
pub fn lex(text: &str) -> Text {
    let mut too_long = text.len() > MOST_BYTES;
    let mut end = text.len().min(MOST_BYTES);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let joiner = |c: char| matches!(c, '\u{fe0f}' | '\u{20e3}' | '\u{200d}' | '\u{200b}' | '\u{feff}');
    let chars = text[..end].char_indices().filter(|(_, c)| !joiner(*c)).collect();
    let mut lexer = Lexer {
        chars,
        at: 0,
        end,
        out: Vec::new(),
    };
    while lexer.at < lexer.chars.len() {
        if lexer.out.len() >= MOST_TOKENS {
            too_long = true;
            break;
        }
        lexer.step();
    }
    Text {
        tokens: lexer.out,
        too_long,
    }
}

/// Letters and marks without accents and case, words separated by single spaces: for comparing names and texts.
pub fn fold(text: &str) -> String {
    let tokens = lex(text).tokens;
    let texts: Vec<&str> = tokens.iter().map(|token| token.text.as_str()).collect();
    texts.join(" ")
}

/// The one number that a text is, with its form; for cells and settings.
pub fn read_number(text: &str) -> Option<(f64, Form)> {
    match lex(text).tokens.as_slice() {
        [
            Token {
                kind: Kind::Number(value, form),
                ..
            },
        ] => Some((*value, *form)),
        _ => None,
    }
}

struct Lexer {
    chars: Vec<(usize, char)>,
    at: usize,
    end: usize,
    out: Vec<Token>,
}

fn is_letter(c: char) -> bool {
    c.is_ascii_alphabetic() || (!c.is_ascii() && (c.is_alphabetic() || c == '\u{b5}'))
}

/// Adds a letter without case and accent.
fn push_folded(c: char, into: &mut String) {
    if c.is_ascii() {
        into.push(c.to_ascii_lowercase());
    } else if c == '\u{b5}' {
        into.push('u');
    } else {
        into.extend(
            deunicode::deunicode_char(c)
                .unwrap_or("")
                .chars()
                .flat_map(char::to_lowercase),
        );
    }
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2019}' | '\u{2018}' | '`' | '\u{b4}')
}

fn mark_of(c: char) -> Option<char> {
    Some(match c {
        '/' | '\\' | '\u{2044}' | '\u{ff0f}' => '/',
        '>' | '\u{2192}' | '\u{27a1}' | '\u{bb}' | '\u{279c}' | '\u{21e8}' | '\u{2b07}' | '\u{2193}' => '>',
        '-' | '\u{2013}' | '\u{2014}' | '\u{2212}' | '\u{2010}' | '\u{2011}' => '-',
        '(' | '[' | '{' => '(',
        ')' | ']' | '}' => ')',
        '"' | '\u{201c}' | '\u{201d}' | '\u{ab}' => '"',
        '\u{b7}' | '\u{2022}' | '|' => '|',
        '\u{2026}' => '.',
        '\u{bf}' | '?' => '?',
        '\u{a1}' | '!' => '!',
        '\u{ff0c}' | '\u{3001}' => ',',
        '\u{b1}' => '\u{b1}',
        '\u{d7}' => '\u{d7}',
        c if c.is_ascii_punctuation() => c,
        _ => return None,
    })
}

/// The digit that a letter among digits is a slip for.
fn lookalike(c: char) -> Option<char> {
    match c {
        'l' | 'I' | 'i' => Some('1'),
        'o' | 'O' => Some('0'),
        'B' => Some('8'),
        _ => None,
    }
}

/// Signs of currencies; their words are in the tables.
pub const CURRENCIES: [char; 3] = ['\u{20ac}', '\u{a3}', '$'];

impl Lexer {
    fn peek(&self, ahead: usize) -> char {
        self.chars.get(self.at + ahead).map_or('\0', |c| c.1)
    }
    fn before(&self) -> char {
        self.at
            .checked_sub(1)
            .and_then(|at| self.chars.get(at))
            .map_or(' ', |c| c.1)
    }
    fn digit(&self, ahead: usize) -> Option<char> {
        let c = self.peek(ahead);
        if c.is_ascii() {
            return c.is_ascii_digit().then_some(c);
        }
        // Full-width digits.
        let full = (c as u32).checked_sub(0xff10).filter(|d| *d < 10)?;
        char::from_digit(full, 10)
    }
    fn pos(&self, at: usize) -> usize {
        self.chars.get(at).map_or(self.end, |c| c.0)
    }
    fn count_digits(&self, ahead: usize) -> usize {
        (ahead..).take_while(|&i| self.digit(i).is_some()).count()
    }
    fn push(&mut self, kind: Kind, text: String, from: usize) {
        let span = (self.pos(from), self.pos(self.at));
        let glued = from > 0 && self.chars.get(from - 1).is_some_and(|c| !c.1.is_whitespace());
        let stem = text.len();
        self.out.push(Token {
            kind,
            text,
            stem,
            glued,
            span,
        });
    }
    fn step(&mut self) {
        let (from, c) = (self.at, self.peek(0));
        if c == '\n' {
            self.at += 1;
            self.push(Kind::Newline, String::new(), from);
        } else if c.is_whitespace() {
            self.at += 1;
        } else if self.digit(0).is_some() || self.is_point_first() || self.is_lookalike_first() {
            self.number();
        } else if is_letter(c) || matches!(c, '\u{ba}' | '\u{aa}') {
            self.word();
        } else if let Some(half) = "\u{bd}\u{bc}\u{be}".chars().position(|sign| sign == c) {
            self.at += 1;
            self.vulgar([0.5, 0.25, 0.75][half.min(2)], from);
        } else if let Some(mark) = mark_of(c) {
            self.at += 1;
            self.push(Kind::Mark(mark), mark.to_string(), from);
        } else if let Some(word) = [('\u{b0}', "deg"), ('\u{2103}', "celsius"), ('\u{2109}', "fahrenheit")]
            .iter()
            .find(|(sign, _)| *sign == c)
        {
            self.at += 1;
            self.push(Kind::Word, word.1.into(), from);
        } else {
            self.at += 1;
            let kind = if CURRENCIES.contains(&c) {
                Kind::Mark(c)
            } else {
                Kind::Emoji(c)
            };
            self.push(kind, c.to_string(), from);
        }
    }
    /// "½" behind a number belongs to it: "188½".
    fn vulgar(&mut self, part: f64, from: usize) {
        match self.out.last_mut() {
            Some(Token {
                kind: Kind::Number(value, form @ Form::Whole),
                span,
                ..
            }) if span.1 == self.chars[from].0 => {
                (*value, *form) = (*value + part, Form::Decimal);
                span.1 = self.chars.get(self.at).map_or(self.end, |c| c.0);
            }
            _ => self.push(Kind::Number(part, Form::Decimal), part.to_string(), from),
        }
    }
    /// ".5" at the start of a word is a half.
    fn is_point_first(&self) -> bool {
        self.peek(0) == '.'
            && self.digit(1).is_some()
            && self.peek(1 + self.count_digits(1)) != '.'
            && self.before().is_whitespace()
    }
    /// "l88", "I3": a letter that looks like a digit, before digits. "o12" is rather a label.
    fn is_lookalike_first(&self) -> bool {
        let c = self.peek(0);
        let labels = || {
            self.chars
                .windows(2)
                .any(|two| matches!(two[0].1, 'o' | 'O') && two[1].1.is_ascii_digit())
        };
        matches!(c, 'l' | 'I' | 'i')
            && self.digit(1).is_some()
            && !self.before().is_alphanumeric()
            && WITH_DIGITS.iter().all(|word| !self.spells(word))
            && !labels()
    }
    fn spells(&self, word: &str) -> bool {
        word.chars()
            .enumerate()
            .all(|(i, c)| self.peek(i).to_ascii_lowercase() == c)
            && !self.peek(word.len()).is_alphanumeric()
    }
    fn word(&mut self) {
        let from = self.at;
        if let Some(word) = WITH_DIGITS.iter().find(|word| self.spells(word)) {
            self.at += word.len();
            return self.push(Kind::Word, (*word).into(), from);
        }
        let accented = self.peek(1) == '\u{ed}';
        let (mut text, mut stem) = (String::new(), None);
        loop {
            let c = self.peek(0);
            // The degree sign stands for "nº", too.
            let sign = c == '\u{b0}' && text == "n";
            if sign {
                text.push('o');
            } else if is_letter(c) || matches!(c, '\u{ba}' | '\u{aa}') {
                push_folded(c, &mut text);
            } else if is_apostrophe(c) && is_letter(self.peek(1)) {
                stem.get_or_insert(text.len());
            } else {
                break;
            }
            self.at += 1;
        }
        // "Sí" says yes, "si" says if.
        if text == "si" && accented {
            text.clear();
            text.push_str("yes");
        }
        self.push(Kind::Word, text, from);
        if let (Some(stem), Some(last)) = (stem, self.out.last_mut()) {
            last.stem = stem;
        }
    }
    fn digits(&mut self) -> String {
        let mut out = String::new();
        while let Some(digit) = self.digit(0) {
            out.push(digit);
            self.at += 1;
        }
        out
    }
    /// Digits with letters among them that look like digits; whether there were any.
    fn digits_and_lookalikes(&mut self) -> (String, bool) {
        let mut out = String::new();
        let mut slipped = false;
        loop {
            if let Some(digit) = self.digit(0) {
                out.push(digit);
            } else if let Some(digit) = lookalike(self.peek(0)).filter(|_| self.is_slip(out.is_empty())) {
                out.push(digit);
                slipped = true;
            } else {
                return (out, slipped);
            }
            self.at += 1;
        }
    }
    /// A letter here is a slip for a digit: between digits, or an "o" that ends the number.
    fn is_slip(&self, first: bool) -> bool {
        let c = self.peek(0);
        let next = self.peek(1);
        let pairs = |a: char, b: char| {
            let label = |two: &[(usize, char)]| two[0].1.is_ascii_digit() && two[1].1.eq_ignore_ascii_case(&a);
            self.chars.windows(2).any(label)
                && self
                    .chars
                    .windows(2)
                    .any(|two| two[0].1.is_ascii_digit() && two[1].1.eq_ignore_ascii_case(&b))
        };
        if self.digit(1).is_some() {
            return c != 'i' || first || !pairs('i', 'o');
        }
        // "18o", "2oo"; but "214i 19o" are labels.
        matches!(c, 'o' | 'O')
            && !first
            && (!is_letter(next) || (matches!(next, 'o' | 'O') && !is_letter(self.peek(2))))
            && !pairs('i', 'o')
    }
    fn number(&mut self) {
        let from = self.at;
        if let Some(word) = WITH_DIGITS.iter().find(|word| self.spells(word)) {
            self.at += word.len();
            return self.push(Kind::Word, (*word).into(), from);
        }
        let (mut text, slipped) = self.digits_and_lookalikes();
        let whole: f64 = text.parse().unwrap_or(0.0);
        let (next, behind) = (self.peek(0), self.count_digits(1));
        let (mut value, mut form) = (whole, if slipped { Form::Lookalike } else { Form::Whole });
        if let Some((year, month, day)) = self.date(&text) {
            form = Form::Date(year, month, day);
        } else if next == ':' && behind == 2 && whole < 24.0 {
            self.at += 1;
            let minutes = self.digits().parse().unwrap_or(0);
            form = if minutes < 60 {
                Form::Clock(whole as u8, minutes)
            } else {
                Form::Garbled
            };
        } else if next == '.' && behind > 0 {
            let parts = self.dotted(&mut text);
            value = text.parse().unwrap_or(0.0);
            // "02.03." is a day and its month.
            let date = text
                .split_once('.')
                .filter(|(day, month)| day.starts_with('0') && day.len() == 2 && month.len() == 2);
            let date = date.and_then(|(day, month)| Some((day.parse().ok()?, month.parse::<u8>().ok()?)));
            form = match parts {
                1 if let Some((day, month)) = date.filter(|(_, month)| (1..=12).contains(month)) => {
                    Form::Date(0, month, day)
                }
                1 if slipped => Form::Lookalike,
                1 => Form::Decimal,
                _ => Form::Garbled,
            };
        } else if next == ','
            && text.len() <= MOST_DIGITS
            && (1..=3).contains(&behind)
            && (self.peek(1 + behind) != ',' || self.peek(2 + behind).is_whitespace())
            && from.checked_sub(1).is_none_or(|at| self.chars[at].1 != ',')
        {
            self.at += 1;
            let part = self.digits();
            let second: f64 = part.parse().unwrap_or(0.0);
            let grouped = behind == 3 && text.len() <= 3;
            (value, form) = if grouped {
                (whole * 1000.0 + second, Form::Thousands(whole, second))
            } else {
                (
                    format!("{text}.{part}").parse().unwrap_or(0.0),
                    Form::Comma(whole, second),
                )
            };
        }
        form = self.finish_number(&text, whole, form, from);
        self.push(Kind::Number(value, form), text, from);
    }
    /// Takes ".5" and ".5.7": how many parts there were.
    fn dotted(&mut self, text: &mut String) -> usize {
        let mut parts = 0;
        while self.peek(0) == '.' && self.digit(1).is_some() {
            self.at += 1;
            let part = self.digits();
            if parts == 0 {
                text.push('.');
                text.push_str(&part);
            }
            parts += 1;
        }
        parts
    }
    /// What stands around a number says of its form.
    fn finish_number(&mut self, text: &str, whole: f64, form: Form, from: usize) -> Form {
        let last = self.out.last();
        let sign = last.is_some_and(|token| matches!(token.kind, Kind::Mark(c) if CURRENCIES.contains(&c)));
        let here = self.pos(from);
        let plus = last.is_some_and(|token| token.kind == Kind::Mark('+') && token.span.1 == here) && text.len() > 5;
        let next = self.peek(0);
        if sign || matches!(next, '\u{20ac}' | '\u{a3}') {
            self.at += usize::from(!sign);
            return Form::Money;
        }
        if next == '%' {
            self.at += 1;
            return Form::Percent;
        }
        if form != Form::Whole {
            return form;
        }
        let tail = (next.to_ascii_lowercase(), self.peek(1).to_ascii_lowercase());
        if matches!(tail, ('s', 't') | ('n', 'd') | ('r', 'd') | ('t', 'h')) && !is_letter(self.peek(2)) && whole < 32.0
        {
            self.at += 2;
            return Form::Ordinal;
        }
        if tail.0 == 'h' && self.count_digits(1) == 2 && whole < 24.0 {
            self.at += 1;
            let minutes = self.digits().parse().unwrap_or(0);
            return if minutes < 60 {
                Form::Clock(whole as u8, minutes)
            } else {
                Form::Garbled
            };
        }
        // "0655", "0700hrs"
        let hours = text
            .get(..2)
            .and_then(|two| two.parse::<u8>().ok())
            .filter(|hour| *hour < 24);
        let minutes = text
            .get(2..)
            .and_then(|two| two.parse::<u8>().ok())
            .filter(|minute| *minute < 60);
        let marked = tail == ('h', 'r') || tail == ('h', 's') || tail.0 == 'h' && !is_letter(self.peek(1));
        if let (4, Some(hour), Some(minute), true) = (text.len(), hours, minutes, text.starts_with('0') || marked) {
            if marked {
                while is_letter(self.peek(0)) {
                    self.at += 1;
                }
            }
            return Form::Clock(hour, minute);
        }
        let zeros = text.starts_with('0') && text.len() > 3 && whole > 0.0;
        if text.len() > MOST_DIGITS || plus || zeros {
            Form::Long
        } else {
            form
        }
    }
    /// 25/11/2026, 2026-11-24, 14.12.2026; moves on only when it is one.
    fn date(&mut self, first: &str) -> Option<(i16, u8, u8)> {
        let mark = self.peek(0);
        let second = self.count_digits(1);
        if !matches!(mark, '/' | '-' | '.') || !(1..=2).contains(&second) || self.peek(1 + second) != mark {
            return None;
        }
        let third = self.count_digits(2 + second);
        let take = |from: usize, len: usize| -> i16 {
            (from..from + len)
                .filter_map(|i| self.digit(i)?.to_digit(10))
                .fold(0, |a, d| a * 10 + d as i16)
        };
        if !matches!((first.len(), third), (4, 1..=2) | (1..=2, 4)) {
            return None;
        }
        let (a, b, c) = (first.parse::<i16>().ok()?, take(1, second), take(2 + second, third));
        let (year, month, day) = if first.len() == 4 {
            (a, b, c)
        } else if b > 12 {
            (c, a, b)
        } else {
            (c, b, a)
        };
        if !(1..=12).contains(&month) || !(1..=31).contains(&day) || !(2000..2100).contains(&year) {
            return None;
        }
        self.at += 2 + second + third;
        Some((year, month as u8, day as u8))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(text: &str) -> Vec<(f64, Form)> {
        let number = |token: &Token| match token.kind {
            Kind::Number(value, form) => Some((value, form)),
            _ => None,
        };
        lex(text).tokens.iter().filter_map(number).collect()
    }

    #[test]
    fn a_number_keeps_the_form_that_it_was_written_in() {
        let table = [
            ("180", vec![(180.0, Form::Whole)]),
            ("18.5", vec![(18.5, Form::Decimal)]),
            ("180,12", vec![(180.12, Form::Comma(180.0, 12.0))]),
            ("1,180", vec![(1180.0, Form::Thousands(1.0, 180.0))]),
            ("7:40", vec![(7.0, Form::Clock(7, 40))]),
            ("0655hrs", vec![(655.0, Form::Clock(6, 55))]),
            ("7h30", vec![(7.0, Form::Clock(7, 30))]),
            ("3rd", vec![(3.0, Form::Ordinal)]),
            ("\u{a3}45", vec![(45.0, Form::Money)]),
            ("93%", vec![(93.0, Form::Percent)]),
            ("07700", vec![(7700.0, Form::Long)]),
            ("25/11/2026", vec![(25.0, Form::Date(2026, 11, 25))]),
            ("2026-11-24", vec![(2026.0, Form::Date(2026, 11, 24))]),
            ("188\u{bd}", vec![(188.5, Form::Decimal)]),
            ("l88", vec![(188.0, Form::Lookalike)]),
            ("2l4/l9", vec![(214.0, Form::Lookalike), (19.0, Form::Lookalike)]),
            ("1B8", vec![(188.0, Form::Lookalike)]),
            ("212.5.18", vec![(212.5, Form::Garbled)]),
            ("\u{ff11}\u{ff18}\u{ff10}", vec![(180.0, Form::Whole)]),
        ];
        for (text, expected) in table {
            assert_eq!(numbers(text), expected, "{text}");
        }
    }

    #[test]
    fn what_is_longer_than_a_message_is_not_read_to_its_end() {
        assert!(lex(&"a ".repeat(5_000)).too_long);
        assert!(!lex("heron 180 12").too_long);
        assert!(lex(&"1/9 ".repeat(1_000)).tokens.len() <= MOST_TOKENS);
    }
}
