//! `changes`: who changed what, newest first.

use crate::replies::{figures, reading};
use crate::store::changes::Change;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::recording::figures as figures_of;
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
        for setting in store::settings::past(self.db, outfit_id, most).await? {
            let rig = setting.rig_id.map(|rig| self.rig_name(rig));
            let name = rig.map_or(setting.name.clone(), |rig| format!("{rig}: {}", setting.name));
            let text = if setting.name == store::settings::CREW_CHAT {
                let key = if setting.value.is_empty() {
                    "did-unlink"
                } else {
                    "did-link"
                };
                self.words.say(key, [])
            } else if setting.value.is_empty() {
                self.words.say("did-reset", [("name", (&name).into())])
            } else {
                let facts = [("name", (&name).into()), ("value", (&setting.value).into())];
                self.words.say("did-set", facts)
            };
            lines.push(Line {
                at: setting.set_at,
                person_id: setting.person_id,
                text,
            });
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
            let name = self.name_of(line.person_id).await?;
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

    /// What somebody did, behind their name; none for what an older release wrote.
    async fn told_change(&mut self, change: &Change) -> Result<Option<String>, StoreError> {
        let other = self.name_of(change.about.parse().ok()).await?;
        let other = [("other", (&other).into())];
        let about = [("about", (&change.about).into())];
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
            "imported" => self.words.say("did-import", about),
            "import-undone" => self.words.say("did-undo-import", about),
            "closing" => self.words.plain("did-close"),
            "kept" => self.words.plain("did-keep"),
            _ => return Ok(None),
        }))
    }
}
