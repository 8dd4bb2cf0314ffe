//! Questions to the crew, and the words on their buttons.

use crate::domain::meaning::{About, Ask, Label, Reading, Solids};

use super::Words;
use super::figures;
use super::reading::{Figures, echo, service_word};

/// Why it is asked whether a reading is to be noted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Its values are strange.
    Strange,
    /// It was told as of a time to come.
    Ahead,
    /// It is not clear that it was taken.
    Unsure,
}

/// What a question may name.
pub struct Names<'a> {
    /// All rigs: number and name, in the fleet's order.
    pub fleet: &'a [(i64, String)],
    /// The right way to text a reading, with a rig of this outfit.
    pub example: &'a str,
    /// The usual range of the asked rig's feed, ppm.
    pub usual_feed_ppm: Option<(f64, f64)>,
    /// Whether the asked rig has no membrane.
    pub di_only: bool,
    /// Why a reading is doubted.
    pub reason: Reason,
}

impl Names<'_> {
    fn rig(&self, id: i64) -> &str {
        self.fleet
            .iter()
            .find(|(known, _)| *known == id)
            .map_or("?", |(_, name)| name)
    }

    fn all(&self) -> String {
        self.fleet
            .iter()
            .map(|(_, name)| name.as_str())
            .collect::<Vec<_>>()
            .join(", ")
    }
}

/// The question.
pub fn question(words: Words, ask: &Ask, names: &Names<'_>) -> String {
    let draft = ask.drafts.first();
    let rig = draft.and_then(|draft| draft.rig).map_or("", |id| names.rig(id));
    let typed = ask.typed_name.as_deref().unwrap_or_default();
    let example = ("example", names.example.into());
    match ask.about {
        About::WhichRig if !typed.is_empty() => with_fleet(
            words,
            words.say("ask-which-rig-named", [("name", typed.into())]),
            ask,
            names,
        ),
        About::WhichRig => {
            let said = match draft.and_then(|draft| drafted(words, draft)) {
                Some(echo) => words.say("ask-which-rig-drafts", [("echo", (&echo).into())]),
                None => words.plain("ask-which-rig"),
            };
            with_fleet(words, said, ask, names)
        }
        About::UnknownRig => with_fleet(
            words,
            words.say("ask-unknown-rig", [("name", typed.into())]),
            ask,
            names,
        ),
        About::Swapped => named(rig, words.say("ask-swapped", [("rig", rig.into())])),
        About::WhichIsWhich => named(rig, words.say("ask-which-is-which", [("rig", rig.into()), example])),
        About::MissingReading => named(rig, missing(words, rig, draft, names)),
        About::Implausible => named(rig, implausible(words, rig, draft, names)),
        About::UsedUp => words.say("ask-used-up", [("rig", (&rigs_of(ask, names)).into())]),
        About::Portion => words.say("ask-portion", [("rig", (&rigs_of(ask, names)).into())]),
        About::Again => {
            let what = ask.service.map(|what| service_word(words, what)).unwrap_or_default();
            words.say(
                "ask-again",
                [("rigs", (&rigs_of(ask, names)).into()), ("what", (&what).into())],
            )
        }
        About::Moved => words.say("ask-moved", [("rigs", (&rigs_of(ask, names)).into())]),
        About::Undo => {
            let echo = draft.and_then(|draft| drafted(words, draft)).unwrap_or_default();
            words.say("ask-undo", [("rig", rig.into()), ("echo", (&echo).into())])
        }
    }
}

/// The rigs that a question about a part is asked of.
fn rigs_of(ask: &Ask, names: &Names<'_>) -> String {
    let rigs = ask.drafts.iter().filter_map(|draft| draft.rig);
    rigs.map(|id| names.rig(id)).collect::<Vec<_>>().join(", ")
}

/// A question about a rig that is not known yet starts without its name.
fn named(rig: &str, question: String) -> String {
    if !rig.is_empty() {
        return question;
    }
    let bare = question.trim_start_matches([' ', '-']);
    // "¿cuál es cuál?" begins with its second sign.
    let first = bare.find(char::is_alphanumeric).unwrap_or(0);
    let (opening, said) = bare.split_at(first);
    let mut letters = said.chars();
    let big: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    format!("{opening}{big}{}", letters.as_str())
}

