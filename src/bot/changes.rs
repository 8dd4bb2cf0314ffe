//! `changes`: who changed what, newest first.

use crate::history::rig_state::PastReading;
use crate::message::setting::{Field, Setting};
use crate::replies::settings::typed;
use crate::replies::{Words, figures, reading};
use crate::store::changes::Change;
use crate::store::settings::Kept;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::past_readings::figures_of;
use super::people::name_of;
use super::request::Request;
use super::setting_values::ways;

/// As many as a phone shows at once.
const LINES: usize = 12;

/// One line, before it has its words.
struct Line {
    at: i64,
    person_id: Option<i64>,
    text: String,
}

pub(super) async fn changes(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let most = LINES as i64;
    let outfit_id = on.outfit.id;
    let mut lines = Vec::new();
    for change in store::changes::latest(db, outfit_id, most).await? {
        if let Some(text) = told_change(db, on.words, &change).await? {
            lines.push(Line {
                at: change.changed_at,
                person_id: change.person_id,
                text,
            });
        }
    }
    // More than is shown, so that the value before is known of what was taken back.
    let past = store::settings::past(db, outfit_id, 4 * most).await?;
    for (place, setting) in past.iter().enumerate().take(LINES) {
        // What came with the outfit was set by nobody.
        if setting.person_id.is_some() {
            lines.push(Line {
                at: setting.set_at,
                person_id: setting.person_id,
                text: told_setting(on, setting, past.get(place + 1..).unwrap_or_default()),
            });
        }
    }
    for old in store::readings::withdrawn(db, outfit_id, most).await? {
        let echo = reading::echo(on.words, figures_of(on, &PastReading::from(&old)));
        let rig = on.rig_name(old.rig_id);
        lines.push(Line {
            at: old.withdrawn_at.unwrap_or(old.taken_at),
            person_id: Some(old.person_id),
            text: on
                .words
                .say("did-withdraw", [("rig", (&rig).into()), ("echo", (&echo).into())]),
        });
    }
    lines.sort_by_key(|line| std::cmp::Reverse(line.at));
    lines.truncate(LINES);
    if lines.is_empty() {
        return Ok(Answer::says(on.words.plain("changes-none")));
    }
    let mut told = vec![on.words.plain("changes-title")];
    for line in lines {
        let name = match line.person_id {
            Some(_) => name_of(db, on.words, line.person_id).await?,
            None => on.words.plain("by-itself"),
        };
        let day = figures::day(on.words, on.date(line.at), on.today());
        told.push(on.words.say(
            "changes-line",
            [
                ("day", (&day).into()),
                ("name", (&name).into()),
                ("what", (&line.text).into()),
            ],
        ));
    }
    Ok(Answer::says(told.join("\n")))
}

/// What somebody set, as it could be typed, or took back.
fn told_setting(on: &Request<'_>, kept: &Kept, earlier: &[Kept]) -> String {
    let set = |key, kept: &Kept| on.words.say(key, [("setting", (&typed_setting(on, kept)).into())]);
    match (kept.name.as_str(), kept.value.is_empty()) {
        (store::settings::CREW_CHAT, true) => on.words.plain("did-unlink"),
        (store::settings::CREW_CHAT, false) => on.words.plain("did-link"),
        (_, false) => set("did-set", kept),
        (name, true) => {
            let same = |other: &&Kept| other.name == name && other.rig_id == kept.rig_id && !other.value.is_empty();
            set("did-take-back", earlier.iter().find(same).unwrap_or(kept))
        }
    }
}

/// A setting that was kept, as it could be typed; what no longer reads, as it was kept.
fn typed_setting(on: &Request<'_>, kept: &Kept) -> String {
    let value = || [("value", (&kept.value).into())];
    let typed = match kept.name.as_str() {
        store::settings::NAME => on.words.say("set-name", value()),
        store::settings::ZONE => on.words.say("set-zone", value()),
        name => Field::named(name)
            .and_then(|field| Setting::kept(field, &kept.value))
            .map_or_else(
                || format!("{name} {}", kept.value),
                |setting| typed(on.words, &setting, ways(&on.rules)),
            ),
    };
    match kept.rig_id {
        Some(rig) => format!("{} {typed}", on.rig_name(rig).to_lowercase()),
        None => typed,
    }
}

/// What somebody said that a rig is.
fn told_trait(words: Words, change: &Change, key: &'static str) -> String {
    let told = format!("{} {}", change.about.to_lowercase(), words.plain(key));
    words.say("did-set", [("setting", (&told).into())])
}

/// What somebody did, behind their name; none for what an older release wrote.
async fn told_change(db: &mut Db, words: Words, change: &Change) -> Result<Option<String>, StoreError> {
    let other = name_of(db, words, change.about.parse().ok()).await?;
    let other = [("other", (&other).into())];
    let rig = [("rig", (&change.about).into())];
    let count = || [("count", change.about.parse::<i64>().unwrap_or_default().into())];
    Ok(Some(match change.what.as_str() {
        "joined" => words.plain("did-join"),
        "left" => words.plain("did-leave"),
        "forgotten" => words.plain("did-ask-to-be-forgotten"),
        "removed" => words.say("did-remove", other),
        "made-owner" => words.say("did-make-owner", other),
        "made-lead" => words.say("did-make-lead", other),
        "made-crew" => words.say("did-make-crew", other),
        "handed-over" => words.say("did-hand-over", other),
        "invites-cancelled" => words.plain("did-cancel-invites"),
        "exported" => words.plain("did-export"),
        "imported" => words.say("did-import", count()),
        "import-undone" => words.say("did-undo-import", count()),
        "deleted-old" => words.say("did-delete-old", count()),
        "rig-added" => words.say("did-add-rig", rig),
        "rig-removed" => words.say("did-remove-rig", rig),
        "rig-renamed" => words.say("did-rename-rig", rig),
        "rig-di-only" => told_trait(words, change, "setup-di-only"),
        "rig-has-membrane" => told_trait(words, change, "did-have-membrane"),
        "rig-flushes-itself" => told_trait(words, change, "setup-by-itself"),
        "rig-flushed-by-hand" => told_trait(words, change, "setup-by-hand"),
        "closing" => words.plain("did-close"),
        "kept" => words.plain("did-keep"),
        _ => return Ok(None),
    }))
}
