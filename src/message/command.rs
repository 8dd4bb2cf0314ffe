//! What an outfit is run with: plain commands, each with an optional slash.
//!
//! A command starts the message and is nothing but a command; anything looser
//! is left to [`super::read`].

use super::setting::{self, WishFor};

/// A command, with what was typed behind it.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Opened a link: `/start TOKEN`.
    Start(String),
    /// `add rig heron, otter`.
    AddRigs(Vec<String>),
    /// `remove rig heron`.
    RemoveRig(String),
    /// `heron di only`.
    DiOnly(String),
    /// `heron has a membrane`.
    HasMembrane(String),
    /// `heron flushes itself`.
    FlushesItself(String),
    /// `heron flushed by hand`.
    FlushedByHand(String),
    /// `my rig heron`.
    OwnRig(String),
    /// `name Blue Ladder`.
    Name(String),
    /// `zone Europe/Madrid`.
    Zone(String),
    /// `day ends 17:00`.
    DayEnds(String),
    /// `invite`, `invite lead`; the role as typed.
    Invite(String),
    /// `people`.
    People,
    /// `leave`.
    Leave,
    /// `undo`.
    Undo,
    /// `fleet`.
    Fleet,
    /// `history heron`.
    History(String),
    /// `heron?`.
    Look(String),
    /// `heron not used, otter not used`, the answer to an end-of-day reminder.
    NotUsed(Vec<String>),
    /// `heron in 30 minutes, otter in 30 minutes`, another one; no names for all.
    FlushLater(Vec<String>),
    /// `help`.
    Help,
    /// `resin price 9`, `heron resin 25 litres`, `settings`.
    Setting(WishFor),
}

/// The command that a text is, if it is one.
pub fn read(text: &str) -> Option<Command> {
    let text = text.trim();
    if text.contains('\n') || text.len() > 400 {
        return None;
    }
    let (slash, text) = match text.strip_prefix('/') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let (first, rest) = split_word(text);
    // In a group a command may be addressed: /fleet@some_bot.
    let first = if slash {
        first.split('@').next().unwrap_or(first)
    } else {
        first
    };
    let first = first.to_lowercase();
    match (first.as_str(), rest) {
        ("start", "") if slash => Some(Command::Help),
        ("start", token) if is_token(token) => Some(Command::Start(token.to_owned())),
        ("help" | "start", "") => Some(Command::Help),
        ("undo", "") => Some(Command::Undo),
        ("fleet" | "rigs", "") => Some(Command::Fleet),
        ("people" | "crew", "") => Some(Command::People),
        ("leave", "") => Some(Command::Leave),
        ("invite", role) if split_word(role).1.is_empty() => Some(Command::Invite(role.to_lowercase())),
        ("name", name) if !name.is_empty() => Some(Command::Name(name.to_owned())),
        ("zone", zone) if !zone.is_empty() => Some(Command::Zone(zone.to_owned())),
        ("history", rig) => Some(Command::History(rig.to_owned())),
        _ => two_words(&first, rest)
            .or_else(|| behind_names(text))
            .or_else(|| behind_a_name(text))
            .or_else(|| setting::read(text).map(Command::Setting)),
    }
}

fn two_words(first: &str, rest: &str) -> Option<Command> {
    let (second, rest) = split_word(rest);
    match (first, second.to_lowercase().as_str()) {
        ("add", "rig" | "rigs") if !rest.is_empty() => Some(Command::AddRigs(
            rest.split(',')
                .map(str::trim)
                .filter(|name| !name.is_empty())
                .map(str::to_owned)
                .collect(),
        )),
        ("remove", "rig") if !rest.is_empty() => Some(Command::RemoveRig(rest.to_owned())),
        ("my", "rig") if !rest.is_empty() => Some(Command::OwnRig(rest.trim_start_matches("is ").to_owned())),
        ("day", "ends") => Some(Command::DayEnds(rest.to_owned())),
        _ => None,
    }
}

