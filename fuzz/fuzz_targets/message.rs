//! Any text, twice in a row: the second meets what the first left open.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tapside::grammar::{Rig, Scene, read};

fuzz_target!(|data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let names = ["Lynx", "Badger", "Van 3", "Trailer B", "Trailer C", "Grey Seal"];
    let fleet = names.iter().zip(1..).map(|(name, id)| Rig { id, name: (*name).to_string(), ..Rig::default() }).collect();
    let mut scene = Scene { fleet, own_rig: (text.len() % 2 == 0).then_some(1), ..Scene::default() };
    let (first, second) = text.split_once('\u{1f}').unwrap_or((text, "yes"));
    let meaning = read(first, &scene);
    check(first, &meaning);
    scene.last = meaning.readings;
    scene.open = meaning.ask;
    check(second, &read(second, &scene));
});

fn check(text: &str, meaning: &tapside::grammar::Meaning) {
    for reading in &meaning.readings {
        assert!(reading.rig.is_some() && reading.feed.is_some(), "{text:?}");
    }
    assert!(meaning.ask.as_ref().is_none_or(|ask| ask.choices.len() <= 3), "{text:?}");
}
