//! One call of the Bot API, and what can come of it.
//!
//! The payloads and types are the chat library's; the call is our own. The
//! library's sleeps ten seconds inside a request that met a 5xx, loses the
//! status code, and its `Bot` prints the token when it is formatted.

mod address;
mod deliver;
mod download;
mod header;
mod http;
mod layout;
mod menu;
mod say;
mod updates;
mod upload;
mod webhook;
mod wire;

use std::time::Duration;

use bytes::Bytes;
use reqwest::header::CONTENT_TYPE;
use reqwest::{StatusCode, Url};
use secrecy::{ExposeSecret, SecretString};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use teloxide::requests::Payload;

use http::Http;

pub use updates::next_offset;
pub use wire::read;

/// The longest pause that is believed, in seconds: then it is tried again.
const LONGEST_PAUSE_S: f64 = 3600.0;

/// A pause whose length is not said, in seconds.
const USUAL_PAUSE_S: i64 = 5;

/// How long a call other than a poll may take.
const CALL_TIMEOUT: Duration = Duration::from_secs(10);

/// The Bot API, as one bot sees it.
pub struct Telegram {
    client: reqwest::Client,
    /// For calls without files; none behind a proxy.
    http: Option<Http>,
    api_url: Url,
    token: SecretString,
}

/// Who the bot is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Identity {
    /// The bot's name in links, without an at sign.
    pub username: String,
    /// Whether it hears everything in groups, or only what is meant for it.
    pub hears_groups: bool,
}

/// Why a call failed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Trouble {
    /// No sensible answer: the network, a server's fault, no JSON. Transient.
    #[error("the Bot API cannot be reached: {0}")]
    Unreachable(String),
    /// Too fast; not again before these seconds have passed.
    #[error("the Bot API asks for {0} s of pause")]
    TooFast(i64),
    /// Too fast, as something before the API said of the bot as a whole.
    #[error("the way to the Bot API asks for {0} s of pause")]
    TooFastInAll(i64),
    /// The group has this id now.
    #[error("the group has moved")]
    Moved(i64),
    /// Somebody else polls with the same token.
    #[error("another program polls with the same token")]
    Conflict,
    /// The token is not known.
    #[error("the Bot API does not know this token")]
    WrongToken,
    /// Anything else that the API said, with its code.
    #[error("the Bot API answered {code}: {description}")]
    Refused {
        /// The HTTP code.
        code: u16,
        /// The API's own words.
        description: String,
    },
}

impl Telegram {
    /// A client for the API at `api_url`. Makes no call yet.
    ///
    /// # Errors
    /// When the system gives no TLS.
    pub fn new(token: SecretString, api_url: Url) -> Result<Self, Trouble> {
        let client = reqwest::Client::builder()
            .connect_timeout(Duration::from_secs(10))
            .timeout(updates::POLL + Duration::from_secs(10))
            .redirect(reqwest::redirect::Policy::none())
            .build()
            .map_err(unreachable)?;
        Ok(Self {
            client,
            http: Http::new(&api_url),
            api_url,
            token,
        })
    }

    /// Who the bot is; also the way to try a token.
    ///
    /// # Errors
    /// Any [`Trouble`].
    pub async fn identity(&self) -> Result<Identity, Trouble> {
        let me = self.call(&GetMe {}, CALL_TIMEOUT).await?;
        let Some(username) = me.get("username").and_then(Value::as_str) else {
            return Err(Trouble::Unreachable("it did not say the bot's name".to_owned()));
        };
        let hears_groups = me
            .get("can_read_all_group_messages")
            .and_then(Value::as_bool)
            .unwrap_or(false);
        Ok(Identity {
            username: username.to_owned(),
            hears_groups,
        })
    }

    async fn call<P>(&self, payload: &P, timeout: Duration) -> Result<P::Output, Trouble>
    where
        P: Payload + Serialize,
        P::Output: DeserializeOwned,
    {
        let body = serde_json::to_vec(payload).map_err(|why| Trouble::Refused {
            code: 0,
            description: format!("not asked: {why}"),
        })?;
        let (status, body) = self.post(P::NAME, body, timeout).await?;
        outcome(status, &body)
    }

    async fn post(&self, method: &str, body: Vec<u8>, timeout: Duration) -> Result<(StatusCode, Bytes), Trouble> {
        let url = self.method_url(method);
        if let Some(http) = &self.http {
            return tokio::time::timeout(timeout, http.post(url.path(), body))
                .await
                .map_err(|_| Trouble::Unreachable("no answer in time".to_owned()))?;
        }
        let request = self.client.post(url).timeout(timeout);
        let request = request.header(CONTENT_TYPE, "application/json").body(body);
        let response = request.send().await.map_err(unreachable)?;
        Ok((response.status(), response.bytes().await.map_err(unreachable)?))
    }

    /// A call that uploads; how long it may take is the caller's to say.
    async fn call_form(&self, method: &str, form: reqwest::multipart::Form) -> Result<Value, Trouble> {
        let response = self.client.post(self.method_url(method)).multipart(form).send().await;
        let response = response.map_err(unreachable)?;
        let status = response.status();
        outcome(status, &response.bytes().await.map_err(unreachable)?)
    }

    fn method_url(&self, method: &str) -> Url {
        let mut url = self.api_url.clone();
        // An address that cannot have a path was refused with the settings.
        if let Ok(mut path) = url.path_segments_mut() {
            path.pop_if_empty()
                .push(&format!("bot{}", self.token.expose_secret()))
                .push(method);
        }
        url
    }
}

