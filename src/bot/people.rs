//! Commands about people: who is in, what they may do, leaving.

use crate::store::people::{Member, Role};
use crate::store::{self, StoreError, invites};

use super::answer::{Answer, Press};
use super::fleet::fold;
use super::turn::{Turn, say};
use crate::replies::Words;

/// Who a typed name means.
enum Meant {
    One(Box<Member>),
    /// Several of the same first name.
    Several(Vec<Member>),
    Nobody,
}

impl Turn<'_> {
    pub(super) async fn people(&mut self) -> Result<Answer, StoreError> {
        let mut lines = vec![self.words.say("people-title", [("outfit", (&self.outfit.name).into())])];
        for member in store::people::of_outfit(self.db, self.outfit.id).await? {
            let role = self.role_word(member.role);
            lines.push(self.words.say(
                "people-line",
                [("name", (&member.first_name).into()), ("role", (&role).into())],
            ));
        }
        Ok(Answer::says(lines.join("\n")))
    }

    pub(super) async fn leave(&mut self) -> Result<Answer, StoreError> {
        if self.is_last_owner(&self.member.clone()).await? {
            return Ok(Answer::says(self.words.plain("last-owner")));
        }
        self.note("left", "").await?;
        store::people::leave(self.db, self.member.id).await?;
        Ok(Answer::says(
            self.words.say("left", [("outfit", (&self.outfit.name).into())]),
        ))
    }

    /// Takes somebody out of the outfit. Open invites end, so that nobody comes
    /// back by one.
    pub(super) async fn remove_person(&mut self, typed: &str) -> Result<Option<Answer>, StoreError> {
        let them = match self.meant(typed).await? {
            Meant::One(them) => them,
            Meant::Several(same) => return Ok(Some(self.which(typed, &same, "ask-remove-whom", "remove").await?)),
            Meant::Nobody => return Ok(self.nobody_but_a_rig(typed).or_else(|| self.nobody(typed))),
        };
        if !self.member.role.leads() {
            return Ok(Some(self.may_not("who-leads")));
        }
        if them.id == self.member.id {
            return Ok(Some(Answer::says(self.words.plain("remove-yourself"))));
        }
        if them.role != Role::Crew && self.member.role != Role::Owner {
            return Ok(Some(self.may_not("who-owner")));
        }
        self.note("removed", &them.id.to_string()).await?;
        store::people::leave(self.db, them.id).await?;
        invites::cancel(self.db, self.outfit.id, None, self.now).await?;
        let mut answer = Answer::says(self.words.say("person-removed", [("name", (&them.first_name).into())]));
        let outfit = [("outfit", (&self.outfit.name).into())];
        let told = Words::of(them.language.as_deref()).say("you-were-removed", outfit);
        answer.to_others.push(say(them.chat, told));
        Ok(Some(answer))
    }

    /// Gives somebody another role.
    pub(super) async fn make(&mut self, typed: &str, role: &str) -> Result<Option<Answer>, StoreError> {
        let Some(role) = Role::from_word(role) else {
            return Ok(None);
        };
        let them = match self.meant(typed).await? {
            Meant::One(them) => them,
            Meant::Several(same) => {
                let verb = format!("make {{}} {}", role.word());
                return Ok(Some(self.which(typed, &same, "ask-whom", &verb).await?));
            }
            Meant::Nobody => return Ok(self.nobody(typed)),
        };
        if self.member.role != Role::Owner {
            return Ok(Some(self.may_not("who-owner")));
        }
        if role != Role::Owner && self.is_last_owner(&them).await? {
            return Ok(Some(Answer::says(self.words.plain("last-owner"))));
        }
        self.give_role(&them, role).await.map(Some)
    }

    /// Makes somebody the owner in one's own place, once that is confirmed.
    pub(super) async fn hand_over(&mut self, typed: &str, sure: bool) -> Result<Option<Answer>, StoreError> {
        let them = match self.meant(typed).await? {
            Meant::One(them) => them,
            Meant::Several(same) => return Ok(Some(self.which(typed, &same, "ask-whom", "hand over to").await?)),
            Meant::Nobody => return Ok(self.nobody(typed)),
        };
        if self.member.role != Role::Owner {
            return Ok(Some(self.may_not("who-owner")));
        }
        if them.id == self.member.id {
            return Ok(Some(Answer::says(self.words.plain("hand-over-to-yourself"))));
        }
        let name = ("name", (&them.first_name).into());
        if !sure {
            let says = format!("hand over to {typed}, yes");
            let text = self.words.say("hand-over-text", [("typed", typed.into())]);
            let mut answer = Answer::says(self.words.say("hand-over-sure", [name, ("text", (&text).into())]));
            answer.buttons.push(Press {
                label: self.words.plain("hand-over-button"),
                says,
            });
            return Ok(Some(answer));
        }
        let told = self.give_role(&them, Role::Owner).await?;
        let me = self.member.clone();
        store::people::set_role(self.db, me.id, Role::Lead).await?;
        self.note("handed-over", &them.id.to_string()).await?;
        let mut answer = Answer::says(self.words.say("handed-over", [name]));
        answer.to_others = told.to_others;
        Ok(Some(answer))
    }

    async fn give_role(&mut self, them: &Member, role: Role) -> Result<Answer, StoreError> {
        let word = self.role_word(role);
        let facts = || [("name", (&them.first_name).into()), ("role", (&word).into())];
        if them.role == role {
            return Ok(Answer::says(self.words.say("role-already", facts())));
        }
        store::people::set_role(self.db, them.id, role).await?;
        self.note(
            match role {
                Role::Owner => "made-owner",
                Role::Lead => "made-lead",
                Role::Crew => "made-crew",
            },
            &them.id.to_string(),
        )
        .await?;
        let mut answer = Answer::says(self.words.say("role-set", facts()));
        if them.id != self.member.id {
            let words = Words::of(them.language.as_deref());
            let word = crate::replies::outfit::role(words, super::turn::standing(role));
            let told = words.say(
                "your-role",
                [("role", (&word).into()), ("outfit", (&self.outfit.name).into())],
            );
            answer.to_others.push(say(them.chat.clone(), told));
        }
        Ok(answer)
    }

    /// Whether the outfit would be without an owner if this one went.
    pub(super) async fn is_last_owner(&mut self, member: &Member) -> Result<bool, StoreError> {
        let people = store::people::of_outfit(self.db, self.outfit.id).await?;
        let others = people
            .iter()
            .filter(|other| other.role == Role::Owner && other.id != member.id);
        Ok(member.role == Role::Owner && others.count() == 0)
    }

    /// The member whose first name was typed; of several, `anna 2` is the second who came.
    async fn meant(&mut self, typed: &str) -> Result<Meant, StoreError> {
        let people = store::people::of_outfit(self.db, self.outfit.id).await?;
        let called = |name: &str| -> Vec<Member> {
            let name = fold(name);
            people
                .iter()
                .filter(|member| !name.is_empty() && fold(&member.first_name) == name)
                .cloned()
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
        Ok(match (same.len(), same.pop()) {
            (1, Some(one)) => Meant::One(Box::new(one)),
            (_, Some(last)) => {
                same.push(last);
                Meant::Several(same)
            }
            _ => Meant::Nobody,
        })
    }

    /// Asks which of several of the same name is meant: a button each, and a number to type.
    async fn which(
        &mut self,
        typed: &str,
        same: &[Member],
        key: &'static str,
        verb: &str,
    ) -> Result<Answer, StoreError> {
        if !self.member.role.leads() {
            return Ok(self.may_not("who-leads"));
        }
        let words_of = |number: usize| {
            let numbered = format!("{} {number}", typed.trim());
            if verb.contains("{}") {
                verb.replace("{}", &numbered)
            } else {
                format!("{verb} {numbered}")
            }
        };
        let example = format!("{} 1", typed.trim());
        let title = match key {
            "ask-remove-whom" => self.words.say("ask-remove-whom", [("example", (&example).into())]),
            _ => self.words.say("ask-whom", [("example", (&example).into())]),
        };
        let mut lines = vec![title];
        let mut answer = Answer::default();
        for (number, member) in (1..).zip(same) {
            let role = self.role_word(member.role);
            let line = self.words.say(
                "numbered-person",
                [
                    ("number", (&number.to_string()).into()),
                    ("name", (&member.first_name).into()),
                    ("role", (&role).into()),
                ],
            );
            answer.buttons.push(Press {
                label: line.clone(),
                says: words_of(number),
            });
            lines.push(line);
        }
        answer.parts = vec![lines.join("\n")];
        Ok(answer)
    }

    /// Nobody of that name: said to whoever could do it, where nobody overhears talk.
    fn nobody(&self, typed: &str) -> Option<Answer> {
        if self.incoming.chat.group || !self.member.role.leads() {
            return None;
        }
        Some(Answer::says(self.words.say("nobody-called", [("name", typed.into())])))
    }

    fn nobody_but_a_rig(&self, typed: &str) -> Option<Answer> {
        let rig = self.rig_named(typed).filter(|_| self.member.role.leads())?;
        Some(Answer::says(
            self.words.say("nobody-but-a-rig", [("rig", (&rig.name).into())]),
        ))
    }
}
