//! One rig, one truth: sixty invented rigs followed through every answer. Wherever a rig is spoken of, it has one state,
//! one rejection on one basis, one deed, and the rigs one order. World starts on Wednesday, 4 March 2026, 8:00 in London.

use crate::figures_agree::priced;

const RIGS: [&str; 3] = ["heron", "otter", "mule"];

const STATES: [&str; 6] = [
    "good",
    "fading",
    "plan a new one",
    "worn out",
    "too early to tell",
    "look for a leak",
];
/// Said of the last reading alone, not of the rig.
const OF_THE_READING: [&str; 2] = ["read again", "back to normal"];

/// What is to be done, as an answer begins to say it.
const DEEDS: [&str; 12] = [
    "change the prefilters",
    "change the resin",
    "find the leak",
    "have a membrane ready",
    "is there a new membrane",
    "new membrane now",
    "new resin",
    "plan a new membrane",
    "read it again",
    "read it once more",
    "repack the resin",
    "think about a new membrane",
];

/// Weekly readings of a rig that ended in a way of its own, and the last one, to be texted: tap, RO.
fn story(rig: &str, nth: usize) -> (String, (f64, f64)) {
    let tap = 150.0 + 23.0 * (nth % 9) as f64;
    let weeks = if nth % 11 == 4 { nth % 3 } else { 14 + 2 * (nth % 17) };
    let passage = |share: f64| match nth % 11 {
        0 | 9 => 0.05,
        1 => 0.05 + 0.05 * share,
        2 => 0.06 + 0.10 * share,
        3 => 0.07 + 0.18 * share,
        4 => 0.09 + 0.02 * (nth % 4) as f64,
        5 if share > 0.85 => 0.19,
        6 if share > 0.85 => 0.03,
        7 if share > 0.999 => 0.30,
        8 => 0.12 + 0.02 * share,
        10 => 0.21,
        _ => 0.06 + 0.05 * ((nth % 5) as f64 / 5.0),
    };
    let reading = |share: f64| (tap, (tap * passage(share)).round().max(1.0));
    let first = jiff::civil::date(2026, 2, 27) - jiff::Span::new().days(7 * (weeks as i64));
    let row = |week: usize| {
        let (tap, ro) = reading(week as f64 / (weeks as f64 + 1.0));
        let day = first + jiff::Span::new().days(7 * week as i64);
        let warm = if nth.is_multiple_of(4) { "17" } else { "" };
        format!("{rig},{day},{tap},{ro},{warm}\n")
    };
    ((0..=weeks).map(row).collect(), reading(1.0))
}

/// The lines of what is said, lower case and without what only a chat adds.
fn lines(said: &str) -> impl Iterator<Item = String> + '_ {
    said.lines()
        .map(|line| line.trim().trim_start_matches("bot: ").to_lowercase())
}

/// The line that gives a rig's state.
fn line_of(said: &str, rig: &str) -> Option<String> {
    let names_it = |line: &String| line.starts_with(&format!("{rig} ")) || line.starts_with(&format!("{rig}: "));
    let gives_state = |line: &String| STATES.iter().chain(&OF_THE_READING).any(|state| line.contains(state));
    lines(said).find(|line| names_it(line) && gives_state(line))
}

/// The state in such a line; of the reading alone, where that is all it says.
fn state(line: &str) -> Option<&'static str> {
    let said = line.split_once("; find").map_or(line, |(said, _)| said);
    let all = || STATES.iter().chain(&OF_THE_READING).copied();
    all().find(|state| said.contains(state))
}

/// The first percentage of a line.
fn percent(line: &str) -> Option<&str> {
    let (before, _) = line.split_once('%')?;
    before.rsplit([' ', '(']).next()
}

/// What is to be done, as a line begins to say it.
fn deed_in(line: &str) -> Option<&'static str> {
    DEEDS.into_iter().find(|deed| line.starts_with(deed))
}

fn deed(said: &str) -> Option<&'static str> {
    lines(said).find_map(|line| deed_in(&line))
}

/// The rigs in the order of the lines that give their states.
fn order(said: &str) -> Vec<&'static str> {
    let place = |rig: &&str| lines(said).position(|line| Some(&line) == line_of(said, rig).as_ref());
    let mut rigs: Vec<&str> = RIGS.into_iter().filter(|rig| place(rig).is_some()).collect();
    rigs.sort_by_key(place);
    rigs
}

/// What of the digest asks for something, a line a rig and deed.
fn asked_by(digest: &str, rig: &str) -> bool {
    let after_headline = digest.split("1. ").skip(1).collect::<String>();
    let before_fleet = |line: &String| line_of(digest, rig).as_ref() != Some(line);
    lines(&after_headline)
        .filter(before_fleet)
        .any(|line| line.contains(rig))
}

