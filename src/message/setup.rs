//! Setting up an outfit in a guided chat: the steps, and which comes next.
//!
//! It only asks; what is answered is set by the same commands that somebody
//! could type (`answers`). Lists of rigs are read in `roster`, the words of the
//! guide itself in `guide`.

mod answers;
mod guide;
mod roster;
mod zones;

use serde::{Deserialize, Serialize};

pub use answers::{answer, kind};
pub use guide::{Guide, read};
pub use roster::{Roster, Row};
pub use zones::{country_of, zone_of_place, zones_of};

/// One question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Step {
    /// What the outfit is called.
    Name,
    /// Where it works.
    Country,
    /// What the clock shows there.
    Zone,
    /// Which rigs there are.
    Rigs,
    /// A first reading, and whether to go on.
    Reading,
    /// Days, end of the day and digest at once.
    Hours,
    /// The days alone.
    WorkingDays,
    /// The end of the day alone.
    DayEnds,
    /// The digest alone.
    Digest,
    /// Something about one rig.
    Rig(i64, Part),
    /// What a membrane costs.
    MembranePrice,
    /// What resin costs.
    ResinPrice,
    /// What a rig makes in a day.
    LitresPerDay,
    /// Whether to let the crew in now.
    Crew,
}

/// What is asked about one rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Part {
    /// All that has a usual answer, at once.
    Facts,
    /// RO and DI, or one alone.
    Kind,
    /// How many membranes.
    Membranes,
    /// By hand or by itself.
    Flush,
    /// Upright or lying.
    Stands,
    /// Litres of resin.
    Resin,
    /// What a membrane is rated for.
    Rated,
    /// How often prefilters are changed.
    Prefilters,
}

/// What a rig does to its water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A membrane and a bed of resin.
    RoAndDi,
    /// Resin alone.
    DiOnly,
    /// A membrane alone.
    RoOnly,
}

const OUTFIT_STEPS: [(Step, &str); 13] = [
    (Step::Name, "name"),
    (Step::Country, "country"),
    (Step::Zone, "zone"),
    (Step::Rigs, "rigs"),
    (Step::Reading, "reading"),
    (Step::Hours, "hours"),
    (Step::WorkingDays, "working-days"),
    (Step::DayEnds, "day-ends"),
    (Step::Digest, "digest"),
    (Step::MembranePrice, "membrane-price"),
    (Step::ResinPrice, "resin-price"),
    (Step::LitresPerDay, "litres"),
    (Step::Crew, "crew"),
];

const PARTS: [(Part, &str); 8] = [
    (Part::Facts, "facts"),
    (Part::Kind, "kind"),
    (Part::Membranes, "membranes"),
    (Part::Flush, "flush"),
    (Part::Stands, "stands"),
    (Part::Resin, "resin"),
    (Part::Rated, "rated"),
    (Part::Prefilters, "prefilters"),
];

impl Step {
    /// A word for it, so that a button of one question never answers another:
    /// `country`, `rig-7-resin`.
    pub fn word(self) -> String {
        if let Self::Rig(id, part) = self {
            let part = PARTS.iter().find(|row| row.0 == part).map_or("facts", |row| row.1);
            return format!("rig-{id}-{part}");
        }
        let row = OUTFIT_STEPS.iter().find(|row| row.0 == self);
        row.map_or_else(String::new, |row| row.1.to_owned())
    }

    /// The step that [`Step::word`] wrote.
    pub fn of_word(word: &str) -> Option<Self> {
        if let Some((id, part)) = word.strip_prefix("rig-").and_then(|rest| rest.split_once('-')) {
            let part = PARTS.iter().find(|row| row.1 == part)?.0;
            return Some(Self::Rig(id.parse().ok()?, part));
        }
        OUTFIT_STEPS.iter().find(|row| row.1 == word).map(|row| row.0)
    }
}

/// How far somebody is.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Progress {
    /// Through the whole outfit; else only through what is wanted.
    pub whole: bool,
    /// Asked first, whether it is known or not.
    pub wanted: Vec<Step>,
    /// Answered or skipped.
    pub passed: Vec<Step>,
    /// The open question.
    pub step: Option<Step>,
    /// How often something else was said since the last answer.
    pub strayed: u8,
    /// Which message answered which question, newest last: an edit answers it again.
    pub answered: Vec<(String, Step)>,
}

/// What is known already, and so not asked.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Known {
    pub name: bool,
    pub country: bool,
    pub zone: bool,
    pub hours: bool,
    pub rigs: Vec<KnownRig>,
    pub membrane_price: bool,
    pub resin_price: bool,
    pub litres_per_day: bool,
    /// Somebody besides the owner is in.
    pub crew: bool,
}

/// What is known of a rig.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct KnownRig {
    pub id: i64,
    pub has_membrane: bool,
    pub has_bed: bool,
    /// Something of what has a usual answer was told.
    pub facts: bool,
    pub resin: bool,
}

/// The next question; none when all is asked.
pub fn next(progress: &Progress, known: &Known) -> Option<Step> {
    let open = |step: &Step| !progress.passed.contains(step);
    let wanted = progress.wanted.iter().copied();
    let wanted = wanted.filter(open).find(|step| applies(*step, known));
    if wanted.is_some() || !progress.whole {
        return wanted;
    }
    order(known)
        .into_iter()
        .filter(open)
        .find(|step| applies(*step, known) && !is_known(*step, known))
}

