//! The nearest right example for what could not be understood, with this outfit's rigs and values.

use std::sync::PoisonError;

use crate::grammar::Meaning;
use crate::grammar::attempt::{self, Tried};
use crate::message::command::{self, Page};
use crate::message::setting::{self, Field, Group, Meant, Nearest, Reach, SetBy, Setting};
use crate::replies::help;
use crate::replies::settings::typed;
use crate::store::people::Role;
use crate::store::{Db, StoreError};

use super::addressed::is_addressed;
use super::answer::Answer;
use super::examples::{known_rig, other_rig};
use super::refusals::{may_not, unknown_rig};
use super::request::Request;
use super::scene::scene;
use super::setting_values::{example_of, set_value, ways};
use super::{Bot, once_in};

/// Mere chatter is given a hint no oftener than this.
pub(super) const HINT_PAUSE: i64 = 600;

/// Commands that only owners and leads are shown.
const OF_LEADS: [&str; 11] = [
    "add rigs",
    "remove rig",
    "name",
    "zone",
    "roles",
    "hand over",
    "remove person",
    "set up",
    "same as",
    "parts",
    "link chat",
];

impl Bot {
    pub(super) fn note_tried(&self, who: &str, page: Page, now: i64) {
        let mut tried = self.tried.lock().unwrap_or_else(PoisonError::into_inner);
        if tried.len() >= 5000 {
            tried.retain(|_, (_, at)| now < *at + HINT_PAUSE);
        }
        if tried.len() < 10_000 {
            tried.insert(who.to_owned(), (page, now));
        }
    }

    /// What somebody tried in vain a moment ago.
    pub(super) fn tried(&self, who: &str, now: i64) -> Option<Page> {
        let tried = self.tried.lock().unwrap_or_else(PoisonError::into_inner);
        tried
            .get(who)
            .filter(|(_, at)| now < *at + HINT_PAUSE)
            .map(|(page, _)| *page)
    }
}

/// The nearest right example for what could not be understood. In a group
/// only for whoever spoke to the bot; mere chatter gets one in ten minutes.
pub(super) async fn hint(db: &mut Db, on: &Request<'_>, text: &str) -> Result<Answer, StoreError> {
    if on.incoming.chat.group && !is_addressed(db, on).await? {
        return Ok(Answer::silence());
    }
    if let Some(example) = half_typed(on, text) {
        return Ok(example);
    }
    let scene = scene(on, None);
    let attempt = attempt::of(text, &scene);
    if let Some(page) = attempt.tried().map(page_on) {
        on.bot.note_tried(&on.incoming.person.address, page, on.now);
    } else if !once_in(&on.bot.hints, &on.incoming.chat.address, HINT_PAUSE, on.now) {
        return Ok(Answer::silence());
    }
    let rig = attempt.rig.map_or_else(|| known_rig(on), |rig| on.rig_name(rig));
    Ok(Answer::says(help::hint(
        on.words,
        attempt.about.map(page_on),
        attempt.rig.is_some(),
        &rig,
    )))
}

/// The page of help on what somebody tried.
fn page_on(tried: Tried) -> Page {
    match tried {
        Tried::Flush => Page::Flush,
        Tried::Prefilters => Page::Prefilters,
        Tried::Membrane => Page::Membrane,
        Tried::Resin => Page::Resin,
        Tried::Reading => Page::Reading,
    }
}

/// The example for what can hardly be anything but a setting, although the
/// reader finds half a reading in it, or nothing.
pub(super) fn half_setting(on: &Request<'_>, text: &str, meaning: &Meaning) -> Option<Answer> {
    let mut rest = meaning.clone();
    rest.ask = None;
    let says_more = Meaning {
        queries: Vec::new(),
        ..rest.clone()
    };
    if says_more != Meaning::default() {
        return None;
    }
    let nearest = nearest_setting(on, text).filter(|nearest| nearest.sure)?;
    // "resin price?" asks what is set, and "resumen martes" no summary.
    if !matches!(nearest.meant, Meant::Field(_)) {
        rest.queries.clear();
    }
    (rest == Meaning::default()).then(|| set_like_this(on, &nearest, true))?
}

