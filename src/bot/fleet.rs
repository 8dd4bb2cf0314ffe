//! Commands about rigs, and the way from a typed name to a rig.

use deunicode::deunicode;

use crate::message::Topic;
use crate::message::command::Command;
use crate::replies::caution::Occasion;
use crate::replies::outfit;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;

/// A name as it is compared: letters and digits alone, plain and small. What
/// is neither is dropped first, since an emoji would fold to a word.
pub(super) fn fold(name: &str) -> String {
    let letters: String = name.chars().filter(|letter| letter.is_alphanumeric()).collect();
    deunicode(&letters)
        .to_lowercase()
        .chars()
        .filter(char::is_ascii_alphanumeric)
        .collect()
}

/// A name as an owner may give it: none if it could not be told from a reading.
pub(super) fn proper_name(typed: &str) -> Option<String> {
    let name = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let folded = fold(&name);
    let readable = (1..=30).contains(&name.chars().count()) && !name.chars().any(char::is_control);
    let told_from_a_number = folded.chars().any(|letter| letter.is_ascii_alphabetic());
    if !readable || !told_from_a_number {
        return None;
    }
    let small = name.chars().all(|letter| !letter.is_uppercase());
    Some(if small { capitalised(&name) } else { name })
}

fn capitalised(name: &str) -> String {
    let word = |word: &str| {
        let mut letters = word.chars();
        letters.next().map_or_else(String::new, |first| {
            first.to_uppercase().chain(letters).collect::<String>()
        })
    };
    name.split(' ').map(word).collect::<Vec<_>>().join(" ")
}