fn order(known: &Known) -> Vec<Step> {
    let mut steps = vec![
        Step::Name,
        Step::Country,
        Step::Zone,
        Step::Rigs,
        Step::Reading,
        Step::Hours,
    ];
    for rig in &known.rigs {
        steps.extend([Step::Rig(rig.id, Part::Facts), Step::Rig(rig.id, Part::Resin)]);
    }
    steps.extend([Step::MembranePrice, Step::ResinPrice, Step::LitresPerDay, Step::Crew]);
    steps
}

/// Whether a question makes sense in this outfit.
fn applies(step: Step, known: &Known) -> bool {
    let any = |has: fn(&KnownRig) -> bool| known.rigs.iter().any(has);
    match step {
        Step::Reading => !known.rigs.is_empty(),
        // A membrane is weighed against the resin that it saves.
        Step::MembranePrice | Step::LitresPerDay => any(|rig| rig.has_membrane && rig.has_bed),
        Step::ResinPrice => any(|rig| rig.has_bed),
        Step::Rig(id, part) => known
            .rigs
            .iter()
            .find(|rig| rig.id == id)
            .is_some_and(|rig| match part {
                Part::Facts | Part::Kind | Part::Prefilters => true,
                Part::Membranes | Part::Flush | Part::Rated => rig.has_membrane,
                Part::Stands | Part::Resin => rig.has_bed,
            }),
        _ => true,
    }
}

fn is_known(step: Step, known: &Known) -> bool {
    let rig = |id: i64| known.rigs.iter().find(|rig| rig.id == id);
    match step {
        Step::Name => known.name,
        Step::Country => known.country,
        Step::Zone => known.zone,
        Step::Rigs => !known.rigs.is_empty(),
        Step::Hours => known.hours,
        Step::MembranePrice => known.membrane_price,
        Step::ResinPrice => known.resin_price,
        Step::LitresPerDay => known.litres_per_day,
        Step::Crew => known.crew,
        Step::Rig(id, Part::Facts) => rig(id).is_some_and(|rig| rig.facts),
        Step::Rig(id, Part::Resin) => rig(id).is_some_and(|rig| rig.resin),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HERON: KnownRig = KnownRig {
        id: 7,
        has_membrane: true,
        has_bed: true,
        facts: false,
        resin: false,
    };

    fn whole(passed: &[Step]) -> Progress {
        Progress {
            whole: true,
            passed: passed.to_vec(),
            ..Progress::default()
        }
    }

    #[test]
    fn what_is_known_or_passed_is_not_asked() {
        let mut known = Known::default();
        assert_eq!(next(&whole(&[]), &known), Some(Step::Name));
        assert_eq!(next(&whole(&[Step::Name]), &known), Some(Step::Country));
        (known.name, known.country, known.zone) = (true, true, true);
        assert_eq!(next(&whole(&[]), &known), Some(Step::Rigs));
        known.rigs.push(HERON);
        assert_eq!(next(&whole(&[]), &known), Some(Step::Reading));
        let passed = [Step::Reading, Step::Hours];
        assert_eq!(next(&whole(&passed), &known), Some(Step::Rig(7, Part::Facts)));
        known.rigs[0].facts = true;
        assert_eq!(next(&whole(&passed), &known), Some(Step::Rig(7, Part::Resin)));
    }

    #[test]
    fn a_rig_without_resin_is_asked_nothing_about_it() {
        let mut known = Known {
            rigs: vec![KnownRig {
                has_bed: false,
                facts: true,
                ..HERON
            }],
            ..Known::default()
        };
        let passed = [Step::Name, Step::Country, Step::Zone, Step::Reading, Step::Hours];
        assert_eq!(next(&whole(&passed), &known), Some(Step::Crew));
        known.rigs[0].has_membrane = false;
        known.rigs[0].has_bed = true;
        known.rigs[0].resin = true;
        assert_eq!(
            next(&whole(&passed), &known),
            Some(Step::ResinPrice),
            "no membrane, no price of one"
        );
    }

    #[test]
    fn what_is_wanted_comes_first_and_alone_if_nothing_else_was_begun() {
        let known = Known {
            rigs: vec![KnownRig { resin: true, ..HERON }],
            ..Known::default()
        };
        let mut progress = Progress {
            wanted: vec![Step::Rig(7, Part::Resin), Step::Rig(8, Part::Resin)],
            ..Progress::default()
        };
        assert_eq!(
            next(&progress, &known),
            Some(Step::Rig(7, Part::Resin)),
            "known, yet wanted"
        );
        progress.passed.push(Step::Rig(7, Part::Resin));
        assert_eq!(next(&progress, &known), None, "rig 8 is off the fleet");
    }

    #[test]
    fn a_step_has_a_word_that_leads_back() {
        let parts = PARTS.map(|row| Step::Rig(12, row.0));
        for step in OUTFIT_STEPS.map(|row| row.0).into_iter().chain(parts) {
            assert_eq!(Step::of_word(&step.word()), Some(step));
        }
        assert_eq!(Step::of_word("rig-x-resin"), None);
    }
}
