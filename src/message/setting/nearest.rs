//! The setting that a text was meant to be, though it is none: without its
//! value or unit, or with a value that cannot be.

use std::collections::BTreeSet;

use super::hours::Weekday;
use super::said::topic_words;
use super::typed::{self, read};
use super::wish::Wish;
use super::{Field, Setting};
use crate::language::lexer::fold;

/// Longer texts are talk.
const WORDS: usize = 8;
const LETTERS: usize = 120;
/// Behind a setting's name stands no more than a value.
const VALUE_WORDS: usize = 3;
/// How like a known word a slip must be, by Jaro-Winkler.
const NEAR: f64 = 0.9;
/// Shorter words are never taken for slips.
const SHORTEST: usize = 4;

/// What somebody seems to have wanted to set.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// The rig's name as typed, if one was.
    pub rig: Option<String>,
    /// The setting, and as much of its value as was said.
    pub meant: Meant,
    /// Whether it can hardly be anything else, such as half a reading.
    pub sure: bool,
}

/// How much of a setting was said.
#[derive(Clone, Debug, PartialEq)]
pub enum Meant {
    /// The value too, but for its unit or some other word.
    Value(Setting),
    /// Its name, with a value that cannot be.
    Field(Field),
    /// Its name alone.
    Name(Field),
}

impl Meant {
    /// Which setting.
    pub fn field(&self) -> Field {
        match self {
            Self::Value(setting) => setting.field(),
            Self::Field(field) | Self::Name(field) => *field,
        }
    }
}

/// What is missing at the end of a text, and which setting that makes of it.
const ENDINGS: [(&str, Field); 8] = [
    (" litres", Field::ResinLitres),
    (" days", Field::PrefilterDays),
    (" 90 days", Field::PrefilterDays),
    (" a day", Field::LitresPerDay),
    (" al dia", Field::LitresPerDay),
    (" 150 %", Field::BusyMonths),
    (" gpd 77 F 60 psi", Field::Rated),
    (" 77 F 60 psi", Field::Rated),
];

/// What is missing inside: a word, and what it should have been.
const INSIDE: [(&str, &str, Field); 4] = [
    ("every", "prefilters every", Field::PrefilterDays),
    ("cada", "prefiltros cada", Field::PrefilterDays),
    ("meter", "meter us", Field::Meter),
    ("medidor", "medidor us", Field::Meter),
];

/// Names of one word that are as well what is done, or asked for.
const DEEDS: [Field; 4] = [
    Field::ResinLitres,
    Field::PrefilterDays,
    Field::Membranes,
    Field::Stands,
];

/// The setting that a text was meant to be; a rig's name in it must be one.
pub fn nearest(text: &str, is_rig: impl Fn(&str) -> bool) -> Option<Nearest> {
    let text = text.trim().trim_matches(['¿', '?', '.', '!']);
    let words: Vec<&str> = text.split_whitespace().collect();
    if text.len() > LETTERS || !(1..=WORDS).contains(&words.len()) {
        return None;
    }
    let known = |nearest: &Nearest| nearest.rig.as_deref().is_none_or(&is_rig);
    completed(text)
        .filter(known)
        .or_else(|| named(&words, &is_rig))
        .or_else(|| slipped(&words, &is_rig))
}

/// With a word added it is a setting.
fn completed(text: &str) -> Option<Nearest> {
    let makes = |text: &str, wanted: Field| {
        let wished = read(text)?;
        match wished.wish {
            Wish::Set(setting) if setting.field() == wanted => Some(Nearest {
                rig: wished.rig,
                meant: Meant::Value(setting),
                sure: wanted != Field::LitresPerDay,
            }),
            _ => None,
        }
    };
    let words: Vec<&str> = text.split_whitespace().collect();
    let with = |word: &str, instead: &str| -> String {
        let word = |typed: &&str| {
            if typed.eq_ignore_ascii_case(word) {
                instead.to_owned()
            } else {
                (*typed).to_owned()
            }
        };
        words.iter().map(word).collect::<Vec<_>>().join(" ")
    };
    let ended = |text: &str| {
        ENDINGS
            .iter()
            .find_map(|(ending, field)| makes(&format!("{text}{ending}"), *field))
    };
    let inside = || {
        INSIDE.iter().find_map(|(word, instead, field)| {
            let text = with(word, instead);
            let ends = |ending: &str| makes(&format!("{text}{ending}"), *field);
            (text != words.join(" ")).then(|| ends("").or_else(|| ends(" days")))?
        })
    };
    // "saturday 13:00"
    let day_end = || {
        let (day, time) = text.split_once(' ')?;
        let day = Weekday::typed(&fold(day))?;
        makes(&format!("{} ends {time}", day.text()), Field::DayEndsOn(day))
    };
    ended(text).or_else(inside).or_else(day_end)
}

