//! What a message comes to, as data: what a text is read as, and what a button keeps.

use serde::{Deserialize, Serialize};

use crate::domain::ServiceKind;
use crate::grammar::{Label, Meaning, Service};
use crate::message::command::Command;
use crate::message::setting::{Setting, WishFor};
use crate::message::setup::Guide;

/// The version of the kept form. A form that is read otherwise has another number.
const VERSION: u8 = 1;

/// What a message comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Act {
    /// Something to run, set or show.
    Command(Command),
    /// What it says by itself.
    Meaning(Meaning),
    /// What it says as the answer to the open question.
    Answer(Meaning),
    /// One of the choices of the open question.
    Choose(Label),
    /// A word to the guide through setting up.
    Guide(Guide),
    /// A text that can hardly be anything but half a setting.
    HalfSetting(String),
    /// A text of which nothing is understood.
    Unclear(String),
}

/// An act with the version of its form.
#[derive(Serialize, Deserialize)]
struct Kept {
    v: u8,
    act: Act,
}

impl Act {
    /// Services of one kind that are done now, each on a rig.
    pub fn done(what: ServiceKind, rigs: impl IntoIterator<Item = i64>) -> Self {
        let service = |rig| Service {
            rig,
            what,
            minutes: None,
            price: None,
            when: None,
        };
        Self::Meaning(Meaning {
            services: rigs.into_iter().map(service).collect(),
            ..Meaning::default()
        })
    }

    /// A setting, of one rig or of the outfit.
    pub fn set(rig: Option<&str>, setting: Setting) -> Self {
        Self::Command(Command::Setting(WishFor::set(rig, setting)))
    }

    /// The form in which a button keeps it.
    pub fn kept(self) -> String {
        // Its keys are all texts, which is all that can fail.
        serde_json::to_string(&Kept { v: VERSION, act: self }).unwrap_or_default()
    }

    /// An act from its kept form; none from another version's, or from the text that a button once said.
    pub fn of_kept(kept: &str) -> Option<Self> {
        let kept: Kept = serde_json::from_str(kept).ok()?;
        (kept.v == VERSION).then_some(kept.act)
    }

    /// The command that it is.
    pub fn command(&self) -> Option<&Command> {
        match self {
            Self::Command(command) => Some(command),
            _ => None,
        }
    }

    /// Whether it says that membranes were flushed, and nothing else.
    pub fn is_flush(&self) -> bool {
        let Self::Meaning(meaning) = self else {
            return false;
        };
        let rigs = meaning.services.iter().map(|service| service.rig);
        !meaning.services.is_empty() && *self == Self::done(ServiceKind::Flush, rigs)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::message::command::Affair;
    use crate::message::setting::{Clock, Field, Weekday};
    use crate::message::setup::{Part, Step};

    #[test]
    fn an_act_is_read_as_it_was_kept() {
        for act in [
            Act::Command(Command::Affair(Affair::Make(
                "anna 2".to_owned(),
                crate::domain::Role::Lead,
            ))),
            Act::set(None, Field::DigestAt.to((Weekday::Friday, Clock::MIDNIGHT))),
            Act::set(Some("heron"), Field::ResinLitres.to(14.158_423_296)),
            Act::done(ServiceKind::Flush, [3, 7]),
            Act::Choose(Label::Pair {
                feed: 180.0,
                permeate: 12.5,
            }),
            Act::Guide(Guide::Pass(Some(Step::Rig(7, Part::Resin)))),
        ] {
            assert_eq!(Act::of_kept(&act.clone().kept()), Some(act));
        }
    }

    #[test]
    fn an_older_button_and_a_later_version_are_none() {
        let later = Act::done(ServiceKind::Flush, [3]).kept().replace("\"v\":1", "\"v\":2");
        for kept in ["heron flushed", "", "{}", &later] {
            assert_eq!(Act::of_kept(kept), None, "{kept}");
        }
    }
}
