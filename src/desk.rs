//! A conversation at a desk: people speak, the bot answers, the clock stands
//! where it is put. `chat`, `play` and the scenario tests sit here.

use std::collections::HashMap;
use std::sync::Arc;

use crate::bot::{Bot, BotSettings, Tokens};
use crate::domain::envelope::Sent;
use crate::domain::envelope::{Arrived, Body, Button, Chat, Drawing, File, Happening, Incoming, Person, Send};
use crate::store::people::Role;
use crate::store::sends::{self, Landed};
use crate::store::{self, Store, StoreError};

const ME: &str = "desk";
/// The one group chat at a desk, and how it is called there.
const GROUP: &str = "#desk:group";
/// Whom the bot speaks to in the group.
pub const THE_GROUP: &str = "the group";

/// One desk with one outfit.
pub struct Desk {
    bot: Bot,
    /// Keeps message keys apart from those of earlier conversations.
    session: String,
    count: u64,
    draws: bool,
    last_said: HashMap<String, (String, i64)>,
    /// The platform's language of whoever does not speak English.
    languages: HashMap<String, String>,
    /// The key of the last message to each.
    last_heard: HashMap<String, String>,
    /// The buttons on show, newest last: speaker, label, token.
    buttons: Vec<(String, String, String)>,
    /// The files that came, newest last.
    files: Vec<File>,
}

/// What the bot said to somebody.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heard {
    /// To whom.
    pub to: String,
    /// What.
    pub text: String,
    /// The labels of the buttons below it.
    pub buttons: Vec<String>,
    /// The pictures or the file that came with it.
    pub files: Vec<File>,
}

/// How a line is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Manner {
    /// A new message.
    Says,
    /// A new message in the crew's group chat.
    InGroup,
    /// An edit of the speaker's last message.
    Edits,
}

impl Desk {
    /// Opens a desk over a migrated store; `session` must differ from earlier
    /// ones over the same store.
    pub fn new(store: Store, zone: String, tokens: Tokens, session: String) -> Self {
        let bot = Bot::new(store, BotSettings { zone, tokens });
        Self {
            bot,
            session,
            count: 0,
            draws: false,
            last_said: HashMap::new(),
            languages: HashMap::new(),
            last_heard: HashMap::new(),
            buttons: Vec::new(),
            files: Vec::new(),
        }
    }

    /// The same people with the files that they got, before another store.
    #[must_use]
    pub fn before(self, store: Store, zone: String) -> Self {
        Self {
            languages: self.languages,
            files: self.files,
            draws: self.draws,
            ..Self::new(store, zone, Tokens::counted(), self.session)
        }
    }

    /// Has pictures drawn, and not only named.
    pub fn draw(&mut self) {
        self.draws = true;
    }

    /// The bot at this desk.
    pub fn bot(&self) -> &Bot {
        &self.bot
    }

    /// From now on the platform tells of `who` that they use this language.
    pub fn speaks(&mut self, who: &str, language: &str) {
        self.languages.insert(who.to_owned(), language.to_owned());
    }

