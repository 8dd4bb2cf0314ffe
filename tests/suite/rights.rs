//! What each command does for whom. A command without a row does not compile,
//! or is missed by name.

use std::collections::BTreeSet;

use tapside::message::command::{self, Affair, Command};
use tapside::store;

use crate::world::World;

/// Names every command: a new one does not compile here until it has a name,
/// and a name without a row is missed.
macro_rules! every_command {
    ($($command:pat => $name:literal,)*) => {
        fn name_of(command: &Command) -> &'static str {
            match command {
                $($command => $name,)*
            }
        }
        const NAMES: &[&str] = &[$($name),*];
    };
}

every_command! {
    Command::Start(_) => "start",
    Command::AddRigs(_) => "add rigs",
    Command::RemoveRig(_) => "remove rig",
    Command::RenameRig(..) => "rename rig",
    Command::DiOnly(_) => "di only",
    Command::HasMembrane(_) => "has membrane",
    Command::FlushesItself(_) => "flushes itself",
    Command::FlushedByHand(_) => "flushed by hand",
    Command::OwnRig(_) => "own rig",
    Command::Name(_) => "name",
    Command::Zone(_) => "zone",
    Command::Place(_) => "place",
    Command::People => "people",
    Command::Leave => "leave",
    Command::Undo => "undo",
    Command::Fleet => "fleet",
    Command::History(_) => "history",
    Command::Look(_) => "look",
    Command::NotUsed(_) => "not used",
    Command::FlushLater(_) => "flush later",
    Command::NoteAgain(..) => "note again",
    Command::NoteLetBe(..) => "note let be",
    Command::Digest => "digest",
    Command::DigestMore(_) => "digest more",
    Command::DigestFile => "digest file",
    Command::Calendar => "calendar",
    Command::YearAhead => "year ahead",
    Command::YearAheadFile => "year ahead file",
    Command::Picture(_) => "picture",
    Command::ResinPicture(_) => "resin picture",
    Command::MoneyPicture(_) => "money picture",
    Command::Help => "help",
    Command::WhoLogged => "who logged",
    Command::Setting(_) => "setting",
    Command::Settings(_) => "settings",
    Command::HelpOn(_) => "help on",
    Command::Meaning(_) => "meaning",
    Command::Language(_) => "language",
    Command::WhichLanguage => "which language",
    Command::Affair(Affair::Invite(_)) => "invite",
    Command::Affair(Affair::InviteHow) => "invite how",
    Command::Affair(Affair::Invites) => "invites",
    Command::Affair(Affair::CancelInvites) => "cancel invites",
    Command::Affair(Affair::Remove(_)) => "remove person",
    Command::Affair(Affair::Make(..)) => "make",
    Command::Affair(Affair::HandOver(..)) => "hand over",
    Command::Affair(Affair::TodayOn(_)) => "today on",
    Command::Affair(Affair::NoRig) => "no rig",
    Command::Affair(Affair::LinkChat) => "link chat",
    Command::Affair(Affair::UnlinkChat) => "unlink chat",
    Command::Affair(Affair::SameMembrane(_)) => "same membrane",
    Command::Affair(Affair::Preserved(_)) => "preserved",
    Command::Affair(Affair::Export) => "export",
    Command::Affair(Affair::Import(_)) => "import",
    Command::Affair(Affair::TakeIn) => "take in",
    Command::Affair(Affair::DropImport) => "drop import",
    Command::Affair(Affair::UndoImport) => "undo import",
    Command::Affair(Affair::DayFirst(_)) => "day first",
    Command::Affair(Affair::Changes) => "changes",
    Command::Affair(Affair::ForgetMe(_)) => "forget me",
    Command::Affair(Affair::Close(_)) => "close",
    Command::Affair(Affair::Keep) => "keep",
}

