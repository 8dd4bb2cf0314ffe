//! What one sender said so far: last readings and open question, as the bot would remember them.

use crate::grammar::{self, About, Ask, Meaning, Reading, Scene, Told};

pub struct Conversation {
    pub scene: Scene,
}

impl Conversation {
    pub fn new(scene: Scene) -> Self {
        Conversation { scene }
    }

    /// Reads what the sender typed and remembers it.
    pub fn hear(&mut self, text: &str) -> Meaning {
        let meaning = grammar::read(text, &self.scene);
        self.remember(&meaning);
        meaning
    }

    /// What the bot said: a flush nudge, a question, or an answer that closes the question.
    pub fn bot_says(&mut self, text: &str) {
        let lower = text.to_lowercase();
        if lower.contains("flush") || lower.contains("enjuag") {
            let named = self
                .scene
                .fleet
                .iter()
                .filter(|rig| lower.contains(&rig.name.to_lowercase()));
            self.scene.nudged = named
                .max_by_key(|rig| rig.name.len())
                .map(|rig| rig.id)
                .into_iter()
                .collect();
        }
        if !text.contains('?') {
            self.scene.open = None;
        } else if self.scene.open.is_none() && !self.scene.last.is_empty() {
            let about = if lower.contains("which rig") {
                About::WhichRig
            } else {
                About::Implausible
            };
            let drafts = std::mem::take(&mut self.scene.last);
            self.scene.open = Some(Ask {
                about,
                drafts,
                service: None,
                told: Told::default(),
                choices: Vec::new(),
                typed_name: None,
            });
        }
    }

    /// The turns given show that no question followed: unusual values were taken as they were sent.
    pub fn nobody_asks(&mut self) {
        let Some(open) = self.scene.open.take_if(|open| open.about == About::Implausible) else {
            return;
        };
        let whole = |draft: &Reading| draft.rig.is_some() && draft.feed.is_some() && draft.permeate.is_some();
        if open.drafts.iter().all(whole) {
            self.scene.last = open.drafts;
        }
    }

    pub fn name_of(&self, rig: i64) -> &str {
        self.scene
            .fleet
            .iter()
            .find(|known| known.id == rig)
            .map_or("?", |known| &known.name)
    }

    /// The reading that a correction of `rig` speaks of.
    pub fn last_of(&self, rig: i64) -> Option<&Reading> {
        self.scene.last.iter().find(|reading| reading.rig == Some(rig))
    }

    fn remember(&mut self, meaning: &Meaning) {
        if !meaning.readings.is_empty() {
            self.scene.last = meaning.readings.clone();
        }
        for correction in &meaning.corrections {
            let of_rig = |reading: &Reading| reading.rig == Some(correction.from_rig);
            if correction.void {
                self.scene.last.retain(|reading| !of_rig(reading));
            } else if let Some(reading) = self.scene.last.iter_mut().find(|reading| of_rig(reading)) {
                apply(&correction.change, reading);
            }
        }
        let answered = !meaning.readings.is_empty() || !meaning.services.is_empty() || meaning.dropped;
        if meaning.ask.is_some() || answered {
            self.scene.open = meaning.ask.clone();
        }
        if !meaning.services.is_empty() || !meaning.not_used.is_empty() || meaning.postponed.is_some() {
            self.scene.nudged.clear();
        }
    }
}

fn apply(change: &Reading, reading: &mut Reading) {
    reading.rig = change.rig.or(reading.rig);
    reading.feed = change.feed.or(reading.feed);
    reading.permeate = change.permeate.or(reading.permeate);
    reading.product = change.product.or(reading.product);
    reading.temperature_c = change.temperature_c.or(reading.temperature_c);
    reading.pressure_kpa = change.pressure_kpa.or(reading.pressure_kpa);
    reading.permeate_lpm = change.permeate_lpm.or(reading.permeate_lpm);
    reading.waste_lpm = change.waste_lpm.or(reading.waste_lpm);
    reading.when = change.when.or(reading.when);
}
