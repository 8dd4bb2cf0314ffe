//! What people answer to what they were told unasked.

use crate::digest::membrane_need::{self, MembraneNeed};
use crate::digest::notes::Topic;
use crate::replies::figures;
use crate::replies::notes::{Press, answered};
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::turn::Turn;
use super::{decisions, gathering};

const WEEK: i64 = 7 * 86_400;

/// The text that does the same as a button below a note.
pub(super) fn says(rig: &str, topic: Topic, press: Press) -> String {
    let about = match topic {
        Topic::Resin => "resin",
        Topic::Frost => {
            return if press == Press::InAWeek {
                "frost in a week"
            } else {
                "frost not now"
            }
            .to_owned();
        }
        Topic::Membrane | Topic::AskMembrane => "membrane",
        Topic::Idle30 | Topic::Idle14 | Topic::Idle5 => "idle",
        Topic::Prefilters => "prefilters",
    };
    match (press, topic) {
        (Press::Done, Topic::Idle5 | Topic::Idle14) => format!("{rig} flushed"),
        (Press::Done, Topic::Idle30) => format!("{rig} preserved"),
        (Press::Done, _) => format!("{rig} new {about}"),
        (Press::InAWeek, _) => format!("{rig} {about} in a week"),
        (Press::NotNow, _) => format!("{rig} {about} not now"),
        (Press::NewMembrane, _) => format!("{rig} new membrane"),
        (Press::SameMembrane, _) => format!("{rig} same membrane"),
    }
}

/// The notes that a typed word is about.
fn topics(about: &str) -> &'static [Topic] {
    match about {
        "resin" => &[Topic::Resin],
        "membrane" => &[Topic::Membrane, Topic::AskMembrane],
        "prefilters" => &[Topic::Prefilters],
        "idle" => &[Topic::Idle5, Topic::Idle14, Topic::Idle30],
        "frost" => &[Topic::Frost],
        _ => &[],
    }
}

impl Turn<'_> {
    /// "Heron membrane in a week", "frost not now": says it again later, or lets
    /// it be. None if it is about no rig of the fleet.
    pub(super) async fn answer_note(
        &mut self,
        rig: &str,
        about: &str,
        again: bool,
    ) -> Result<Option<Answer>, StoreError> {
        let rig = match (rig, about) {
            ("", "frost") => None,
            (name, _) => match self.rig_named(name) {
                Some(rig) => Some(rig.id),
                None => return Ok(None),
            },
        };
        if again {
            for topic in topics(about) {
                store::notes::put_off(self.db, self.outfit.id, rig, topic.code(), self.now + WEEK).await?;
            }
        }
        if let (false, "membrane", Some(rig)) = (again, about, rig)
            && self.member.role.leads()
            && let Some(answer) = self.put_membrane_off(rig).await?
        {
            return Ok(Some(answer));
        }
        let press = if again { Press::InAWeek } else { Press::NotNow };
        Ok(Some(Answer::says(answered(self.words, press))))
    }

    /// Lets a membrane be for a while, if a new one is asked for; says until when.
    async fn put_membrane_off(&mut self, rig_id: i64) -> Result<Option<Answer>, StoreError> {
        let Some(rig) = self.fleet.iter().find(|rig| rig.id == rig_id).cloned() else {
            return Ok(None);
        };
        let followed = self.follow(&rig).await?;
        let today = self.today();
        let need = membrane_need::of(
            &followed.assessment,
            followed.behind,
            today,
            gathering::offset(&self.zone, self.now),
        );
        if !matches!(
            need,
            MembraneNeed::Buy | MembraneNeed::Weigh { .. } | MembraneNeed::GlassDecides { .. } | MembraneNeed::Plan(_)
        ) {
            return Ok(None);
        }
        decisions::put_membrane_off(self.db, self.outfit.id, rig_id, self.now).await?;
        let until = figures::day(self.words, self.date(self.now + decisions::PUT_OFF), today);
        let facts = [("rig", (&rig.name).into()), ("day", (&until).into())];
        Ok(Some(Answer::says(self.words.say("note-answer-put-off", facts))))
    }
}
