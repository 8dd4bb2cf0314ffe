//! Commands about rigs.

use crate::replies::caution::Occasion;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::refusals::{may_not, unknown_rig};
use super::request::Request;
use super::rig_names::{fold, proper_name};

pub(super) async fn trait_of(
    db: &mut Db,
    on: &Request<'_>,
    name: &str,
    key: &'static str,
    change: impl FnOnce(&mut Rig),
) -> Result<Answer, StoreError> {
    let Some(mut rig) = on.rig_named(name) else {
        return Ok(unknown_rig(on, name));
    };
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    change(&mut rig);
    store::rigs::set_traits(db, &rig, on.now).await?;
    store::changes::note(db, on.teller(), key, &rig.name).await?;
    Ok(Answer::says(on.words.say(key, [("rig", (&rig.name).into())])))
}

pub(super) async fn add_rigs(db: &mut Db, on: &Request<'_>, names: &[String]) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let (mut added, mut lines) = (Vec::new(), Vec::new());
    for typed in names {
        let Some(name) = proper_name(typed) else {
            lines.push(on.words.plain("rig-name-bad"));
            continue;
        };
        if store::rigs::bring_back(db, on.outfit.id, &fold(&name)).await?.is_some() {
            store::changes::note(db, on.teller(), "rig-added", &name).await?;
            lines.push(on.words.say("rig-back", [("rig", (&name).into())]));
            continue;
        }
        match store::rigs::add(db, on.outfit.id, &name, &fold(&name), on.now).await? {
            Some(_) => {
                store::changes::note(db, on.teller(), "rig-added", &name).await?;
                added.push(name);
            }
            None => lines.push(on.words.say("rig-exists", [("rig", (&name).into())])),
        }
    }
    if let Some(first) = added.first() {
        let example = format!("{} 180 12", first.to_lowercase());
        let (key, told) = if added.len() == 1 {
            ("rig-added", first.clone())
        } else {
            ("rigs-added", added.join(", "))
        };
        let told = on.words.say(
            key,
            [
                ("rig", (&told).into()),
                ("rigs", (&told).into()),
                ("example", (&example).into()),
            ],
        );
        lines.insert(0, told);
    }
    let mut answer = Answer::says(lines.join("\n"));
    if !added.is_empty() {
        answer.occasions.push(Occasion::RigSetUp);
    }
    Ok(answer)
}

pub(super) async fn remove_rig(db: &mut Db, on: &Request<'_>, name: &str) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    // A rig goes only by its whole name.
    let Some(rig) = on.rig_named(name).filter(|rig| fold(&rig.name) == fold(name)) else {
        return Ok(unknown_rig(on, name));
    };
    store::rigs::remove(db, rig.id, on.now).await?;
    store::changes::note(db, on.teller(), "rig-removed", &rig.name).await?;
    Ok(Answer::says(on.words.say("rig-removed", [("rig", (&rig.name).into())])))
}

pub(super) async fn rename_rig(db: &mut Db, on: &Request<'_>, old: &str, new: &str) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let Some(rig) = on.rig_named(old) else {
        return Ok(unknown_rig(on, old));
    };
    let Some(name) = proper_name(new) else {
        return Ok(Answer::says(on.words.plain("rig-name-bad")));
    };
    let taken = on
        .rig_named(&name)
        .is_some_and(|other| other.id != rig.id && fold(&other.name) == fold(&name));
    if taken || !store::rigs::rename(db, on.outfit.id, rig.id, (&name, &fold(&name))).await? {
        return Ok(Answer::says(on.words.say("rig-exists", [("rig", (&name).into())])));
    }
    let told = format!("{} -> {name}", rig.name);
    store::changes::note(db, on.teller(), "rig-renamed", &told).await?;
    let facts = [("old", (&rig.name).into()), ("rig", (&name).into())];
    Ok(Answer::says(on.words.say("rig-renamed", facts)))
}
