//! The guide through setting up: asks one question at a time, sets what is
//! answered by the same commands that somebody could type, and lets everything
//! else through as always.

mod answering;
mod known;
mod questions;
mod rigs;

use crate::message::setup::{self, Guide, KnownRig, Part, Progress, Step};
use crate::message::{self, Meaning, command};
use crate::replies::caution::Occasion;
use crate::store::people::Role;
use crate::store::questions::Question;
use crate::store::set_ups::SetUp;
use crate::store::{self, Db, StoreError};

use super::answer::{Answer, Press};
use super::envelope::Incoming;
use super::fleet::proper_name;
use super::turn::{QUESTION_LIVES, Turn};
use super::{Bot, cautioning, scene};

/// After so many messages about something else the guide waits to be called.
const STRAYS: u8 = 3;
/// Edits of so many answers are taken as answers again.
const REMEMBERED: usize = 8;

impl Bot {
    /// Welcomes whoever founded an outfit, with the first question.
    pub(super) async fn open_set_up(&self, db: &mut Db, incoming: &Incoming, now: i64) -> Result<(), StoreError> {
        let Some(member) = store::people::find(db, &incoming.person.address).await? else {
            return Ok(());
        };
        let mut turn = self.turn(db, incoming, member, now).await?;
        turn.occasions.push(Occasion::Joined);
        let mut answer = Answer::says(turn.words.plain("setup-welcome"));
        if incoming.chat.group {
            answer.and(Answer::says(turn.words.plain("setup-private")));
        } else {
            turn.caution(&mut answer).await?;
            answer.and(turn.begin().await?);
        }
        turn.queue(answer).await
    }
}

