//! Commands about the outfit: name and zone.

use std::sync::Arc;

use crate::message::setup::zone_of_place;
use crate::store::people::Role;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::refusals::may_not;
use super::request::Request;
use super::zones::zone_named;
use crate::history::zone_of;

pub(super) async fn rename(db: &mut Db, on: &mut Request<'_>, name: &str) -> Result<Answer, StoreError> {
    if on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    if name.chars().count() > 60 || name.chars().any(char::is_control) {
        return Ok(Answer::says(on.words.plain("name-bad")));
    }
    call_outfit(db, on, name).await?;
    Ok(Answer::says(on.words.say("outfit-named", [("name", name.into())])))
}

pub(super) async fn set_zone(db: &mut Db, on: &mut Request<'_>, typed: &str) -> Result<Answer, StoreError> {
    if on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    let name = ("name", typed.into());
    let of_place = zone_of_place(typed, on.rules.country()).or_else(|| zone_of_place(typed, None));
    let found = zone_named(typed).or_else(|why| of_place.map_or(Err(why), zone_named));
    let (zone, zone_name) = match found {
        Ok(found) => found,
        Err(Some(near)) => {
            return Ok(Answer::says(
                on.words.say("zone-near", [name, ("near", (&near).into())]),
            ));
        }
        Err(None) => return Ok(Answer::says(on.words.say("zone-unknown", [name]))),
    };
    move_to(db, on, &zone_name).await?;
    let there = jiff::Timestamp::from_second(on.now)
        .unwrap_or_default()
        .to_zoned_datetime(zone);
    let time = there.strftime("%H:%M").to_string();
    Ok(Answer::says(on.words.say(
        "zone-set",
        [("zone", (&zone_name).into()), ("time", (&time).into())],
    )))
}

/// Gives the outfit a name that can be one.
pub(super) async fn call_outfit(db: &mut Db, on: &mut Request<'_>, name: &str) -> Result<(), StoreError> {
    name.clone_into(&mut Arc::make_mut(&mut on.outfit).name);
    store::outfits::set(db, &on.outfit).await?;
    store::settings::set(db, on.teller(), None, store::settings::NAME, name).await
}

/// Moves the outfit's clock to a zone of that IANA name.
pub(super) async fn move_to(db: &mut Db, on: &mut Request<'_>, zone: &str) -> Result<(), StoreError> {
    zone.clone_into(&mut Arc::make_mut(&mut on.outfit).zone);
    on.zone = zone_of(&on.outfit);
    store::outfits::set(db, &on.outfit).await?;
    store::settings::set(db, on.teller(), None, store::settings::ZONE, zone).await?;
    on.reload(db).await?;
    Ok(())
}
