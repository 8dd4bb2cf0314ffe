//! One message: who speaks, what it means, which family answers.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use sha2::{Digest, Sha256};

use crate::message::{self, command};
use crate::replies::Words;
use crate::replies::caution::Occasion;
use crate::replies::outfit::Standing;
use crate::schedule;
use crate::store::heard::Arrival;
use crate::store::outfits::Outfit;
use crate::store::people::{Member, Role};
use crate::store::questions::Button as StoredButton;
use crate::store::readings::Teller;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError, invites};
use crate::water::prior::Lessons;

use super::answer::Answer;
use super::envelope::{Body, Button, Handling, Happening, Incoming, Outgoing};
use super::rules::Rules;
use super::{Bot, cautioning, once_in, scene};

pub(super) const HOUR: i64 = 3600;
/// How long a question waits for its answer, and its buttons with it.
pub(super) const QUESTION_LIVES: i64 = 12 * HOUR;
/// Mere chatter is given a hint no oftener than this.
pub(super) const HINT_PAUSE: i64 = 600;

/// What one message is answered with the help of.
pub(super) struct Turn<'a> {
    pub bot: &'a Bot,
    pub db: &'a mut Db,
    pub incoming: &'a Incoming,
    pub now: i64,
    pub member: Member,
    pub outfit: Outfit,
    pub fleet: Vec<Rig>,
    pub zone: TimeZone,
    pub words: Words,
    pub rules: Rules,
    /// What the fleet's membranes taught, once something asked.
    pub lessons: Option<Lessons>,
    /// What the answer is about, for the cautions behind it.
    pub occasions: Vec<Occasion>,
}

impl Bot {
    pub(super) async fn take_turn(&self, db: &mut Db, incoming: &Incoming, now: i64) -> Result<(), StoreError> {
        // These two concern the chat, whoever caused them.
        match &incoming.what {
            Happening::LetIn => return store::chats::unblock(db, &incoming.chat.address).await,
            Happening::Moved { to } => return store::chats::moved(db, &incoming.chat.address, to).await,
            _ => {}
        }
        let member = store::people::find(db, &incoming.person.address).await?;
        if let Happening::Text(text) = &incoming.what
            && let Some(command::Command::Start(token)) = command::read(text)
            && member.is_none()
        {
            return self.open_link(db, incoming, &token, now).await;
        }
        let Some(mut member) = member else {
            return self.meet_stranger(db, incoming, now).await;
        };
        let told = incoming.person.language.as_deref();
        if told.is_some() && told != member.platform_language.as_deref() {
            store::people::note_language(db, member.id, told).await?;
            if member.language == member.platform_language {
                member.language = told.map(str::to_owned);
            }
            member.platform_language = told.map(str::to_owned);
        }
        if incoming.what == Happening::ShutOut {
            return store::chats::block(db, &incoming.chat.address, now).await;
        }
        let hash = match &incoming.what {
            Happening::Text(text) => invites::hex(&Sha256::digest(text.as_bytes())),
            _ => String::new(),
        };
        let arrival = store::heard::note(db, &incoming.key, incoming.version, &hash, now).await?;
        if arrival == Arrival::Known {
            return Ok(());
        }
        let mut turn = self.turn(db, incoming, member, now).await?;
        let answer = match &incoming.what {
            Happening::Press { token, press } => turn.pressed(token, press).await?,
            Happening::Text(text) if arrival == Arrival::Edit => turn.reread(text).await?,
            Happening::Text(text) => turn.read(text).await?,
            Happening::Picture => turn.only_in_private("picture"),
            Happening::Voice => turn.only_in_private("voice"),
            Happening::Document { bytes, .. } => turn.receive_file(bytes.as_deref()).await?,
            Happening::Reaction { on, thumbs_up } => turn.reacted(on, *thumbs_up).await?,
            Happening::ShutOut | Happening::LetIn | Happening::Moved { .. } => Answer::silence(),
        };
        turn.queue(answer).await
    }

    pub(super) async fn turn<'a>(
        &'a self,
        db: &'a mut Db,
        incoming: &'a Incoming,
        mut member: Member,
        now: i64,
    ) -> Result<Turn<'a>, StoreError> {
        let outfit = store::outfits::get(db, member.outfit_id).await?;
        let fleet = store::rigs::fleet(db, member.outfit_id).await?;
        let rules = Rules::load(db, &outfit).await?;
        if let Some((rig, _)) = member.todays_rig.filter(|(_, until)| now < *until) {
            member.own_rig = Some(rig);
        }
        let zone = zone_of(&outfit);
        let words = Words::of(member.language.as_deref());
        Ok(Turn {
            bot: self,
            db,
            incoming,
            now,
            member,
            outfit,
            fleet,
            zone,
            words,
            rules,
            lessons: None,
            occasions: Vec::new(),
        })
    }

    /// A stranger gets one polite line an hour, in private, and leaves no trace.
    async fn meet_stranger(&self, db: &mut Db, incoming: &Incoming, now: i64) -> Result<(), StoreError> {
        if let (true, Happening::Text(text)) = (incoming.chat.group, &incoming.what) {
            return self.meet_in_group(db, incoming, text, now).await;
        }
        let speaks = matches!(
            incoming.what,
            Happening::Text(_) | Happening::Picture | Happening::Voice
        );
        if !speaks || incoming.chat.group || !once_in(&self.strangers, &incoming.person.address, HOUR, now) {
            return Ok(());
        }
        let text = Words::of(incoming.person.language.as_deref()).plain("stranger");
        store::sends::queue(db, &say(incoming.chat.address.clone(), text), now).await
    }
}