impl Turn<'_> {
    /// The rig that a name means: the same name, else the only one that it begins.
    pub(super) fn rig_named(&self, typed: &str) -> Option<Rig> {
        let typed = fold(typed);
        if typed.is_empty() {
            return None;
        }
        if let Some(rig) = self.fleet.iter().find(|rig| fold(&rig.name) == typed) {
            return Some(rig.clone());
        }
        let called = |rig: &&Rig| self.rules.short_names(rig.id).iter().any(|name| fold(name) == typed);
        if let Some(rig) = self.fleet.iter().find(called) {
            return Some(rig.clone());
        }
        let mut begun = self.fleet.iter().filter(|rig| fold(&rig.name).starts_with(&typed));
        match (begun.next(), begun.next()) {
            (Some(rig), None) => Some(rig.clone()),
            _ => None,
        }
    }

    /// The rigs that names mean; none if one of them means none.
    fn rigs_named(&self, typed: &[String]) -> Option<Vec<i64>> {
        typed
            .iter()
            .map(|name| self.rig_named(name).map(|rig| rig.id))
            .collect()
    }

    /// Answers a command; none if it turns out to be none.
    pub(super) async fn obey(&mut self, command: Command) -> Result<Option<Answer>, StoreError> {
        Ok(Some(match command {
            Command::Start(_) => Answer::says(self.words.say("already-in", [("outfit", (&self.outfit.name).into())])),
            Command::Help => self.help().await?,
            Command::HelpOn(page) => self.help_on(page).await?,
            Command::Meaning(term) => self.meaning(term),
            Command::Language(language) => self.choose_language(&language).await?,
            Command::WhichLanguage => self.which_language(),
            Command::Undo => self.undo().await?,
            Command::Fleet => self.whole_fleet().await?,
            Command::WhoLogged => self.who_logged(None, None).await?,
            Command::People => self.people().await?,
            Command::Leave => self.leave().await?,
            Command::Affair(affair) => return self.attend_to(affair).await,
            Command::Name(name) => self.rename(&name).await?,
            Command::Zone(zone) => self.set_zone(&zone).await?,
            Command::DayEnds(time) => self.set_day_ends(&time).await?,
            Command::Setting(wished) => return self.wish(wished).await,
            Command::AddRigs(names) => self.add_rigs(&names).await?,
            Command::RemoveRig(name) => self.remove_rig(&name).await?,
            Command::OwnRig(name) => self.set_own_rig(&name).await?,
            Command::History(name) if name.is_empty() => self.look(Topic::History, None).await?,
            Command::History(name) => match self.rig_named(&name) {
                Some(rig) => self.history(&rig).await?,
                None => self.unknown_rig(&name),
            },
            Command::Look(name) => match self.rig_named(&name) {
                Some(rig) => self.one_rig(&rig).await?,
                None => return Ok(None),
            },
            Command::NotUsed(names) => match self.rigs_named(&names) {
                Some(rigs) if !rigs.is_empty() => self.not_used(&rigs).await?,
                _ => return Ok(None),
            },
            Command::NoteAgain(rig, about) => return self.answer_note(&rig, &about, true).await,
            Command::NoteLetBe(rig, about) => return self.answer_note(&rig, &about, false).await,
            Command::Digest => self.digest_now().await?,
            Command::DigestMore(of) => self.digest_more(&of).await?,
            Command::DigestFile => self.digest_file().await?,
            Command::Calendar => self.calendar().await?,
            Command::Picture(_) | Command::ResinPicture(_) | Command::MoneyPicture(_) => {
                return self.picture(&command).await;
            }
            Command::FlushLater(names) => match self.rigs_named(&names) {
                Some(rigs) => self.flush_later(&rigs, None).await?,
                None => return Ok(None),
            },
            Command::DiOnly(name) => return self.trait_of(&name, "rig-di-only", |rig| rig.di_only = true).await,
            Command::HasMembrane(name) => {
                return self
                    .trait_of(&name, "rig-has-membrane", |rig| rig.di_only = false)
                    .await;
            }
            Command::FlushesItself(name) => {
                return self
                    .trait_of(&name, "rig-flushes-itself", |rig| rig.flushes_itself = true)
                    .await;
            }
            Command::FlushedByHand(name) => {
                return self
                    .trait_of(&name, "rig-flushed-by-hand", |rig| rig.flushes_itself = false)
                    .await;
            }
        }))
    }

    async fn trait_of(
        &mut self,
        name: &str,
        key: &'static str,
        change: impl FnOnce(&mut Rig),
    ) -> Result<Option<Answer>, StoreError> {
        let Some(mut rig) = self.rig_named(name) else {
            return Ok(None);
        };
        if !self.member.role.leads() {
            return Ok(Some(self.may_not("who-leads")));
        }
        change(&mut rig);
        store::rigs::set_traits(self.db, &rig, self.now).await?;
        self.note(key, &rig.name).await?;
        Ok(Some(Answer::says(self.words.say(key, [("rig", (&rig.name).into())]))))
    }

    pub(super) async fn add_rigs(&mut self, names: &[String]) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let (mut added, mut lines) = (Vec::new(), Vec::new());
        for typed in names {
            let Some(name) = proper_name(typed) else {
                lines.push(self.words.plain("rig-name-bad"));
                continue;
            };
            if store::rigs::bring_back(self.db, self.outfit.id, &fold(&name))
                .await?
                .is_some()
            {
                self.note("rig-added", &name).await?;
                lines.push(self.words.say("rig-back", [("rig", (&name).into())]));
                continue;
            }
            match store::rigs::add(self.db, self.outfit.id, &name, &fold(&name), self.now).await? {
                Some(_) => {
                    self.note("rig-added", &name).await?;
                    added.push(name);
                }
                None => lines.push(self.words.say("rig-exists", [("rig", (&name).into())])),
            }
        }
        if let Some(first) = added.first() {
            self.occasions.push(Occasion::RigSetUp);
            let example = format!("{} 180 12", first.to_lowercase());
            let (key, told) = if added.len() == 1 {
                ("rig-added", first.clone())
            } else {
                ("rigs-added", added.join(", "))
            };
            let told = self.words.say(
                key,
                [
                    ("rig", (&told).into()),
                    ("rigs", (&told).into()),
                    ("example", (&example).into()),
                ],
            );
            lines.insert(0, told);
        }
        Ok(Answer::says(lines.join("\n")))
    }

    async fn remove_rig(&mut self, name: &str) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        // A rig goes only by its whole name.
        let Some(rig) = self.rig_named(name).filter(|rig| fold(&rig.name) == fold(name)) else {
            return Ok(self.unknown_rig(name));
        };
        store::rigs::remove(self.db, rig.id, self.now).await?;
        self.note("rig-removed", &rig.name).await?;
        Ok(Answer::says(
            self.words.say("rig-removed", [("rig", (&rig.name).into())]),
        ))
    }

    async fn set_own_rig(&mut self, name: &str) -> Result<Answer, StoreError> {
        let Some(rig) = self.rig_named(name) else {
            return Ok(self.unknown_rig(name));
        };
        store::people::set_own_rig(self.db, self.member.id, Some(rig.id)).await?;
        store::people::set_todays_rig(self.db, self.member.id, None, 0).await?;
        Ok(Answer::says(self.words.say("own-rig", [("rig", (&rig.name).into())])))
    }

    pub(super) fn unknown_rig(&self, name: &str) -> Answer {
        if self.fleet.is_empty() {
            return Answer::says(self.words.plain("fleet-empty"));
        }
        let rigs = self
            .fleet
            .iter()
            .map(|rig| rig.name.as_str())
            .collect::<Vec<_>>()
            .join(", ");
        Answer::says(
            self.words
                .say("rig-unknown", [("name", name.into()), ("rigs", (&rigs).into())]),
        )
    }

    /// The refusal of what only some may do.
    pub(super) fn may_not(&self, who: &str) -> Answer {
        Answer::says(self.words.say("may-not", [("who", (&self.words.plain(who)).into())]))
    }

    /// The role's word in this person's language.
    pub(super) fn role_word(&self, role: crate::store::people::Role) -> String {
        outfit::role(self.words, super::turn::standing(role))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_by_letters_and_digits() {
        for (name, folded) in [
            ("Big Blue", "bigblue"),
            ("Nº 7", "nº7"),
            ("Señor 🐢", "senor"),
            ("van-3", "van3"),
        ] {
            assert_eq!(fold(name), deunicode(folded).to_lowercase(), "{name}");
        }
    }

    #[test]
    fn a_name_must_be_told_from_a_number() {
        assert_eq!(proper_name("heron").as_deref(), Some("Heron"));
        assert_eq!(proper_name("  big   blue ").as_deref(), Some("Big Blue"));
        assert_eq!(proper_name("MULE").as_deref(), Some("MULE"));
        for bad in ["", "12", "🐢", "a very long name that nobody would ever thumb"] {
            assert_eq!(proper_name(bad), None, "{bad}");
        }
    }
}
