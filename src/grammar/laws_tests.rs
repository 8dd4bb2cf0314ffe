//! The laws of reading (one test each) on small corpora of our own, in `tests/data/laws/`, and on random texts.

use proptest::prelude::*;

use super::*;

const REMARKS: &str = include_str!("../../tests/data/laws/remarks.txt");
const CLAUSES: &str = include_str!("../../tests/data/laws/clauses.txt");
const UNREAL: &str = include_str!("../../tests/data/laws/unreal.txt");
const FLEET: [&str; 4] = ["Lynx", "Badger", "Van 4", "Seal"];

fn lines(corpus: &'static str) -> Vec<&'static str> {
    corpus
        .lines()
        .filter(|line| !line.is_empty() && !line.starts_with('#'))
        .collect()
}

fn scene() -> Scene {
    scene_of(&FLEET)
}

fn scene_of(names: &[&str]) -> Scene {
    let rig = |(id, name): (i64, &&str)| Rig {
        id,
        name: (*name).to_string(),
        ..Rig::default()
    };
    Scene {
        fleet: (1..).zip(names).map(rig).collect(),
        ..Scene::default()
    }
}

fn name(scene: &Scene, rig: Option<i64>) -> &str {
    scene
        .fleet
        .iter()
        .find(|known| Some(known.id) == rig)
        .map_or("?", |known| &known.name)
}

fn when(said: When) -> Option<String> {
    match said {
        When::DaysBack(0) => None,
        When::DaysBack(days) => Some(format!(" back {days}")),
        When::Morning => Some(" morning".into()),
        When::At { hour, minute, .. } => Some(format!(" at {hour}:{minute}")),
        other => Some(format!(" {other:?}")),
    }
}

/// What a meaning says, sorted: readings with their times, services, rigs asked about.
fn facts(meaning: &Meaning, scene: &Scene) -> Vec<String> {
    let ppm = |solids: Option<Solids>| solids.map_or("_".into(), |solids| solids.ppm.to_string());
    let mut out: Vec<String> = Vec::new();
    for one in &meaning.readings {
        let time = one.when.and_then(when).unwrap_or_default();
        out.push(format!(
            "{} {}/{}{time}",
            name(scene, one.rig),
            ppm(one.feed),
            ppm(one.permeate)
        ));
    }
    out.extend(
        meaning
            .services
            .iter()
            .map(|one| format!("{} {}", one.what.word(), name(scene, Some(one.rig)))),
    );
    let asked = meaning.queries.iter().filter(|query| query.rig.is_some());
    out.extend(asked.map(|query| format!("ask {}", name(scene, query.rig))));
    out.extend(meaning.time_off.iter().map(|one| match one.whose {
        time_off::Whose::Rig(rig) => format!("off {}", name(scene, Some(rig))),
        time_off::Whose::Outfit => "off all".into(),
        other => format!("off {other:?}"),
    }));
    out.extend(meaning.ask.iter().map(|ask| format!("question {:?}", ask.about)));
    out.sort();
    out.dedup();
    out
}

fn expected(line: &str) -> (&str, Vec<String>) {
    let (text, said) = line.split_once('\t').unwrap_or((line, ""));
    let mut facts: Vec<String> = said
        .split(';')
        .map(str::trim)
        .filter(|fact| !fact.is_empty())
        .map(Into::into)
        .collect();
    facts.sort();
    (text, facts)
}

#[track_caller]
fn none_wrong(wrong: &[String]) {
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn a_remark_changes_and_loses_no_reading() {
    let scene = scene();
    let mut wrong = Vec::new();
    for remark in lines(REMARKS) {
        for reading in ["lynx 180 12", "lynx 180/12", "lynx tap 180 ro 12"] {
            for text in [
                format!("{reading}, {remark}"),
                format!("{reading} {remark}"),
                format!("{reading}. {remark}"),
                format!("{remark}, {reading}"),
                format!("{remark}\n{reading}"),
            ] {
                let got = facts(&read(&text, &scene), &scene);
                if got != ["Lynx 180/12"] {
                    wrong.push(format!("{text:?}: {got:?}"));
                }
            }
        }
    }
    none_wrong(&wrong);
}

#[test]
fn two_joined_clauses_say_both_in_either_order() {
    let scene = scene();
    let all: Vec<(&str, Vec<String>)> = lines(CLAUSES).into_iter().map(expected).collect();
    let subject = |fact: &String| fact.split('/').next().unwrap_or(fact).to_string();
    let mut wrong = Vec::new();
    for (first, one) in &all {
        for (second, other) in &all {
            let rigs: Vec<&str> = FLEET
                .into_iter()
                .filter(|rig| first.contains(&rig.to_lowercase()))
                .collect();
            let shared = rigs.iter().any(|rig| second.contains(&rig.to_lowercase()));
            if shared
                || one
                    .iter()
                    .any(|fact| other.iter().any(|next| subject(next) == subject(fact)))
            {
                continue;
            }
            for join in [", ", ". ", "\n", " and "] {
                let mut both: Vec<String> = one.iter().chain(other).cloned().collect();
                both.sort();
                let text = format!("{first}{join}{second}");
                let got = facts(&read(&text, &scene), &scene);
                if got != both {
                    wrong.push(format!("{text:?}: {got:?}"));
                }
            }
        }
    }
    none_wrong(&wrong);
}

#[test]
fn every_number_of_a_message_on_a_rig_is_used_explained_or_asked_about() {
    let scene = scene();
    let mut wrong = Vec::new();
    for text in [
        "lynx 180 12 9c 60 psi",
        "lynx 180 12 40 7",
        "lynx 20A 17",
        "lynx v88 13",
        "lynx 180 12 or maybe 21",
        "lynx tap 180 ro 12, job 27, see you at 8",
        "lynx was 180 yesterday 210 today ro 14",
        "flushed lynx 10 min, £20",
    ] {
        let unread = explain(text, &scene).into_iter().filter(|one| one.fate == Fate::Unread);
        wrong.extend(unread.map(|one| format!("{text:?}: {}", one.typed)));
    }
    none_wrong(&wrong);
}

#[test]
fn what_is_not_asserted_is_not_recorded() {
    let scene = scene();
    let recorded = |text: &&str| {
        let meaning = read(text, &scene);
        !meaning.readings.is_empty() || !meaning.services.is_empty() || !meaning.corrections.is_empty()
    };
    let wrong: Vec<String> = lines(UNREAL).into_iter().filter(recorded).map(String::from).collect();
    none_wrong(&wrong);
}

fn told() -> Scene {
    let mut scene = scene();
    scene.last = read("lynx 180 31", &scene).readings;
    scene
}

/// What a lead's message records as flushed, whose rigs all worked today.
fn flushed(text: &str) -> Vec<String> {
    let mut scene = scene();
    scene.may_speak_for_all = true;
    for rig in &mut scene.fleet {
        (rig.manual_flush, rig.worked_today) = (true, true);
    }
    let services = read(text, &scene).services;
    let flush = services.iter().filter(|one| one.what == What::Flush);
    flush.map(|one| name(&scene, Some(one.rig)).to_string()).collect()
}

#[test]
fn an_exception_takes_its_rig_out_of_all() {
    for text in [
        "all flushed, badger not",
        "everything flushed except badger",
        "all flushed but badger",
    ] {
        assert_eq!(flushed(text), ["Lynx", "Van 4", "Seal"], "{text}");
    }
}

#[test]
fn a_part_that_was_changed_labels_no_number() {
    let scene = scene();
    for text in [
        "lynx new resin 180/12",
        "lynx changed resin 180/12",
        "lynx new membrane 180/12",
    ] {
        let meaning = read(text, &scene);
        let pair = meaning.readings.first().map(|one| (one.feed, one.permeate));
        let typed = |pair: (Option<Solids>, Option<Solids>)| (pair.0.map(|s| s.ppm), pair.1.map(|s| s.ppm));
        assert_eq!(pair.map(typed), Some((Some(180.0), Some(12.0))), "{text}");
        assert_eq!(meaning.services.len(), 1, "{text}");
    }
}

#[test]
fn why_alone_asks_of_the_last_reading() {
    let queries = read("why?", &told()).queries;
    let asked: Vec<_> = queries.iter().map(|one| (one.rig, one.topic)).collect();
    assert_eq!(asked, [(Some(1), Topic::Why)]);
}

#[test]
fn nothing_is_overwritten_without_a_word_of_correction() {
    let scene = told();
    for text in [
        "what if tap was 400",
        "tap was 400 last week",
        "my tap is 450ppm is RO worth it",
        "lynx 310 45 and it's leaking",
        "badger 200 20",
        "sorry running 20 late",
    ] {
        assert!(read(text, &scene).corrections.is_empty(), "{text}");
    }
    for text in [
        "31 should be 13",
        "*13",
        "said 31 but its 13",
        "sorry 13 not 31",
        "13 rather than 31",
    ] {
        let corrections = read(text, &scene).corrections;
        let permeate = corrections
            .first()
            .and_then(|one| one.change.permeate)
            .map(|solids| solids.ppm);
        assert_eq!(permeate, Some(13.0), "{text}");
        assert!(corrections.iter().all(|one| one.change.feed.is_none()), "{text}");
    }
    let asked = read("that was wrong", &scene).ask.map(|ask| ask.about);
    assert_eq!(asked, Some(About::Undo));
    assert!(read("put it back", &scene).put_back);
}

#[test]
fn a_rig_with_a_predicate_of_its_own_keeps_to_it() {
    let own = Scene {
        own_rig: Some(2),
        ..scene()
    };
    for (text, expected) in [
        ("badger off, lynx 186 12", "Lynx 186/12"),
        ("badger n/a, lynx 186 12", "Lynx 186/12"),
        ("lynx 186 12, badger parked up", "Lynx 186/12"),
        ("not badger today 188 13", "question WhichRig"),
        ("on lynx today not badger, 188 13", "Lynx 188/13"),
        ("flushed lynx, badger still running", "flush Lynx"),
    ] {
        assert_eq!(facts(&read(text, &own), &own), [expected], "{text}");
    }
}

#[test]
fn a_rig_and_a_number_are_never_met_with_silence() {
    let scene = scene();
    for text in [
        "lynx 180",
        "lynx 12 180",
        "lynx 0/12",
        "lynx 180/",
        "lynx ro 12",
        "lynx 180 180",
        "seal 20A 17",
    ] {
        assert_ne!(read(text, &scene), Meaning::default(), "{text}");
    }
}

#[test]
fn the_name_of_a_rig_beats_the_word_that_it_is() {
    let scene = scene_of(&["History", "Help", "Glass"]);
    assert_eq!(facts(&read("history 180 12", &scene), &scene), ["History 180/12"]);
    assert_eq!(facts(&read("glass 180 12", &scene), &scene), ["Glass 180/12"]);
    assert_eq!(facts(&read("flushed help", &scene), &scene), ["flush Help"]);
}

#[test]
fn danger_is_heard_in_any_clause_and_language() {
    let scene = scene();
    for (text, danger) in [
        ("lynx 180 12, badger frozen", Danger::Frozen),
        ("housing burst, water everywhere", Danger::Burst),
        ("i've cut my hand", Danger::Hurt),
        ("is the water safe to drink?", Danger::Drink),
        ("lynx congelada", Danger::Frozen),
        ("me he cortado la mano", Danger::Hurt),
        ("jake fell off the ladder", Danger::Hurt),
        ("got a shock off the pump", Danger::Electric),
        ("la pértiga tocó los cables de la luz", Danger::Electric),
        ("acid in my eyes", Danger::Chemical),
        ("me ha caído ácido en la mano", Danger::Chemical),
    ] {
        assert_eq!(read(text, &scene).danger, Some(danger), "{text}");
    }
    // What is no thing of a rig, no body and nothing high is in no danger.
    for text in [
        "frozen pizza for tea tonight lads",
        "prices have fallen off a cliff",
        "broke my phone again",
        "split the job between two vans tomorrow",
        "roof windows done early",
        "no shock there",
        "quedamos a tomar algo luego",
    ] {
        assert_eq!(read(text, &scene).danger, None, "{text}");
    }
}

#[test]
fn used_up_and_partly_changed_are_asked_about() {
    let scene = scene();
    for (text, about) in [
        ("lynx resin finished", About::UsedUp),
        ("half the resin changed on lynx", About::Portion),
        ("moved the membrane from lynx to badger", About::Moved),
        ("put lynx's membrane in badger", About::Moved),
        ("le puse la membrana de lynx a badger", About::Moved),
        ("le puse la membrana de la lynx a la badger", About::Moved),
    ] {
        let meaning = read(text, &scene);
        assert_eq!(meaning.ask.map(|ask| ask.about), Some(about), "{text}");
        assert!(meaning.services.is_empty(), "{text}");
    }
    let open = Scene {
        open: read("lynx resin finished", &scene).ask,
        ..scene
    };
    assert_eq!(facts(&read("changed", &open), &open), ["resin Lynx"]);
    assert_eq!(
        read("used up", &open).spent,
        [Spent {
            rig: 1,
            part: What::Resin
        }]
    );
}

fn piece() -> impl Strategy<Value = String> {
    let words = [
        "lynx",
        "badger",
        "van",
        "4",
        "180",
        "12",
        "0",
        "1",
        "212.5",
        "18,5",
        "1,180",
        "/",
        ".",
        "..",
        ",",
        "-",
        ">",
        "\n",
        "?",
        "*",
        "(",
        "\"",
        "%",
        "£",
        "7:40",
        "8am",
        "at",
        "tap",
        "ro",
        "in",
        "out",
        "di",
        "new",
        "resin",
        "flushed",
        "not",
        "if",
        "and",
        "no",
        "sorry",
        "scrap that",
        "us",
        "psi",
        "c",
        "yesterday",
        "3rd",
        "👍",
        "one",
        "eighty",
        "hundred",
        "double",
        "point",
        "½",
        "l88",
        "²",
        "日本",
        "'",
        "si",
        "how",
    ];
    prop_oneof![8 => prop::sample::select(words.to_vec()).prop_map(String::from), 1 => "\\PC{0,5}", 1 => "[0-9]{1,9}"]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1_500) })]

    #[test]
    fn no_text_makes_it_fail(pieces in prop::collection::vec(piece(), 0..16), space in "[ ]{0,1}") {
        let scene = told();
        let open = Scene { open: read("180 12", &scene).ask, nudged: vec![1, 2], own_rig: Some(2), ..scene.clone() };
        let text = pieces.join(&space);
        for scene in [&scene, &open] {
            let meaning = read(&text, scene);
            let known = |rig: Option<i64>| scene.fleet.iter().any(|known| Some(known.id) == rig);
            prop_assert!(meaning.readings.iter().all(|reading| known(reading.rig)));
        }
    }

    #[test]
    fn digits_recorded_are_digits_of_the_text(feed in 100_u32..900, permeate in 4_u32..40, tail in "[a-z ]{0,12}") {
        let scene = scene();
        let meaning = read(&format!("lynx {feed}/{permeate} {tail}"), &scene);
        for reading in &meaning.readings {
            let typed = |one: Solids| one.raw_us.unwrap_or(one.ppm);
            prop_assert_eq!(reading.feed.map(typed), Some(f64::from(feed)));
            prop_assert_eq!(reading.permeate.map(typed), Some(f64::from(permeate)));
        }
    }
}