/// The fleet's names help only when no buttons show them.
fn with_fleet(words: Words, question: String, ask: &Ask, names: &Names<'_>) -> String {
    let shown = ask.choices.iter().any(|choice| matches!(choice.label, Label::Rig(_)));
    if names.fleet.is_empty() {
        return words.plain("fleet-empty");
    }
    if shown && names.fleet.len() <= ask.choices.len() {
        return question;
    }
    format!(
        "{question}\n{}",
        words.say("ask-fleet", [("rigs", (&names.all()).into())])
    )
}

/// What is there is said, so that only the rest need be typed.
fn missing(words: Words, rig: &str, draft: Option<&Reading>, names: &Names<'_>) -> String {
    let ppm = |solids: Option<Solids>| solids.map(|solids| figures::ppm(words, solids.ppm));
    let rig = ("rig", rig.into());
    let example = ("example", names.example.into());
    let glass = draft.and_then(|draft| ppm(draft.product)).filter(|_| names.di_only);
    let Some((draft, feed)) = draft.and_then(|draft| Some((draft, ppm(draft.feed)?))) else {
        return match glass {
            Some(product) => words.say("ask-missing-tap", [rig, ("product", (&product).into())]),
            None => words.say("ask-missing", [rig, example]),
        };
    };
    let feed = ("feed", (&feed).into());
    match ppm(draft.product).filter(|_| draft.permeate.is_none()) {
        Some(product) => words.say("ask-missing-ro", [rig, feed, ("product", (&product).into())]),
        None => words.say("ask-missing-second", [rig, feed, example]),
    }
}

fn implausible(words: Words, rig: &str, draft: Option<&Reading>, names: &Names<'_>) -> String {
    let feed = draft.and_then(|draft| draft.feed).map(|feed| feed.ppm);
    let echo = draft.and_then(|draft| drafted(words, draft)).unwrap_or_default();
    let key = match names.reason {
        Reason::Strange => "ask-implausible",
        Reason::Ahead => "ask-ahead",
        Reason::Unsure => "ask-note-it",
    };
    if let (Some((low, high)), Some(feed)) = (names.usual_feed_ppm, feed)
        && !(low..=high).contains(&feed)
        && names.reason == Reason::Strange
    {
        let (low, high, sent) = (
            figures::ppm(words, low),
            figures::ppm(words, high),
            figures::ppm(words, feed),
        );
        return words.say(
            if low == high {
                "ask-implausible-feed-once"
            } else {
                "ask-implausible-feed"
            },
            [
                ("rig", rig.into()),
                ("low", (&low).into()),
                ("high", (&high).into()),
                ("sent", (&sent).into()),
            ],
        );
    }
    words.say(key, [("rig", rig.into()), ("echo", (&echo).into())])
}

fn drafted(words: Words, draft: &Reading) -> Option<String> {
    let product_ppm = draft.product.map(|product| product.ppm);
    let permeate_ppm = draft.permeate.map(|permeate| permeate.ppm);
    if permeate_ppm.is_none() && product_ppm.is_none() {
        return None;
    }
    Some(echo(
        words,
        Figures {
            feed_ppm: draft.feed?.ppm,
            permeate_ppm,
            product_ppm,
            temperature: None,
            pressure: None,
        },
    ))
}

/// What a button shows.
pub fn label(words: Words, label: Label, names: &Names<'_>) -> String {
    match label {
        Label::Rig(id) => names.rig(id).to_owned(),
        Label::Pair { feed, permeate } => {
            let (feed, permeate) = (figures::ppm(words, feed), figures::ppm(words, permeate));
            words.say(
                "label-pair",
                [("feed", (&feed).into()), ("permeate", (&permeate).into())],
            )
        }
        Label::AsSent => words.plain("label-as-sent"),
        Label::Keep => words.plain("label-keep"),
        Label::Drop => words.plain("label-drop"),
        Label::UsedUp => words.plain("label-used-up"),
        Label::Changed => words.plain("label-changed"),
        Label::Undo => words.plain("label-undo"),
        Label::Leave => words.plain("label-leave"),
        Label::Another => words.plain("label-another"),
        Label::Same => words.plain("label-same"),
        Label::Product(ppm) => words.say("label-product", [("ppm", (&figures::ppm(words, ppm)).into())]),
    }
}