/// What comes of it in the crew's group.
#[derive(Clone, Copy, PartialEq)]
enum There {
    /// The same people may, and get the same.
    Same,
    /// Whoever may is sent to the private chat; the others get silence, since
    /// it may be talk.
    Private,
    /// Everybody is sent to the private chat.
    AllPrivate,
    /// The same people may, and it is said otherwise.
    Says(&'static str),
    /// Nobody gets an answer.
    Silence,
}

use There::{AllPrivate, Private, Same, Says, Silence};

const ALL: [bool; 3] = [true, true, true];
const LEADS: [bool; 3] = [true, true, false];
const OWNER: [bool; 3] = [true, false, false];

/// What is typed; who of owner, lead and crew may; what it says to them, by
/// alternatives; what comes of it in the group.
type Row = (&'static str, [bool; 3], &'static str, There);

const SHEET: &str = "import\nrig,date,tap,ro\nheron,02/03/2026,180,12";

const RIGHTS: &[Row] = &[
    ("/start another-token", ALL, "already|crew chat now", Same),
    ("heron 180 12", ALL, "Heron 9", Same),
    ("heron flushed", ALL, "Logged", Same),
    ("heron same membrane", ALL, "OK, same membrane", Same),
    ("heron preserved", ALL, "Logged", Same),
    ("undo", ALL, "Undone", Same),
    ("fleet", ALL, "3 rigs", Same),
    ("history heron", ALL, "newest first", Same),
    ("heron?", ALL, "Heron 9", Same),
    ("who logged", ALL, "crew", Same),
    ("people", ALL, "owner, owner", Same),
    ("my rig heron", ALL, "is your rig", Same),
    ("on heron today", ALL, "until midnight", Same),
    ("no rig", ALL, "no rig of your own", Same),
    ("heron not used", ALL, "Heron", Same),
    ("heron in 30 minutes", ALL, "asked about the flush today", Same),
    ("heron membrane in a week", ALL, "week", Same),
    ("heron membrane not now", ALL, "OK", Same),
    ("help", ALL, "180 12", Same),
    ("help resin", ALL, "resin", Same),
    ("what does due mean?", ALL, "Plan a new one:", Same),
    ("language english", ALL, "English", Same),
    ("language", ALL, "I answer you", Same),
    ("invite", LEADS, "/start ", Same),
    ("invite lead", OWNER, "/start ", Same),
    ("invite boss", ALL, "invite once", Same),
    ("invites", LEADS, "Open invites", AllPrivate),
    ("cancel invites", LEADS, "open invite", Same),
    ("add rig wren", LEADS, "Wren", Same),
    ("wren di only", LEADS, "tap and glass", Same),
    ("wren has a membrane", LEADS, "tap and RO", Same),
    ("wren flushes itself", LEADS, "flushes itself", Same),
    ("wren flushed by hand", LEADS, "by hand", Same),
    ("rename otter to otter", LEADS, "is called Otter", Same),
    ("remove rig wren", LEADS, "removed|No rig called", Same),
    ("digest", LEADS, "rigs", Same),
    ("digest more", LEADS, "Prefilters", Same),
    ("spreadsheet", LEADS, "file", Same),
    ("calendar", LEADS, "has a date", Same),
    ("year ahead", LEADS, "The year ahead", Same),
    ("year ahead file", LEADS, "file", Same),
    ("picture", ALL, "picture", Same),
    ("picture heron", ALL, "picture", Same),
    ("resin picture heron", ALL, "resin", Same),
    ("money picture heron", ALL, "Too early for a date", Same),
    ("settings", ALL, "To change a line", Same),
    ("heron resin 25 litres", LEADS, "Set for Heron", Same),
    ("resin price 9", OWNER, "Set", Same),
    ("day ends 16:00", OWNER, "ends at 16:00", Same),
    ("zone Europe/London", OWNER, "Local time", Same),
    ("we're based in denver", OWNER, "Local time", Same),
    ("zone Europe/London", OWNER, "Local time", Same),
    ("name Mine", OWNER, "is called", Same),
    ("link crew chat", LEADS, "crew's group", Says("crew chat now")),
    ("unlink crew chat", LEADS, "crew chat", Same),
    ("remove crew-8", LEADS, "has been removed", Same),
    ("make crew-9 lead", OWNER, "is now lead", Same),
    ("hand over to crew-9", OWNER, "Sure?", Same),
    ("export", OWNER, "everything I keep", Private),
    (SHEET, OWNER, "the month first", Private),
    ("day first", OWNER, "1 new reading", Private),
    ("drop import", OWNER, "nothing imported", Private),
    ("import now", OWNER, "Nothing is waiting", Private),
    ("undo import", OWNER, "no import", Private),
    ("changes", OWNER, "newest first", Private),
    ("resin price 9, membrane price 180", OWNER, "Set", Same),
    ("keep 5 years", OWNER, "Set: keep 5 years", Private),
    ("close outfit", OWNER, "for good", Private),
    ("keep outfit", OWNER, "isn't closing", Private),
    ("set up", OWNER, "?", Private),
    ("stop", ALL, "", Silence),
    ("leave", ALL, "You've left|only owner", Same),
    ("forget me", ALL, "Sure?|only owner", AllPrivate),
];

#[test]
fn every_command_has_a_row() {
    let read = |text: &str| command::read(text).or_else(|| command::pasted(text).map(Command::Affair));
    let rows: BTreeSet<&str> = RIGHTS
        .iter()
        .filter_map(|row| read(row.0))
        .map(|read| name_of(&read))
        .collect();
    let missing: Vec<_> = NAMES.iter().filter(|name| !rows.contains(**name)).collect();
    assert!(missing.is_empty(), "without a row: {missing:?}");
}

/// All that is kept of the first outfit.
async fn kept(world: &World) -> String {
    let mut look = world.desk.bot().store().look().await.unwrap();
    format!(
        "{:?} {:?} {:?} {:?} {:?} {:?}",
        store::outfits::get(&mut look, 1).await.unwrap(),
        store::rigs::of_outfit(&mut look, 1).await.unwrap(),
        store::readings::of_outfit(&mut look, 1).await.unwrap(),
        store::services::of_outfit(&mut look, 1).await.unwrap(),
        store::people::of_outfit(&mut look, 1).await.unwrap(),
        store::settings::standing(&mut look, 1).await.unwrap(),
    )
}

#[tokio::test]
async fn each_command_is_for_whom_it_is_and_touches_no_other_outfit() {
    let mut world = World::new().await;
    let token = world.desk.bot().found_token(world.now).await.unwrap();
    world.says("newcomer", &format!("/start {token}")).await;
    world.says("newcomer", "stop").await;
    let mut wrong = Vec::new();
    // Crew first, so that what an owner changes is not in their way.
    all_are_in(&mut world).await;
    for (text, rights, says, there) in RIGHTS {
        let takes_out = text.starts_with("remove crew") || *text == "leave";
        for (who, may) in ["owner", "lead", "crew"].into_iter().zip(rights).rev() {
            if takes_out {
                all_are_in(&mut world).await;
            }
            world.now += 600;
            let answer = world.says(who, text).await;
            if !fits(&answer, *may, says) {
                wrong.push(format!("{who}: {text}: {answer}"));
            }
            if takes_out {
                all_are_in(&mut world).await;
            }
            let answer = world.says_in_the_group(who, text).await;
            let right = match there {
                Same => fits(&answer, *may, says),
                Says(said) => fits(&answer, *may, said),
                AllPrivate => in_private(&answer),
                Private if *may => in_private(&answer),
                Private | Silence => answer.is_empty(),
            };
            if !right {
                wrong.push(format!("{who} in the group: {text}: {answer}"));
            }
        }
        if takes_out {
            all_are_in(&mut world).await;
        }
        let before = kept(&world).await;
        let elsewhere = world.says("newcomer", text).await;
        let tells = ["crew, crew", "tap 180", "Otter", "3 rigs"]
            .iter()
            .any(|fact| elsewhere.contains(fact));
        if tells || kept(&world).await != before {
            wrong.push(format!("newcomer: {text}: {elsewhere}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Who was removed or left is let in again by speaking.
async fn all_are_in(world: &mut World) {
    for who in ["crew-8", "crew-9", "lead", "crew"] {
        world.says(who, "good morning").await;
    }
}

fn in_private(answer: &str) -> bool {
    answer.contains("our private chat") || answer.contains("one to one")
}

fn fits(answer: &str, may: bool, says: &str) -> bool {
    let refused = answer.contains("Only an owner");
    refused != may && (refused || says.split('|').any(|said| answer.contains(said)) || answer.contains("already"))
}
