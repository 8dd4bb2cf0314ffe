//! Carries an answer out: the commands that it stands for, and what comes with them.

use crate::message::command::{Affair, Command};
use crate::message::setting::{Country, Field, Setting, Wish};
use crate::message::setup::{self, Part, Progress, Step};
use crate::replies::settings::typed;
use crate::store::StoreError;

use super::super::answer::Answer;
use super::super::outfit::zone_named;
use super::super::turn::Turn;

impl Turn<'_> {
    /// The next question, if a text answers the open one.
    pub(super) async fn answer_of(
        &mut self,
        text: &str,
        progress: &Progress,
        step: Step,
    ) -> Result<Option<Answer>, StoreError> {
        let commands = self.commands_of(text, step);
        if commands.is_empty() {
            return Ok(None);
        }
        // A zone that is not found is said so, and asked for again.
        if let [Command::Zone(zone)] = commands.as_slice()
            && zone_named(zone).is_err()
        {
            let mut answer = self.set_zone(zone).await?;
            answer.and(self.short_question(step));
            return Ok(Some(answer));
        }
        let mut progress = progress.clone();
        let mut said = self.carry_out(commands).await?;
        if step == Step::Country
            && let Some(country) = self.country()
        {
            said.and(Answer::says(self.units()));
            if let [only] = setup::zones_of(country) {
                progress.passed.push(Step::Zone);
                said.and(self.set_zone(only).await?);
            }
        }
        said.parts = vec![said.parts.join("\n")];
        self.pass(&progress, step, said).await.map(Some)
    }

    /// An edited answer, answered again; none if the message answered nothing.
    pub(super) async fn answered_again(
        &mut self,
        text: &str,
        progress: &Progress,
        open: Step,
    ) -> Result<Option<Answer>, StoreError> {
        let answered = progress
            .answered
            .iter()
            .rev()
            .find(|(key, _)| *key == self.incoming.key);
        let Some((_, step)) = answered.cloned() else {
            return Ok(None);
        };
        let mut said = if step == Step::Rigs {
            match self.listed_rigs_alone(text).await? {
                Some(said) => said,
                None => return Ok(None),
            }
        } else {
            let commands = self.commands_of(text, step);
            if commands.is_empty() {
                return Ok(None);
            }
            self.carry_out(commands).await?
        };
        said.and(self.short_question(open));
        Ok(Some(said))
    }

    fn commands_of(&self, text: &str, step: Step) -> Vec<Command> {
        let rig = match step {
            Step::Rig(id, _) => Some(self.rig_name(id)),
            _ => None,
        };
        setup::answer(step, text, rig.as_deref(), self.country())
    }

    pub(super) fn country(&self) -> Option<Country> {
        match self.set_value(Field::Country, None) {
            Some(Setting::Country(country)) => Some(country),
            _ => None,
        }
    }

    /// Carries commands out; what each says is a line.
    pub(super) async fn carry_out(&mut self, commands: Vec<Command>) -> Result<Answer, StoreError> {
        let mut lines = Vec::new();
        for command in commands {
            if let Some(answer) = self.obey(command).await? {
                lines.extend(answer.parts);
            }
            // The next one may be about what this one changed.
            self.fleet = crate::store::rigs::fleet(self.db, self.outfit.id).await?;
        }
        Ok(Answer::says(lines.join("\n")))
    }

    /// The units and the currency that hold now, as they could be typed.
    fn units(&self) -> String {
        let holds = [
            Field::Meter,
            Field::Degrees,
            Field::PressureUnit,
            Field::VolumeUnit,
            Field::Currency,
        ];
        let units: Vec<String> = holds
            .into_iter()
            .filter_map(|field| self.held(field, None).or_else(|| self.default_of(field)))
            .map(|setting| typed(self.words, &setting, self.ways()))
            .collect();
        self.words.say("setup-units", [("units", (&units.join(", ")).into())])
    }

    /// The question that a command answers, if it does.
    pub(super) fn step_of(&self, command: &Command) -> Option<Step> {
        let rig = |name: &str, part| Some(Step::Rig(self.rig_named(name)?.id, part));
        match command {
            Command::Name(_) => Some(Step::Name),
            Command::Zone(zone) => zone_named(zone).is_ok().then_some(Step::Zone),
            Command::AddRigs(_) => Some(Step::Rigs),
            Command::DayEnds(_) => Some(Step::DayEnds),
            Command::Affair(Affair::Invite(_)) => Some(Step::Crew),
            Command::DiOnly(name) | Command::HasMembrane(name) => rig(name, Part::Kind),
            Command::FlushesItself(name) | Command::FlushedByHand(name) => rig(name, Part::Flush),
            Command::Setting(wished) => {
                let Wish::Set(setting) = &wished.wish else {
                    return None;
                };
                match (setting.field(), &wished.rig) {
                    (Field::Country, None) => Some(Step::Country),
                    (Field::WorkingDays, None) => Some(Step::WorkingDays),
                    (Field::DayEnds, None) => Some(Step::DayEnds),
                    (Field::DigestAt | Field::Digest, None) => Some(Step::Digest),
                    (Field::MembranePrice, None) => Some(Step::MembranePrice),
                    (Field::ResinPrice, None) => Some(Step::ResinPrice),
                    (Field::LitresPerDay, None) => Some(Step::LitresPerDay),
                    (Field::ResinBed, Some(name)) => rig(name, Part::Kind),
                    (Field::Membranes, Some(name)) => rig(name, Part::Membranes),
                    (Field::Stands, Some(name)) => rig(name, Part::Stands),
                    (Field::ResinLitres, Some(name)) => rig(name, Part::Resin),
                    (Field::Rated, Some(name)) => rig(name, Part::Rated),
                    (Field::PrefilterDays, Some(name)) => rig(name, Part::Prefilters),
                    _ => None,
                }
            }
            _ => None,
        }
    }
}
