//! A message cut into pieces that a platform takes. It is cut before it is
//! queued, so that a piece that fails is tried again alone.

use super::{Attachment, Body};

/// The longest text, in UTF-16 units.
pub const MOST_TEXT_UNITS: usize = 4096;

/// The longest caption, in UTF-16 units.
pub const MOST_CAPTION_UNITS: usize = 1024;

/// The most pictures that are shown together.
pub const MOST_PICTURES: usize = 10;

/// A piece that goes on starts with an empty line, so that its first line is
/// not taken for a verdict; platforms do not show it.
const GOES_ON: &str = "\n";

impl Body {
    /// The same message, as one or more that a platform takes. Buttons go with
    /// the last words; what answers under a message does so with the first.
    pub fn pieces(self) -> Vec<Self> {
        match self {
            Self::Say {
                text,
                buttons,
                reply_to,
            } => {
                let mut pieces = say(split(&text, MOST_TEXT_UNITS), reply_to);
                if let Some(Self::Say { buttons: below, .. }) = pieces.last_mut() {
                    *below = buttons;
                }
                pieces
            }
            Self::Pictures {
                pictures,
                caption,
                reply_to,
            } => albums(pictures, split(&caption, MOST_CAPTION_UNITS), reply_to),
            Self::Document {
                file,
                caption,
                reply_to,
            } => {
                let mut texts = split(&caption, MOST_CAPTION_UNITS);
                let first = Self::Document {
                    file,
                    caption: take_first(&mut texts),
                    reply_to,
                };
                [first].into_iter().chain(say(texts, None)).collect()
            }
            Self::Drawings { .. } | Self::Export { .. } | Self::Acknowledge { .. } => vec![self],
        }
    }
}

/// How long a text is as platforms count, in UTF-16 units.
pub fn units(text: &str) -> usize {
    text.chars().map(char::len_utf16).sum()
}

/// The longest beginning of a text that has at most so many units.
pub fn fitting(text: &str, most_units: usize) -> &str {
    let mut room = most_units;
    let end = text
        .char_indices()
        .find(|(_, char)| {
            let fits = char.len_utf16() <= room;
            room = room.saturating_sub(char.len_utf16());
            !fits
        })
        .map_or(text.len(), |(at, _)| at);
    text.get(..end).unwrap_or_default()
}

fn say(texts: Vec<String>, reply_to: Option<String>) -> Vec<Body> {
    let mut under = reply_to;
    texts
        .into_iter()
        .map(|text| Body::Say {
            text,
            buttons: Vec::new(),
            reply_to: under.take(),
        })
        .collect()
}

fn albums(pictures: Vec<Attachment>, mut texts: Vec<String>, reply_to: Option<String>) -> Vec<Body> {
    if pictures.is_empty() {
        return say(texts, reply_to);
    }
    let mut caption = take_first(&mut texts);
    let mut under = reply_to;
    let albums = pictures.chunks(MOST_PICTURES).map(|album| Body::Pictures {
        pictures: album.to_vec(),
        caption: std::mem::take(&mut caption),
        reply_to: under.take(),
    });
    albums.collect::<Vec<_>>().into_iter().chain(say(texts, None)).collect()
}

fn take_first(texts: &mut Vec<String>) -> String {
    if texts.is_empty() {
        String::new()
    } else {
        texts.remove(0)
    }
}

/// Splits at the first length, and what is left at a text's length.
fn split(text: &str, first_units: usize) -> Vec<String> {
    let mut pieces = Vec::new();
    let mut rest = text;
    let mut most = first_units;
    loop {
        let lead = if pieces.is_empty() { "" } else { GOES_ON };
        let (piece, left) = break_off(rest, most - units(lead));
        pieces.push(format!("{lead}{piece}"));
        if left.trim().is_empty() {
            return pieces;
        }
        rest = left;
        most = MOST_TEXT_UNITS;
    }
}

