//! Commands about people: who is in, what they may do, leaving, being forgotten.

use std::collections::BTreeMap;

use crate::message::command::{Affair, Command};
use crate::replies::Words;
use crate::store::people::{Member, Role};
use crate::store::{self, Db, StoreError, invites};

use super::act::Act;
use super::answer::{Answer, Press};
use super::messages::say;
use super::refusals::may_not;
use super::request::Request;
use super::rig_names::fold;

/// Who a typed name means.
enum Meant {
    One(Box<Member>),
    /// Several of the same first name.
    Several(Vec<Member>),
    Nobody,
}

pub(super) async fn people(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    let mut lines = vec![on.words.say("people-title", [("outfit", (&on.outfit.name).into())])];
    for member in store::people::of_outfit(db, on.outfit.id).await? {
        let role = crate::replies::outfit::role(on.words, member.role);
        lines.push(on.words.say(
            "people-line",
            [("name", (&member.first_name).into()), ("role", (&role).into())],
        ));
    }
    Ok(Answer::says(lines.join("\n")))
}

pub(super) async fn leave(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if is_last_owner(db, on, &on.member.clone()).await? {
        return Ok(Answer::says(on.words.plain("last-owner")));
    }
    store::changes::note(db, on.teller(), "left", "").await?;
    store::people::leave(db, on.outfit.id, on.member.id).await?;
    Ok(Answer::says(
        on.words.say("left", [("outfit", (&on.outfit.name).into())]),
    ))
}

/// Whether a name that was typed is somebody's, or can only have been meant so: "remove the hose" is talk.
pub(super) fn is_somebody(on: &Request<'_>, typed: &str) -> bool {
    !matches!(meant(on, typed), Meant::Nobody) || nobody(on, typed).is_some()
}

/// Takes somebody out of the outfit. Open invites end, so that nobody comes
/// back by one.
pub(super) async fn remove_person(db: &mut Db, on: &Request<'_>, typed: &str) -> Result<Answer, StoreError> {
    let them = match meant(on, typed) {
        Meant::One(them) => them,
        Meant::Several(same) => return Ok(which(on, typed, &same, "ask-remove-whom", Affair::Remove)),
        Meant::Nobody => {
            return Ok(nobody_but_a_rig(on, typed)
                .or_else(|| nobody(on, typed))
                .unwrap_or_default());
        }
    };
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    if them.id == on.member.id {
        return Ok(Answer::says(on.words.plain("remove-yourself")));
    }
    if them.role != Role::Crew && on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    store::changes::note(db, on.teller(), "removed", &them.id.to_string()).await?;
    store::people::leave(db, on.outfit.id, them.id).await?;
    invites::cancel(db, on.outfit.id, None, on.now).await?;
    let mut answer = Answer::says(on.words.say("person-removed", [("name", (&them.first_name).into())]));
    let outfit = [("outfit", (&on.outfit.name).into())];
    let told = Words::of(them.language.as_deref()).say("you-were-removed", outfit);
    answer.to_others.push(say(them.chat, told));
    Ok(answer)
}

/// Gives somebody another role.
pub(super) async fn make(db: &mut Db, on: &Request<'_>, typed: &str, role: Role) -> Result<Answer, StoreError> {
    let them = match meant(on, typed) {
        Meant::One(them) => them,
        Meant::Several(same) => {
            return Ok(which(on, typed, &same, "ask-whom", |name| Affair::Make(name, role)));
        }
        Meant::Nobody => return Ok(nobody(on, typed).unwrap_or_default()),
    };
    if on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    if role != Role::Owner && is_last_owner(db, on, &them).await? {
        return Ok(Answer::says(on.words.plain("last-owner")));
    }
    give_role(db, on, &them, role).await
}

/// Makes somebody the owner in one's own place, once that is confirmed.
pub(super) async fn hand_over(db: &mut Db, on: &Request<'_>, typed: &str, sure: bool) -> Result<Answer, StoreError> {
    let them = match meant(on, typed) {
        Meant::One(them) => them,
        Meant::Several(same) => {
            return Ok(which(on, typed, &same, "ask-whom", |name| {
                Affair::HandOver(name, false)
            }));
        }
        Meant::Nobody => return Ok(nobody(on, typed).unwrap_or_default()),
    };
    if on.member.role != Role::Owner {
        return Ok(may_not(on.words, "who-owner"));
    }
    if them.id == on.member.id {
        return Ok(Answer::says(on.words.plain("hand-over-to-yourself")));
    }
    let name = ("name", (&them.first_name).into());
    if !sure {
        let text = on.words.say("hand-over-text", [("typed", typed.into())]);
        let mut answer = Answer::says(on.words.say("hand-over-sure", [name, ("text", (&text).into())]));
        answer.buttons.push(Press {
            label: on.words.plain("hand-over-button"),
            act: Act::Command(Command::Affair(Affair::HandOver(typed.to_owned(), true))),
        });
        return Ok(answer);
    }
    let told = give_role(db, on, &them, Role::Owner).await?;
    let me = on.member.clone();
    store::people::set_role(db, on.outfit.id, me.id, Role::Lead).await?;
    store::changes::note(db, on.teller(), "handed-over", &them.id.to_string()).await?;
    let mut answer = Answer::says(on.words.say("handed-over", [name]));
    answer.to_others = told.to_others;
    Ok(answer)
}

/// Whether the outfit would be without an owner if this one went.
pub(super) async fn is_last_owner(db: &mut Db, on: &Request<'_>, member: &Member) -> Result<bool, StoreError> {
    let people = store::people::of_outfit(db, on.outfit.id).await?;
    let others = people
        .iter()
        .filter(|other| other.role == Role::Owner && other.id != member.id);
    Ok(member.role == Role::Owner && others.count() == 0)
}

