//! How long the resin lasts, in words.

use crate::water::resin::{BedAssessment, BedState};

use super::Words;
use super::figures;

/// From this share of its capacity on, a bed is used up by the count.
const USED_UP_SHARE: f64 = 0.95;
/// Less of a bed than this is hardly used.
const FRESH_SHARE: f64 = 0.015;

/// What is known of a rig's resin.
pub struct Facts<'a> {
    /// The rig's name.
    pub rig: &'a str,
    /// What the computation says; none while the bed's size is not told.
    pub bed: Option<BedAssessment>,
    /// Whether a change of resin is logged.
    pub changed: bool,
    /// Whether the bed lies on its side.
    pub lying: bool,
    /// What could be typed to tell what is missing.
    pub missing: &'a [String],
}

/// The answer to "how long will the resin last on heron?".
pub fn answer(words: Words, facts: &Facts<'_>) -> String {
    let rig = ("rig", facts.rig.into());
    let Some(bed) = facts.bed.filter(|_| !is_uncounted(facts)) else {
        let mut lines = vec![words.say("resin-missing", [rig])];
        lines.extend(facts.missing.iter().cloned());
        return lines.join("\n");
    };
    let ppm = bed.product_ppm.map(|ppm| figures::ppm(words, ppm)).unwrap_or_default();
    let used = figures::whole_percent(bed.used_share.min(9.99));
    match bed.state {
        BedState::Exhausted => return words.say("resin-exhausted", [rig, ("ppm", (&ppm).into())]),
        BedState::EarlyBreakthrough => return early(words, facts, &ppm, &used),
        BedState::GivingWay | BedState::Holding => {}
    }
    let Some(days) = bed.working_days.filter(|_| facts.changed) else {
        let typed = facts.rig.to_lowercase();
        return words.say("resin-no-change", [rig, ("typed", (&typed).into())]);
    };
    let by_glass = is_by_glass(&bed);
    let mut lines = vec![headline(words, facts.rig, days, by_glass)];
    // Where nothing is left, the first line says the same already.
    if bed.state == BedState::GivingWay && whole(days[1]) > 0 {
        lines.push(words.plain("resin-rising"));
    }
    lines.push(match bed.product_ppm {
        Some(_) if bed.used_share < FRESH_SHARE => words.say("resin-fresh", [("ppm", (&ppm).into())]),
        Some(_) => words.say("resin-used", [("used", (&used).into()), ("ppm", (&ppm).into())]),
        None if bed.used_share < FRESH_SHARE => words.plain("resin-fresh-untested"),
        None => words.say("resin-used-untested", [("used", (&used).into())]),
    });
    lines.join("\n")
}

/// The answer in one line, for a list of rigs.
pub fn line(words: Words, facts: &Facts<'_>) -> String {
    if let (true, [example, ..]) = (is_uncounted(facts), facts.missing) {
        let rig = ("rig", facts.rig.into());
        return words.say("resin-missing-short", [rig, ("example", example.into())]);
    }
    let answer = answer(words, facts);
    answer.lines().next().unwrap_or_default().to_owned()
}

/// Whether nothing can be said of the bed for want of its size, the litres a day or a reading.
fn is_uncounted(facts: &Facts<'_>) -> bool {
    facts.bed.is_none_or(|bed| {
        let by_the_glass = matches!(bed.state, BedState::Exhausted | BedState::EarlyBreakthrough);
        !by_the_glass && facts.changed && bed.working_days.is_none()
    })
}

/// Whether it is the glass that says how little is left, and not the count.
fn is_by_glass(bed: &BedAssessment) -> bool {
    bed.state == BedState::GivingWay && bed.used_share < USED_UP_SHARE
}

fn headline(words: Words, rig: &str, days: [f64; 3], by_glass: bool) -> String {
    let [low, likely, high] = days.map(whole);
    if likely == 0 {
        let key = if by_glass {
            "resin-done-by-glass"
        } else {
            "resin-used-up"
        };
        return words.say(key, [("rig", rig.into())]);
    }
    let likely = working_days(words, likely);
    if low == high {
        return words.say("resin-days-one", [("rig", rig.into()), ("likely", (&likely).into())]);
    }
    words.say(
        "resin-days",
        [
            ("rig", rig.into()),
            ("likely", (&likely).into()),
            ("low", (&low.to_string()).into()),
            ("high", (&high.to_string()).into()),
        ],
    )
}

fn early(words: Words, facts: &Facts<'_>, ppm: &str, used: &str) -> String {
    let mut lines = vec![words.say(
        "resin-early",
        [("rig", facts.rig.into()), ("ppm", ppm.into()), ("used", used.into())],
    )];
    if facts.lying {
        lines.push(words.plain("resin-early-lying"));
    }
    lines.push(words.plain("resin-early-do"));
    lines.join("\n")
}

/// A word on the resin for the answer to a reading; none when there is nothing to say.
pub fn short(words: Words, bed: &BedAssessment) -> Option<String> {
    match bed.state {
        BedState::EarlyBreakthrough => return Some(words.plain("resin-short-early")),
        BedState::Exhausted => return None,
        BedState::Holding | BedState::GivingWay => {}
    }
    let days = whole(bed.working_days?[1]);
    if days == 0 {
        let key = if is_by_glass(bed) {
            "resin-short-by-glass"
        } else {
            "resin-short-last"
        };
        return Some(words.plain(key));
    }
    let days = working_days(words, days);
    Some(words.say("resin-short", [("days", (&days).into())]))
}

fn working_days(words: Words, days: i64) -> String {
    words.say("working-days", [("days", days.into())])
}

/// Days are counted down: what is left of one is not promised.
fn whole(days: f64) -> i64 {
    days.clamp(0.0, 9_999.0).floor() as i64
}
