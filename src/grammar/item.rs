//! Tokens to items: rigs, phrases with their senses, numbers with spelled ones joined, marks.

use crate::language::lexer::{Form, Kind, Token};
use crate::language::lexicon::{Entry, LEXICON, Spoken};
use crate::language::names::{Hit, Names, Words};
use crate::language::senses::{Sense, Senses, Subject, Subjects};
use crate::language::spelled;

/// A rig, phrase, number or mark of a message.
#[derive(Clone, Debug, Default)]
pub struct Item {
    pub senses: Senses,
    pub subjects: Subjects,
    /// The value that the table gives: of a month, weekday, stretch.
    pub value: i32,
    /// The name that the table gives.
    pub name: u16,
    pub num: Option<(f64, Form)>,
    pub rig: Option<Hit>,
    pub mark: Option<char>,
    /// Nothing stands between it and the item before.
    pub glued: bool,
    /// In no table.
    pub unknown: bool,
    /// How many letters a word has.
    pub letters: usize,
    /// How many words it takes.
    pub words: usize,
    /// Where it stands in the text, in bytes.
    pub span: (usize, usize),
}

impl Item {
    pub fn is(&self, sense: Sense) -> bool {
        self.senses.has(sense)
    }
    pub fn any(&self, senses: Senses) -> bool {
        self.senses.any(senses)
    }
    pub fn asks(&self, subject: Subject) -> bool {
        self.subjects.has(subject)
    }
    /// A word: no rig, number or mark.
    pub fn is_word(&self) -> bool {
        self.rig.is_none() && self.num.is_none() && self.mark.is_none()
    }
    pub fn is_mark(&self, marks: &str) -> bool {
        self.mark.is_some_and(|mark| marks.contains(mark))
    }
    /// It ties two numbers of a pair or a list.
    pub fn is_link(&self) -> bool {
        self.is_mark("/>-,:=+.&~|\u{d7}") || self.any(Senses::of([Sense::and, Sense::over]))
    }
    pub fn is_name(&self) -> bool {
        self.rig.is_some()
    }
    pub fn value(&self) -> Option<f64> {
        self.num.map(|(value, _)| value)
    }
}

/// What a clause and a whole message are asked alike.
pub trait Items {
    fn items(&self) -> &[Item];
    /// Whether a word of it has any of these senses.
    fn any(&self, senses: Senses) -> bool {
        self.items().iter().any(|item| item.is_word() && item.any(senses))
    }
    fn is(&self, sense: Sense) -> bool {
        self.any(Senses::of([sense]))
    }
    fn asks(&self, subject: Subject) -> bool {
        self.items().iter().any(|item| item.is_word() && item.asks(subject))
    }
    fn unknown(&self) -> usize {
        self.items().iter().filter(|item| item.unknown).count()
    }
    fn names_rig(&self) -> bool {
        self.items().iter().any(Item::is_name)
    }
}

/// Labels whose slips of one letter are mended.
const LABELS: Senses = Senses::of([Sense::feed, Sense::perm, Sense::prod, Sense::temp, Sense::press]);
const SHORT_LABELS: Senses = Senses::of([Sense::wfeed, Sense::wperm]);
/// What else is mended where a rig is named.
const DEEDS: Senses = Senses::of([
    Sense::num,
    Sense::flushed,
    Sense::change,
    Sense::fresh,
    Sense::resin,
    Sense::repack,
    Sense::remetered,
    Sense::prefilter,
    Sense::membrane,
]);
/// What is mended in a message without numbers.
const TAKES_BACK: Senses = Senses::of([Sense::undo, Sense::oops]);
/// What divides a message into stretches that may speak other languages.
const DIVIDERS: &str = ",.;!?(";

