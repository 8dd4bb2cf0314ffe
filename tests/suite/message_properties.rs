//! What holds for any text.

use proptest::prelude::*;
use tapside::grammar::{Reading, Scene, Solids, read};

use crate::message_scene::{FLEET, id_of, scene};

/// Pieces that make texts look like messages, so that chance reaches the deep places.
fn piece() -> impl Strategy<Value = String> {
    let words = [
        "lynx",
        "badger",
        "van",
        "3",
        "trailer",
        "b",
        "grey seal",
        "tap",
        "ro",
        "in",
        "out",
        "glass",
        "di",
        "180",
        "12",
        "0",
        "1,180",
        "/",
        ">",
        "?",
        "*",
        ".",
        ",",
        "\n",
        "flushed",
        "not",
        "new",
        "membrane",
        "resin",
        "one",
        "eighty",
        "hundred",
        "and",
        "y",
        "sorry",
        "scrap that",
        "was",
        "at",
        "7:40",
        "8am",
        "11C",
        "4 bar",
        "uS",
        "%",
        "£",
        "#",
        "if",
        "how",
        "yes",
        "no",
        "💧",
        "👍",
        "1️⃣",
        "ciento",
        "mil",
        "-",
        "(",
        ")",
        "=",
        "x",
        "º",
        "12/3",
        "2026-03-02",
        "all",
        "both",
        "thousand",
        "point",
        "double zero",
    ];
    prop_oneof![8 => prop::sample::select(words.to_vec()).prop_map(str::to_string), 1 => "\\PC{0,6}", 1 => "[0-9]{1,9}"]
}

fn text() -> impl Strategy<Value = String> {
    prop::collection::vec((piece(), prop::bool::ANY), 0..14).prop_map(|pieces| {
        pieces
            .into_iter()
            .map(|(piece, space)| if space { piece + " " } else { piece })
            .collect()
    })
}

fn scenes() -> impl Strategy<Value = Scene> {
    (prop::option::of(1i64..=6), text(), text(), prop::bool::ANY).prop_map(|(own_rig, first, second, nudge)| {
        let start = Scene {
            own_rig,
            nudged: nudge.then_some(1).into_iter().collect(),
            may_speak_for_all: nudge,
            ..scene()
        };
        let last = read(&first, &start).readings;
        let open = read(&second, &start).ask;
        Scene { last, open, ..start }
    })
}

fn values(reading: &Reading) -> Vec<f64> {
    [reading.feed, reading.permeate, reading.product]
        .into_iter()
        .flatten()
        .map(|solids: Solids| solids.ppm)
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_text_makes_it_fail(text in "\\PC{0,200}", scene in scenes()) {
        read(&text, &scene);
    }

    #[test]
    fn no_message_makes_it_fail_and_what_it_records_is_whole(text in text(), scene in scenes()) {
        let meaning = read(&text, &scene);
        for reading in &meaning.readings {
            prop_assert!(reading.rig.is_some_and(|rig| (1..=6).contains(&rig)));
            prop_assert!(reading.feed.is_some() && (reading.permeate.is_some() || reading.product.is_some()));
            prop_assert!(values(reading).iter().all(|value| value.is_finite() && *value >= 0.0));
        }
        if let Some(ask) = &meaning.ask {
            prop_assert!(ask.choices.len() <= 3);
        }
    }

    #[test]
    fn digits_of_the_values_are_digits_of_the_text(rig in 0..FLEET.len(), feed in 20u32..1200, permeate in 1u32..10, lead in text()) {
        // Whatever stands before it: a recorded value was typed, or said in number words.
        let text = format!("{lead}\n{} {feed}/{permeate}", FLEET[rig]);
        let plain = |c: char| match c {
            '\u{ff10}'..='\u{ff19}' => char::from_digit(c as u32 - 0xff10, 10).unwrap_or(c),
            '\u{660}'..='\u{669}' => char::from_digit(c as u32 - 0x660, 10).unwrap_or(c),
            _ => c,
        };
        let folded: String = text.replace([',', ' ', '\u{fe0f}', '\u{20e3}'], "").chars().map(plain).collect();
        let words = ["one", "eighty", "hundred", "ciento", "mil", "y", "thousand", "zero", "uS"];
        if words.iter().any(|word| lead.contains(word)) {
            return Ok(());
        }
        for reading in read(&text, &scene()).readings {
            for value in values(&reading) {
                // ".3" is a number, too.
                let (full, short) = (value.to_string(), value.to_string().replace("0.", "."));
                prop_assert!(folded.contains(&full) || folded.contains(&short), "{value} is not in {text:?}");
            }
        }
    }

    #[test]
    fn the_echo_reads_as_the_reading(rig in 0..FLEET.len(), feed in 20u32..2900, permeate in 1u32..10, product in 0u32..30) {
        let feed = f64::from(feed);
        let permeate = (feed * f64::from(permeate) / 25.0).round().max(1.0);
        let echo = format!("{} tap {feed} RO {permeate} glass {product} ppm", FLEET[rig]);
        let solids = |ppm| Some(Solids { ppm, raw_us: None });
        let expected = Reading {
            rig: Some(id_of(FLEET[rig])),
            feed: solids(feed),
            permeate: solids(permeate),
            product: solids(f64::from(product)),
            ..Reading::default()
        };
        prop_assume!(f64::from(product) <= permeate);
        prop_assert_eq!(read(&echo, &scene()).readings, vec![expected]);
    }
}

#[test]
fn a_megabyte_is_read_no_further_than_its_cap() {
    // Work is bounded by shape: of a text longer than a chat can carry only the beginning is cut.
    for piece in ["lynx 180/12 ", "1", "one ", "💧", "a ", "\n", "?"] {
        let text = piece.repeat(1_000_000 / piece.len());
        assert!(read(&text, &scene()).readings.len() <= 1);
    }
}

#[test]
fn the_longest_message_that_a_chat_carries_is_read() {
    let text: String = (0..300).map(|index| format!("{} 180/12\n", FLEET[index % 3])).collect();
    assert!((3000..4096).contains(&text.len()));
    // One rig that is read again and again at one time counts once, as it was read last.
    assert_eq!(read(&text, &scene()).readings.len(), 3);
}
