//! What the answers to a batch of messages change, as rows: gathered in memory, written by a statement a table.
//!
//! Rows that are not written yet have numbers below zero, in their order: they become real ones when they are drawn.

use std::collections::HashMap;

use crate::domain::envelope::Outgoing;
use crate::domain::{PersonId, QuestionId};
use crate::store::questions::{Button, Question};
use crate::store::readings::{Reading, Teller};
use crate::store::services::Service;
use crate::store::{self, Db, StoreError};

/// A question that is asked.
#[derive(Clone, Debug)]
pub(super) struct Asked {
    pub chat: String,
    pub person_id: PersonId,
    pub question: Question,
    pub expires_at: i64,
    /// It was answered or superseded within the same batch.
    pub is_closed: bool,
}

/// What changes.
#[derive(Debug, Default)]
pub(super) struct Effects {
    readings: Vec<(Teller, Reading)>,
    services: Vec<(Teller, Service)>,
    asked: Vec<Asked>,
    closed: Vec<QuestionId>,
    buttons: Vec<(String, Button)>,
    cautions: Vec<(PersonId, &'static str)>,
    prices: Vec<(i64, i64)>,
    pub sends: Vec<Outgoing>,
}

/// The real numbers of rows that had none.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Drawn {
    readings: i64,
    services: i64,
    questions: i64,
}

impl Drawn {
    fn real(first: i64, id: &mut i64) {
        if *id < 0 {
            *id = first - *id - 1;
        }
    }

    /// A reading with its number.
    pub fn reading(self, mut reading: Reading) -> Reading {
        Self::real(self.readings, &mut reading.id);
        reading
    }

    /// Gives a remembered outfit the numbers that its rows have.
    pub fn number(self, outfit: &mut crate::history::Outfit) {
        for known in &mut outfit.rigs {
            known.state.number(self.readings, self.services);
        }
        for recent in outfit.people.iter_mut().filter_map(|person| person.recent.as_mut()) {
            let readings = recent.readings.iter_mut().flat_map(|(_, readings)| readings);
            readings.for_each(|reading| Self::real(self.readings, &mut reading.id));
            let services = recent.services.iter_mut().flat_map(|(_, services)| services);
            services.for_each(|service| Self::real(self.services, &mut service.id));
            for (_, question, _) in &mut recent.questions {
                Self::real(self.questions, &mut question.id);
            }
        }
    }
}

impl Effects {
    /// Records a reading; returns it with the number that it has until it is written.
    pub fn record(&mut self, teller: Teller, mut reading: Reading) -> Reading {
        reading.id = -1 - self.readings.len() as i64;
        reading.person_id = teller.person_id;
        self.readings.push((teller, reading.clone()));
        reading
    }

    /// Records a service; returns it with the number that it has until it is written.
    pub fn serve(&mut self, teller: Teller, mut service: Service) -> Service {
        service.id = -1 - self.services.len() as i64;
        service.person_id = teller.person_id;
        self.services.push((teller, service.clone()));
        service
    }

    /// Sets the price of a service, of this batch or an earlier one.
    pub fn price(&mut self, id: i64, minor: i64) {
        match usize::try_from(-1 - id)
            .ok()
            .and_then(|place| self.services.get_mut(place))
        {
            Some((_, service)) => service.price_minor = Some(minor),
            None => self.prices.push((id, minor)),
        }
    }

    /// Asks; returns the number that the question has until it is written.
    pub fn ask(&mut self, mut asked: Asked) -> QuestionId {
        let id = -1 - self.asked.len() as i64;
        asked.question.id = id;
        self.asked.push(asked);
        id
    }

    /// Closes a question, of this batch or an earlier one.
    pub fn close(&mut self, id: QuestionId) {
        match usize::try_from(-1 - id)
            .ok()
            .and_then(|place| self.asked.get_mut(place))
        {
            Some(asked) => asked.is_closed = true,
            None => self.closed.push(id),
        }
    }

    /// Keeps a button under its token.
    pub fn button(&mut self, token: String, button: Button) {
        self.buttons.push((token, button));
    }

    /// Notes that a caution was told.
    pub fn told(&mut self, person_id: PersonId, kind: &'static str) {
        self.cautions.push((person_id, kind));
    }

    /// Writes all but the sends.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn write(&mut self, db: &mut Db, now: i64) -> Result<Drawn, StoreError> {
        let readings: Vec<_> = self
            .readings
            .iter()
            .map(|(teller, reading)| (*teller, reading))
            .collect();
        let services: Vec<_> = self
            .services
            .iter()
            .map(|(teller, service)| (*teller, service))
            .collect();
        let mut drawn = Drawn {
            readings: store::readings::record_all(db, &readings).await?,
            services: store::services::record_all(db, &services).await?,
            questions: 0,
        };
        for (id, minor) in &self.prices {
            store::services::set_price(db, *id, *minor).await?;
        }
        if !self.closed.is_empty() {
            store::questions::close(db, &self.closed, now).await?;
        }
        let asked: Vec<_> = self
            .asked
            .iter()
            .map(|asked| store::questions::Asked {
                chat: &asked.chat,
                person_id: asked.person_id,
                question: &asked.question,
                expires_at: asked.expires_at,
                closed_at: asked.is_closed.then_some(now),
            })
            .collect();
        drawn.questions = store::questions::ask_all(db, &asked).await?;
        for (_, button) in &mut self.buttons {
            if let Some(id) = &mut button.question_id {
                Drawn::real(drawn.questions, id);
            }
        }
        store::questions::keep_buttons(db, &self.buttons).await?;
        let last: HashMap<(PersonId, &str), ()> = self.cautions.iter().map(|told| (*told, ())).collect();
        let told: Vec<(PersonId, &str)> = last.into_keys().collect();
        store::cautions::note_all(db, &told, now).await?;
        Ok(drawn)
    }
}
