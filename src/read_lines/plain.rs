//! Plain words for people who try what the bot would understand.

use std::io::{self, Write};

use super::conversation::Conversation;
use crate::grammar::{About, Ask, Meaning, Reading, Service, Topic, What};

pub fn write_meaning(meaning: &Meaning, conversation: &Conversation, out: &mut impl Write) -> io::Result<()> {
    let rig_name = |rig: Option<i64>| rig.map_or("a rig", |rig| conversation.name_of(rig)).to_string();
    for reading in &meaning.readings {
        writeln!(out, "reading     {}: {}", rig_name(reading.rig), values(reading))?;
    }
    for correction in &meaning.corrections {
        let name = conversation.name_of(correction.from_rig);
        match (correction.void, correction.change.rig) {
            (true, _) => writeln!(out, "correction  {name}: withdraw the reading")?,
            (false, Some(other)) => writeln!(out, "correction  {name}: it was {}", conversation.name_of(other))?,
            (false, None) => writeln!(out, "correction  {name}: {}", values(&correction.change))?,
        }
    }
    for service in &meaning.services {
        let minutes = service
            .minutes
            .map(|minutes| format!(", {minutes} min"))
            .unwrap_or_default();
        writeln!(
            out,
            "service     {}: {}{minutes}{}",
            conversation.name_of(service.rig),
            what_words(service.what),
            price_words(service)
        )?;
    }
    for query in &meaning.queries {
        let about = query.rig.map_or("the fleet", |rig| conversation.name_of(rig));
        writeln!(out, "question    {about}: {}", topic_words(query.topic))?;
    }
    if let Some(danger) = meaning.danger {
        writeln!(out, "danger      {danger:?}")?;
    }
    if meaning.put_back {
        writeln!(out, "put back    what was withdrawn")?;
    }
    if let Some(ask) = &meaning.ask {
        writeln!(out, "would ask   {}", ask_words(ask, conversation))?;
    }
    for rig in &meaning.not_used {
        writeln!(out, "not used    {}", conversation.name_of(*rig))?;
    }
    if let Some(postponed) = &meaning.postponed {
        let minutes = postponed
            .minutes
            .map(|minutes| format!(" by {minutes} min"))
            .unwrap_or_default();
        for rig in &postponed.rigs {
            writeln!(out, "put off     {}{minutes}", conversation.name_of(*rig))?;
        }
    }
    if meaning.dropped {
        writeln!(out, "dropped     nothing is recorded")?;
    }
    if *meaning == Meaning::default() {
        writeln!(out, "chatter     -")?;
    }
    Ok(())
}

fn values(reading: &Reading) -> String {
    let solids = [
        ("tap", reading.feed),
        ("RO", reading.permeate),
        ("glass", reading.product),
    ];
    let mut said: Vec<String> = Vec::new();
    for (label, solids) in solids {
        let Some(solids) = solids else { continue };
        let raw = solids.raw_us.map(|us| format!(" ({us} uS/cm)")).unwrap_or_default();
        said.push(format!("{label} {} ppm{raw}", rounded(solids.ppm)));
    }
    let others = [
        (reading.temperature_c, "C"),
        (reading.pressure_kpa, "kPa"),
        (reading.permeate_lpm, "L/min pure"),
        (reading.waste_lpm, "L/min waste"),
    ];
    said.extend(
        others
            .iter()
            .filter_map(|(value, unit)| value.map(|value| format!("{} {unit}", rounded(value)))),
    );
    if let Some(when) = reading.when {
        said.push(format!("{when:?}"));
    }
    said.join(", ")
}

/// Two decimals at most: a conversion must not pose as precision.
fn rounded(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

fn price_words(service: &Service) -> String {
    let Some(price) = &service.price else {
        return String::new();
    };
    let currency = price.currency.as_deref().unwrap_or_default();
    format!(", price {} {currency}", price.amount).trim_end().to_string()
}

fn what_words(what: What) -> &'static str {
    match what {
        What::Resin => "resin changed",
        What::Repack => "resin repacked",
        What::Membrane => "new membrane",
        What::Prefilter => "new prefilters",
        What::Flush => "flushed",
        What::ORing => "O-ring changed",
        What::SameMembrane => "same membrane",
        What::Preserved => "preserved",
        What::Meter => "another meter",
    }
}

fn topic_words(topic: Topic) -> &'static str {
    match topic {
        Topic::Status => "how is it",
        Topic::LastReading => "last reading",
        Topic::Rejection => "rejection",
        Topic::Trend => "trend",
        Topic::History => "history",
        Topic::MembraneWhen => "when is a membrane due",
        Topic::ResinWhen => "how long does the resin last",
        Topic::FlushStatus => "was it flushed",
        Topic::Fleet => "how are all rigs",
        Topic::Quiet => "who has not logged",
        Topic::Shopping => "what to buy",
        Topic::Help => "help",
        Topic::Why => "why is it so",
        Topic::Picture => "a picture",
        Topic::WhoLogged => "who logged it",
        Topic::Compare => "compare",
        Topic::Explain => "what does the word mean",
        Topic::Cost => "what does it cost",
        Topic::WhatIf => "what if",
    }
}

fn ask_words(ask: &Ask, conversation: &Conversation) -> String {
    let question = match ask.about {
        About::WhichRig => "which rig?",
        About::Swapped => "which way round?",
        About::WhichIsWhich => "which number is which?",
        About::MissingReading => "what is the other reading?",
        About::UnknownRig => "no such rig; which one?",
        About::Implausible => "is that right?",
        About::UsedUp => "used up, or already changed?",
        About::Portion => "does it count as a change?",
        About::Again => "once more, or the same change?",
        About::Moved => "new ones, or moved from one to the other?",
        About::Undo => "undo the last reading?",
    };
    let drafts = ask.drafts.iter().map(|draft| {
        let name = draft.rig.map_or("?", |rig| conversation.name_of(rig));
        format!(" {name}: {}", values(draft))
    });
    let buttons = ask.choices.iter().map(|choice| format!(" [{}]", choice.says));
    std::iter::once(question.to_string())
        .chain(drafts)
        .chain(buttons)
        .collect()
}
