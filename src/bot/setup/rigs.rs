//! The rigs of a new outfit: a list of them, and facts copied from one to another.

use crate::message;
use crate::message::command::Command;
use crate::message::setting::{SetBy, Setting, Wish, WishFor};
use crate::message::setup::{Kind, Part, Progress, Roster, Row, Step};
use crate::store::people::Role;
use crate::store::{self, StoreError};

use super::super::answer::Answer;
use super::super::fleet::proper_name;
use super::super::rules::Rules;
use super::super::scene;
use super::super::turn::Turn;

impl Turn<'_> {
    /// The next question, if a text lists rigs.
    pub(super) async fn listed_rigs(&mut self, text: &str, progress: &Progress) -> Result<Option<Answer>, StoreError> {
        let Some(mut said) = self.listed_rigs_alone(text).await? else {
            return Ok(None);
        };
        said.and(self.waiting_reading().await?);
        self.pass(progress, Step::Rigs, said).await.map(Some)
    }

    /// Adds the rigs of a list; none if it is none. A line that is not
    /// understood is named.
    pub(super) async fn listed_rigs_alone(&mut self, text: &str) -> Result<Option<Answer>, StoreError> {
        let roster = Roster::read(text);
        let (rows, bad): (Vec<Row>, Vec<Row>) = roster
            .rows
            .into_iter()
            .partition(|row| proper_name(&row.name).is_some());
        if rows.is_empty() {
            return Ok(None);
        }
        let names: Vec<String> = rows.iter().map(|row| row.name.clone()).collect();
        let mut said = self.add_rigs(&names).await?;
        self.fleet = store::rigs::fleet(self.db, self.outfit.id).await?;
        for row in rows {
            self.carry_out(facts(&row)).await?;
        }
        let lines = roster
            .not_understood
            .into_iter()
            .chain(bad.into_iter().map(|row| row.name));
        for line in lines {
            let line: String = line.chars().take(60).collect();
            said.parts
                .push(self.words.say("setup-line-bad", [("line", (&line).into())]));
        }
        said.parts = vec![said.parts.join("\n")];
        Ok(Some(said))
    }

    /// A reading that came before its rig was on the fleet, recorded now.
    pub(super) async fn waiting_reading(&mut self) -> Result<Answer, StoreError> {
        let chat = self.incoming.chat.address.clone();
        let Some(open) = store::questions::waiting(self.db, &chat, self.member.id, self.now).await? else {
            return Ok(Answer::silence());
        };
        let Some(name) = open
            .ask
            .typed_name
            .clone()
            .filter(|name| self.rig_named(name).is_some())
        else {
            return Ok(Answer::silence());
        };
        let scene = scene::build(self, &name, Some(open.ask.clone())).await?;
        let meaning = message::read(&name, &scene);
        if meaning.readings.is_empty() {
            return Ok(Answer::silence());
        }
        self.act_on(&name, &scene, Some(open), meaning).await
    }

    /// Gives rigs all that was told of another, but its short names, and asks on.
    pub(super) async fn same(&mut self, rigs: &[i64], like: &str) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let Some(like) = self.rig_named(like) else {
            return Ok(self.unknown_rig(like));
        };
        let may = |setting: &Setting| {
            let money = setting.field().set_by() == SetBy::Owner;
            !matches!(setting, Setting::ShortNames(_)) && (!money || self.member.role == Role::Owner)
        };
        let told = self
            .rules
            .set()
            .iter()
            .filter(|(rig, setting)| *rig == Some(like.id) && may(setting));
        let told: Vec<Setting> = told.map(|(_, setting)| setting.clone()).collect();
        let mut names = Vec::new();
        for mut rig in self
            .fleet
            .clone()
            .into_iter()
            .filter(|rig| rig.id != like.id && rigs.contains(&rig.id))
        {
            for setting in &told {
                let (name, value) = (setting.field().name(), setting.value());
                store::settings::set(self.db, self.teller(), Some(rig.id), name, &value).await?;
            }
            (rig.di_only, rig.flushes_itself) = (like.di_only, like.flushes_itself);
            store::rigs::set_traits(self.db, &rig, self.now).await?;
            names.push(rig.name);
        }
        self.rules = Rules::load(self.db, &self.outfit).await?;
        self.fleet = store::rigs::fleet(self.db, self.outfit.id).await?;
        let names = names.join(", ");
        let said = Answer::says(
            self.words
                .say("setup-same", [("rigs", (&names).into()), ("like", (&like.name).into())]),
        );
        let Some(open) = self.open_set_up().await? else {
            return Ok(said);
        };
        let mut progress = open.progress;
        for rig in rigs {
            progress
                .passed
                .extend([Step::Rig(*rig, Part::Facts), Step::Rig(*rig, Part::Resin)]);
        }
        match progress.step {
            Some(Step::Rig(id, _)) if rigs.contains(&id) => self.ask_next(progress, said).await,
            Some(step) => self.stray(said, progress, step).await,
            None => Ok(said),
        }
    }
}

/// The commands for what a list tells of a rig beside its name.
fn facts(row: &Row) -> Vec<Command> {
    let set = |setting: Setting| {
        Command::Setting(WishFor {
            rig: Some(row.name.clone()),
            wish: Wish::Set(setting),
        })
    };
    let mut commands = Vec::new();
    if !row.short_names.is_empty() {
        commands.push(set(Setting::ShortNames(row.short_names.clone())));
    }
    match row.kind {
        Some(Kind::DiOnly) => commands.push(Command::DiOnly(row.name.clone())),
        Some(Kind::RoAndDi) => commands.push(set(Setting::ResinBed(true))),
        Some(Kind::RoOnly) => commands.push(set(Setting::ResinBed(false))),
        None => {}
    }
    commands.extend(row.resin_litres.map(|litres| set(Setting::ResinLitres(litres))));
    commands
}
