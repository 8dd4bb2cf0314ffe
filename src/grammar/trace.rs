//! What became of each number of a message: recorded in a slot, explained by a word, asked about, or unread.

use super::item::Item;
use super::message::Message;
use super::role::Role;
use super::{Disposition, Fate, Meaning, Reading, Scene, cuttings, meaning_of, names_of, read, with_message};
use crate::language::lexer::{self, Form, Token};

/// The numbers of a message and what became of each.
pub fn explain(text: &str, scene: &Scene) -> Vec<Disposition> {
    let names = names_of(scene);
    let chosen = read(text, scene);
    let ways: Vec<Vec<Token>> = cuttings(lexer::lex(text).tokens);
    // The way of cutting that the meaning came from.
    let way = ways
        .iter()
        .find(|tokens| with_message(text, tokens, &names, scene, meaning_of) == chosen);
    let Some(tokens) = way.or(ways.first()) else {
        return Vec::new();
    };
    let numbers = with_message(text, tokens, &names, scene, numbers_of);
    numbers.into_iter().map(|number| number.disposition(&chosen)).collect()
}

/// A number of a message.
struct Number {
    typed: String,
    value: f64,
    role: Role,
    reason: String,
}

fn numbers_of(message: &Message) -> Vec<Number> {
    let mut out = Vec::new();
    for (at, item) in message.items.iter().enumerate() {
        let Some((value, form)) = item.num else { continue };
        let typed = message
            .text
            .get(item.span.0..item.span.1)
            .unwrap_or_default()
            .to_string();
        let reason = reason(message, at, form);
        out.push(Number {
            typed,
            value,
            role: message.roles[at],
            reason,
        });
    }
    out
}

/// The word or sign by which a number is explained: of its own form, behind it, or before it.
fn reason(message: &Message, at: usize, form: Form) -> String {
    if !matches!(form, Form::Whole | Form::Decimal | Form::Words | Form::Lookalike) {
        return format!("{form:?}")
            .split(['(', ' '])
            .next()
            .unwrap_or_default()
            .to_lowercase();
    }
    let word = |item: &&Item| item.is_word() && !item.senses.is_empty();
    let behind = message.items[at + 1..].iter().take(2).find(word);
    let before = message.items[..at].iter().rev().take(2).find(word);
    let said = behind
        .or(before)
        .and_then(|item| message.text.get(item.span.0..item.span.1));
    said.unwrap_or("its place").to_lowercase()
}

impl Number {
    fn disposition(self, meaning: &Meaning) -> Disposition {
        let fate = self.slot(meaning).map_or_else(|| self.other(meaning), Fate::Slot);
        Disposition {
            typed: self.typed,
            fate,
        }
    }

    fn slot(&self, meaning: &Meaning) -> Option<String> {
        let recorded = meaning
            .readings
            .iter()
            .chain(meaning.corrections.iter().map(|correction| &correction.change));
        if self.role.is_free() {
            return recorded
                .into_iter()
                .find_map(|reading| slot_in(reading, self.value))
                .map(String::from);
        }
        let of_service = match self.role {
            Role::Minutes => meaning
                .services
                .iter()
                .any(|service| service.minutes.is_some())
                .then_some("minutes"),
            Role::Price => meaning
                .services
                .iter()
                .any(|service| service.price.is_some())
                .then_some("price"),
            Role::Time(_) => {
                let services = meaning.services.iter().any(|service| service.when.is_some());
                let readings = recorded.into_iter().any(|reading| reading.when.is_some());
                (services || readings).then_some("time")
            }
            _ => None,
        };
        of_service.map(String::from)
    }

    fn other(&self, meaning: &Meaning) -> Fate {
        let asked = meaning.ask.is_some();
        match self.role {
            Role::Free(_) | Role::Garbled if asked => Fate::Asked,
            Role::Free(_) | Role::Garbled => Fate::Unread,
            _ => Fate::Explained(self.reason.clone()),
        }
    }
}

/// The slot of a reading that holds a value, in ppm or as typed.
fn slot_in(reading: &Reading, value: f64) -> Option<&'static str> {
    let solids = [
        ("tap", reading.feed),
        ("RO", reading.permeate),
        ("glass", reading.product),
    ];
    let same = |one: f64| (one - value).abs() < 0.01;
    let solid = solids
        .iter()
        .find(|(_, slot)| slot.is_some_and(|one| same(one.ppm) || one.raw_us.is_some_and(same)));
    if let Some((name, _)) = solid {
        return Some(name);
    }
    // Temperature, pressure and flow are kept in another unit than they may be typed in.
    let measures = [
        ("temperature", reading.temperature_c.map(|c| vec![c, c * 1.8 + 32.0])),
        (
            "pressure",
            reading.pressure_kpa.map(|kpa| vec![kpa, kpa / 100.0, kpa / 6.894_757]),
        ),
        (
            "permeate flow",
            reading.permeate_lpm.map(|lpm| vec![lpm, lpm / 3.785_412]),
        ),
        ("waste flow", reading.waste_lpm.map(|lpm| vec![lpm, lpm / 3.785_412])),
    ];
    let near = |slot: &Option<Vec<f64>>| {
        slot.as_ref()
            .is_some_and(|units| units.iter().any(|unit| (unit - value).abs() < 0.05))
    };
    measures.iter().find(|(_, slot)| near(slot)).map(|(name, _)| *name)
}