/// What follows a rig's name, and the command that it makes.
type Ending = (&'static str, fn(String) -> Command);

const ENDINGS: [Ending; 5] = [
    (" di only", Command::DiOnly),
    (" has a membrane", Command::HasMembrane),
    (" flushes itself", Command::FlushesItself),
    (" flushed by hand", Command::FlushedByHand),
    ("?", Command::Look),
];

/// What follows each of several names, and the command that they make.
type SharedEnding = (&'static str, fn(Vec<String>) -> Command);

const SHARED_ENDINGS: [SharedEnding; 2] = [("not used", Command::NotUsed), ("in 30 minutes", Command::FlushLater)];

/// `heron not used, otter not used`, or the ending alone.
fn behind_names(text: &str) -> Option<Command> {
    let lower = text.to_lowercase();
    SHARED_ENDINGS.iter().find_map(|(ending, make)| {
        let names: Option<Vec<String>> = lower
            .split(',')
            .map(|part| part.trim().strip_suffix(ending).map(|name| name.trim().to_owned()))
            .collect();
        let names = names?;
        let plausible = names.iter().all(|name| name.split_whitespace().count() <= 3);
        plausible.then(|| make(names.into_iter().filter(|name| !name.is_empty()).collect()))
    })
}

fn behind_a_name(text: &str) -> Option<Command> {
    let lower = text.to_lowercase();
    ENDINGS.iter().find_map(|(ending, make)| {
        let name = lower.strip_suffix(ending)?.trim();
        let name = name.strip_suffix(" is").unwrap_or(name);
        let plausible = !name.is_empty() && name.split_whitespace().count() <= 3;
        plausible.then(|| make(name.to_owned()))
    })
}

fn split_word(text: &str) -> (&str, &str) {
    match text.split_once(char::is_whitespace) {
        Some((word, rest)) => (word, rest.trim()),
        None => (text, ""),
    }
}

/// Telegram's start payload: up to 64 of A-Z a-z 0-9 _ -.
fn is_token(text: &str) -> bool {
    (8..=64).contains(&text.len())
        && text
            .bytes()
            .all(|byte| byte.is_ascii_alphanumeric() || byte == b'_' || byte == b'-')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commands_are_read_with_and_without_a_slash() {
        for (text, command) in [
            ("/start claim-0001", Command::Start("claim-0001".into())),
            ("/start@water_bot claim-0001", Command::Start("claim-0001".into())),
            ("Add rig Heron", Command::AddRigs(vec!["Heron".into()])),
            (
                "add rigs heron, big blue",
                Command::AddRigs(vec!["heron".into(), "big blue".into()]),
            ),
            ("remove rig Big Blue", Command::RemoveRig("Big Blue".into())),
            ("heron is di only", Command::DiOnly("heron".into())),
            ("Big Blue flushes itself", Command::FlushesItself("big blue".into())),
            ("name Blue Ladder", Command::Name("Blue Ladder".into())),
            ("zone Europe/Madrid", Command::Zone("Europe/Madrid".into())),
            ("day ends 16:30", Command::DayEnds("16:30".into())),
            ("INVITE lead", Command::Invite("lead".into())),
            ("/fleet", Command::Fleet),
            ("undo", Command::Undo),
            ("history heron", Command::History("heron".into())),
            ("heron?", Command::Look("heron".into())),
            ("my rig heron", Command::OwnRig("heron".into())),
            ("Heron not used", Command::NotUsed(vec!["heron".into()])),
            (
                "heron in 30 minutes, big blue in 30 minutes",
                Command::FlushLater(vec!["heron".into(), "big blue".into()]),
            ),
            ("in 30 minutes", Command::FlushLater(vec![])),
        ] {
            assert_eq!(read(text), Some(command), "{text}");
        }
    }

    #[test]
    fn readings_and_talk_are_no_commands() {
        for text in [
            "heron 180 12",
            "start the van",
            "leave the ladder",
            "undo that knot",
            "add rig",
            "",
            "/",
            "help me lift this",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
