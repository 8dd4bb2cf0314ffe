//! What goes before what.

use std::collections::VecDeque;

use crate::domain::envelope::{Body, Send};

/// Who takes what: files have workers of their own, so that no text waits behind an upload.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Load {
    /// Words and answers to presses.
    Text,
    /// Pictures and files, drawn or read on their way out.
    File,
}

/// What a chat whose turn it is has at its front. The order is that of service.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank {
    /// The platform does not count it.
    Press,
    Answer,
    Unasked,
    AskedFile,
    UnaskedFile,
}

pub(super) const RANKS: usize = 5;

pub(super) fn rank(send: &Send) -> Rank {
    match &send.body {
        Body::Acknowledge { .. } => Rank::Press,
        body if body.is_uploaded() && send.handling.unasked => Rank::UnaskedFile,
        body if body.is_uploaded() => Rank::AskedFile,
        _ if send.handling.unasked => Rank::Unasked,
        _ => Rank::Answer,
    }
}

/// The order within a chat.
pub(super) fn order(send: &Send) -> (bool, bool, i64) {
    let press = matches!(send.body, Body::Acknowledge { .. });
    (!press, send.handling.unasked, send.id)
}

/// Puts a message where it belongs; says at which place. Mostly that is the end.
pub(super) fn put_in(waiting: &mut VecDeque<Send>, send: Send) -> usize {
    let before = waiting.iter().rposition(|other| order(other) <= order(&send));
    let at = before.map_or(0, |before| before + 1);
    waiting.insert(at, send);
    at
}
