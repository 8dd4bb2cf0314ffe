//! The digest's first line.

use crate::digest::headline::{Headline, Want};
use crate::digest::{Digest, Kind};
use crate::replies::Words;
use crate::replies::figures::spoken;

use super::lists;

/// The headline as a sentence.
pub fn of(words: Words, digest: &Digest) -> String {
    match &digest.headline {
        Headline::NoRigs => words.plain("digest-no-rigs"),
        Headline::NoReadings { last: None } => words.plain("digest-no-readings-ever"),
        Headline::NoReadings { last: Some(last) } => {
            let since = spoken::since_day(words, *last, digest.today);
            words.say("digest-no-readings", [("since", (&since).into())])
        }
        Headline::OnlyToBuy => words.plain("digest-only-to-buy"),
        Headline::Minor => words.plain("digest-minor"),
        Headline::Calm { read, unread: 0 } => words.say("digest-calm", [("count", (*read as i64).into())]),
        Headline::Calm { read, unread } => words.say(
            "digest-calm-unread",
            [("count", (*read as i64).into()), ("unread", (*unread as i64).into())],
        ),
        Headline::Wants(wants) => {
            let told: Vec<String> = wants.iter().filter_map(|want| wanted(words, want)).collect();
            match told.as_slice() {
                [one, two] => words.say("digest-headline-two", [("first", one.into()), ("second", two.into())]),
                [one] => words.say("digest-headline-one", [("first", one.into())]),
                _ => words.plain("digest-no-rigs"),
            }
        }
    }
}

fn wanted(words: Words, want: &Want) -> Option<String> {
    let key = match want.kind {
        Kind::ChangeResin => "digest-wants-change-resin",
        Kind::RepackResin => "digest-wants-repack-resin",
        Kind::ResinSoon => "digest-wants-resin-soon",
        Kind::FindLeak => "digest-wants-find-leak",
        Kind::NewMembrane => "digest-wants-new-membrane",
        Kind::PlanMembrane => "digest-wants-plan-membrane",
        Kind::Prefilters => "digest-wants-prefilters",
        Kind::Flush => "digest-wants-flush",
        Kind::AskMembrane => "digest-wants-ask-membrane",
        Kind::IdleRig | Kind::Frost | Kind::QuietRig | Kind::QuietPerson => return None,
    };
    let rigs = lists::rigs(words, &want.rigs);
    let count = want.rigs.len() as i64;
    Some(words.say(key, [("rigs", (&rigs).into()), ("count", count.into())]))
}
