//! One delivery: a send becomes a call, and what came of it becomes a
//! [`Sent`]. Nothing here waits or tries again by itself, save for a message
//! whose layout or files the API will not take: its words go out plain at once.

use std::time::Duration;

use teloxide::payloads::{AnswerCallbackQuery, AnswerCallbackQuerySetters};
use teloxide::types::CallbackQueryId;
use tokio::time::timeout;

use crate::domain::envelope::Sent;
use crate::domain::envelope::{Body, Send};

use super::header::Header;
use super::{CALL_TIMEOUT, Telegram, Trouble, address};

/// Files take longer, on the upstream of a small server.
const UPLOAD_TIMEOUT: Duration = Duration::from_secs(30);

/// After so many tries, in about two minutes, the words go without the files.
const UPLOAD_TRIES: i64 = 6;

impl Telegram {
    /// Delivers a message; the answer says what to write down of it. Takes 10 s
    /// at most, and 30 s with files, so a lease of twice that is safe.
    pub async fn deliver(&self, send: &Send) -> Sent {
        if let Body::Acknowledge { press, text } = &send.body {
            let sent = ended(
                timeout(CALL_TIMEOUT, self.acknowledge(press, text.as_deref())).await,
                send,
            );
            return match sent {
                // No chat was named, so it is said of the bot as a whole.
                Sent::TooFast { wait_s, .. } => Sent::TooFast {
                    wait_s,
                    everywhere: true,
                },
                sent => sent,
            };
        }
        let Some(place) = address::place(&send.chat) else {
            return Sent::Refused("not an address of this platform".to_owned());
        };
        let header = |reply_to: &Option<String>| Header::new(place, send.handling, reply_to.as_deref());
        match &send.body {
            Body::Say {
                text,
                buttons,
                reply_to,
            } => ended(
                timeout(CALL_TIMEOUT, self.say(header(reply_to), text, buttons)).await,
                send,
            ),
            Body::Pictures { caption, reply_to, .. } | Body::Document { caption, reply_to, .. } => {
                let header = header(reply_to);
                if send.files.is_empty() || send.tries > UPLOAD_TRIES {
                    let words = self.only_words(header, caption, send);
                    return ended(timeout(CALL_TIMEOUT, words).await, send);
                }
                let upload = async {
                    match self.upload(header.clone(), &send.body, &send.files, caption).await {
                        // 403 is about the chat, whatever it is that goes there.
                        Err(Trouble::Refused { code, .. }) if code != 403 => {
                            self.only_words(header, caption, send).await
                        }
                        outcome => outcome,
                    }
                };
                ended(timeout(UPLOAD_TIMEOUT, upload).await, send)
            }
            Body::Drawings { .. } | Body::Export { .. } => Sent::Refused("not made".to_owned()),
            Body::Acknowledge { .. } => Sent::Delivered(None),
        }
    }

    /// The caption of files that cannot be uploaded; their names, if it has none.
    async fn only_words(&self, header: Header, caption: &str, send: &Send) -> Result<Option<String>, Trouble> {
        tracing::warn!(
            send = send.id,
            tries = send.tries,
            "A file cannot be sent; its words go without it."
        );
        if !caption.trim().is_empty() {
            return self.say(header, caption, &[]).await;
        }
        let names: Vec<&str> = send.body.attachments().iter().map(|file| file.name.as_str()).collect();
        self.say(header, &names.join(", "), &[]).await
    }

    async fn acknowledge(&self, press: &str, text: Option<&str>) -> Result<Option<String>, Trouble> {
        let mut answer = AnswerCallbackQuery::new(CallbackQueryId(press.to_owned()));
        if let Some(text) = text {
            // The platform shows 200 characters.
            answer = answer.text(text.chars().take(200).collect::<String>());
        }
        match self.call(&answer, CALL_TIMEOUT).await {
            Ok(_) => Ok(None),
            // Nobody waits for it any more; whatever the press did is done.
            Err(Trouble::Refused { description, .. }) if description.contains("query is too old") => Ok(None),
            Err(trouble) => Err(trouble),
        }
    }
}

fn ended(outcome: Result<Result<Option<String>, Trouble>, tokio::time::error::Elapsed>, send: &Send) -> Sent {
    match outcome {
        Ok(Ok(remote_key)) => Sent::Delivered(remote_key),
        Ok(Err(trouble)) => judge(trouble, send.tries),
        Err(_) => Sent::NotBefore(pause_after(send.tries)),
    }
}

/// What a failed call means for the message.
fn judge(trouble: Trouble, tries: i64) -> Sent {
    match trouble {
        // The store counts whole seconds, and a part of the first is over.
        Trouble::TooFast(seconds) => Sent::TooFast {
            wait_s: seconds.saturating_add(1),
            everywhere: false,
        },
        Trouble::TooFastInAll(seconds) => Sent::TooFast {
            wait_s: seconds.saturating_add(1),
            everywhere: true,
        },
        Trouble::Moved(id) => Sent::Moved(address::of_group(id, None)),
        Trouble::Refused { code, description } if code == 403 || shut_out(&description) => Sent::Blocked,
        Trouble::Refused { description, .. } => Sent::Refused(description),
        // A wrong token is the host's to mend; the message waits for it.
        Trouble::WrongToken => Sent::NotBefore(60),
        Trouble::Unreachable(_) | Trouble::Conflict => Sent::NotBefore(pause_after(tries)),
    }
}

fn shut_out(description: &str) -> bool {
    ["Forbidden", "chat not found", "bot was blocked", "bot was kicked"]
        .iter()
        .any(|words| description.contains(words))
}

/// Seconds: 2, 4, 8 ... 60.
fn pause_after(tries: i64) -> i64 {
    1_i64
        .checked_shl(tries.clamp(1, 6) as u32)
        .map_or(60, |pause| pause.min(60))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trouble_says_what_becomes_of_the_message() {
        let refused = |code, description: &str| Trouble::Refused {
            code,
            description: description.to_owned(),
        };
        let rows = [
            (
                Trouble::TooFast(61),
                1,
                Sent::TooFast {
                    wait_s: 62,
                    everywhere: false,
                },
            ),
            (
                Trouble::TooFastInAll(5),
                1,
                Sent::TooFast {
                    wait_s: 6,
                    everywhere: true,
                },
            ),
            (Trouble::Moved(-1007), 1, Sent::Moved("#tg:-1007".to_owned())),
            (refused(403, "Forbidden: user is deactivated"), 1, Sent::Blocked),
            (refused(403, "words nobody has met yet"), 1, Sent::Blocked),
            (refused(400, "Bad Request: chat not found"), 1, Sent::Blocked),
            (
                refused(400, "Bad Request: message is too long"),
                1,
                Sent::Refused("Bad Request: message is too long".to_owned()),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                1,
                Sent::NotBefore(2),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                5,
                Sent::NotBefore(32),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                6,
                Sent::NotBefore(60),
            ),
            (
                Trouble::Unreachable("it answered 502".to_owned()),
                i64::MAX,
                Sent::NotBefore(60),
            ),
            (Trouble::WrongToken, 1, Sent::NotBefore(60)),
        ];
        for (trouble, tries, expected) in rows {
            assert_eq!(judge(trouble.clone(), tries), expected, "{trouble:?}");
        }
    }
}
