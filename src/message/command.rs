//! What an outfit is run with: plain commands, each with an optional slash.
//!
//! A command starts the message and is nothing but a command; anything looser
//! is left to [`crate::grammar`]. How commands are worded stands in the tables of
//! `wording`, a language each; here is what each key of theirs makes.

mod affair;
mod nearest;
mod subject;
mod wording;

pub use affair::{Affair, Terms, pasted};
pub use nearest::nearest;
pub use subject::Page;

use serde::{Deserialize, Serialize};

use super::setting::{self, WishFor};
use crate::domain::term::Term;
use crate::language::lexicon::behind;
use crate::language::{Sense, Senses};

/// A command, with what was typed behind it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Command {
    /// Opened a link: `/start TOKEN`.
    Start(String),
    /// `add rig heron, otter`.
    AddRigs(Vec<String>),
    /// `remove rig heron`.
    RemoveRig(String),
    /// `rename otter to wren`: the rig as typed, and its new name.
    RenameRig(String, String),
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
    /// `we're based in Denver`: a zone, if there is such a place.
    Place(String),
    /// What concerns people, their chat, or the outfit's data.
    Affair(Affair),
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
    /// `heron membrane in a week`: rig and subject; say it again.
    NoteAgain(String, String),
    /// `heron membrane not now`: rig and subject; let it be.
    NoteLetBe(String, String),
    /// `digest`.
    Digest,
    /// `digest more`, or of a Monday: `digest more 2026-03-02`.
    DigestMore(String),
    /// `digest file`: the digest as a workbook.
    DigestFile,
    /// `calendar`: the due dates as a file.
    Calendar,
    /// `picture`, `picture heron`: the fleet, or a rig's history.
    Picture(String),
    /// `resin picture heron`.
    ResinPicture(String),
    /// `money picture heron`.
    MoneyPicture(String),
    /// `year ahead`: what will probably be bought.
    YearAhead,
    /// `year ahead file`: the same as a workbook.
    YearAheadFile,
    /// `help`.
    Help,
    /// `who logged what`: this week.
    WhoLogged,
    /// `resin price 9`, `heron resin 25 litres`, `settings`.
    Setting(WishFor),
    /// `resin price 9, membrane price 180`: several of these.
    Settings(Vec<WishFor>),
    /// `help flush`; none: nothing that help knows of.
    HelpOn(Option<Page>),
    /// `what does due mean?`.
    Meaning(Term),
    /// `language es`: its tag, `platform` for the platform's, or else as typed.
    Language(String),
    /// `language`.
    WhichLanguage,
}

/// The command that a text is, if it is one.
pub fn read(text: &str) -> Option<Command> {
    let text = text.trim();
    if text.contains('\n') || text.len() > 400 {
        return None;
    }
    let Some(slashed) = text.strip_prefix('/') else {
        return worded(text);
    };
    let (first, rest) = split_word(slashed);
    // In a group a command may be addressed: /fleet@some_bot.
    let first = first.split('@').next().unwrap_or(first);
    if first.eq_ignore_ascii_case("start") && rest.is_empty() {
        return Some(Command::Help);
    }
    worded(&format!("{} {rest}", first.replace('_', " ")))
}

fn worded(text: &str) -> Option<Command> {
    match split_word(text) {
        (start, token) if start.eq_ignore_ascii_case("start") && is_token(token) => {
            Some(Command::Start(token.to_owned()))
        }
        (start, "") if start.eq_ignore_ascii_case("start") => Some(Command::Help),
        // "What is due?" asks for rigs, and is left to the reader.
        _ if asks_for_verdict(text) => None,
        _ if setting::asks_what_is_set(text) => setting::read(text).map(Command::Setting),
        _ => {
            let worded = wording::find(text)
                .find_map(|(key, rest)| make(key, rest))
                .or_else(|| each_of_several(text))
                .or_else(|| affair::read(text).map(Command::Affair));
            // What a setting accounts for to the last word leaves nothing to be a name.
            let may_be_set = worded.as_ref().is_none_or(Command::takes_any_words);
            let set = may_be_set.then(|| setting::read(text)).flatten();
            let set = set.filter(|set| worded.is_none() || set.rig.is_none());
            let several = || setting::read_each(text, None).map(Command::Settings);
            set.map(Command::Setting).or(worded).or_else(several)
        }
    }
}

impl Command {
    /// Whether it names what may have any name.
    fn takes_any_words(&self) -> bool {
        matches!(
            self,
            Self::Name(_) | Self::Zone(_) | Self::Place(_) | Self::Affair(Affair::Remove(_))
        )
    }
}

