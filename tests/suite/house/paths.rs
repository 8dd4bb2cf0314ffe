//! The paths that a piece of code names (`crate::store::rigs`, `sqlx::query`),
//! those in `use` groups spelled out, and the macros that it calls.

/// A path as written.
#[derive(Debug, PartialEq)]
pub struct Named {
    /// Its parts: `["crate", "store", "rigs"]`; of a macro call, the last one
    /// ends in `!`.
    pub parts: Vec<String>,
    /// Where it ends, an offset into the code.
    pub at: usize,
}

/// Every path in `code`, which has neither comments nor strings.
pub fn paths(code: &str) -> Vec<Named> {
    let tokens = tokens(code);
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        match token.text {
            "use" => at = tree(&tokens, at + 1, &mut Vec::new(), &mut found),
            // `extern crate sqlx` names a crate without a path.
            "crate" if at > 0 && tokens[at - 1].text == "extern" => {
                if let Some(name) = tokens.get(at + 1) {
                    found.push(Named {
                        parts: vec![name.text.to_owned()],
                        at: name.at,
                    });
                }
                at += 2;
            }
            text if is_word(text) => at = written_out(&tokens, at, &mut found),
            _ => at += 1,
        }
    }
    found
}

struct Token<'a> {
    text: &'a str,
    at: usize,
}

fn tokens(code: &str) -> Vec<Token<'_>> {
    let mut tokens = Vec::new();
    let mut rest = code;
    while let Some(first) = rest.chars().next() {
        let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
        let length = if is_part(first) {
            rest.find(|letter| !is_part(letter)).unwrap_or(rest.len())
        } else if rest.starts_with("::") {
            2
        } else {
            first.len_utf8()
        };
        let (text, after) = rest.split_at(length);
        if !text.trim().is_empty() {
            tokens.push(Token {
                text,
                at: code.len() - rest.len(),
            });
        }
        rest = after;
    }
    tokens
}

fn is_word(text: &str) -> bool {
    text.starts_with(|letter: char| letter.is_alphabetic() || letter == '_')
}

/// One branch of a `use` tree; gives where it ends.
fn tree(tokens: &[Token<'_>], mut at: usize, before: &mut Vec<String>, found: &mut Vec<Named>) -> usize {
    let depth = before.len();
    let (mut closed, mut itself) = (false, false);
    while let Some(token) = tokens.get(at) {
        match token.text {
            "::" => {}
            "{" => {
                at = tree(tokens, at + 1, before, found);
                while tokens.get(at).is_some_and(|token| token.text == ",") {
                    at = tree(tokens, at + 1, before, found);
                }
                closed = true;
            }
            "as" => at += 1,
            "*" => before.push("*".to_owned()),
            // `{self}` means what stands before the braces.
            "self" if depth > 0 => itself = true,
            text if is_word(text) => before.push(text.to_owned()),
            _ => break,
        }
        at += 1;
    }
    if !closed && (itself || before.len() > depth) {
        let end = tokens.get(at.wrapping_sub(1)).map_or(0, |token| token.at);
        found.push(Named {
            parts: before.clone(),
            at: end,
        });
    }
    before.truncate(depth);
    at
}

/// A path in the midst of code; gives where it ends.
fn written_out(tokens: &[Token<'_>], mut at: usize, found: &mut Vec<Named>) -> usize {
    // After `.` or a word's `::` it is the name of a part.
    let is_part = match at.checked_sub(1).map(|before| tokens[before].text) {
        Some(".") => true,
        Some("::") => at > 1 && is_word(tokens[at - 2].text),
        _ => false,
    };
    let mut parts = vec![tokens[at].text.to_owned()];
    while let (Some(colons), Some(next)) = (tokens.get(at + 1), tokens.get(at + 2)) {
        if colons.text != "::" || !is_word(next.text) {
            break;
        }
        parts.push(next.text.to_owned());
        at += 2;
    }
    let is_macro = tokens.get(at + 1).is_some_and(|token| token.text == "!")
        && tokens
            .get(at + 2)
            .is_some_and(|token| matches!(token.text, "(" | "[" | "{"));
    if let (true, Some(last)) = (is_macro, parts.last_mut()) {
        last.push('!');
    }
    if (parts.len() > 1 || is_macro) && !is_part {
        found.push(Named {
            parts,
            at: tokens[at].at,
        });
    }
    at + 1
}

#[test]
fn groups_are_spelled_out_and_macros_are_named() {
    let code = "use crate::{a, b::{self as y, c as d, e::*}};\npub(crate) use std::io; extern crate sqlx;\n\
                fn f() -> ::tokio::Task { crate::store::open(); x.y::<z>(); println!( ); a != (b); <T as q::R>::s }\n\
                #[tokio::main] fn g() { let u = Self::v; }";
    let named: Vec<String> = paths(code).iter().map(|named| named.parts.join("::")).collect();
    assert_eq!(
        named,
        [
            "crate::a",
            "crate::b",
            "crate::b::c",
            "crate::b::e::*",
            "std::io",
            "sqlx",
            "tokio::Task",
            "crate::store::open",
            "println!",
            "q::R",
            "tokio::main",
            "Self::v",
        ]
    );
}
