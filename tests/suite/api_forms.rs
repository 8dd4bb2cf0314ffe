//! A form of several parts (RFC 7578), as the Bot API takes uploads, read into
//! fields and files.

use serde_json::{Map, Value};

/// A file that came with a call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Upload {
    pub part: String,
    pub name: String,
    pub bytes: Vec<u8>,
}

/// The fields and files of a form; numbers and objects are read as JSON, as the API does.
pub fn read(content_type: &str, body: &[u8]) -> (Value, Vec<Upload>) {
    let boundary = content_type.split("boundary=").nth(1).unwrap().trim_matches('"');
    let mut fields = Map::new();
    let mut files = Vec::new();
    for part in split(body, format!("--{boundary}").as_bytes()) {
        let Some(at) = find(part, b"\r\n\r\n") else {
            continue;
        };
        let head = String::from_utf8(part[..at].to_vec()).unwrap();
        let content = &part[at + 4..part.len() - 2];
        let named = |what: &str| head.split(what).nth(1).and_then(|rest| rest.split('"').next());
        let part = named("; name=\"").unwrap().to_owned();
        match named("; filename=\"") {
            Some(name) => files.push(Upload {
                part,
                name: name.to_owned(),
                bytes: content.to_vec(),
            }),
            None => {
                let text = String::from_utf8(content.to_vec()).unwrap();
                let words = matches!(part.as_str(), "caption" | "parse_mode" | "text");
                let value = if words {
                    text.into()
                } else {
                    serde_json::from_str(&text).unwrap()
                };
                fields.insert(part, value);
            }
        }
    }
    (fields.into(), files)
}

fn find(bytes: &[u8], wanted: &[u8]) -> Option<usize> {
    bytes.windows(wanted.len()).position(|window| window == wanted)
}

fn split<'a>(mut bytes: &'a [u8], at: &[u8]) -> Vec<&'a [u8]> {
    let mut parts = Vec::new();
    while let Some(end) = find(bytes, at) {
        parts.push(&bytes[..end]);
        bytes = &bytes[end + at.len()..];
    }
    parts
}
