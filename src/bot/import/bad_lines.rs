//! Lines that cannot be read, in words.

use crate::replies::Words;
use crate::replies::data::whole;

/// Enough of a cell to find it by.
const LETTERS: usize = 40;

/// A line that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BadLine {
    /// From 1.
    pub line: u64,
    /// The key of the text that says what is wrong.
    pub why: &'static str,
    /// What stands there.
    pub cell: String,
}

pub(in crate::bot) fn bad_lines(words: Words, title: &'static str, bad: &[BadLine], named: usize) -> Vec<String> {
    let count = |key: &'static str, count: usize| words.say(key, [("count", whole(count).into())]);
    let mut lines = Vec::new();
    if bad.is_empty() {
        return lines;
    }
    lines.push(count(title, bad.len()));
    // To count a single row takes as much room as to name it.
    let named = if bad.len() == named + 1 { bad.len() } else { named };
    lines.extend(bad.iter().take(named).map(|bad| bad_line(words, bad)));
    if bad.len() > named {
        lines.push(count("import-more-bad", bad.len() - named));
    }
    lines
}

fn bad_line(words: Words, bad: &BadLine) -> String {
    let why = words.plain(bad.why);
    let line = bad.line.to_string();
    let cell: String = bad.cell.chars().take(LETTERS).collect();
    let facts = [
        ("line", (&line).into()),
        ("why", (&why).into()),
        ("cell", (&cell).into()),
    ];
    if cell.is_empty() {
        words.say("bad-line", facts)
    } else {
        words.say("bad-line-cell", facts)
    }
}
