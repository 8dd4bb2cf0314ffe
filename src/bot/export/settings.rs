//! The settings as text: each line is what somebody could type to set that
//! very value, so that the file is read in again as it is.

use crate::history::Outfit;
use crate::message::setting::{Field, Setting};
use crate::replies::Words;
use crate::replies::settings::typed_exactly;

use crate::bot::rules::Rules;
use crate::bot::setting_values::{set_value, ways};

/// All that is set, of the outfit and then of each rig of the fleet.
pub(in crate::bot) fn settings_text(words: Words, known: &Outfit) -> String {
    let rules = &known.rules;
    let mut lines = vec![
        words.say("set-name", [("value", (&known.row.name).into())]),
        words.say("set-zone", [("value", (&known.row.zone).into())]),
    ];
    lines.extend(set_of(rules, None).map(|setting| exact_line(words, rules, &setting)));
    for rig in known.fleet.iter() {
        // A bed behind a membrane that is not there would give it one.
        let own = set_of(rules, Some(rig.id)).filter(|setting| !(rig.di_only && setting.field() == Field::ResinBed));
        lines.extend(own.map(|setting| format!("{} {}", rig.name, exact_line(words, rules, &setting))));
    }
    lines.push(String::new());
    lines.join("\n")
}

fn set_of(rules: &Rules, rig: Option<i64>) -> impl Iterator<Item = Setting> {
    Field::all().filter_map(move |field| set_value(rules, field, rig))
}

fn exact_line(words: Words, rules: &Rules, setting: &Setting) -> String {
    typed_exactly(words, setting, ways(rules))
}
