//! Acts on what a message means: records readings and services, asks, looks up.

use std::collections::BTreeSet;

use crate::message::setting::{Amount, Currency};
use crate::message::{self, Meaning, Scene, What, When};
use crate::replies::caution::Occasion;
use crate::replies::figures::spoken::on_day;
use crate::replies::figures::{self, shown_change};
use crate::replies::reading::{self, Facts, Figures, Told};
use crate::replies::resin;
use crate::store::questions::Question;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, StoreError};
use crate::water::assess::Question as OpenPoint;
use crate::water::condition::Condition;
use crate::water::resin::BedState;

use super::answer::Answer;
use super::condition::{raw_rejection, word_for};
use super::turn::Turn;
use super::when::{instant, is_ahead};

/// For so long the price of a service may be told after it.
const PRICE_MAY_FOLLOW: i64 = 3 * 3600;

/// The message that a reading belongs to, and when it was sent.
#[derive(Clone, Debug)]
pub(super) struct Source {
    pub key: String,
    pub sent_at: i64,
}

impl Turn<'_> {
    pub(super) async fn act_on(
        &mut self,
        text: &str,
        scene: &Scene,
        open: Option<Question>,
        meaning: Meaning,
    ) -> Result<Answer, StoreError> {
        if meaning == Meaning::default() {
            return if open.is_some() {
                Ok(Answer::silence())
            } else {
                self.hint(text, scene).await
            };
        }
        let mut answer = Answer::default();
        if meaning.dropped {
            answer.and(Answer::says(self.words.plain("dropped")));
        }
        if !meaning.not_used.is_empty() {
            answer.and(self.not_used(&meaning.not_used).await?);
        }
        if let Some(postponed) = &meaning.postponed {
            answer.and(self.flush_later(&postponed.rigs, postponed.minutes).await?);
        }
        let source = self.source(text, scene, open.as_ref());
        let mut meaning = meaning;
        self.doubt_what_is_ahead(&mut meaning, &source);
        // A service of another rig leaves a question about a reading open.
        let asks_service = open.as_ref().is_none_or(|open| open.ask.service.is_some());
        let settles = meaning.dropped
            || meaning.ask.is_some()
            || !(meaning.readings.is_empty() && meaning.corrections.is_empty())
            || asks_service && !meaning.services.is_empty();
        if settles {
            store::questions::close_all(self.db, &self.incoming.chat.address, self.member.id, self.now).await?;
        }
        answer.and(self.record_readings(&meaning, &source).await?);
        answer.and(self.record_services(&meaning, &source).await?);
        for correction in &meaning.corrections {
            answer.and(self.correct(correction).await?);
        }
        for amend in &meaning.amends {
            answer.and(self.amend(amend).await?);
        }
        answer.and(self.answer_queries(&meaning.queries).await?);
        if let Some(ask) = meaning.ask {
            answer.and(self.ask(ask, scene, source).await?);
        }
        Ok(answer)
    }

    /// The answer to a question completes the message that raised it, so that
    /// an edit of that one corrects it; a message that stands alone is its own.
    fn source(&self, text: &str, scene: &Scene, open: Option<&Question>) -> Source {
        let own = Source {
            key: self.incoming.key.clone(),
            sent_at: self.sent_at(),
        };
        let Some(question) = open else {
            return own;
        };
        let alone = message::read(
            text,
            &Scene {
                open: None,
                ..scene.clone()
            },
        );
        if !alone.readings.is_empty() || !alone.services.is_empty() {
            return own;
        }
        Source {
            key: question.source_key.clone(),
            sent_at: question.taken_at,
        }
    }

    /// A reading of a time that is still to come is asked about: nobody can have taken it then.
    fn doubt_what_is_ahead(&self, meaning: &mut Meaning, source: &Source) {
        let readings = std::mem::take(&mut meaning.readings);
        for mut reading in readings {
            if !is_ahead(reading.when, source.sent_at, &self.zone) {
                meaning.readings.push(reading);
                continue;
            }
            reading.when = Some(When::Ahead);
            meaning.ask = meaning.ask.take().or(Some(message::ask_whether(reading)));
        }
    }

    async fn record_readings(&mut self, meaning: &Meaning, source: &Source) -> Result<Answer, StoreError> {
        let (mut parts, mut buttons) = (Vec::new(), Vec::new());
        let several = meaning.readings.len() > 1;
        for said in &meaning.readings {
            let Some(mut kept) = self.keep(said, source) else {
                continue;
            };
            kept.id = store::readings::record(self.db, self.teller(), &kept).await?;
            let flushed = |service: &message::Service| service.what == What::Flush && service.rig == kept.rig_id;
            let remind = !several && !meaning.services.iter().any(flushed);
            let told = self.tell(&kept, several, remind).await?;
            parts.extend(told.parts);
            buttons.extend(told.buttons);
        }
        let joint = if several { "\n" } else { "\n\n" };
        if parts.is_empty() {
            return Ok(Answer::silence());
        }
        let mut answer = Answer::says(parts.join(joint));
        answer.buttons = buttons;
        Ok(answer)
    }

    /// What was said, as it is kept; none without the readings that a reading is.
    fn keep(&self, said: &message::Reading, source: &Source) -> Option<Reading> {
        let feed = said.feed?;
        said.permeate.or(said.product)?;
        Some(Reading {
            rig_id: said.rig?,
            person_id: self.member.id,
            source_key: source.key.clone(),
            taken_at: instant(said.when, source.sent_at, &self.zone),
            feed_ppm: feed.ppm,
            permeate_ppm: said.permeate.map(|permeate| permeate.ppm),
            product_ppm: said.product.map(|product| product.ppm),
            feed_raw_us: feed.raw_us,
            permeate_raw_us: said.permeate.and_then(|permeate| permeate.raw_us),
            product_raw_us: said.product.and_then(|product| product.raw_us),
            temperature_c: said.temperature_c,
            pressure_kpa: said.pressure_kpa,
            permeate_lpm: said.permeate_lpm,
            waste_lpm: said.waste_lpm,
            ..Reading::default()
        })
    }

    /// The words for a reading that was just recorded, and the buttons of what it asks.
    pub(super) async fn tell(&mut self, kept: &Reading, short: bool, remind: bool) -> Result<Answer, StoreError> {
        let rig = self.fleet.iter().find(|rig| rig.id == kept.rig_id).cloned();
        let rig = rig.unwrap_or(Rig {
            id: kept.rig_id,
            name: "?".to_owned(),
            di_only: false,
            flushes_itself: true,
        });
        let until_now = store::readings::latest(self.db, rig.id, kept.taken_at + 1, 2).await?;
        let before = until_now.iter().find(|before| before.id != kept.id);
        let raw = raw_rejection(kept);
        let change = raw.zip(before).and_then(|(now, before)| {
            raw_rejection(before).map(|then| (shown_change(then, now), self.date(before.taken_at)))
        });
        let followed = self.follow(&rig).await?;
        let doubted = followed.sets_aside(kept);
        let assessment = &followed.assessment;
        let expected = assessment
            .rejection
            .filter(|_| doubted && assessment.fault.is_none())
            .map(|level| level.mid);
        let fault = assessment.fault.as_ref().map(|fault| self.date(fault.since));
        self.occasions.extend(kept.temperature_c.map(Occasion::WaterAt));
        let renewed = assessment
            .question
            .map(|OpenPoint::WasMembraneChanged { since }| self.date(since));
        let missed_flush = self.missed_flush(&rig, before, kept.taken_at).await?;
        let (today, taken_on) = (self.today(), self.date(kept.taken_at));
        let membrane = raw.map(|rejection| (rejection, word_for(&followed, kept, rejection, &self.rules.limits())));
        self.occasions.extend(membrane.and_then(|(_, told)| match told {
            Told::State(state) => Some(Occasion::Advised(state)),
            // The answer sends to hoses and O-rings, as after a jump.
            Told::LowUnproven if !short => Some(Occasion::Advised(Condition::Check)),
            Told::LowUnproven | Told::Doubtful | Told::Back => None,
        }));
        let facts = Facts {
            rig: &rig.name,
            figures: figures_of(kept),
            membrane,
            change,
            fault,
            renewed,
            expected,
            taken_on: (taken_on != today).then_some(taken_on),
            missed_flush,
            resin: assessment
                .resin
                .filter(|_| remind)
                .and_then(|bed| resin::short(self.words, &bed)),
            slips: assessment.bed_state() == Some(BedState::EarlyBreakthrough),
            has_bed: self.rules.has_bed(&rig),
            flush: remind && taken_on == today && !rig.flushes_itself && !rig.di_only,
            today,
        };
        if short {
            return Ok(Answer::says(reading::short_answer(self.words, &facts)));
        }
        let mut answer = Answer::says(reading::answer(self.words, &facts));
        if renewed.is_some() {
            answer.buttons = self.renewal_buttons(&rig.name);
        }
        Ok(answer)
    }

    fn is_our_money(&self, price: &message::Price) -> bool {
        let ours = self.rules.currency().zip(price.currency.as_deref());
        ours.is_none_or(|(ours, typed)| ours.may_be(typed))
    }

    /// "Heron new resin £140", just after it was told without its price: the price is added.
    async fn price_later(&mut self, kept: &Service) -> Result<bool, StoreError> {
        let Some(minor) = kept.price_minor else {
            return Ok(false);
        };
        let known = store::services::of_rig(self.db, kept.rig_id).await?;
        let same = known.iter().rev().find(|known| known.what == kept.what);
        let lately = |known: &&Service| (known.done_at - kept.done_at).abs() < PRICE_MAY_FOLLOW;
        let Some(same) = same.filter(lately).filter(|same| same.price_minor.is_none()) else {
            return Ok(false);
        };
        store::services::set_price(self.db, same.id, minor).await?;
        Ok(true)
    }

    async fn record_services(&mut self, meaning: &Meaning, source: &Source) -> Result<Answer, StoreError> {
        let (mut lines, mut told) = (Vec::new(), BTreeSet::new());
        let mut left_out = meaning.price_left_out;
        for said in &meaning.services {
            if is_ahead(said.when, source.sent_at, &self.zone) {
                let rig = self.rig_name(said.rig);
                lines.push(self.words.say("service-ahead", [("rig", (&rig).into())]));
                continue;
            }
            let price = said.price.as_ref().filter(|price| self.is_our_money(price));
            left_out |= said.price.is_some() && price.is_none();
            let kept = Service {
                rig_id: said.rig,
                source_key: source.key.clone(),
                what: service_key(said.what).to_owned(),
                done_at: instant(said.when, source.sent_at, &self.zone),
                minutes: said.minutes.map(i64::from),
                price_minor: price.and_then(|price| self.rules.minor(price.amount)),
                ..Service::default()
            };
            if !self.price_later(&kept).await? {
                store::services::record(self.db, self.teller(), &kept).await?;
            }
            self.occasions.push(Occasion::Done(said.what));
            let resets = told.insert(service_key(said.what));
            let sign = said.price.as_ref().and_then(|price| price.currency.as_deref());
            lines.push(self.noted(&kept, said.what, resets, sign));
        }
        if let Some(first) = meaning.services.first().filter(|_| left_out) {
            let rig = self.rig_name(first.rig).to_lowercase();
            lines.push(reading::price_left_out(self.words, &rig, self.rules.currency()));
        }
        Ok(if lines.is_empty() {
            Answer::silence()
        } else {
            Answer::says(lines.join("\n"))
        })
    }

    /// The words for a service that was just recorded; the price has the sign that was typed while the outfit has no
    /// currency.
    pub(super) fn noted(&self, kept: &Service, what: What, resets: bool, typed_sign: Option<&str>) -> String {
        let today = self.today();
        let done_on = Some(self.date(kept.done_at)).filter(|day| *day != today);
        let currency = self.rules.currency();
        let price = kept
            .price_minor
            .and_then(|minor| Amount::of_minor(minor, currency.map_or(2, Currency::digits)))
            .map(|price| figures::money(self.words, price, currency));
        let typed_sign = typed_sign.filter(|sign| currency.is_none() && !sign.chars().any(char::is_alphabetic));
        let price = price.map(|price| format!("{}{price}", typed_sign.unwrap_or_default()));
        let day = done_on.map(|day| on_day(self.words, day, today));
        let rig = self.rig_name(kept.rig_id);
        let line = reading::service(self.words, &rig, what, day.as_deref(), price.as_deref());
        let resets = self.what_it_resets(what, done_on).filter(|_| resets);
        resets.map_or(line.clone(), |resets| format!("{line} {resets}"))
    }
}

/// A kept reading's figures.
pub(super) fn figures_of(kept: &Reading) -> Figures {
    Figures {
        feed_ppm: kept.feed_ppm,
        permeate_ppm: kept.permeate_ppm,
        product_ppm: kept.product_ppm,
    }
}

const SERVICES: [(What, &str); 6] = [
    (What::Resin, "resin"),
    (What::Repack, "repack"),
    (What::Membrane, "membrane"),
    (What::Prefilter, "prefilter"),
    (What::Flush, "flush"),
    (What::ORing, "oring"),
];

/// A service's word in the database.
pub(super) fn service_key(what: What) -> &'static str {
    SERVICES
        .iter()
        .find(|(known, _)| *known == what)
        .map_or("flush", |(_, key)| key)
}

/// The service that a word in the database names.
pub(super) fn service_of(key: &str) -> Option<What> {
    SERVICES.iter().find(|(_, known)| *known == key).map(|(what, _)| *what)
}
