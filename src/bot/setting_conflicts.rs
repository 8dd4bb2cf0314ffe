//! Settings that do not go together.

use crate::message::setting::{Field, Setting};
use crate::replies::{Words, figures};
use crate::store::rigs::Rig;

use super::answer::Answer;
use super::request::Request;
use super::rig_names::fold;
use super::rules::Rules;

/// A short name must not mean two rigs.
pub(super) fn name_taken(on: &Request<'_>, names: &[String], rig: Option<&Rig>) -> Option<Answer> {
    let own = rig.map(|rig| rig.id);
    let others = on.fleet.iter().filter(|other| Some(other.id) != own);
    let mut taken = others.flat_map(|other| {
        let mut known = on.rules.short_names(other.id);
        known.push(other.name.clone());
        known.into_iter().map(move |name| (name, other))
    });
    let (name, other) = taken.find(|(known, _)| names.iter().any(|name| fold(name) == fold(known)))?;
    let facts = [("name", (&name).into()), ("rig", (&other.name).into())];
    Some(Answer::says(on.words.say("setting-name-taken", facts)))
}

/// Wearing, due and spent must stand in that order.
pub(super) fn lines_cross(words: Words, rules: &Rules, setting: &Setting) -> Option<Answer> {
    if !lines_would_cross(rules, std::iter::once(setting)) {
        return None;
    }
    let now = rules.limits();
    let percent = |line: f64| figures::plain_number(words, line * 100.0);
    let [wearing, due, spent] = [now.wearing, now.due, now.spent].map(percent);
    let facts = [
        ("wearing", (&wearing).into()),
        ("due", (&due).into()),
        ("spent", (&spent).into()),
    ];
    Some(Answer::says(words.say("setting-lines-cross", facts)))
}

/// Whether those three would stand in another order, if all of these were set.
pub(super) fn lines_would_cross<'a>(rules: &Rules, settings: impl Iterator<Item = &'a Setting>) -> bool {
    let mut limits = rules.limits();
    let mut moved = false;
    for setting in settings {
        let place = match setting.field() {
            Field::WearingLine => &mut limits.wearing,
            Field::DueLine => &mut limits.due,
            Field::SpentLine => &mut limits.spent,
            _ => continue,
        };
        if let Some(line) = setting.get() {
            (*place, moved) = (line, true);
        }
    }
    moved && !(limits.wearing > limits.due && limits.due > limits.spent)
}