/// The items of a text. `mends` are the senses whose slips are mended besides labels and deeds.
pub fn items(tokens: &[Token], ids: &[u32], names: &Names) -> Vec<Item> {
    let whole = LEXICON.spoken(ids.iter().copied());
    let words = Words {
        tokens,
        ids,
        spoken: whole,
    };
    let rigs: Vec<Option<(usize, Hit)>> = (0..tokens.len()).map(|at| names.find(words, at)).collect();
    let is = |at: usize, sense: Sense| {
        let entry = ids.get(at).and_then(|id| LEXICON.get(*id, whole));
        entry.is_some_and(|entry| entry.senses.has(sense))
    };
    let rigs = merge_either(merge_halves(rigs, names, |at| is(at, Sense::vehicle)), is);
    let named = rigs.iter().any(Option::is_some);
    let numbered = tokens.iter().any(Token::is_number);
    let wanted = match (named, numbered) {
        (true, _) => LABELS.and(DEEDS),
        (false, true) => LABELS,
        (false, false) if tokens.len() <= 4 => TAKES_BACK,
        _ => Senses::NONE,
    };
    let spoken = spoken_by_stretch(words);
    let mut out: Vec<Item> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while at < tokens.len() {
        let token = &tokens[at];
        let mut item = Item {
            glued: token.glued,
            letters: token.text.len(),
            span: token.span,
            ..Item::default()
        };
        let mut len = 1;
        if let Some((taken, hit)) = &rigs[at] {
            item.rig = Some(hit.clone());
            len = *taken;
            // "The van": which of them it is, only its own clause knows.
            let entry = LEXICON.get(ids[at], whole).filter(|_| len == 1);
            let vehicle = entry.is_some_and(|entry| entry.senses.has(Sense::vehicle));
            item.senses = if vehicle {
                Senses::of([Sense::vehicle])
            } else {
                Senses::NONE
            };
        } else {
            match token.kind {
                Kind::Newline => item.mark = Some('\n'),
                // A tick says that it is done.
                Kind::Emoji('\u{2705}' | '\u{2714}' | '\u{2611}') => item.senses = Senses::of([Sense::finished]),
                Kind::Emoji(c) | Kind::Mark(c) => item.mark = Some(c),
                Kind::Number(value, form) => item.num = Some((value, form)),
                Kind::Word => {}
            }
            let end = (at + 1..tokens.len()).find(|&i| matches!(rigs[i], Some((_, Hit::One(_)))));
            let ids_here = &ids[at..end.unwrap_or(tokens.len())];
            let phrase = LEXICON.longest(ids_here.iter().copied(), spoken[at]);
            match phrase.filter(|(taken, _)| token.kind == Kind::Word || *taken > 1) {
                Some((taken, entry)) => {
                    (item.num, item.mark) = (None, None);
                    len = taken;
                    item.take(&entry);
                    item.take_first_word(ids[at], spoken[at]);
                }
                None if token.kind == Kind::Word => {
                    // "191 ot 14": before a number the short labels are mended, too.
                    let labels = named && tokens.get(at + 1).is_some_and(Token::is_number) && token.text.len() < 4;
                    let short = if labels { wanted.and(SHORT_LABELS) } else { wanted };
                    item.read_word(token, short, spoken[at]);
                }
                None => {}
            }
        }
        item.words = len;
        item.span.1 = tokens[at + len - 1].span.1;
        out.push(item);
        at += len;
    }
    settle_conditions(&mut out);
    join_spelled(out)
}

/// "grey badger" where there is a Grey Seal and a Badger may be either.
fn merge_halves(
    mut rigs: Vec<Option<(usize, Hit)>>,
    names: &Names,
    vehicle: impl Fn(usize) -> bool,
) -> Vec<Option<(usize, Hit)>> {
    for at in 1..rigs.len() {
        if let (Some((1, Hit::One(first))), Some((len, Hit::One(second)))) = (rigs[at - 1].clone(), rigs[at].clone())
            && first != second
            && names.is_part(first, 1)
            && !vehicle(at - 1)
        {
            rigs[at - 1] = None;
            rigs[at] = Some((len, Hit::Many(vec![first, second])));
        }
    }
    rigs
}

/// "Lynx or badger" is one name, of which nobody knows yet whose it is.
fn merge_either(mut rigs: Vec<Option<(usize, Hit)>>, is: impl Fn(usize, Sense) -> bool) -> Vec<Option<(usize, Hit)>> {
    for at in (0..rigs.len()).rev() {
        let Some((len, Hit::One(first))) = rigs[at].clone() else {
            continue;
        };
        // "El coyote o el burro": an article may stand before the second.
        let or = at + len;
        let second = or + 1 + usize::from(is(or + 1, Sense::article));
        let (Some(Some((more, other))), true) = (rigs.get(second).cloned(), is(or, Sense::either)) else {
            continue;
        };
        let mut those = vec![first];
        match other {
            Hit::One(rig) => those.push(rig),
            Hit::Many(more) => those.extend(more),
            Hit::Unknown => continue,
        }
        rigs[at] = Some((second - at + more, Hit::Many(those)));
        rigs[second] = None;
    }
    rigs
}

impl Item {
    fn take(&mut self, entry: &Entry) {
        (self.senses, self.subjects) = (entry.senses, entry.subjects);
        (self.value, self.name) = (entry.value, entry.name);
    }

    /// A phrase that only says what a question is about does what its first word does.
    fn take_first_word(&mut self, id: u32, spoken: Spoken) {
        if let Some(entry) = LEXICON.get(id, spoken).filter(|_| self.senses.is_empty()) {
            self.senses = entry.senses;
        }
    }

