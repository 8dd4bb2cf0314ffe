//! The fleet and the short forms that the message tables share.

use tapside::grammar::{About, Detail, Meaning, Price, Reading, Rig, Scene, Solids, Topic, What, read};

pub const FLEET: [&str; 6] = ["Lynx", "Badger", "Van 3", "Trailer B", "Trailer C", "Grey Seal"];

pub fn scene() -> Scene {
    let rigs = FLEET.iter().zip(1..).map(|(name, id)| Rig {
        id,
        name: (*name).to_string(),
        manual_flush: true,
        worked_today: true,
        ..Rig::default()
    });
    Scene {
        fleet: rigs.collect(),
        ..Scene::default()
    }
}

pub fn id_of(name: &str) -> i64 {
    FLEET
        .iter()
        .zip(1..)
        .find(|(known, _)| **known == name)
        .map(|(_, id)| id)
        .expect("a rig of the test fleet")
}

pub fn name_of(rig: Option<i64>) -> String {
    rig.map_or("?".to_string(), |rig| {
        FLEET[usize::try_from(rig - 1).expect("an id")].to_string()
    })
}

pub fn pair(rig: &str, feed: f64, permeate: f64) -> Reading {
    let solids = |ppm| Some(Solids { ppm, raw_us: None });
    Reading {
        rig: Some(id_of(rig)),
        feed: solids(feed),
        permeate: solids(permeate),
        ..Reading::default()
    }
}

/// Reads each text; all that are not read as expected are told at once.
pub fn check(rows: &[(&str, &str)], scene: &Scene) {
    compare(
        rows.iter()
            .map(|(text, expected)| (text, *expected, short(&read(text, scene)))),
    );
}

/// What was read of each text, and what was expected; all that differs is told at once.
pub fn compare<T: std::fmt::Debug>(rows: impl IntoIterator<Item = (T, impl AsRef<str>, String)>) {
    let wrong: Vec<String> = rows
        .into_iter()
        .filter(|(_, expected, got)| got != expected.as_ref())
        .map(|(text, expected, got)| format!("{text:?}: expected {}, got {got}", expected.as_ref()))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The scene as somebody sees it whose own rig is Lynx.
pub fn own() -> Scene {
    Scene {
        own_rig: Some(id_of("Lynx")),
        ..scene()
    }
}

/// One short line for a meaning: `Lynx 180/12; flush Lynx; ask Swapped`, or `-` for chatter.
pub fn short(meaning: &Meaning) -> String {
    let mut parts: Vec<String> = meaning.readings.iter().map(short_reading).collect();
    for correction in &meaning.corrections {
        let from = name_of(Some(correction.from_rig));
        let change = short_reading(&correction.change);
        parts.push(if correction.void {
            format!("void {from}")
        } else {
            format!("correct {from}: {change}")
        });
    }
    for service in &meaning.services {
        let minutes = service
            .minutes
            .map(|minutes| format!(" {minutes} min"))
            .unwrap_or_default();
        parts.push(format!(
            "{} {}{minutes}{}",
            what(service.what),
            name_of(Some(service.rig)),
            price(service.price.as_ref())
        ));
    }
    for query in &meaning.queries {
        let tells = matches!(
            query.topic,
            Topic::Why | Topic::Cost | Topic::WhatIf | Topic::WhoLogged | Topic::Explain
        );
        let detail = if tells { detail(&query.detail) } else { String::new() };
        parts.push(format!("{} {}{detail}", topic(query.topic), name_of(query.rig)));
    }
    if let Some(ask) = &meaning.ask {
        parts.push(format!("ask {}", about(ask.about)));
    }
    if meaning.price_left_out {
        parts.push("price left out".to_string());
    }
    if meaning.dropped {
        parts.push("dropped".to_string());
    }
    for rig in &meaning.not_used {
        parts.push(format!("not used {}", name_of(Some(*rig))));
    }
    if let Some(postponed) = &meaning.postponed {
        let minutes = postponed
            .minutes
            .map(|minutes| format!(" {minutes} min"))
            .unwrap_or_default();
        let later = |rig: &i64| format!("later {}{minutes}", name_of(Some(*rig)));
        parts.extend(postponed.rigs.iter().map(later));
    }
    if parts.is_empty() {
        "-".to_string()
    } else {
        parts.join("; ")
    }
}

fn price(price: Option<&Price>) -> String {
    price.map_or(String::new(), |price| {
        format!(" for {} {}", price.amount, price.currency.as_deref().unwrap_or("?"))
    })
}

fn detail(detail: &Detail) -> String {
    let said = [
        detail.part.map(|part| format!("{part:?}")),
        detail.amount.map(|amount| amount.to_string()),
        detail.percent.map(|percent| format!("{percent:+}%")),
        detail.span.map(|span| format!("{span:?}")),
        detail.term.map(|term| format!("{term:?}")),
    ];
    said.into_iter().flatten().map(|said| format!(" {said}")).collect()
}

fn short_reading(reading: &Reading) -> String {
    let solids = |solids: Option<Solids>| solids.map_or("_".to_string(), |solids| solids.ppm.to_string());
    let mut text = format!(
        "{} {}/{}",
        name_of(reading.rig),
        solids(reading.feed),
        solids(reading.permeate)
    );
    if reading.product.is_some() {
        text += &format!("/{}", solids(reading.product));
    }
    let extras = [
        (reading.temperature_c, "C"),
        (reading.pressure_kpa, "kPa"),
        (reading.permeate_lpm, "lpm"),
        (reading.waste_lpm, "lpm waste"),
    ];
    for (value, unit) in extras {
        if let Some(value) = value {
            text += &format!(" {}{unit}", (value * 100.0).round() / 100.0);
        }
    }
    text
}

fn what(what: What) -> &'static str {
    match what {
        What::Resin => "resin",
        What::Repack => "repack",
        What::Membrane => "membrane",
        What::Prefilter => "prefilter",
        What::Flush => "flush",
        What::ORing => "o-ring",
        What::SameMembrane | What::Preserved | What::Meter => what.word(),
    }
}

fn topic(topic: Topic) -> String {
    format!("{topic:?}").to_lowercase()
}

fn about(about: About) -> String {
    format!("{about:?}")
}