pub(super) fn nobody_but_a_rig(on: &Request<'_>, typed: &str) -> Option<Answer> {
    let rig = on.rig_named(typed).filter(|_| on.member.role.leads())?;
    Some(Answer::says(
        on.words.say("nobody-but-a-rig", [("rig", (&rig.name).into())]),
    ))
}

pub(super) async fn forget_me(db: &mut Db, on: &Request<'_>, sure: bool) -> Result<Answer, StoreError> {
    if is_last_owner(db, on, &on.member.clone()).await? {
        return Ok(Answer::says(on.words.plain("forget-last-owner")));
    }
    if !sure {
        let mut answer = Answer::says(on.words.plain("forget-sure"));
        answer.buttons.push(Press {
            label: on.words.plain("forget-button"),
            act: Act::Command(Command::Affair(Affair::ForgetMe(true))),
        });
        return Ok(answer);
    }
    store::changes::note(db, on.teller(), "forgotten", "").await?;
    store::forgetting::person(db, on.member.id).await?;
    Ok(Answer::says(on.words.plain("forgotten")))
}

/// First names by number; nobody's is empty.
pub(super) async fn people_names(
    db: &mut Db,
    words: Words,
    mut ids: Vec<i64>,
) -> Result<BTreeMap<i64, String>, StoreError> {
    ids.sort_unstable();
    ids.dedup();
    let mut names = BTreeMap::new();
    for id in ids {
        let name = name_of(db, words, Some(id)).await?;
        names.insert(id, name);
    }
    Ok(names)
}

/// A person's first name, or "somebody".
pub(super) async fn name_of(db: &mut Db, words: Words, person_id: Option<i64>) -> Result<String, StoreError> {
    let known = match person_id {
        Some(id) => store::people::first_name(db, id).await?,
        None => None,
    };
    Ok(known.unwrap_or_else(|| words.plain("somebody")))
}

async fn give_role(db: &mut Db, on: &Request<'_>, them: &Member, role: Role) -> Result<Answer, StoreError> {
    let word = crate::replies::outfit::role(on.words, role);
    let facts = || [("name", (&them.first_name).into()), ("role", (&word).into())];
    if them.role == role {
        return Ok(Answer::says(on.words.say("role-already", facts())));
    }
    store::people::set_role(db, on.outfit.id, them.id, role).await?;
    store::changes::note(
        db,
        on.teller(),
        match role {
            Role::Owner => "made-owner",
            Role::Lead => "made-lead",
            Role::Crew => "made-crew",
        },
        &them.id.to_string(),
    )
    .await?;
    let mut answer = Answer::says(on.words.say("role-set", facts()));
    if them.id != on.member.id {
        let words = Words::of(them.language.as_deref());
        let word = crate::replies::outfit::role(words, role);
        let told = words.say(
            "your-role",
            [("role", (&word).into()), ("outfit", (&on.outfit.name).into())],
        );
        answer.to_others.push(say(them.chat.clone(), told));
    }
    Ok(answer)
}

/// The member whose first name was typed; of several, `anna 2` is the second who came.
fn meant(on: &Request<'_>, typed: &str) -> Meant {
    let people: Vec<&Member> = on.known.people.iter().map(|person| &person.member).collect();
    let called = |name: &str| -> Vec<Member> {
        let name = fold(name);
        people
            .iter()
            .filter(|member| !name.is_empty() && fold(&member.first_name) == name)
            .map(|member| (*member).clone())
            .collect()
    };
    let mut same = called(typed);
    if same.is_empty()
        && let Some((name, number)) = typed.trim().rsplit_once(' ')
        && let Ok(number) = number.parse::<usize>()
        && let Some(one) = called(name).into_iter().nth(number.wrapping_sub(1))
    {
        same = vec![one];
    }
    match (same.len(), same.pop()) {
        (1, Some(one)) => Meant::One(Box::new(one)),
        (_, Some(last)) => {
            same.push(last);
            Meant::Several(same)
        }
        _ => Meant::Nobody,
    }
}

/// Asks which of several of the same name is meant: a button each, and a number to type.
fn which(
    on: &Request<'_>,
    typed: &str,
    same: &[Member],
    key: &'static str,
    affair: impl Fn(String) -> Affair,
) -> Answer {
    if !on.member.role.leads() {
        return may_not(on.words, "who-leads");
    }
    let example = format!("{} 1", typed.trim());
    let title = match key {
        "ask-remove-whom" => on.words.say("ask-remove-whom", [("example", (&example).into())]),
        _ => on.words.say("ask-whom", [("example", (&example).into())]),
    };
    let mut lines = vec![title];
    let mut answer = Answer::default();
    for (number, member) in (1..).zip(same) {
        let role = crate::replies::outfit::role(on.words, member.role);
        let line = on.words.say(
            "numbered-person",
            [
                ("number", (&number.to_string()).into()),
                ("name", (&member.first_name).into()),
                ("role", (&role).into()),
            ],
        );
        answer.buttons.push(Press {
            label: line.clone(),
            act: Act::Command(Command::Affair(affair(format!("{} {number}", typed.trim())))),
        });
        lines.push(line);
    }
    answer.parts = vec![lines.join("\n")];
    answer
}

/// Nobody of that name: said to whoever could do it, where nobody overhears talk.
fn nobody(on: &Request<'_>, typed: &str) -> Option<Answer> {
    if on.incoming.chat.group || !on.member.role.leads() {
        return None;
    }
    Some(Answer::says(on.words.say("nobody-called", [("name", typed.into())])))
}
