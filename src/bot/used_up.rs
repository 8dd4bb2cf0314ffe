//! Parts that are used up and not changed yet.

use crate::domain::meaning::Spent;
use crate::replies::caution::Occasion;
use crate::water::verdict::Kind;

use super::answer::Answer;
use super::request::Request;

/// Says of each rig that its part is to be changed before the next window; nothing is recorded.
pub(super) fn used_up(on: &Request<'_>, spent: &[Spent]) -> Answer {
    let line = |one: &Spent| {
        let rig = on.rig_name(one.rig);
        on.words.say("used-up", [("rig", (&rig).into())])
    };
    let lines: Vec<String> = spent.iter().map(line).collect();
    // Whoever changes a part opens a housing.
    Answer {
        occasions: vec![Occasion::Advised(Kind::ChangeResin)],
        ..Answer::says(lines.join("\n"))
    }
}
