//! The command `read`: what would the bot understand? Lines in, plain words or JSON out. Nothing is stored.

mod conversation;
mod json;
mod plain;

use std::io::{BufRead, Write};

use crate::grammar::{Rig, Scene};
use conversation::Conversation;

/// What the command line says.
#[derive(Clone, Debug, clap::Args)]
pub struct ReadArgs {
    /// Names of the outfit's rigs, separated by commas
    #[arg(long, value_delimiter = ',', default_value = "Heron,Otter")]
    pub fleet: Vec<String>,
    /// The sender's own rig
    #[arg(long)]
    pub mine: Option<String>,
    /// Read JSON lines {"id","text","fleet","sender_default_rig","context","degrees"} and print JSON lines
    #[arg(long)]
    pub json: bool,
    /// With --json: what became of each number, as "why"
    #[arg(long)]
    pub why: bool,
    /// Unit of bare degrees
    #[arg(long, value_enum, ignore_case = true, default_value = "C")]
    pub degrees: Degrees,
    /// Read as an owner or lead, who may speak for all rigs
    #[arg(long)]
    pub lead: bool,
}

/// The unit of degrees that are typed without one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum, serde::Deserialize)]
pub enum Degrees {
    /// Celsius.
    #[value(name = "C")]
    C,
    /// Fahrenheit.
    #[value(name = "F")]
    F,
}

/// Reads `input` to its end and answers each line with one (JSON) or more (plain words).
///
/// # Errors
/// Fails when input or output fails, or when `--mine` names no rig of the fleet. A line of JSON that cannot be read is
/// answered by a line with `error`; the lines after it are still read.
pub fn run(args: &ReadArgs, input: impl BufRead, out: &mut impl Write) -> anyhow::Result<()> {
    if args.json {
        return json::answer_lines(args, input, out);
    }
    let scene = scene_of(&args.fleet, args.mine.as_deref(), args.degrees, args.lead);
    if let (Some(mine), None) = (&args.mine, scene.own_rig) {
        anyhow::bail!(
            "no rig of the fleet is named {mine:?}; the fleet is {}",
            args.fleet.join(", ")
        );
    }
    let mut conversation = Conversation::new(scene);
    for line in input.lines() {
        let meaning = conversation.hear(&line?);
        plain::write_meaning(&meaning, &conversation, out)?;
        out.flush()?;
    }
    Ok(())
}

/// A scene in which every rig was at work today and is flushed by hand; ids count from 1.
fn scene_of(fleet: &[String], mine: Option<&str>, degrees: Degrees, lead: bool) -> Scene {
    let rigs: Vec<Rig> = fleet
        .iter()
        .map(|name| name.trim())
        .filter(|name| !name.is_empty())
        .zip(1..)
        .map(|(name, id)| Rig {
            id,
            name: name.to_string(),
            manual_flush: true,
            worked_today: true,
            ..Rig::default()
        })
        .collect();
    let own_rig = mine
        .and_then(|mine| rigs.iter().find(|rig| rig.name.eq_ignore_ascii_case(mine.trim())))
        .map(|r| r.id);
    Scene {
        fleet: rigs,
        own_rig,
        celsius: degrees == Degrees::C,
        month_first: degrees == Degrees::F,
        may_speak_for_all: lead,
        ..Scene::default()
    }
}
