//! Pictures and files, as a form of several parts.

use reqwest::multipart::{Form, Part};
use serde_json::{Value, json};

use crate::domain::envelope::{Body, File, MOST_CAPTION_UNITS};

use super::header::{Header, said};
use super::layout::{cut, html};
use super::{Telegram, Trouble};

impl Telegram {
    /// Sends the files of a body under one caption; the key of the first message.
    pub(super) async fn upload(
        &self,
        mut header: Header,
        body: &Body,
        files: &[File],
        caption: &str,
    ) -> Result<Option<String>, Trouble> {
        let method = match (body, files.len()) {
            (Body::Pictures { .. }, 1) => Method::Photo,
            (Body::Pictures { .. }, _) => Method::Album,
            _ => Method::Document,
        };
        let mut plain = false;
        loop {
            let form = form(method, &header, files, caption, plain);
            let sent = self.call_form(method.name(), form).await;
            if !plain && said(&sent, "can't parse entities") {
                plain = true;
            } else if !header.leaves_topic(&sent) {
                let sent = sent?;
                // An album is answered with its messages, anything else with one.
                let message = sent.get(0).unwrap_or(&sent);
                return Ok(header.key(message.get("message_id").and_then(Value::as_i64)));
            }
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Method {
    Photo,
    Album,
    Document,
}

impl Method {
    fn name(self) -> &'static str {
        match self {
            Self::Photo => "sendPhoto",
            Self::Album => "sendMediaGroup",
            Self::Document => "sendDocument",
        }
    }
}

/// A form can be sent once, so each try makes its own.
fn form(method: Method, header: &Header, files: &[File], caption: &str, plain: bool) -> Form {
    let mut form = Form::new();
    for (name, value) in fields(method, header, files, caption, plain) {
        form = form.text(name, value);
    }
    for (index, file) in files.iter().enumerate() {
        let part = Part::bytes(file.bytes.to_vec()).file_name(file.name.clone());
        form = form.part(part_name(method, index), part);
    }
    form
}

/// The fields beside the files: words as they are, everything else as JSON.
fn fields(method: Method, header: &Header, files: &[File], caption: &str, plain: bool) -> Vec<(String, String)> {
    let mut fields = match serde_json::to_value(header) {
        Ok(Value::Object(fields)) => fields,
        _ => serde_json::Map::new(),
    };
    let caption = captioned(caption, plain);
    if method == Method::Album {
        let mut media: Vec<Value> = (0..files.len())
            .map(|index| json!({"type": "photo", "media": format!("attach://{}", part_name(method, index))}))
            .collect();
        // The caption of its first picture is shown below an album.
        if let Some(first) = media.first_mut().and_then(Value::as_object_mut) {
            first.extend(caption);
        }
        fields.insert("media".to_owned(), Value::from(media));
    } else {
        fields.extend(caption);
    }
    let as_text = |value: Value| match value {
        Value::String(text) => text,
        other => other.to_string(),
    };
    fields.into_iter().map(|(name, value)| (name, as_text(value))).collect()
}

fn captioned(caption: &str, plain: bool) -> Vec<(String, Value)> {
    if caption.trim().is_empty() {
        return Vec::new();
    }
    let caption = cut(caption, MOST_CAPTION_UNITS);
    if plain {
        return vec![("caption".to_owned(), caption.into())];
    }
    vec![
        ("caption".to_owned(), html(&caption).into()),
        ("parse_mode".to_owned(), "HTML".into()),
    ]
}

fn part_name(method: Method, index: usize) -> String {
    match method {
        Method::Photo => "photo".to_owned(),
        Method::Album => format!("picture{index}"),
        Method::Document => "document".to_owned(),
    }
}