/// The error without the address, which holds the token.
fn unreachable(why: reqwest::Error) -> Trouble {
    let what = if why.is_timeout() {
        "no answer in time"
    } else if why.is_connect() {
        "no connection"
    } else {
        "the connection broke"
    };
    Trouble::Unreachable(what.to_owned())
}

fn outcome<T: DeserializeOwned>(status: StatusCode, body: &[u8]) -> Result<T, Trouble> {
    if status.is_server_error() {
        return Err(Trouble::Unreachable(format!("it answered {}", status.as_u16())));
    }
    let Ok(mut answer) = serde_json::from_slice::<Value>(body) else {
        if status == StatusCode::TOO_MANY_REQUESTS {
            return Err(Trouble::TooFastInAll(USUAL_PAUSE_S));
        }
        return Err(Trouble::Unreachable(format!(
            "it answered {} without JSON",
            status.as_u16()
        )));
    };
    if answer.get("ok") == Some(&Value::Bool(true)) {
        let result = answer.get_mut("result").map(Value::take).unwrap_or_default();
        return serde_json::from_value(result)
            .map_err(|_| Trouble::Unreachable("its answer has another shape than it should".to_owned()));
    }
    Err(refusal(status, &answer))
}

fn refusal(status: StatusCode, answer: &Value) -> Trouble {
    let parameter = |name: &str| answer.get("parameters").and_then(|of| of.get(name));
    // Whatever size or shape of number: it is capped, and so cannot overflow.
    if let Some(seconds) = parameter("retry_after").and_then(Value::as_f64) {
        return Trouble::TooFast(seconds.clamp(1.0, LONGEST_PAUSE_S).ceil() as i64);
    }
    if let Some(id) = parameter("migrate_to_chat_id").and_then(Value::as_i64) {
        return Trouble::Moved(id);
    }
    let code = answer
        .get("error_code")
        .and_then(Value::as_u64)
        .and_then(|code| u16::try_from(code).ok());
    match code.unwrap_or(status.as_u16()) {
        429 => Trouble::TooFast(USUAL_PAUSE_S),
        409 => Trouble::Conflict,
        // The API says 404 to a token that is not even shaped like one.
        401 | 404 => Trouble::WrongToken,
        code if code >= 500 => Trouble::Unreachable(format!("it answered {code}")),
        code => {
            let description = answer
                .get("description")
                .and_then(Value::as_str)
                .unwrap_or("no reason given");
            Trouble::Refused {
                code,
                description: description.to_owned(),
            }
        }
    }
}

#[derive(Serialize)]
struct GetMe {}

impl Payload for GetMe {
    type Output = Value;
    const NAME: &'static str = "getMe";
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answered(status: u16, body: &str) -> Result<Value, Trouble> {
        outcome(StatusCode::from_u16(status).unwrap_or_default(), body.as_bytes())
    }

    #[test]
    fn every_answer_has_one_meaning() {
        let moved = r#"{"ok":false,"error_code":400,"description":"x","parameters":{"migrate_to_chat_id":-1007}}"#;
        let rows = [
            (
                429,
                r#"{"ok":false,"error_code":429,"parameters":{"retry_after":61}}"#,
                Trouble::TooFast(61),
            ),
            (
                429,
                r#"{"ok":false,"parameters":{"retry_after":9223372036854775807}}"#,
                Trouble::TooFast(3600),
            ),
            (
                429,
                r#"{"ok":false,"parameters":{"retry_after":-1e300}}"#,
                Trouble::TooFast(1),
            ),
            (
                429,
                r#"{"ok":false,"parameters":{"retry_after":"soon"}}"#,
                Trouble::TooFast(5),
            ),
            (429, "<html>Slow down</html>", Trouble::TooFastInAll(5)),
            (400, moved, Trouble::Moved(-1007)),
            (
                409,
                r#"{"ok":false,"error_code":409,"description":"Conflict"}"#,
                Trouble::Conflict,
            ),
            (
                401,
                r#"{"ok":false,"error_code":401,"description":"Unauthorized"}"#,
                Trouble::WrongToken,
            ),
            (
                404,
                r#"{"ok":false,"error_code":404,"description":"Not Found"}"#,
                Trouble::WrongToken,
            ),
            (
                502,
                "<html>Bad Gateway</html>",
                Trouble::Unreachable("it answered 502".to_owned()),
            ),
            (
                200,
                "<html>Hello</html>",
                Trouble::Unreachable("it answered 200 without JSON".to_owned()),
            ),
            (
                403,
                r#"{"ok":false,"error_code":403,"description":"Forbidden: new words"}"#,
                Trouble::Refused {
                    code: 403,
                    description: "Forbidden: new words".to_owned(),
                },
            ),
        ];
        for (status, body, expected) in rows {
            assert_eq!(answered(status, body), Err(expected), "{status} {body}");
        }
        assert_eq!(answered(200, r#"{"ok":true,"result":[1]}"#), Ok(serde_json::json!([1])));
    }

    #[test]
    fn the_api_may_live_below_a_path() {
        let api_url = Url::parse("http://127.0.0.1:8081/bots/").ok();
        let telegram = api_url.and_then(|url| Telegram::new("12:ab".to_owned().into(), url).ok());
        let url = telegram.map(|telegram| telegram.method_url("getMe").to_string());
        assert_eq!(url.as_deref(), Some("http://127.0.0.1:8081/bots/bot12:ab/getMe"));
    }
}
