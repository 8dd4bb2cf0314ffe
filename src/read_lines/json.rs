//! JSON lines in, JSON lines out: the kinds, names and shapes that programs read.

use std::io::{BufRead, Write};

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::conversation::Conversation;
use super::{Degrees, ReadArgs, scene_of};
use crate::grammar::{self, About, Correction, Danger, Detail, Disposition, Meaning, Reading, Topic, What};

#[derive(Deserialize)]
struct Line {
    #[serde(default)]
    id: Value,
    text: String,
    fleet: Option<Vec<String>>,
    sender_default_rig: Option<String>,
    #[serde(default)]
    context: Vec<Turn>,
    degrees: Option<Degrees>,
    #[serde(default)]
    lead: bool,
}

#[derive(Deserialize)]
struct Turn {
    from: String,
    text: String,
}

#[derive(Serialize)]
struct Answer<'a> {
    id: &'a Value,
    kind: &'static str,
    readings: Vec<ReadingShape<'a>>,
    service: Vec<ServiceShape<'a>>,
    ask: Option<&'static str>,
    query: Vec<QueryShape<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nudge: Option<NudgeShape<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    danger: Option<Danger>,
    #[serde(skip_serializing_if = "is_false")]
    put_back: bool,
    /// What became of each number, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<Vec<Disposition>>,
}

fn is_false(value: &bool) -> bool {
    !value
}

/// An answer to a flush nudge that is no flush.
#[derive(Serialize)]
struct NudgeShape<'a> {
    rig: &'a str,
    answer: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    minutes: Option<u16>,
}

#[derive(Serialize)]
struct ReadingShape<'a> {
    rig: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    void: Option<bool>,
    feed_ppm: Option<f64>,
    permeate_ppm: Option<f64>,
    product_ppm: Option<f64>,
    temp_c: Option<f64>,
    pressure_kpa: Option<f64>,
    permeate_lpm: Option<f64>,
    waste_lpm: Option<f64>,
    feed_raw: Option<f64>,
    permeate_raw: Option<f64>,
    when: Option<crate::grammar::When>,
}

#[derive(Serialize)]
struct ServiceShape<'a> {
    rig: &'a str,
    what: &'static str,
    minutes: Option<u16>,
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    currency: Option<&'a str>,
}

#[derive(Serialize)]
struct QueryShape<'a> {
    rig: Option<&'a str>,
    topic: &'static str,
    /// The topic in full, where `topic` is a coarser name.
    #[serde(skip_serializing_if = "Option::is_none")]
    asks: Option<&'static str>,
    #[serde(skip_serializing_if = "is_plain")]
    detail: Detail,
}

fn is_plain(detail: &Detail) -> bool {
    *detail == Detail::default()
}

pub fn answer_lines(args: &ReadArgs, input: impl BufRead, out: &mut impl Write) -> anyhow::Result<()> {
    for (line, number) in input.lines().zip(1..) {
        let line = line?;
        if line.trim().is_empty() {
            continue;
        }
        match serde_json::from_str::<Line>(&line) {
            Ok(line) => answer_line(args, &line, out)?,
            Err(error) => {
                let text = format!("line {number}: {error}");
                writeln!(
                    out,
                    "{}",
                    serde_json::json!({ "id": null, "kind": "error", "error": text })
                )?;
            }
        }
    }
    Ok(())
}

fn answer_line(args: &ReadArgs, line: &Line, out: &mut impl Write) -> anyhow::Result<()> {
    let fleet = line.fleet.as_ref().unwrap_or(&args.fleet);
    let mine = line.sender_default_rig.as_deref().or(args.mine.as_deref());
    let scene = scene_of(
        fleet,
        mine,
        line.degrees.unwrap_or(args.degrees),
        line.lead || args.lead,
    );
    let mut conversation = Conversation::new(scene);
    for (place, turn) in line.context.iter().enumerate() {
        if turn.from == "bot" {
            conversation.bot_says(&turn.text);
            continue;
        }
        conversation.hear(&turn.text);
        let asked = line.context.get(place + 1).is_some_and(|next| next.from == "bot");
        if !asked {
            conversation.nobody_asks();
        }
    }
    let before = Conversation::new(conversation.scene.clone());
    let meaning = conversation.hear(&line.text);
    let why = args.why.then(|| grammar::explain(&line.text, &before.scene));
    let answer = Answer {
        why,
        ..answer(&line.id, &meaning, &before)
    };
    serde_json::to_writer(&mut *out, &answer)?;
    writeln!(out)?;
    Ok(())
}

fn answer<'a>(id: &'a Value, meaning: &'a Meaning, before: &'a Conversation) -> Answer<'a> {
    let kind = kind_of(meaning);
    let mut readings: Vec<_> = meaning.readings.iter().map(|reading| shape(reading, before)).collect();
    readings.extend(
        meaning
            .corrections
            .iter()
            .map(|correction| correction_shape(correction, before)),
    );
    if let Some(ask) = &meaning.ask {
        // A draft whose rig is known is not recorded either; only what still wants a rig is shown.
        readings.extend(
            ask.drafts
                .iter()
                .filter(|draft| draft.rig.is_none())
                .map(|draft| shape(draft, before)),
        );
    }
    let service = meaning.services.iter().map(|service| ServiceShape {
        rig: before.name_of(service.rig),
        what: what_name(service.what),
        minutes: service.minutes,
        price: service.price.as_ref().map(|price| price.amount),
        currency: service.price.as_ref().and_then(|price| price.currency.as_deref()),
    });
    let query = meaning.queries.iter().map(|query| QueryShape {
        rig: query.rig.map(|rig| before.name_of(rig)),
        topic: topic_name(query.topic),
        asks: full_name(query.topic),
        detail: query.detail,
    });
    Answer {
        id,
        kind,
        readings,
        service: service.collect(),
        ask: meaning.ask.as_ref().map(|ask| ask_name(ask.about)),
        query: query.collect(),
        nudge: nudge_shape(meaning, before),
        danger: meaning.danger,
        put_back: meaning.put_back,
        why: None,
    }
}