fn asks_for_verdict(text: &str) -> bool {
    wording::find(text).any(|(key, rest)| key == "noun" && subject::term(rest).is_some_and(Term::is_verdict))
}

/// `heron not used, otter not used`: the same of several rigs.
fn each_of_several(text: &str) -> Option<Command> {
    let mut same: Option<&str> = None;
    let mut names = Vec::new();
    for part in text.split(',') {
        let (key, name) = wording::find(part).find(|(key, _)| matches!(*key, "not used" | "flush later"))?;
        if *same.get_or_insert(key) != key || name.is_empty() || !is_name(name) {
            return None;
        }
        names.push(name.to_lowercase());
    }
    of_rigs(same?, names)
}

fn of_rigs(key: &str, names: Vec<String>) -> Option<Command> {
    match key {
        "not used" => Some(Command::NotUsed(names)),
        "flush later" => Some(Command::FlushLater(names)),
        _ => None,
    }
}

/// What a key of the tables makes of what was typed for its `*`; none if that cannot be meant.
fn make(key: &str, rest: &str) -> Option<Command> {
    let typed = || rest.to_owned();
    let name = || is_name(rest).then(|| rest.to_lowercase());
    Some(match key {
        "help" => Command::Help,
        "help on" => Command::HelpOn(page(rest)?),
        "meaning" => Command::Meaning(subject::term(rest)?),
        "noun" => Command::Meaning(subject::term(rest).filter(|term| !term.is_verdict())?),
        "undo" => Command::Undo,
        "fleet" => Command::Fleet,
        "people" => Command::People,
        "who logged" => Command::WhoLogged,
        "leave" => Command::Leave,
        "name" => Command::Name(typed()),
        "zone" => Command::Zone(zone(rest)?),
        "place" => Command::Place(zone(rest)?),
        "which language" => Command::WhichLanguage,
        "language" => Command::Language(language(rest)?),
        "english" => Command::Language("en".to_owned()),
        "spanish" => Command::Language("es".to_owned()),
        "add rigs" => Command::AddRigs(listed(rest)),
        "remove rig" => Command::RemoveRig(typed()),
        "rename rig" => renamed(rest)?,
        "own rig" => Command::OwnRig(typed()),
        "history of" => Command::History(typed()),
        "di only" => Command::DiOnly(name()?),
        "has membrane" => Command::HasMembrane(name()?),
        "flushes itself" => Command::FlushesItself(name()?),
        "flushed by hand" => Command::FlushedByHand(name()?),
        "not used" | "flush later" if rest.is_empty() => of_rigs(key, Vec::new())?,
        "not used" | "flush later" => of_rigs(key, vec![name()?])?,
        "note again" => note(rest, Command::NoteAgain)?,
        "note let be" => note(rest, Command::NoteLetBe)?,
        "digest" => Command::Digest,
        "digest more" => Command::DigestMore(typed()),
        "digest file" => Command::DigestFile,
        "calendar" => Command::Calendar,
        "year ahead" => Command::YearAhead,
        "year ahead file" => Command::YearAheadFile,
        "picture" => Command::Picture(typed()),
        "resin picture" => Command::ResinPicture(name()?),
        "money picture" => Command::MoneyPicture(name()?),
        "look" => Command::Look(name()?),
        _ => return affair::made(key, rest).map(Command::Affair),
    })
}

/// `heron membrane`, `frost`: the rig's name, which may be empty, and what is spoken of.
fn note(rest: &str, make: fn(String, String) -> Command) -> Option<Command> {
    let (name, about) = rest.rsplit_once(' ').unwrap_or(("", rest));
    let about = wording::named("about", about)?;
    let plausible = name.split_whitespace().count() <= 3;
    plausible.then(|| make(name.to_lowercase(), about.to_owned()))
}

/// Names between commas and the words for "and".
fn listed(rest: &str) -> Vec<String> {
    let parts = rest
        .split(',')
        .flat_map(|part| part.split(" and "))
        .flat_map(|part| part.split(" y "));
    let names = parts.map(str::trim).filter(|name| !name.is_empty());
    // "da de alta a coyote y a tejón"
    let names = names.map(|name| behind(name, Senses::of([Sense::prep])).unwrap_or(name));
    names.map(str::to_owned).collect()
}

/// The name in "the heron", "al zorro".
pub fn behind_small(name: &str) -> Option<&str> {
    behind(name, Senses::of([Sense::article, Sense::prep]))
}

