//! The rigs of a new outfit: a list of them, and facts copied from one to another.

use crate::message::command::Command;
use crate::message::setting::{Bed, Field, SetBy, Setting, WishFor};
use crate::message::setup::{Kind, Part, Progress, Roster, Row, Step};
use crate::store::people::Role;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use crate::bot::answer::Answer;
use crate::bot::meaning_answers::record_meaning;
use crate::bot::refusals::{may_not, unknown_rig};
use crate::bot::request::Request;
use crate::bot::rig_commands::add_rigs;
use crate::bot::rig_names::proper_name;
use crate::bot::scene::open_question;
use crate::bot::setup::answer_commands::carry_out;
use crate::bot::setup::progress::{ask_next, open_set_up, pass, stray};
use crate::bot::understood::understand;

/// The next question, if a text lists rigs.
pub(in crate::bot) async fn listed_rigs(
    db: &mut Db,
    on: &mut Request<'_>,
    text: &str,
    progress: &Progress,
) -> Result<Option<Answer>, StoreError> {
    let Some(mut said) = listed_rigs_alone(db, on, text).await? else {
        return Ok(None);
    };
    said.and(waiting_reading(db, on).await?);
    pass(db, on, progress, Step::Rigs, said).await.map(Some)
}

/// Adds the rigs of a list; none if it is none. A line that is not
/// understood is named.
pub(in crate::bot) async fn listed_rigs_alone(
    db: &mut Db,
    on: &mut Request<'_>,
    text: &str,
) -> Result<Option<Answer>, StoreError> {
    let roster = Roster::read(text);
    let (rows, bad): (Vec<Row>, Vec<Row>) = roster
        .rows
        .into_iter()
        .partition(|row| proper_name(&row.name).is_some());
    if rows.is_empty() {
        return Ok(None);
    }
    let names: Vec<String> = rows.iter().map(|row| row.name.clone()).collect();
    let mut said = add_rigs(db, on, &names).await?;
    on.reload(db).await?;
    for row in rows {
        let facts = carry_out(db, on, facts(&row)).await?;
        said.occasions.extend(facts.occasions);
    }
    let lines = roster
        .not_understood
        .into_iter()
        .chain(bad.into_iter().map(|row| row.name));
    for line in lines {
        let line: String = line.chars().take(60).collect();
        said.parts
            .push(on.words.say("setup-line-bad", [("line", (&line).into())]));
    }
    said.parts = vec![said.parts.join("\n")];
    Ok(Some(said))
}

/// A reading that came before its rig was on the fleet, recorded now.
pub(in crate::bot) async fn waiting_reading(db: &mut Db, on: &mut Request<'_>) -> Result<Answer, StoreError> {
    let open = open_question(on);
    let typed = open.and_then(|open| open.ask.typed_name);
    let Some(name) = typed.filter(|name| on.rig_named(name).is_some()) else {
        return Ok(Answer::silence());
    };
    let understood = understand(on, &name);
    match understood.meaning.readings.is_empty() {
        true => Ok(Answer::silence()),
        false => record_meaning(db, on, understood.meaning, understood.answers).await,
    }
}

/// Gives rigs all that was told of another, but its short names, and asks on.
pub(in crate::bot) async fn same(
    db: &mut Db,
    on: &mut Request<'_>,
    rigs: &[i64],
    like: &str,
) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let Some(like) = on.rig_named(like) else {
        return Ok(unknown_rig(on, like));
    };
    let may = |setting: &Setting| {
        let money = setting.field().set_by() == SetBy::Owner;
        setting.field() != Field::ShortNames && (!money || on.member.role == Role::Owner)
    };
    let told = on
        .rules
        .set()
        .iter()
        .filter(|(rig, setting)| *rig == Some(like.id) && may(setting));
    let told: Vec<Setting> = told.map(|(_, setting)| setting.clone()).collect();
    let mut names = Vec::new();
    for rig in (on.fleet.iter()).filter(|rig| rig.id != like.id && rigs.contains(&rig.id)) {
        for setting in &told {
            let (name, value) = (setting.field().name(), setting.text());
            store::settings::set(db, on.teller(), Some(rig.id), name, &value).await?;
        }
        let alike = Rig {
            id: rig.id,
            name: rig.name.clone(),
            ..like.clone()
        };
        store::rigs::set_traits(db, &alike, on.now).await?;
        names.push(alike.name);
    }
    on.reload(db).await?;
    on.reload(db).await?;
    let names = names.join(", ");
    let said = Answer::says(
        on.words
            .say("setup-same", [("rigs", (&names).into()), ("like", (&like.name).into())]),
    );
    let Some(open) = open_set_up(db, on).await? else {
        return Ok(said);
    };
    let mut progress = open.progress;
    for rig in rigs {
        progress
            .passed
            .extend([Step::Rig(*rig, Part::Facts), Step::Rig(*rig, Part::Resin)]);
    }
    match progress.step {
        Some(Step::Rig(id, _)) if rigs.contains(&id) => ask_next(db, on, progress, said).await,
        Some(step) => stray(db, on, said, progress, step).await,
        None => Ok(said),
    }
}

/// The commands for what a list tells of a rig beside its name.
fn facts(row: &Row) -> Vec<Command> {
    let set = |setting: Setting| Command::Setting(WishFor::set(Some(&row.name), setting));
    let mut commands = Vec::new();
    if !row.short_names.is_empty() {
        commands.push(set(Field::ShortNames.to(row.short_names.clone())));
    }
    match row.kind {
        Some(Kind::DiOnly) => commands.push(Command::DiOnly(row.name.clone())),
        Some(Kind::RoAndDi) => commands.push(set(Field::ResinBed.to(Bed::There))),
        Some(Kind::RoOnly) => commands.push(set(Field::ResinBed.to(Bed::Absent))),
        None => {}
    }
    commands.extend(row.resin_litres.map(|litres| set(Field::ResinLitres.to(litres))));
    commands
}