/// Here a nudge is about one rig.
fn nudge_shape<'a>(meaning: &Meaning, before: &'a Conversation) -> Option<NudgeShape<'a>> {
    let shape = |rig: &i64, answer, minutes| NudgeShape {
        rig: before.name_of(*rig),
        answer,
        minutes,
    };
    let later = meaning.postponed.as_ref().and_then(|postponed| {
        let rig = postponed.rigs.first()?;
        Some(shape(rig, "later", postponed.minutes))
    });
    later.or_else(|| meaning.not_used.first().map(|rig| shape(rig, "not_used", None)))
}

fn kind_of(meaning: &Meaning) -> &'static str {
    if meaning.ask.is_some() {
        return "ask";
    }
    if !meaning.corrections.is_empty() {
        return "correction";
    }
    if !meaning.readings.is_empty() {
        return "reading";
    }
    if !meaning.services.is_empty() {
        return "service";
    }
    if !meaning.queries.is_empty() {
        return "query";
    }
    "chatter"
}

fn shape<'a>(reading: &Reading, before: &'a Conversation) -> ReadingShape<'a> {
    ReadingShape {
        rig: reading.rig.map(|rig| before.name_of(rig)),
        void: None,
        feed_ppm: reading.feed.map(|feed| feed.ppm),
        permeate_ppm: reading.permeate.map(|permeate| permeate.ppm),
        product_ppm: reading.product.map(|product| product.ppm),
        temp_c: reading.temperature_c,
        pressure_kpa: reading.pressure_kpa,
        permeate_lpm: reading.permeate_lpm,
        waste_lpm: reading.waste_lpm,
        feed_raw: reading.feed.and_then(|feed| feed.raw_us),
        permeate_raw: reading.permeate.and_then(|permeate| permeate.raw_us),
        when: reading.when,
    }
}

/// A correction lists only what changes; one of the rig or the time shows the whole pair that moves.
fn correction_shape<'a>(correction: &Correction, before: &'a Conversation) -> ReadingShape<'a> {
    let mut change = correction.change.clone();
    if correction.void {
        change = Reading {
            when: change.when,
            ..Reading::default()
        };
    }
    let moves = change.rig.is_some() || (change.when.is_some() && !correction.void);
    if let (true, Some(last)) = (moves, before.last_of(correction.from_rig)) {
        change.feed = change.feed.or(last.feed);
        change.permeate = change.permeate.or(last.permeate);
    }
    change.rig = change.rig.or(Some(correction.from_rig));
    ReadingShape {
        void: Some(correction.void),
        ..shape(&change, before)
    }
}

fn what_name(what: What) -> &'static str {
    match what {
        What::Resin => "di_resin",
        What::Repack => "repack",
        What::Membrane => "membrane",
        What::Prefilter => "prefilter",
        What::Flush => "flush",
        What::ORing => "o_ring",
        What::SameMembrane => "same_membrane",
        What::Preserved => "preserved",
        What::Meter => "meter",
    }
}

fn topic_name(topic: Topic) -> &'static str {
    match topic {
        Topic::Status => "status",
        Topic::LastReading => "last_reading",
        Topic::Rejection => "rejection",
        Topic::Trend => "trend",
        Topic::History => "history",
        Topic::MembraneWhen => "membrane_when",
        Topic::ResinWhen => "di_when",
        Topic::FlushStatus => "flush_status",
        Topic::Fleet => "fleet",
        Topic::Quiet => "quiet",
        Topic::Shopping => "shopping",
        Topic::Help | Topic::Explain => "help",
        Topic::Why | Topic::Picture | Topic::Compare => "trend",
        Topic::WhoLogged => "history",
        Topic::Cost | Topic::WhatIf => "cost",
    }
}

fn full_name(topic: Topic) -> Option<&'static str> {
    match topic {
        Topic::Explain => Some("explain"),
        Topic::Why => Some("why"),
        Topic::Picture => Some("picture"),
        Topic::Compare => Some("compare"),
        Topic::WhoLogged => Some("who_logged"),
        Topic::WhatIf => Some("what_if"),
        _ => None,
    }
}

fn ask_name(about: About) -> &'static str {
    match about {
        About::WhichRig => "which_rig",
        About::Swapped => "swapped",
        About::WhichIsWhich => "which_is_which",
        About::MissingReading => "missing_reading",
        About::UnknownRig => "unknown_rig",
        About::Implausible => "implausible",
        About::UsedUp => "used_up",
        About::Portion => "portion",
        About::Again => "again",
        About::Moved => "moved",
        About::Undo => "undo",
    }
}
