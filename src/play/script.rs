//! The notation of demo conversations, read and written. Pure.
//!
//! ```text
//! # A remark.
//! zone Europe/London
//! @ 2026-03-02 07:40
//! (crew-2 speaks es)
//! crew: heron 180 12
//!   bot: Heron 93.3 % - sound
//!        tap 180 -> RO 12 ppm
//! crew edits: heron 180 14
//!   bot: ...
//! crew in the group: heron 180 12
//!   bot: ...
//! (an empty database)
//! ```
//!
//! What the bot says stands indented; `bot to owner:` when it speaks to
//! somebody else than the one who spoke last.

use jiff::civil::DateTime;

use crate::desk::{Heard, Manner};

/// A line that makes something happen.
#[derive(Clone, Debug, PartialEq)]
pub enum Cue {
    /// Nothing happens: a remark or an empty line.
    Remark,
    /// The zone of the clock and of a new outfit.
    Zone(String),
    /// The clock is put to a local time.
    Clock(DateTime),
    /// From here on there is nothing in the database.
    EmptyDatabase,
    /// The platform tells that somebody uses a language.
    Speaks {
        /// Who.
        who: String,
        /// Its tag.
        language: String,
    },
    /// Somebody speaks.
    Line {
        /// Who.
        who: String,
        /// How.
        manner: Manner,
        /// What; further lines of one message follow indented by `|`.
        text: String,
    },
}

/// One cue as it stands in the script, and the answer below it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Line number of the cue, from 1.
    pub line: usize,
    /// The cue's own lines, as written.
    pub written: String,
    /// What it means.
    pub cue: Cue,
    /// The answer as written, lines joined by newlines; empty for silence.
    pub expected: String,
}

/// Reads a script.
///
/// # Errors
/// The number of a line that is neither cue nor answer, and what is wrong.
pub fn read(script: &str) -> Result<Vec<Step>, String> {
    let mut steps: Vec<Step> = Vec::new();
    for (index, line) in script.lines().enumerate() {
        let number = index + 1;
        if line.starts_with(' ') {
            let step = steps
                .last_mut()
                .ok_or(format!("line {number}: an answer before anybody spoke"))?;
            if let (Some(more), Cue::Line { text, .. }) = (line.trim_start().strip_prefix('|'), &mut step.cue) {
                text.push('\n');
                text.push_str(more.trim());
                step.written.push('\n');
                step.written.push_str(line);
                continue;
            }
            if !step.expected.is_empty() {
                step.expected.push('\n');
            }
            step.expected.push_str(line.trim_end());
            continue;
        }
        let cue = cue(line).ok_or(format!("line {number}: not understood: {line}"))?;
        steps.push(Step {
            line: number,
            written: line.to_owned(),
            cue,
            expected: String::new(),
        });
    }
    Ok(steps)
}

fn cue(line: &str) -> Option<Cue> {
    let line = line.trim_end();
    if line.is_empty() || line.starts_with('#') {
        return Some(Cue::Remark);
    }
    if let Some(zone) = line.strip_prefix("zone ") {
        return Some(Cue::Zone(zone.trim().to_owned()));
    }
    if let Some(time) = line.strip_prefix("@ ") {
        return DateTime::strptime("%Y-%m-%d %H:%M", time.trim()).ok().map(Cue::Clock);
    }
    if line == "(an empty database)" {
        return Some(Cue::EmptyDatabase);
    }
    if let Some((who, language)) = speaks(line) {
        return Some(Cue::Speaks {
            who: who.to_owned(),
            language: language.to_owned(),
        });
    }
    let (who, text) = spoken(line)?;
    let (who, manner) = manner(who);
    Some(Cue::Line {
        who: who.to_owned(),
        manner,
        text: text.to_owned(),
    })
}

/// The speaker's name, and how the line is meant.
pub fn manner(who: &str) -> (&str, Manner) {
    let ending = |ending: &str| who.strip_suffix(ending);
    match (ending(" edits"), ending(" in the group")) {
        (Some(who), _) => (who, Manner::Edits),
        (_, Some(who)) => (who, Manner::InGroup),
        _ => (who, Manner::Says),
    }
}

/// Who uses which language: `(crew speaks es)`.
pub fn speaks(line: &str) -> Option<(&str, &str)> {
    let said = line.trim().strip_prefix('(')?.strip_suffix(')')?;
    said.split_once(" speaks ")
}

/// A speaker before a colon: small letters, digits and hyphens.
pub fn spoken(line: &str) -> Option<(&str, &str)> {
    let (who, text) = line.split_once(':')?;
    let (name, _) = manner(who);
    let proper = name.starts_with(|letter: char| letter.is_ascii_lowercase())
        && name
            .bytes()
            .all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
    proper.then(|| (who, text.trim()))
}

/// What the bot said, as it is written below a cue.
pub fn write(heard: &[Heard], speaker: Option<&str>) -> String {
    heard
        .iter()
        .map(|heard| write_one(heard, speaker))
        .collect::<Vec<_>>()
        .join("\n")
}

fn write_one(heard: &Heard, speaker: Option<&str>) -> String {
    let head = if speaker == Some(heard.to.as_str()) {
        "bot: ".to_owned()
    } else {
        format!("bot to {}: ", heard.to)
    };
    let indent = " ".repeat(7);
    let mut lines = Vec::new();
    for (index, line) in heard.text.lines().enumerate() {
        let lead = if index == 0 {
            format!("  {head}")
        } else {
            indent.clone()
        };
        lines.push(format!("{lead}{line}").trim_end().to_owned());
    }
    if !heard.buttons.is_empty() {
        let buttons = heard
            .buttons
            .iter()
            .map(|label| format!("[{label}]"))
            .collect::<Vec<_>>()
            .join("  ");
        lines.push(format!("{indent}{buttons}"));
    }
    // An empty line inside an answer must still read as part of it.
    lines
        .iter()
        .map(|line| {
            if line.is_empty() {
                indent.clone() + "."
            } else {
                line.clone()
            }
        })
        .collect::<Vec<_>>()
        .join("\n")
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_script_is_read_line_by_line() {
        let steps = read("# hello\n@ 2026-03-02 07:40\ncrew-2: heron 180 12\n  | otter 200 10\n  bot: one\n       two\ncrew-2 edits: x\n").unwrap();
        assert_eq!(steps.len(), 4);
        assert_eq!(
            steps[2].cue,
            Cue::Line {
                who: "crew-2".into(),
                manner: Manner::Says,
                text: "heron 180 12\notter 200 10".into()
            }
        );
        assert_eq!(steps[2].expected, "  bot: one\n       two");
        assert_eq!(
            steps[3].cue,
            Cue::Line {
                who: "crew-2".into(),
                manner: Manner::Edits,
                text: "x".into()
            }
        );
    }

    #[test]
    fn a_language_is_given_to_somebody() {
        assert_eq!(
            read("(crew-2 speaks es)").unwrap()[0].cue,
            Cue::Speaks {
                who: "crew-2".into(),
                language: "es".into()
            }
        );
    }

    #[test]
    fn what_is_no_cue_is_named() {
        assert_eq!(
            read("Heron is fine").unwrap_err(),
            "line 1: not understood: Heron is fine"
        );
        assert!(read("  bot: hello").is_err());
    }
}
