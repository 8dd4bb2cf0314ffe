//! Carries an answer out: the commands that it stands for, and what comes with them.

use crate::message::command::{Affair, Command};
use crate::message::setting::{Field, Wish};
use crate::message::setup::{self, Part, Progress, Step};
use crate::replies::settings::typed;
use crate::store::{Db, StoreError};

use crate::bot::answer::Answer;
use crate::bot::commands::obey;
use crate::bot::outfit_commands::set_zone;
use crate::bot::request::Request;
use crate::bot::setting_values::{default_of, held, ways};
use crate::bot::setup::progress::pass;
use crate::bot::setup::questions::short_question;
use crate::bot::zones::zone_named;

/// The next question, if a text answers the open one.
pub(in crate::bot) async fn answer_of(
    db: &mut Db,
    on: &mut Request<'_>,
    text: &str,
    progress: &Progress,
    step: Step,
) -> Result<Option<Answer>, StoreError> {
    let commands = commands_of(on, text, step);
    if commands.is_empty() {
        return Ok(None);
    }
    answer_by(db, on, commands, progress, step).await.map(Some)
}

/// Carries out the commands that answer a question, and asks the next one.
pub(in crate::bot) async fn answer_by(
    db: &mut Db,
    on: &mut Request<'_>,
    commands: Vec<Command>,
    progress: &Progress,
    step: Step,
) -> Result<Answer, StoreError> {
    // A zone that is not found is said so, and asked for again.
    if let [Command::Zone(zone)] = commands.as_slice()
        && zone_named(zone).is_err()
    {
        let mut answer = set_zone(db, on, zone).await?;
        answer.and(short_question(on, step));
        return Ok(answer);
    }
    let mut progress = progress.clone();
    let mut said = carry_out(db, on, commands).await?;
    if step == Step::Country
        && let Some(country) = on.rules.country()
    {
        said.and(Answer::says(units(on)));
        if let [only] = setup::zones_of(country) {
            progress.passed.push(Step::Zone);
            said.and(set_zone(db, on, only).await?);
        }
    }
    said.parts = vec![said.parts.join("\n")];
    pass(db, on, &progress, step, said).await
}

/// The commands that a text stands for as the answer to a question.
pub(in crate::bot) fn commands_of(on: &Request<'_>, text: &str, step: Step) -> Vec<Command> {
    let rig = match step {
        Step::Rig(id, _) => Some(on.rig_name(id)),
        _ => None,
    };
    setup::answer(step, text, rig.as_deref(), on.rules.country())
}

/// Carries commands out; what each says is a line.
pub(in crate::bot) async fn carry_out(
    db: &mut Db,
    on: &mut Request<'_>,
    commands: Vec<Command>,
) -> Result<Answer, StoreError> {
    let mut said = Answer::default();
    for command in commands {
        let answer = obey(db, on, command).await?;
        said.parts.extend(answer.parts);
        said.occasions.extend(answer.occasions);
        // The next one may be about what this one changed.
        on.reload(db).await?;
    }
    said.parts = vec![said.parts.join("\n")];
    Ok(said)
}

/// The question that a command answers, if it does.
pub(in crate::bot) fn step_of(on: &Request<'_>, command: &Command) -> Option<Step> {
    let rig = |name: &str, part| Some(Step::Rig(on.rig_named(name)?.id, part));
    match command {
        Command::Name(_) => Some(Step::Name),
        Command::Zone(zone) | Command::Place(zone) => zone_named(zone).is_ok().then_some(Step::Zone),
        Command::AddRigs(_) => Some(Step::Rigs),
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

/// The units and the currency that hold now, as they could be typed.
fn units(on: &Request<'_>) -> String {
    let holds = [
        Field::Meter,
        Field::Degrees,
        Field::PressureUnit,
        Field::VolumeUnit,
        Field::Currency,
    ];
    let units: Vec<String> = holds
        .into_iter()
        .filter_map(|field| held(&on.rules, field, None).or_else(|| default_of(on, field)))
        .map(|setting| typed(on.words, &setting, ways(&on.rules)))
        .collect();
    on.words.say("setup-units", [("units", (&units.join(", ")).into())])
}