/// An outfit of three rigs: how much was asked for, and what contradicts what.
async fn follow(first: usize) -> (usize, Vec<String>) {
    let mut world = priced().await;
    let stories: Vec<_> = RIGS.iter().zip(first..).map(|(rig, nth)| story(rig, nth)).collect();
    let rows: String = stories.iter().map(|(rows, _)| rows.as_str()).collect();
    let sheet = format!("import\nrig,date,tap,ro,temperature\n{}", rows.trim_end());
    world.says("owner", &sheet).await;
    let taken = world.says("owner", "import now").await;
    assert!(taken.contains("Imported: "), "{taken}");
    for (rig, nth) in RIGS.iter().zip(first..) {
        if nth % 5 == 2 {
            world.says("owner", &format!("{rig} new resin on 20 jan")).await;
        }
        if nth % 7 == 3 {
            world
                .says("owner", &format!("{rig} new prefilters on 1 aug 2025"))
                .await;
        }
    }
    let mut replies = Vec::new();
    for ((rig, (_, (tap, ro))), nth) in RIGS.iter().zip(&stories).zip(first..) {
        let glass = ["", " di 12", "", " di 0"][nth % 4];
        replies.push(world.says("crew", &format!("{rig} {tap} {ro}{glass}")).await);
    }
    let fleet = world.says("crew", "fleet").await;
    let compared = world.says("owner", "compare the rigs").await;
    let digest = world.says("owner", "digest").await;
    let list = world.says("owner", "what do we need to buy?").await;
    let (mut deeds, mut found) = (0, Vec::new());
    let mut check = |holds: bool, what: &str, said: &[&str]| {
        if !holds {
            found.push(format!("{what}:\n{}", said.join("\n---\n")));
        }
    };
    for said in [&digest, &compared] {
        check(order(&fleet) == order(said), "order", &[&fleet, said]);
    }
    for (rig, reply) in RIGS.iter().zip(&replies) {
        let own = world.says("owner", &format!("{rig}?")).await;
        let crews = world.says("crew", &format!("{rig}?")).await;
        check(own == crews, "crew and owner", &[&own, &crews]);
        let membrane = world.says("owner", &format!("membrane {rig}?")).await;
        let why = world.says("owner", &format!("why {rig}?")).await;

        // The last reading as it is.
        let as_read = line_of(&own, rig).unwrap_or_default();
        for said in [reply, &fleet] {
            let line = line_of(said, rig).unwrap_or_default();
            // A glass that spots comes before all else.
            let spots = said == reply && reply.contains("will spot");
            check(spots || state(&line) == state(&as_read), "state as read", &[&own, said]);
            check(
                spots || percent(&line) == percent(&as_read),
                "percent as read",
                &[&own, said],
            );
        }
        // What is held of the membrane.
        let row = line_of(&digest, rig).unwrap_or_default();
        let of_reading = state(&as_read).is_some_and(|state| OF_THE_READING.contains(&state));
        check(of_reading || state(&row) == state(&as_read), "state", &[&own, &digest]);
        for said in [&membrane, &why, &compared] {
            let line = line_of(said, rig).unwrap_or_default();
            check(state(&line) == state(&row), "state of the membrane", &[&digest, said]);
            check(
                percent(&line) == percent(&row),
                "percent of the membrane",
                &[&digest, said],
            );
        }
        // What is to be done.
        let wanted = deed(&own);
        deeds += usize::from(wanted.is_some());
        for said in [&membrane, &why] {
            check(deed(said) == wanted, "deed", &[&own, said]);
        }
        let in_reply = wanted.is_none_or(|wanted| reply.to_lowercase().contains(wanted));
        check(
            in_reply && (wanted.is_some() || deed(reply).is_none()),
            "deed in the reply",
            &[&own, reply],
        );
        let line = line_of(&fleet, rig).unwrap_or_default();
        let in_fleet = line.split_once(", today; ").and_then(|(_, asked)| deed_in(asked));
        check(of_reading || in_fleet == wanted, "deed in the fleet", &[&own, &fleet]);
        let flushes = digest.contains("Flush at the end");
        check(
            asked_by(&digest, rig) == (wanted.is_some() || flushes),
            "deed in the digest",
            &[&own, &digest],
        );
        let bought = lines(&list).any(|line| line.starts_with("membranes") && line.contains(rig));
        check(
            !bought || membrane.contains("ew membrane now"),
            "bought",
            &[&membrane, &list],
        );
        check(
            bought || !own.contains("New membrane now"),
            "not bought",
            &[&own, &list],
        );
    }
    (deeds, found)
}

#[tokio::test]
async fn sixty_rigs_have_one_state_one_level_one_deed_and_one_order_everywhere() {
    let (mut deeds, mut found) = (0, Vec::new());
    for first in (0..60).step_by(3) {
        let (asked, more) = follow(first).await;
        deeds += asked;
        found.extend(more);
    }
    assert!(
        found.is_empty(),
        "{} contradictions\n{}",
        found.len(),
        found.join("\n=====\n")
    );
    assert!(deeds >= 20, "{deeds} rigs with something to do");
}