/// `otter to wren`, `otter's name to wren`
fn renamed(rest: &str) -> Option<Command> {
    let (old, new) = [" to ", " as ", " por ", " a "]
        .into_iter()
        .find_map(|link| rest.split_once(link))?;
    let old = ["'s name", "’s name", "s name"]
        .into_iter()
        .find_map(|end| old.strip_suffix(end))
        .unwrap_or(old);
    (is_name(old) && is_name(new)).then(|| Command::RenameRig(old.to_owned(), new.trim().to_owned()))
}

/// What stands before a rig's trait must be as short as a rig's name.
fn is_name(rest: &str) -> bool {
    !rest.is_empty() && rest.split_whitespace().count() <= 3
}

/// A zone's name is short, and has figures only behind a slash: "zona 3 lista" is talk.
fn zone(rest: &str) -> Option<String> {
    let short = rest.split_whitespace().count() <= 3;
    let talk = !rest.contains('/') && rest.contains(|letter: char| letter.is_ascii_digit());
    (short && !talk).then(|| rest.to_owned())
}

fn language(rest: &str) -> Option<String> {
    let known = wording::named("language", rest).map(str::to_owned);
    known.or_else(|| split_word(rest).1.is_empty().then(|| rest.to_lowercase()))
}

/// The page that is asked for; `Some(None)` for one that there is not, and none for talk ("help me lift this").
fn page(rest: &str) -> Option<Option<Page>> {
    let (first, more) = split_word(rest);
    if wording::named("talk", first).is_some() {
        return None;
    }
    let known = Page::named(rest);
    (known.is_some() || !more.contains(' ')).then_some(known)
}

fn split_word(text: &str) -> (&str, &str) {
    match text.trim().split_once(char::is_whitespace) {
        Some((word, rest)) => (word, rest.trim()),
        None => (text.trim(), ""),
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
            ("help flushing", Command::HelpOn(Some(Page::Flush))),
            ("help qqqq", Command::HelpOn(None)),
            ("what does due mean?", Command::Meaning(Term::Due)),
            ("What is rejection", Command::Meaning(Term::Rejection)),
            ("language español", Command::Language("es".into())),
            ("in English", Command::Language("en".into())),
            ("fleet?", Command::Fleet),
            ("leave?", Command::Look("leave".into())),
        ] {
            assert_eq!(read(text), Some(command), "{text}");
        }
    }

    #[test]
    fn commands_have_spanish_twins() {
        for (spanish, english) in [
            ("agregar equipo heron", "add rig heron"),
            ("Añadir equipos heron, otter", "add rigs heron, otter"),
            ("quitar equipo heron", "remove rig heron"),
            ("invitar", "invite"),
            ("invitar encargado", "invite lead"),
            ("invitar a un dueño", "invite owner"),
            ("nombre Escalera Azul", "name Escalera Azul"),
            ("zona Madrid", "zone Madrid"),
            ("fin del día 17:00", "day ends 17:00"),
            ("flota", "fleet"),
            ("historial heron", "history heron"),
            ("gente", "people"),
            ("mi equipo heron", "my rig heron"),
            ("salir", "leave"),
            ("deshacer", "undo"),
            ("ayuda", "help"),
            ("ayuda con la resina", "help resin"),
            ("heron sin membrana", "heron di only"),
            ("heron tiene membrana", "heron has a membrane"),
            ("heron se lava solo", "heron flushes itself"),
            ("heron se lava a mano", "heron flushed by hand"),
            ("heron no se usó", "heron not used"),
            ("heron no se usó, otter no se usó", "heron not used, otter not used"),
            ("heron en 30 minutos", "heron in 30 minutes"),
            ("en 30 minutos", "in 30 minutes"),
            ("¿heron?", "heron?"),
            ("idioma español", "language es"),
            ("idioma inglés", "language en"),
            ("¿Qué significa por cambiar?", "what does due mean"),
            ("qué es el rechazo?", "what is rejection"),
        ] {
            assert!(read(english).is_some(), "{english}");
            assert_eq!(read(spanish), read(english), "{spanish}");
        }
    }

    #[test]
    fn every_key_of_the_tables_makes_a_command() {
        for key in wording::keys().concat() {
            let some_rest = [
                "",
                "heron",
                "due",
                "flush",
                "rejection",
                "heron membrane",
                "5 years",
                "heron to wren",
            ];
            let makes = some_rest.iter().any(|rest| make(key, rest).is_some());
            assert!(makes || key.contains('/'), "{key}");
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
            "help us",
            "zona 3 lista",
            "what is due?",
            "what is heron",
            "salir de casa tarde",
            "gente, ya llegamos",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