impl Turn<'_> {
    /// What the guide makes of a text; none leaves it to everything else.
    pub(super) async fn guided(&mut self, text: &str) -> Result<Option<Answer>, StoreError> {
        let guide = setup::read(text);
        if self.incoming.chat.group {
            let called = guide == Some(Guide::Begin) && self.member.role == Role::Owner;
            return Ok(called.then(|| Answer::says(self.words.plain("setup-private"))));
        }
        match &guide {
            Some(Guide::Begin) => return self.begin().await.map(Some),
            Some(Guide::BeginRig(name)) if self.rig_named(name).is_some() => {
                return self.begin_rig(name).await.map(Some);
            }
            Some(Guide::Same { rig: Some(rig), like }) if self.rig_named(rig).is_some() => {
                let rigs: Vec<i64> = self.rig_named(rig).iter().map(|rig| rig.id).collect();
                return self.same(&rigs, like).await.map(Some);
            }
            _ => {}
        }
        let Some(set_up) = self.open_set_up().await? else {
            return Ok(None);
        };
        let Some(step) = set_up.progress.step else {
            return Ok(None);
        };
        if self.incoming.version > 0 {
            return self.answered_again(text, &set_up.progress, step).await;
        }
        self.answered(text, guide, set_up.progress, step).await.map(Some)
    }

    /// A text while a question of the guide is open.
    async fn answered(
        &mut self,
        text: &str,
        guide: Option<Guide>,
        progress: Progress,
        step: Step,
    ) -> Result<Answer, StoreError> {
        let waiting = store::questions::waiting(self.db, &self.incoming.chat.address, self.member.id, self.now).await?;
        // A question about a reading goes first: its figures must not be lost.
        if waiting.is_some() && !self.fleet.is_empty() {
            let scene = scene::build(self, text, waiting.as_ref().map(|question| question.ask.clone())).await?;
            let meaning = message::read(text, &scene);
            if meaning != Meaning::default() {
                return self.read_between(text, waiting, progress, step).await;
            }
        }
        if let Some(guide) = guide
            && let Some(answer) = self.steered(guide, &progress, step).await?
        {
            return Ok(answer);
        }
        // A name or a place can be any word; all else is read first.
        let greedy = matches!(step, Step::Name | Step::Zone);
        if !greedy && let Some(answer) = self.answer_of(text, &progress, step).await? {
            return Ok(answer);
        }
        if let Some(command) = command::read(text) {
            let about = self.step_of(&command);
            if let Some(answer) = self.obey(command).await? {
                return self.after_a_command(answer, about, progress, step).await;
            }
        }
        if step == Step::Rigs
            && let Some(answer) = self.listed_rigs(text, &progress).await?
        {
            return Ok(answer);
        }
        if greedy
            && self.alone(text).await? == Meaning::default()
            && let Some(answer) = self.answer_of(text, &progress, step).await?
        {
            return Ok(answer);
        }
        self.read_between(text, waiting, progress, step).await
    }

    /// What a text means by itself.
    async fn alone(&mut self, text: &str) -> Result<Meaning, StoreError> {
        let scene = scene::build(self, text, None).await?;
        Ok(message::read(text, &scene))
    }

    /// Does what the guide was told to; none if it was told nothing that fits.
    async fn steered(&mut self, guide: Guide, progress: &Progress, step: Step) -> Result<Option<Answer>, StoreError> {
        let at_once = matches!(step, Step::Hours | Step::Rig(_, Part::Facts));
        Ok(Some(match guide {
            Guide::Stop => self.stop(progress, "setup-stopped").await?,
            Guide::No if step == Step::Reading => self.stop(progress, "setup-stopped").await?,
            Guide::No if at_once => self.one_by_one(progress, step).await?,
            Guide::OneByOne(of) if at_once && of.is_none_or(|of| of == step) => self.one_by_one(progress, step).await?,
            Guide::Pass(of) if of.is_none_or(|of| of == step) => self.pass(progress, step, Answer::default()).await?,
            Guide::No => self.pass(progress, step, Answer::default()).await?,
            // The button of an older question: this one stays.
            Guide::Pass(Some(_)) | Guide::OneByOne(Some(_)) => self.question(step),
            Guide::Same { rig: None, like } => match step {
                Step::Rig(id, _) => self.same(&[id], &like).await?,
                _ => return Ok(None),
            },
            Guide::AllSame(like) => {
                let known = self.known().await?;
                let unset = known.rigs.iter().filter(|rig| !self.is_set_up(progress, rig));
                let unset: Vec<i64> = unset.map(|rig| rig.id).collect();
                self.same(&unset, &like).await?
            }
            Guide::OneByOne(None) | Guide::Begin | Guide::BeginRig(_) | Guide::Pass(None) | Guide::Same { .. } => {
                return Ok(None);
            }
        }))
    }

    fn is_set_up(&self, progress: &Progress, rig: &KnownRig) -> bool {
        rig.facts || progress.passed.contains(&Step::Rig(rig.id, Part::Facts))
    }

    /// A command that was typed in between, and the open question again; or the
    /// next one, if the command was its answer.
    async fn after_a_command(
        &mut self,
        answer: Answer,
        about: Option<Step>,
        mut progress: Progress,
        step: Step,
    ) -> Result<Answer, StoreError> {
        self.fleet = store::rigs::fleet(self.db, self.outfit.id).await?;
        match about {
            Some(about) if about == step => {
                let mut answer = answer;
                if step == Step::Rigs {
                    answer.and(self.waiting_reading().await?);
                }
                self.pass(&progress, step, answer).await
            }
            Some(about) => {
                progress.passed.push(about);
                if about == Step::Rigs {
                    let mut answer = answer;
                    answer.and(self.waiting_reading().await?);
                    return self.stray(answer, progress, step).await;
                }
                self.stray(answer, progress, step).await
            }
            None => self.stray(answer, progress, step).await,
        }
    }

    /// A text that is no answer: acted on as always, and the question again.
    async fn read_between(
        &mut self,
        text: &str,
        waiting: Option<Question>,
        progress: Progress,
        step: Step,
    ) -> Result<Answer, StoreError> {
        let scene = scene::build(self, text, waiting.as_ref().map(|question| question.ask.clone())).await?;
        let meaning = message::read(text, &scene);
        if meaning == Meaning::default() {
            let said: String = text.chars().take(40).collect();
            let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
            let mut answer = Answer::says(self.words.say("setup-not-understood", [("text", (&said).into())]));
            let roster = setup::Roster::read(text);
            if roster.rows.len() > 1 && roster.not_understood.is_empty() {
                let names: Vec<&str> = roster.rows.iter().map(|row| row.name.as_str()).collect();
                let names = names.join(", ");
                answer
                    .parts
                    .push(self.words.say("setup-more-rigs", [("names", (&names).into())]));
            }
            answer.and(self.question(step));
            return Ok(answer);
        }
        let first_reading = step == Step::Reading && !meaning.readings.is_empty();
        let named = meaning.ask.as_ref().and_then(|ask| ask.typed_name.clone());
        let mut answer = self.act_on(text, &scene, waiting, meaning).await?;
        if first_reading {
            answer.and(self.question_with(step, "setup-reading-done"));
            return Ok(answer);
        }
        // The first reading of all may come before there is a rig.
        if !self.fleet.is_empty() {
            return self.stray(answer, progress, step).await;
        }
        if let Some(name) = named {
            let name = proper_name(&name).unwrap_or(name);
            let add = self.words.say("setup-add-rig", [("rig", (&name).into())]);
            answer.buttons = vec![Press {
                label: add,
                says: format!("add rig {name}"),
            }];
            return Ok(answer);
        }
        answer.question_id = None;
        self.stray(answer, progress, step).await
    }

    /// Puts the open question shortly behind what was said in between; after
    /// some of it the guide waits.
    async fn stray(&mut self, mut answer: Answer, mut progress: Progress, step: Step) -> Result<Answer, StoreError> {
        progress.strayed = progress.strayed.saturating_add(1);
        if progress.strayed >= STRAYS {
            answer.and(self.stop(&progress, "setup-waits").await?);
            return Ok(answer);
        }
        self.keep_set_up(progress, false).await?;
        // A question about a reading comes first and alone.
        if answer.buttons.is_empty() && answer.question_id.is_none() {
            self.caution(&mut answer).await?;
            answer.and(self.short_question(step));
        }
        Ok(answer)
    }

    /// Begins, or goes on where it was left; what was skipped is asked again
    /// when nothing else is left.
    async fn begin(&mut self) -> Result<Answer, StoreError> {
        if self.member.role != Role::Owner {
            return Ok(self.may_not("who-owner"));
        }
        let kept = store::set_ups::of(self.db, self.member.id, self.outfit.id).await?;
        let mut progress = kept.map(|kept| kept.progress).unwrap_or_default();
        progress.whole = true;
        if setup::next(&progress, &self.known().await?).is_none() {
            let answered_by_itself =
                |step: &Step| matches!(step, Step::Reading | Step::Hours | Step::Rig(_, Part::Facts));
            progress.passed.retain(answered_by_itself);
            progress.wanted.clear();
        }
        self.ask_next(progress, Answer::default()).await
    }

    async fn begin_rig(&mut self, name: &str) -> Result<Answer, StoreError> {
        let Some(rig) = self.rig_named(name) else {
            return Ok(Answer::silence());
        };
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let open = self.open_set_up().await?;
        let kept = store::set_ups::of(self.db, self.member.id, self.outfit.id).await?;
        let mut progress = kept.map(|kept| kept.progress).unwrap_or_default();
        progress.whole &= open.is_some();
        let parts = [Part::Facts, Part::Resin, Part::Rated, Part::Prefilters].map(|part| Step::Rig(rig.id, part));
        progress
            .passed
            .retain(|step| !matches!(step, Step::Rig(id, _) if *id == rig.id));
        progress
            .wanted
            .retain(|step| !matches!(step, Step::Rig(id, _) if *id == rig.id));
        progress.wanted.splice(0..0, parts);
        self.ask_next(progress, Answer::default()).await
    }

    async fn stop(&mut self, progress: &Progress, key: &str) -> Result<Answer, StoreError> {
        self.keep_set_up(progress.clone(), true).await?;
        Ok(Answer::says(self.words.plain(key)))
    }

    async fn one_by_one(&mut self, progress: &Progress, step: Step) -> Result<Answer, StoreError> {
        let singly = match step {
            Step::Rig(id, _) => [Part::Kind, Part::Membranes, Part::Flush, Part::Stands]
                .map(|part| Step::Rig(id, part))
                .to_vec(),
            _ => vec![Step::WorkingDays, Step::DayEnds, Step::Digest],
        };
        let mut progress = progress.clone();
        progress.passed.retain(|passed| !singly.contains(passed));
        progress.wanted.retain(|wanted| !singly.contains(wanted));
        progress.wanted.splice(0..0, singly);
        self.pass(&progress, step, Answer::default()).await
    }

    /// A question is done with: says what came of it, and asks the next one.
    async fn pass(&mut self, progress: &Progress, step: Step, said: Answer) -> Result<Answer, StoreError> {
        let mut progress = progress.clone();
        progress.passed.push(step);
        progress.strayed = 0;
        progress.answered.push((self.incoming.key.clone(), step));
        let forgotten = progress.answered.len().saturating_sub(REMEMBERED);
        progress.answered.drain(..forgotten);
        self.ask_next(progress, said).await
    }

    /// Puts the next question behind what was said.
    async fn ask_next(&mut self, mut progress: Progress, mut said: Answer) -> Result<Answer, StoreError> {
        let last = progress.step;
        progress.step = setup::next(&progress, &self.known().await?);
        let whole = progress.whole;
        let next = progress.step;
        self.keep_set_up(progress, false).await?;
        self.caution(&mut said).await?;
        said.and(match (next, last) {
            (Some(Step::Reading), _) if self.is_read().await? => {
                self.question_with(Step::Reading, "setup-reading-known")
            }
            (Some(step), _) => self.question(step),
            (None, Some(Step::Rig(id, _))) if !whole => {
                let name = self.rig_name(id);
                let small = name.to_lowercase();
                let facts = [("rig", (&name).into()), ("name", (&small).into())];
                Answer::says(self.words.say("setup-rig-done", facts))
            }
            (None, _) => Answer::says(self.words.say("setup-done", [("rig", (&self.any_rig()).into())])),
        });
        Ok(said)
    }

    /// Says what is due of cautions now, so that the question stands last.
    async fn caution(&mut self, said: &mut Answer) -> Result<(), StoreError> {
        let occasions = std::mem::take(&mut self.occasions);
        let lines = cautioning::lines(self.db, self.words, self.member.id, &occasions, self.now).await?;
        match said.parts.last_mut() {
            Some(last) => lines.iter().for_each(|line| last.extend(["\n", line])),
            None if lines.is_empty() => {}
            None => said.parts.push(lines.join("\n")),
        }
        Ok(())
    }

    async fn keep_set_up(&mut self, progress: Progress, stopped: bool) -> Result<(), StoreError> {
        let set_up = SetUp {
            progress,
            asked_at: self.now,
            stopped_at: stopped.then_some(self.now),
        };
        store::set_ups::keep(self.db, self.member.id, self.outfit.id, &set_up).await
    }

    /// The set-up whose question is open: neither put off nor older than its buttons.
    async fn open_set_up(&mut self) -> Result<Option<SetUp>, StoreError> {
        let kept = store::set_ups::of(self.db, self.member.id, self.outfit.id).await?;
        Ok(kept.filter(|kept| kept.stopped_at.is_none() && self.now < kept.asked_at + QUESTION_LIVES))
    }

    /// A rig's name as it is typed in an example.
    fn any_rig(&self) -> String {
        self.fleet
            .first()
            .map_or_else(|| "heron".to_owned(), |rig| rig.name.to_lowercase())
    }
}
