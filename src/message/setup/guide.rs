//! The words that steer the guide: begin, skip, stop, as assumed, same as another.

use deunicode::deunicode;
use serde::{Deserialize, Serialize};

use super::Step;

/// What somebody wants of the guide.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Guide {
    /// `set up`: begin, or go on where it was left.
    Begin,
    /// `set up heron`: one rig.
    BeginRig(String),
    /// `stop`, `later`.
    Stop,
    /// `skip`, `that fits`, `go on`: leave it as it is; of one question if a button said it.
    Pass(Option<Step>),
    /// `no`: it is otherwise, or not now, as the question was.
    No,
    /// `one by one`.
    OneByOne(Option<Step>),
    /// `otter same as heron`; no first name for the rig that is asked about.
    Same {
        /// The rig that gets the facts.
        rig: Option<String>,
        /// The rig that has them.
        like: String,
    },
    /// `all same as heron`: every rig that is not set up yet.
    AllSame(String),
}

const BEGIN: [&str; 8] = [
    "set up",
    "setup",
    "set up the outfit",
    "configurar",
    "configuracion",
    "seguir configurando",
    "go on with the set up",
    "configurar empresa",
];
const STOP: [&str; 11] = [
    "stop",
    "later",
    "not now",
    "stop set up",
    "parar",
    "para",
    "luego",
    "mas tarde",
    "despues",
    "ahora no",
    "dejarlo",
];
const PASS: [&str; 26] = [
    "skip",
    "pass",
    "next",
    "go on",
    "continue",
    "yes",
    "y",
    "ok",
    "okay",
    "right",
    "that fits",
    "fits",
    "correct",
    "dont know",
    "omitir",
    "saltar",
    "siguiente",
    "seguir",
    "continuar",
    "si",
    "vale",
    "correcto",
    "asi es",
    "esta bien",
    "no se",
    "adelante",
];
const ONE_BY_ONE: [&str; 5] = ["one by one", "ask me", "una por una", "uno por uno", "de una en una"];

/// What a text wants of the guide, if it is nothing else.
pub fn read(text: &str) -> Option<Guide> {
    let text = text.trim().trim_start_matches('/');
    if text.len() > 100 || text.contains('\n') {
        return None;
    }
    let plain = plain(text);
    let is = |words: &[&str]| words.contains(&plain.as_str());
    if is(&BEGIN) {
        return Some(Guide::Begin);
    }
    if is(&STOP) {
        return Some(Guide::Stop);
    }
    if is(&ONE_BY_ONE) {
        return Some(Guide::OneByOne(None));
    }
    if is(&["no", "nope"]) {
        return Some(Guide::No);
    }
    if is(&PASS) {
        return Some(Guide::Pass(None));
    }
    // A button says its question's word behind its own.
    if let Some((first, last)) = text.rsplit_once(' ')
        && let Some(step) = Step::of_word(last)
    {
        match first {
            "skip" => return Some(Guide::Pass(Some(step))),
            "one by one" => return Some(Guide::OneByOne(Some(step))),
            _ => {}
        }
    }
    for begin in ["set up ", "setup ", "configurar "] {
        if let Some(name) = plain.strip_prefix(begin)
            && name.split(' ').count() <= 3
        {
            return Some(Guide::BeginRig(name.to_owned()));
        }
    }
    same(&plain)
}

fn same(plain: &str) -> Option<Guide> {
    for link in ["the same as", "same as", "igual que", "como"] {
        let Some((before, like)) = format!(" {plain} ").split_once(&format!(" {link} ")).map(own) else {
            continue;
        };
        if like.is_empty() || like.split(' ').count() > 3 || before.split(' ').count() > 3 {
            return None;
        }
        return Some(match before.as_str() {
            "all" | "all the others" | "the others" | "todos" | "todos los demas" | "los demas" => Guide::AllSame(like),
            // "como heron" is also how people begin a question.
            "" if link == "como" => return None,
            "" => Guide::Same { rig: None, like },
            rig => Guide::Same {
                rig: Some(rig.trim_end_matches(" is").trim_end_matches(" es").to_owned()),
                like,
            },
        });
    }
    None
}

fn own((before, after): (&str, &str)) -> (String, String) {
    (before.trim().to_owned(), after.trim().to_owned())
}

/// Small letters without accents, words and figures alone, one space between.
pub(super) fn plain(text: &str) -> String {
    let plain: String = deunicode(text)
        .to_lowercase()
        .chars()
        .filter(|letter| *letter != '\'')
        .map(|letter| if letter.is_ascii_alphanumeric() { letter } else { ' ' })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::super::Part;
    use super::*;

    #[test]
    fn the_guide_is_steered_in_both_languages() {
        let same = |rig: Option<&str>, like: &str| Guide::Same {
            rig: rig.map(str::to_owned),
            like: like.to_owned(),
        };
        for (text, guide) in [
            ("Set up", Guide::Begin),
            ("/setup", Guide::Begin),
            ("configurar", Guide::Begin),
            ("set up Big Blue", Guide::BeginRig("big blue".into())),
            ("Configurar heron", Guide::BeginRig("heron".into())),
            ("STOP", Guide::Stop),
            ("más tarde", Guide::Stop),
            ("omitir", Guide::Pass(None)),
            ("Skip.", Guide::Pass(None)),
            ("Sí", Guide::Pass(None)),
            ("skip rig-7-resin", Guide::Pass(Some(Step::Rig(7, Part::Resin)))),
            ("one by one hours", Guide::OneByOne(Some(Step::Hours))),
            ("same as heron", same(None, "heron")),
            ("otter is the same as heron", same(Some("otter"), "heron")),
            ("otter igual que big blue", same(Some("otter"), "big blue")),
            ("all same as heron", Guide::AllSame("heron".into())),
        ] {
            assert_eq!(read(text), Some(guide), "{text}");
        }
    }

    #[test]
    fn talk_steers_nothing() {
        for text in [
            "stop the van",
            "skip the third window",
            "como va heron",
            "",
            "heron 180 12",
            "same as",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
