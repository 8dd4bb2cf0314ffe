//! A desk with an outfit, for tests that read as conversations.

use tapside::bot::Tokens;
use tapside::desk::{Desk, Heard, Manner};
use tapside::domain::envelope::{Arrived, Chat, Happening, Incoming, Person, is_group};
use tapside::play::script;
use tapside::store::Store;

use crate::database::{Guard, fresh_url};

/// Wednesday, 4 March 2026, 08:00 UTC.
pub const WEDNESDAY_MORNING: i64 = 1_772_611_200;
pub const HOUR: i64 = 3600;
pub const DAY: i64 = 24 * HOUR;

/// An outfit in London with the rigs Heron, Otter and Mule, and a set clock.
pub struct World {
    pub desk: Desk,
    pub now: i64,
    _guard: Guard,
}

impl World {
    /// An outfit on its first morning, with its owner and no rig.
    pub async fn empty() -> Self {
        let (url, guard) = fresh_url().await;
        let store = Store::open(&url).await.expect("a database");
        store.migrate().await.expect("tables");
        let desk = Desk::new(store, "Europe/London".to_owned(), Tokens::counted(), "test".to_owned());
        Self {
            desk,
            now: WEDNESDAY_MORNING,
            _guard: guard,
        }
    }

    /// An outfit with three rigs, whose owner put the guide off.
    pub async fn new() -> Self {
        let mut world = Self::empty().await;
        world.desk.settle_in(world.now).await.expect("an owner");
        let put_off = world.desk.says("owner", Manner::Says, "stop", world.now).await;
        put_off.expect("no more questions");
        world.says("owner", "add rigs heron, otter, mule").await;
        world
    }

    /// Somebody says something a minute later; all that is said to that.
    pub async fn says(&mut self, who: &str, text: &str) -> String {
        self.speaks(who, Manner::Says, text).await
    }

    /// Somebody says something in the crew's group a minute later.
    pub async fn says_in_the_group(&mut self, who: &str, text: &str) -> String {
        self.speaks(who, Manner::InGroup, text).await
    }

    /// Somebody edits their last message a minute later.
    pub async fn edits(&mut self, who: &str, text: &str) -> String {
        self.speaks(who, Manner::Edits, text).await
    }

    async fn speaks(&mut self, who: &str, manner: Manner, text: &str) -> String {
        self.now += 60;
        let heard = self.desk.says(who, manner, text, self.now).await.expect("an answer");
        read_aloud(&heard, who)
    }

    /// The token of a fresh invite by the owner.
    pub async fn invite(&mut self) -> String {
        let invite = self.says("owner", "invite").await;
        let token = invite
            .split("/start ")
            .nth(1)
            .and_then(|rest| rest.split_whitespace().next());
        token.expect("a link to type").to_owned()
    }

    /// Somebody whom the platform calls `name` opens a link; what they do is heard, not shown.
    pub async fn joins_as(&mut self, who: &str, name: &str, token: &str) {
        self.now += 60;
        let text = Happening::Text(format!("/start {token}"));
        let key = format!("join/{who}");
        let mut arrived = arrived(&key, 0, &format!("desk:{who}"), who, text, self.now);
        if let Arrived::Incoming(incoming) = &mut arrived {
            name.clone_into(&mut incoming.person.first_name);
        }
        self.desk.bot().hear(&[arrived], self.now).await.expect("a welcome");
        self.waits(1).await;
    }

    /// Time passes; all that falls due.
    pub async fn waits(&mut self, seconds: i64) -> String {
        self.now += seconds;
        let heard = self.desk.time_passes(self.now).await.expect("time passes");
        read_aloud(&heard, "")
    }
}

/// Something that `who` does in `chat`, as a transport brings it.
pub fn arrived(key: &str, version: i64, chat: &str, who: &str, what: Happening, sent_at: i64) -> Arrived {
    let address = format!("desk:{who}");
    Arrived::Incoming(Incoming {
        key: key.to_owned(),
        version,
        chat: Chat {
            address: chat.to_owned(),
            group: is_group(chat),
        },
        person: Person {
            address: address.clone(),
            private_chat: address,
            first_name: who.to_owned(),
            language: Some("en".to_owned()),
        },
        sent_at,
        what,
        reply_to: None,
    })
}

fn read_aloud(heard: &[Heard], speaker: &str) -> String {
    let written = script::write(heard, Some(speaker));
    written
        .lines()
        .map(|line| line.strip_prefix("  ").unwrap_or(line))
        .collect::<Vec<_>>()
        .join("\n")
}