/// A message of words alone.
pub(super) fn say(chat: String, text: String) -> Outgoing {
    let body = Body::Say {
        text,
        buttons: Vec::new(),
        reply_to: None,
    };
    carry(chat, body)
}

/// A message that answers none.
pub(super) fn carry(chat: String, body: Body) -> Outgoing {
    Outgoing {
        chat,
        body,
        source_key: None,
        handling: Handling::default(),
    }
}

/// An outfit's zone; its name was checked when it was set.
pub(super) fn zone_of(outfit: &Outfit) -> TimeZone {
    TimeZone::get(&outfit.zone).unwrap_or(TimeZone::UTC)
}

/// A role as the words know it.
pub(super) fn standing(role: Role) -> Standing {
    match role {
        Role::Owner => Standing::Owner,
        Role::Lead => Standing::Lead,
        Role::Crew => Standing::Crew,
    }
}

impl Turn<'_> {
    /// The local date of this message.
    pub fn today(&self) -> Date {
        self.date(self.now)
    }

    /// The local date at an instant.
    pub fn date(&self, at: i64) -> Date {
        schedule::local_date(&self.zone, at).unwrap_or_default()
    }

    /// Who tells what is recorded now.
    pub fn teller(&self) -> Teller {
        Teller {
            outfit_id: self.outfit.id,
            person_id: self.member.id,
            heard_at: self.now,
        }
    }

    /// When this message was sent; never in the future.
    pub fn sent_at(&self) -> i64 {
        self.incoming.sent_at.min(self.now)
    }

    /// How to text a reading, with a rig that this person knows.
    pub fn example(&self) -> String {
        format!("{} 180 12", self.known_rig().to_lowercase())
    }

    /// A rig's name by its number.
    pub fn rig_name(&self, id: i64) -> String {
        self.fleet
            .iter()
            .find(|rig| rig.id == id)
            .map_or_else(|| "?".to_owned(), |rig| rig.name.clone())
    }

    /// Reads a text and answers it.
    pub async fn read(&mut self, text: &str) -> Result<Answer, StoreError> {
        if text.trim_start().starts_with("/start")
            && let Some(linked) = self.starts_group().await?
        {
            return Ok(linked);
        }
        let command = command::read(text).or_else(|| command::pasted(text).map(command::Command::Affair));
        if let Some(refusal) = self.closed_to(command.as_ref()) {
            return Ok(refusal);
        }
        if let Some(answer) = self.guided(text).await? {
            return Ok(answer);
        }
        if let Some(command) = command
            && let Some(answer) = self.obey(command).await?
        {
            return Ok(answer);
        }
        let open = store::questions::waiting(self.db, &self.incoming.chat.address, self.member.id, self.now).await?;
        let scene = scene::build(self, text, open.as_ref().map(|question| question.ask.clone())).await?;
        let meaning = message::read(text, &scene);
        if let Some(example) = self.meant_to_set(text, &meaning).await? {
            return Ok(example);
        }
        self.act_on(text, &scene, open, meaning).await
    }

    /// A hint for what the bot cannot take in, in a private chat.
    fn only_in_private(&self, key: &str) -> Answer {
        if self.incoming.chat.group {
            return Answer::silence();
        }
        Answer::says(self.words.say(key, [("example", (&self.example()).into())]))
    }

    /// Whether a text in a group names the bot or replies to it.
    pub(super) async fn is_addressed(&mut self) -> Result<bool, StoreError> {
        if let Happening::Text(text) = &self.incoming.what
            && let Some(name) = self.bot.username()
            && text.to_lowercase().contains(&format!("@{}", name.to_lowercase()))
        {
            return Ok(true);
        }
        match &self.incoming.reply_to {
            Some(replied) => Ok(store::sends::was_sent(self.db, replied).await?),
            None => Ok(false),
        }
    }

    /// Queues an answer: to others first, then here, with its buttons.
    pub(super) async fn queue(&mut self, mut answer: Answer) -> Result<(), StoreError> {
        for outgoing in &answer.to_others {
            store::sends::queue(self.db, outgoing, self.now).await?;
        }
        if answer.parts.is_empty() {
            return Ok(());
        }
        let cautions = cautioning::lines(self.db, self.words, self.member.id, &self.occasions, self.now).await?;
        if !cautions.is_empty() {
            answer.parts.push(cautions.join("\n"));
        }
        let mut buttons = Vec::new();
        for press in answer.buttons.into_iter().take(3) {
            let stored = StoredButton {
                outfit_id: self.outfit.id,
                question_id: answer.question_id,
                person_id: Some(self.member.id),
                says: press.says,
                expires_at: self.now + QUESTION_LIVES,
            };
            buttons.push(self.bot.button(self.db, press.label, &stored).await?);
        }
        let reply_to = self.incoming.chat.group.then(|| self.incoming.key.clone());
        let body = Body::Say {
            text: answer.parts.join("\n\n"),
            buttons,
            reply_to,
        };
        let source_key = Some(self.incoming.key.clone());
        let outgoing = Outgoing {
            chat: self.incoming.chat.address.clone(),
            body,
            source_key,
            handling: Handling::default(),
        };
        store::sends::queue(self.db, &outgoing, self.now).await
    }
}

impl Bot {
    /// A button under a fresh token.
    pub(super) async fn button(&self, db: &mut Db, label: String, stored: &StoredButton) -> Result<Button, StoreError> {
        let token = self.settings.tokens.draw().map_err(|why| StoreError::Stored {
            what: "token",
            why: why.to_string(),
        })?;
        store::questions::keep_button(db, &token, stored).await?;
        Ok(Button { label, token })
    }
}
