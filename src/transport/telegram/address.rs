//! A chat's address and a message's key, written and read.
//!
//! A private chat and a person: `tg:12345`. A group: `#tg:-100123`, with
//! `/TOPIC` behind it for a topic of a forum. A message: `tg:CHAT/MESSAGE`.

/// A place to send to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// The platform's id of the chat.
    pub chat: i64,
    /// The topic within a forum.
    pub topic: Option<i64>,
}

/// A private chat's or a person's address.
pub fn of_person(id: i64) -> String {
    format!("tg:{id}")
}

/// A group's address.
pub fn of_group(id: i64, topic: Option<i64>) -> String {
    match topic {
        Some(topic) => format!("#tg:{id}/{topic}"),
        None => format!("#tg:{id}"),
    }
}

/// A message's key.
pub fn of_message(chat: i64, message: i64) -> String {
    format!("tg:{chat}/{message}")
}

/// Reads a chat's address.
pub fn place(address: &str) -> Option<Place> {
    if let Some(id) = address.strip_prefix("tg:") {
        return Some(Place {
            chat: id.parse().ok()?,
            topic: None,
        });
    }
    let group = address.strip_prefix("#tg:")?;
    let Some((chat, topic)) = group.split_once('/') else {
        return Some(Place {
            chat: group.parse().ok()?,
            topic: None,
        });
    };
    Some(Place {
        chat: chat.parse().ok()?,
        topic: Some(topic.parse().ok()?),
    })
}

/// Reads a message's key: the chat, and the message in it.
pub fn message(key: &str) -> Option<(i64, i64)> {
    let (chat, message) = key.strip_prefix("tg:")?.split_once('/')?;
    Some((chat.parse().ok()?, message.parse().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read_back() {
        assert_eq!(place(&of_person(12)), Some(Place { chat: 12, topic: None }));
        assert_eq!(
            place(&of_group(-1001, None)),
            Some(Place {
                chat: -1001,
                topic: None
            })
        );
        assert_eq!(
            place(&of_group(-1001, Some(7))),
            Some(Place {
                chat: -1001,
                topic: Some(7)
            })
        );
        assert_eq!(message(&of_message(-1001, 9)), Some((-1001, 9)));
        for other in ["", "tg:", "tg:x", "#tg:1/x", "console", "#console"] {
            assert_eq!(place(other), None, "{other}");
        }
        assert_eq!(message("tg:press:1"), None);
    }
}