/// The example for what seems to be half a setting or command.
pub(super) fn half_typed(on: &Request<'_>, text: &str) -> Option<Answer> {
    let set = || set_like_this(on, &nearest_setting(on, text)?, false);
    set().or_else(|| command_like_this(on, text))
}

/// All values of a setting that has few.
fn choices(field: Field) -> Vec<Setting> {
    let texts = field.kind().choices().iter();
    texts.filter_map(|text| Setting::kept(field, text)).collect()
}

/// The page of help that tells of a setting.
fn page_of(field: Field) -> Page {
    match field.group() {
        Group::Prices => Page::Prices,
        Group::Parts => Page::Parts,
        Group::Prefilters => Page::Prefilters,
        Group::Hours => Page::Hours,
        Group::Limits => Page::Settings,
        Group::Units => Page::Units,
        Group::Names => Page::Rigs,
        Group::Data => Page::Data,
    }
}

fn nearest_setting(on: &Request<'_>, text: &str) -> Option<Nearest> {
    setting::nearest(text, |name| on.rig_named(name).is_some())
}

/// How a setting is typed. Who may not set it is told so, or given no
/// example if it could as well be talk.
fn set_like_this(on: &Request<'_>, nearest: &Nearest, sure: bool) -> Option<Answer> {
    let rig = match &nearest.rig {
        Some(name) => Some(on.rig_named(name)?),
        None => None,
    };
    let field = nearest.meant.field();
    let (may, who) = match field.set_by() {
        SetBy::Owner => (on.member.role == Role::Owner, "who-owner"),
        SetBy::Leads | SetBy::WhoeverHasIt => (on.member.role.leads(), "who-leads"),
    };
    if !may {
        return sure.then(|| may_not(on.words, who));
    }
    let held = set_value(&on.rules, field, rig.as_ref().map(|rig| rig.id));
    let shown = |setting: &Setting| typed(on.words, setting, ways(&on.rules));
    let examples = match (&nearest.meant, &held) {
        (Meant::Value(setting), _) | (Meant::Name(_), Some(setting)) => vec![shown(setting)],
        (_, held) => match (choices(field).as_slice(), held) {
            ([], Some(held)) => vec![shown(held)],
            ([], None) => vec![example_of(on, field)],
            (choices, _) => choices.iter().map(shown).collect(),
        },
    };
    let before = match (field.reach(), &rig) {
        (Reach::Outfit, _) | (Reach::Either, None) => String::new(),
        (_, Some(rig)) => format!("{} ", rig.name.to_lowercase()),
        (Reach::Rig, None) => format!("{} ", known_rig(on).to_lowercase()),
    };
    on.bot.note_tried(&on.incoming.person.address, page_of(field), on.now);
    let examples: Vec<String> = examples.iter().map(|example| format!("{before}{example}")).collect();
    let example = examples.join(" | ");
    Some(Answer::says(match (&nearest.meant, held) {
        (Meant::Name(_), Some(_)) => on.words.say("hint-now", [("example", (&example).into())]),
        _ => help::like_this(on.words, &example),
    }))
}

fn command_like_this(on: &Request<'_>, text: &str) -> Option<Answer> {
    let (rig, said) = behind_a_rig(on, text);
    let (key, rest) = command::nearest(said)?;
    if OF_LEADS.contains(&key) && !on.member.role.leads() {
        return None;
    }
    // These want a rig, and what was typed is none.
    let of_a_rig = matches!(key, "picture" | "resin picture" | "money picture" | "set up");
    if of_a_rig && !rest.is_empty() && on.rig_named(rest).is_none() {
        return Some(unknown_rig(on, rest));
    }
    let rig = rig.unwrap_or_else(|| known_rig(on));
    let example = help::half_typed(on.words, key, &rig, &other_rig(&on.fleet, &rig))?;
    Some(Answer::says(help::like_this(on.words, &example)))
}

/// A rig that a text begins with, and what stands behind its name.
fn behind_a_rig<'a>(on: &Request<'_>, text: &'a str) -> (Option<String>, &'a str) {
    let ends = text.match_indices(' ').map(|(at, _)| at).take(3);
    let mut named = ends.filter_map(|end| {
        let rig = on.rig_named(&text[..end])?;
        Some((Some(rig.name), text[end..].trim()))
    });
    named.next().unwrap_or((None, text))
}