    /// A word that no table has: its part before an apostrophe, or what it is a slip for.
    fn read_word(&mut self, token: &Token, wanted: Senses, spoken: Spoken) {
        let stem = token
            .text
            .get(..token.stem)
            .filter(|stem| stem.len() < token.text.len());
        let known = stem.and_then(|stem| LEXICON.get(LEXICON.word(stem), spoken));
        if let Some(entry) = known {
            self.take(&entry);
        } else if let Some(entry) = LEXICON.near(&token.text, wanted, spoken) {
            self.take(&entry);
            self.senses = entry.senses.only(wanted);
        } else {
            self.unknown = true;
        }
    }
}

/// Each stretch between marks has its own languages, if it shows any: a message may join two.
fn spoken_by_stretch(words: Words) -> Vec<Spoken> {
    let mut out = Vec::with_capacity(words.tokens.len());
    let ends = |token: &Token| match token.kind {
        Kind::Newline => true,
        Kind::Mark(c) => DIVIDERS.contains(c),
        _ => false,
    };
    for stretch in words.tokens.split_inclusive(ends) {
        let ids = &words.ids[out.len()..out.len() + stretch.len()];
        let own = LEXICON.spoken_in(ids.iter().copied(), words.spoken);
        out.resize(out.len() + stretch.len(), own);
    }
    out
}

/// "Si" is "if" before a verb that shows, else "yes" without its accent; "until" before a rig is a condition.
fn settle_conditions(items: &mut [Item]) {
    let either = Senses::of([Sense::cond, Sense::yes]);
    for at in 0..items.len() {
        if items[at].is(Sense::cond) && items[at].is(Sense::yes) {
            let verb = items[at + 1..]
                .iter()
                .take(4)
                .any(|item| item.is(Sense::shows) && item.is_word());
            let one = if verb { Sense::cond } else { Sense::yes };
            items[at].senses = items[at].senses.without(either).and(Senses::of([one]));
        }
        // "call me when lynx is 180/30"
        let comes = items.get(at + 2).is_some_and(|item| item.num.is_some())
            && items
                .get(at + 1)
                .is_some_and(|item| item.any(Senses::of([Sense::be, Sense::shows])));
        let when = at > 0 && items[at - 1].asks(Subject::when) && comes;
        if at > 0 && items[at].is_name() && (items[at - 1].is(Sense::until) || when) && items[at - 1].is_word() {
            items[at - 1].senses = Senses::of([Sense::cond]);
        }
    }
}

/// Joins number words: "one hundred and eighty" is one item.
fn join_spelled(items: Vec<Item>) -> Vec<Item> {
    if !items.iter().any(|item| item.is(Sense::num) || item.is(Sense::doubled)) {
        return items;
    }
    let spoken = |item: Option<&Item>| {
        let Some(item) = item.filter(|item| item.is_word()) else {
            return spelled::Spoken::default();
        };
        spelled::Spoken {
            value: item.is(Sense::num).then_some(item.value),
            and: item.is(Sense::and),
            joins_ones: item.is(Sense::and) && item.letters == 1,
            times: if item.is(Sense::doubled) {
                item.value.clamp(2, 3) as u8
            } else {
                0
            },
            point: item.is(Sense::point),
            half: item.is(Sense::half),
        }
    };
    let mut out: Vec<Item> = Vec::with_capacity(items.len());
    let mut at = 0;
    while at < items.len() {
        let number = spelled::number(|i| spoken(items.get(at + i)));
        let Some((len, value)) = number.filter(|(len, _)| at + len <= items.len()) else {
            out.push(items[at].clone());
            at += 1;
            continue;
        };
        // A word that is more than a number ("second", "one") is one only beside another.
        let more = !items[at]
            .senses
            .without(Senses::of([Sense::num, Sense::ordinary]))
            .is_empty();
        let beside = items
            .get(at + len)
            .is_some_and(|next| next.mark == Some('-') || next.is(Sense::num))
            || at > 0 && (items[at - 1].is(Sense::num) || out.last().is_some_and(|last| last.num.is_some()));
        if len == 1 && more && !beside {
            out.push(items[at].clone());
        } else {
            let words = items[at..at + len].iter().map(|item| item.words).sum();
            let span = (items[at].span.0, items[at + len - 1].span.1);
            let num = Some((value, Form::Words));
            out.push(Item {
                num,
                span,
                words,
                glued: items[at].glued,
                ..Item::default()
            });
        }
        at += len;
    }
    out
}