    /// Makes sure that there is an outfit and that `owner` owns it; what the
    /// bot says to that.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn settle_in(&mut self, now: i64) -> Result<Vec<Heard>, StoreError> {
        match self.bot.claim_token(now).await? {
            Some(token) => self.says("owner", Manner::Says, &format!("/start {token}"), now).await,
            None => Ok(Vec::new()),
        }
    }

    /// Somebody says something; what the bot says to that, to whomever. A text
    /// in square brackets presses the newest button of that label; `[thumbs up]`
    /// puts one under the last message to the speaker; `[photo]`, `[voice note]`
    /// and `[file: readings.csv]` send one, the file being the newest of that
    /// name that anybody got. Whoever is called owner, lead or crew (also crew-2)
    /// is on the outfit without an invite.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn says(&mut self, who: &str, manner: Manner, text: &str, now: i64) -> Result<Vec<Heard>, StoreError> {
        self.let_in(who, now).await?;
        self.count += 1;
        let fresh = format!("desk:{}/{}", self.session, self.count);
        let (key, version) = match (manner, self.last_said.get(who)) {
            (Manner::Edits, Some((key, version))) => (key.clone(), version + 1),
            _ => (fresh, 0),
        };
        let place = if manner == Manner::InGroup { THE_GROUP } else { who };
        let what = self.done(place, text, &key).unwrap_or_else(|| {
            self.last_said.insert(who.to_owned(), (key.clone(), version));
            Happening::Text(text.to_owned())
        });
        let incoming = Incoming {
            key,
            version,
            chat: match manner {
                Manner::InGroup => Chat {
                    address: GROUP.to_owned(),
                    group: true,
                },
                Manner::Says | Manner::Edits => Chat {
                    address: address(who),
                    group: false,
                },
            },
            person: self.person(who),
            sent_at: now,
            what,
            reply_to: None,
        };
        self.bot.hear(&[Arrived::Incoming(incoming)], now).await?;
        self.deliver(now).await
    }

    /// The clock has moved on to `now`: what falls due is said.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn time_passes(&mut self, now: i64) -> Result<Vec<Heard>, StoreError> {
        self.bot.due(now).await?;
        self.deliver(now).await
    }

    /// What somebody does other than writing, if the brackets say so.
    fn done(&self, place: &str, text: &str, key: &str) -> Option<Happening> {
        let label = text.trim().strip_prefix('[')?.strip_suffix(']')?;
        let shown = |(to, shown, _): &&(String, String, String)| to == place && shown == label;
        if let Some((_, _, token)) = self.buttons.iter().rev().find(shown) {
            return Some(Happening::Press {
                token: token.clone(),
                press: key.to_owned(),
            });
        }
        match label {
            "photo" => Some(Happening::Picture),
            "voice note" => Some(Happening::Voice),
            "thumbs up" => self.last_heard.get(place).map(|on| Happening::Reaction {
                on: on.clone(),
                thumbs_up: true,
            }),
            _ => {
                let name = label.strip_prefix("file: ")?;
                let file = self.files.iter().rev().find(|file| file.name == name)?;
                Some(Happening::Document {
                    remote: name.into(),
                    size_bytes: None,
                    bytes: Some(file.bytes.as_slice().into()),
                })
            }
        }
    }

    async fn let_in(&mut self, who: &str, now: i64) -> Result<(), StoreError> {
        let role = match who.split('-').next() {
            Some("owner") => Role::Owner,
            Some("lead") => Role::Lead,
            Some("crew") => Role::Crew,
            _ => return Ok(()),
        };
        let store = self.bot.store();
        let mut tx = store.begin().await?;
        if store::people::find(&mut tx, &address(who)).await?.is_none()
            && let Some(outfit) = store::outfits::all(&mut tx).await?.first()
        {
            let person = self.person(who);
            let newcomer = store::people::Newcomer {
                address: &person.address,
                chat: &person.private_chat,
                first_name: &person.first_name,
                language: person.language.as_deref(),
            };
            store::people::join(&mut tx, &newcomer, outfit.id, role, now).await?;
        }
        tx.commit().await?;
        Ok(())
    }

    async fn deliver(&mut self, now: i64) -> Result<Vec<Heard>, StoreError> {
        let mut all = Vec::new();
        let mut shown = Vec::new();
        loop {
            let store = self.bot.store().clone();
            let claimed = sends::claim(&store, ME, 100).await?;
            if claimed.is_empty() {
                all.sort_by_key(|(id, _)| *id);
                return Ok(all.into_iter().map(|(_, heard)| heard).collect());
            }
            let mut tx = store.begin().await?;
            let mut landed = Vec::with_capacity(claimed.len());
            for mut send in claimed {
                send.files = sends::files(&mut tx, &send.body).await?;
                let key = format!("desk:bot/{}", send.id);
                landed.push(Landed {
                    id: send.id,
                    chat: send.chat.clone(),
                    sent: Sent::Delivered(Some(key.clone())),
                    tries: 1,
                    pause_s: 0,
                });
                self.last_heard.insert(called(&send.chat), key);
                shown.push(send);
            }
            sends::settle(&mut tx, ME, &landed, now).await?;
            tx.commit().await?;
            for send in shown.drain(..) {
                let made = self.bot.make_file(send).await;
                let drawn = if self.draws { self.bot.draw(made).await } else { made };
                all.extend(self.shown(&drawn).map(|heard| (drawn.id, heard)));
            }
        }
    }

    fn person(&self, who: &str) -> Person {
        let language = self.languages.get(who).map_or("en", String::as_str);
        Person {
            address: address(who),
            private_chat: address(who),
            first_name: who.to_owned(),
            language: Some(language.to_owned()),
        }
    }

    fn shown(&mut self, send: &Send) -> Option<Heard> {
        let to = called(&send.chat);
        let (text, buttons): (String, &[Button]) = match &send.body {
            Body::Say { text, buttons, .. } => (text.clone(), buttons),
            Body::Pictures { caption, .. } => (below("picture", &send.files, caption), &[]),
            Body::Drawings { drawings, caption, .. } => {
                let undrawn: Vec<File> = drawings.iter().map(undrawn).collect();
                (below("picture", &undrawn, caption), &[])
            }
            Body::Document { caption, .. } => (below("file", &send.files, caption), &[]),
            Body::Export { name, .. } => (format!("[file: {name}]"), &[]),
            Body::Acknowledge { text, .. } => (text.clone()?, &[]),
        };
        self.buttons.extend(
            buttons
                .iter()
                .map(|button| (to.clone(), button.label.clone(), button.token.clone())),
        );
        self.files.extend(send.files.iter().cloned());
        Some(Heard {
            to,
            text,
            buttons: buttons.iter().map(|button| button.label.clone()).collect(),
            files: send.files.clone(),
        })
    }
}

/// A picture's name alone, where nobody wants the picture.
fn undrawn(drawing: &Drawing) -> File {
    File {
        name: drawing.name.clone(),
        bytes: Arc::default(),
    }
}

/// A caption below its files, as on a phone, each file as a line.
fn below(kind: &str, files: &[File], caption: &str) -> String {
    let files = files.iter().map(|file| format!("[{kind}: {}]", file.name));
    let caption = Some(caption.to_owned()).filter(|caption| !caption.is_empty());
    files.chain(caption).collect::<Vec<_>>().join("\n")
}

/// Who is meant by a chat's address.
fn called(chat: &str) -> String {
    match chat {
        GROUP => THE_GROUP.to_owned(),
        chat => chat.trim_start_matches("desk:").to_owned(),
    }
}

fn address(who: &str) -> String {
    format!("desk:{who}")
}