/// It begins with a setting's name, or with a rig's and a setting's.
fn named(words: &[&str], is_rig: &impl Fn(&str) -> bool) -> Option<Nearest> {
    let (count, field, rig, in_words) = (1..=words.len()).rev().find_map(|count| {
        let (field, rig, in_words) = typed::named(&words[..count].join(" "))?;
        rig.as_deref()
            .is_none_or(is_rig)
            .then_some((count, field, rig, in_words))
    })?;
    let rest = words.len() - count;
    let one = !in_words;
    let most = if one && field != Field::QuietHours {
        1
    } else {
        VALUE_WORDS
    };
    if rest > most || one && DEEDS.contains(&field) {
        return None;
    }
    Some(Nearest {
        rig,
        meant: if rest == 0 {
            Meant::Name(field)
        } else {
            Meant::Field(field)
        },
        sure: !one || matches!(field, Field::Country | Field::Currency),
    })
}

/// With a slip of the thumb mended it begins with a setting's name.
fn slipped(words: &[&str], is_rig: &impl Fn(&str) -> bool) -> Option<Nearest> {
    let is_topic = |key: &str| {
        let mut groups = Field::all().flat_map(|field| field.called());
        groups.any(|group| group.contains(&key))
    };
    let known: BTreeSet<&str> = topic_words(is_topic).filter(|word| word.len() >= SHORTEST).collect();
    let typed = words.iter().map(|word| fold(word)).enumerate();
    typed
        .filter(|(_, word)| word.len() >= SHORTEST)
        .flat_map(|(at, word)| {
            let alike = known
                .iter()
                .map(move |near| (at, *near, strsim::jaro_winkler(near, &word)));
            alike.filter(|(.., likeness)| *likeness >= NEAR)
        })
        .find_map(|(at, word, _)| {
            let mut mended = words.to_vec();
            mended[at] = word;
            let nearest = named(&mended, is_rig).filter(|nearest| nearest.sure)?;
            Some(Nearest { sure: false, ..nearest })
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is meant, in short: the rig, the setting's lasting name, its value, `!` if it is sure.
    fn short(text: &str) -> String {
        let is_rig = |name: &str| ["heron", "otter", "garza"].contains(&name);
        let Some(nearest) = nearest(text, is_rig) else {
            return "-".to_owned();
        };
        let value = match &nearest.meant {
            Meant::Value(setting) => setting.text(),
            Meant::Field(_) => "?".to_owned(),
            Meant::Name(_) => String::new(),
        };
        let parts = [
            nearest.rig.unwrap_or_default(),
            nearest.meant.field().name().to_owned(),
            value,
            if nearest.sure { "!" } else { "" }.to_owned(),
        ];
        let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        said.join(" ")
    }

    #[test]
    fn what_is_half_typed_is_recognised() {
        for (text, meant) in [
            ("resin price", "resin-price !"),
            ("Resin price?", "resin-price !"),
            ("resin price lots", "resin-price ? !"),
            ("resin prise 9", "resin-price ?"),
            ("day ends never", "day-ends ? !"),
            ("heron every 90", "heron prefilter-days 90 !"),
            ("heron prefilters every 90", "heron prefilter-days 90 !"),
            ("prefilters every", "prefilter-days 90 !"),
            ("heron resin 25", "heron resin-litres 25 !"),
            ("heron 800 litres", "heron litres-per-day 800"),
            ("heron rated 150", "heron rated 150 77 60 !"),
            ("saturday 13:00", "day-ends-sat 13:00 !"),
            ("saturday ends", "day-ends-sat !"),
            (
                "busy june",
                "busy-months 100,100,100,100,100,150,100,100,100,100,100,100 !",
            ),
            ("currency bananas", "currency ? !"),
            ("country", "country !"),
            ("due line 850", "due-line ? !"),
            ("working days weekdays", "working-days ? !"),
            ("quiet hours at night", "quiet-hours ? !"),
            ("quite hours 8", "quiet-hours ?"),
            ("meter 0.5", "meter 0.5 !"),
            ("degrees K", "degrees ?"),
            ("volume pints", "volume-unit ?"),
            ("nudges", "nudges"),
            ("otter day ends never", "otter day-ends ? !"),
            ("precio resina", "resin-price !"),
            ("precio de la resina nueve", "resin-price ? !"),
            ("garza cada 90", "garza prefilter-days 90 !"),
            ("garza resina 25", "garza resin-litres 25 !"),
            ("sábado 13:00", "day-ends-sat 13:00 !"),
            ("línea de aviso 850", "due-line ? !"),
            ("días de trabajo", "working-days !"),
            ("medidor 0,5", "meter 0.5 !"),
            ("presio resina 9", "resin-price ?"),
            ("silencio de noche", "quiet-hours ?"),
            (
                "temporada alta junio",
                "busy-months 100,100,100,100,100,150,100,100,100,100,100,100 !",
            ),
        ] {
            assert_eq!(short(text), meant, "{text}");
        }
    }

    #[test]
    fn readings_and_talk_are_meant_to_set_nothing() {
        for text in [
            "heron 180 12",
            "heron 90",
            "heron needs resin",
            "resin",
            "prefilters",
            "pressure is low here today",
            "working days left on heron and otter as well?",
            "see you saturday at the yard",
            "",
            "?",
        ] {
            assert_eq!(short(text), "-", "{text}");
        }
    }
}