/// What goes now and what is left: whole lines if they fill half of the room,
/// else whole words, else whatever fits.
fn break_off(text: &str, most_units: usize) -> (&str, &str) {
    let fitting = fitting(text, most_units);
    if fitting.len() == text.len() {
        return (text, "");
    }
    // A break right behind what fits is the best of all.
    let with_next = text
        .get(..fitting.len() + 1)
        .filter(|with_next| with_next.ends_with(['\n', ' ']))
        .unwrap_or(fitting);
    let end = ['\n', ' ']
        .into_iter()
        .filter_map(|at| with_next.rfind(at))
        .find(|end| *end > fitting.len() / 2);
    match end {
        Some(end) => (
            text.get(..end).unwrap_or_default(),
            text.get(end + 1..).unwrap_or_default(),
        ),
        None => (fitting, text.get(fitting.len()..).unwrap_or_default()),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::Button;
    use super::*;

    fn text_of(body: &Body) -> &str {
        match body {
            Body::Say { text, .. } => text,
            Body::Pictures { caption, .. } | Body::Drawings { caption, .. } | Body::Document { caption, .. } => caption,
            Body::Export { .. } | Body::Acknowledge { .. } => "",
        }
    }

    fn picture(number: i64) -> Attachment {
        Attachment {
            name: format!("{number}.png"),
            blob: number,
        }
    }

    #[test]
    fn a_long_text_breaks_at_lines_and_its_buttons_come_last() {
        let line = "Heron 93.3 % - sound, tap 180 -> RO 12 ppm";
        let list = vec![line; 250].join("\n");
        let buttons = vec![Button {
            label: "More".to_owned(),
            token: "t".to_owned(),
        }];
        let pieces = Body::Say {
            text: list.clone(),
            buttons: buttons.clone(),
            reply_to: Some("tg:1/2".to_owned()),
        }
        .pieces();
        assert_eq!(pieces.len(), 3);
        let texts: Vec<&str> = pieces.iter().map(text_of).collect();
        assert_eq!(texts.concat(), list, "each further piece starts with the line break");
        assert!(texts.iter().all(|text| text.ends_with(line)));
        let shape = |body: &Body| match body {
            Body::Say { buttons, reply_to, .. } => (buttons.len(), reply_to.is_some()),
            _ => (9, false),
        };
        assert_eq!(
            pieces.iter().map(shape).collect::<Vec<_>>(),
            [(0, true), (0, false), (1, false)]
        );
    }

    #[test]
    fn a_text_of_just_the_longest_length_is_one_piece() {
        for drop in ["x", "\u{1f4a7}"] {
            let longest = drop.repeat(MOST_TEXT_UNITS / drop.chars().map(char::len_utf16).sum::<usize>());
            let pieces = |text: String| {
                let say = Body::Say {
                    text,
                    buttons: Vec::new(),
                    reply_to: None,
                };
                say.pieces().len()
            };
            assert_eq!((pieces(longest.clone()), pieces(longest + "x")), (1, 2), "{drop}");
        }
    }

    #[test]
    fn a_long_caption_goes_on_as_a_text_and_eleven_pictures_are_two_albums() {
        let caption = vec!["a line of a caption"; 60].join("\n");
        let pieces = Body::Pictures {
            pictures: (1..=11).map(picture).collect(),
            caption: caption.clone(),
            reply_to: None,
        }
        .pieces();
        let counts: Vec<usize> = pieces.iter().map(|piece| piece.attachments().len()).collect();
        assert_eq!(counts, [10, 1, 0]);
        assert!(units(text_of(&pieces[0])) <= MOST_CAPTION_UNITS);
        assert_eq!(text_of(&pieces[1]), "");
        assert_eq!(format!("{}{}", text_of(&pieces[0]), text_of(&pieces[2])), caption);
    }

    proptest! {
        #[test]
        fn nothing_is_lost_and_nothing_is_too_long(text in "(\\PC|\n| ){0,300}", times in 1_usize..60, document: bool) {
            let text = text.repeat(times);
            let body = if document {
                Body::Document { file: picture(1), caption: text.clone(), reply_to: None }
            } else {
                Body::Say { text: text.clone(), buttons: Vec::new(), reply_to: None }
            };
            let pieces = body.pieces();
            for piece in &pieces {
                let most = if piece.attachments().is_empty() { MOST_TEXT_UNITS } else { MOST_CAPTION_UNITS };
                prop_assert!(units(text_of(piece)) <= most);
            }
            let solid = |text: &str| text.chars().filter(|char| !char.is_whitespace()).collect::<String>();
            prop_assert_eq!(solid(&pieces.iter().map(text_of).collect::<String>()), solid(&text));
        }
    }
}
