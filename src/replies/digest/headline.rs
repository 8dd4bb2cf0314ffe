//! The digest's first line.

use crate::digest::headline::{Headline, Want};
use crate::digest::{Digest, Kind};
use crate::replies::Words;
use crate::replies::figures::{self, spoken};

use super::lists;

/// The headline as a sentence.
pub fn of(words: Words, digest: &Digest) -> String {
    match &digest.headline {
        Headline::NoReadings { last: None, .. } => {
            let rig = digest
                .fleet
                .first()
                .map_or_else(String::new, |row| row.name.to_lowercase());
            words.say("digest-no-readings-ever", [("rig", (&rig).into())])
        }
        Headline::NoReadings {
            last: Some(last),
            rests,
        } => {
            let since = spoken::since_day(words, *last, digest.today);
            let key = if *rests {
                "digest-no-readings-rest"
            } else {
                "digest-no-readings"
            };
            words.say(key, [("since", (&since).into())])
        }
        Headline::OnlyToBuy => words.plain("digest-only-to-buy"),
        Headline::Calm { read, unread: 0 } => words.say("digest-calm", [("count", (*read as i64).into())]),
        Headline::Calm { read, unread } => words.say(
            "digest-calm-unread",
            [("count", (*read as i64).into()), ("unread", (*unread as i64).into())],
        ),
        Headline::Wants(wants) => {
            let told: Vec<String> = wants.iter().map(|want| wanted(words, want)).collect();
            let said = match told.as_slice() {
                [first, second, ..] => words.say(
                    "digest-headline-two",
                    [("first", first.into()), ("second", second.into())],
                ),
                told => words.say("digest-headline-one", [("first", (&told.concat()).into())]),
            };
            figures::capital(&said)
        }
    }
}

fn wanted(words: Words, want: &Want) -> String {
    let key = match want.kind {
        Kind::ChangeResin => "digest-wants-change-resin",
        Kind::RepackResin => "digest-wants-repack-resin",
        Kind::ResinSoon => "digest-wants-resin-soon",
        Kind::FindLeak => "digest-wants-find-leak",
        Kind::ReadAgain => "digest-wants-read-again",
        Kind::NewMembrane => "digest-wants-new-membrane",
        Kind::PlanMembrane => "digest-wants-plan-membrane",
        Kind::Prefilters => "digest-wants-prefilters",
        Kind::Flush => "digest-wants-flush",
        Kind::AskMembrane => "digest-wants-ask-membrane",
        Kind::Frost => return words.plain("digest-wants-frost"),
        Kind::IdleRig | Kind::QuietRig | Kind::QuietPerson => "digest-wants-quiet-person",
    };
    let rigs = lists::rigs(words, &want.names);
    let count = want.names.len() as i64;
    words.say(key, [("rigs", (&rigs).into()), ("count", count.into())])
}
