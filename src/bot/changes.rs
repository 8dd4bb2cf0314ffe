//! `changes`: who changed what, newest first.

use crate::message::setting::{Field, Setting};
use crate::replies::settings::typed;
use crate::replies::{figures, reading};
use crate::store::changes::Change;
use crate::store::settings::Kept;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::recording::figures_of;
use super::turn::Turn;

/// As many as a phone shows at once.
const LINES: usize = 12;

/// One line, before it has its words.
struct Line {
    at: i64,
    person_id: Option<i64>,
    text: String,
}

impl Turn<'_> {
    pub(super) async fn changes(&mut self) -> Result<Answer, StoreError> {
        let most = LINES as i64;
        let outfit_id = self.outfit.id;
        let mut lines = Vec::new();
        for change in store::changes::latest(self.db, outfit_id, most).await? {
            if let Some(text) = self.told_change(&change).await? {
                lines.push(Line {
                    at: change.changed_at,
                    person_id: change.person_id,
                    text,
                });
            }
        }
        // More than is shown, so that the value before is known of what was taken back.
        let past = store::settings::past(self.db, outfit_id, 4 * most).await?;
        for (place, setting) in past.iter().enumerate().take(LINES) {
            // What came with the outfit was set by nobody.
            if setting.person_id.is_some() {
                lines.push(Line {
                    at: setting.set_at,
                    person_id: setting.person_id,
                    text: self.told_setting(setting, past.get(place + 1..).unwrap_or_default()),
                });
            }
        }
        for old in store::readings::withdrawn(self.db, outfit_id, most).await? {
            let echo = reading::echo(self.words, figures_of(&old));
            let rig = self.rig_name(old.rig_id);
            lines.push(Line {
                at: old.withdrawn_at.unwrap_or(old.taken_at),
                person_id: Some(old.person_id),
                text: self
                    .words
                    .say("did-withdraw", [("rig", (&rig).into()), ("echo", (&echo).into())]),
            });
        }
        lines.sort_by_key(|line| std::cmp::Reverse(line.at));
        lines.truncate(LINES);
        if lines.is_empty() {
            return Ok(Answer::says(self.words.plain("changes-none")));
        }
        let mut told = vec![self.words.plain("changes-title")];
        for line in lines {
            let name = match line.person_id {
                Some(_) => self.name_of(line.person_id).await?,
                None => self.words.plain("by-itself"),
            };
            let day = figures::day(self.words, self.date(line.at), self.today());
            told.push(self.words.say(
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
    fn told_setting(&self, kept: &Kept, earlier: &[Kept]) -> String {
        let set = |key, kept: &Kept| self.words.say(key, [("setting", (&self.typed_setting(kept)).into())]);
        match (kept.name.as_str(), kept.value.is_empty()) {
            (store::settings::CREW_CHAT, true) => self.words.plain("did-unlink"),
            (store::settings::CREW_CHAT, false) => self.words.plain("did-link"),
            (_, false) => set("did-set", kept),
            (name, true) => {
                let same = |other: &&Kept| other.name == name && other.rig_id == kept.rig_id && !other.value.is_empty();
                set("did-take-back", earlier.iter().find(same).unwrap_or(kept))
            }
        }
    }

    /// A setting that was kept, as it could be typed; what no longer reads, as it was kept.
    fn typed_setting(&self, kept: &Kept) -> String {
        let value = || [("value", (&kept.value).into())];
        let typed = match kept.name.as_str() {
            store::settings::NAME => self.words.say("set-name", value()),
            store::settings::ZONE => self.words.say("set-zone", value()),
            name => Field::named(name)
                .and_then(|field| Setting::kept(field, &kept.value))
                .map_or_else(
                    || format!("{name} {}", kept.value),
                    |setting| typed(self.words, &setting, self.ways()),
                ),
        };
        match kept.rig_id {
            Some(rig) => format!("{} {typed}", self.rig_name(rig).to_lowercase()),
            None => typed,
        }
    }

    /// What somebody said that a rig is.
    fn told_trait(&self, change: &Change, key: &'static str) -> String {
        let told = format!("{} {}", change.about.to_lowercase(), self.words.plain(key));
        self.words.say("did-set", [("setting", (&told).into())])
    }

    /// What somebody did, behind their name; none for what an older release wrote.
    async fn told_change(&mut self, change: &Change) -> Result<Option<String>, StoreError> {
        let other = self.name_of(change.about.parse().ok()).await?;
        let other = [("other", (&other).into())];
        let rig = [("rig", (&change.about).into())];
        let count = || [("count", change.about.parse::<i64>().unwrap_or_default().into())];
        Ok(Some(match change.what.as_str() {
            "joined" => self.words.plain("did-join"),
            "left" => self.words.plain("did-leave"),
            "forgotten" => self.words.plain("did-ask-to-be-forgotten"),
            "removed" => self.words.say("did-remove", other),
            "made-owner" => self.words.say("did-make-owner", other),
            "made-lead" => self.words.say("did-make-lead", other),
            "made-crew" => self.words.say("did-make-crew", other),
            "handed-over" => self.words.say("did-hand-over", other),
            "invites-cancelled" => self.words.plain("did-cancel-invites"),
            "exported" => self.words.plain("did-export"),
            "imported" => self.words.say("did-import", count()),
            "import-undone" => self.words.say("did-undo-import", count()),
            "deleted-old" => self.words.say("did-delete-old", count()),
            "rig-added" => self.words.say("did-add-rig", rig),
            "rig-removed" => self.words.say("did-remove-rig", rig),
            "rig-di-only" => self.told_trait(change, "setup-di-only"),
            "rig-has-membrane" => self.told_trait(change, "did-have-membrane"),
            "rig-flushes-itself" => self.told_trait(change, "setup-by-itself"),
            "rig-flushed-by-hand" => self.told_trait(change, "setup-by-hand"),
            "closing" => self.words.plain("did-close"),
            "kept" => self.words.plain("did-keep"),
            _ => return Ok(None),
        }))
    }
}
