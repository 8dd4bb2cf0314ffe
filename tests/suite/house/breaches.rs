//! What is wrong in one source file, each breach as
//! `file:line: room may not use X, because ...`.

use super::paths;
use super::rooms::{CLOCKS, NEVER_PURE, OWNED, ROOMS, Room};
use super::source::Source;

const PRINTING: [&str; 5] = ["print!", "println!", "eprint!", "eprintln!", "dbg!"];

/// What is wrong in one file, `src/store/rigs.rs` for example.
pub fn breaches_in(file: &str, text: &str, crates: &[String]) -> Vec<String> {
    let modules = modules_of(file);
    let name = modules.first().map_or("lib", String::as_str);
    let Some(room) = ROOMS.iter().find(|room| room.name == name) else {
        return vec![format!(
            "{file}:1: {name} may not use src/, because the plan in tests/suite/house/rooms.rs has no row for it"
        )];
    };
    let source = Source::read(text);
    let mut breaches = Vec::new();
    for named in paths::paths(&source.code) {
        let path = from_the_root(&named.parts, &modules);
        for because in reasons_against(room, file, &path, crates) {
            let used = path.join("::");
            breaches.push(format!(
                "{file}:{}: {name} may not use {used}, because {because}",
                source.line(named.at)
            ));
        }
    }
    // Leases and pauses go by the database's clock, since all copies share that one.
    let leased = ["clock", "leases", "sends", "send_leases", "chats"].map(|file| format!("src/store/{file}.rs"));
    if name == "store" && !leased.iter().any(|leased| leased == file) {
        breaches.extend(clocks_in_sql(file, &source));
    }
    breaches.dedup();
    breaches
}

/// `src/store/rigs.rs` is `["store", "rigs"]`, `src/lib.rs` is `[]`.
fn modules_of(file: &str) -> Vec<String> {
    let stem = file.trim_start_matches("src/").trim_end_matches(".rs");
    let mut modules: Vec<String> = stem.split('/').map(str::to_owned).collect();
    if modules.len() > 1 && modules.last().is_some_and(|last| last == "mod") {
        modules.pop();
    }
    modules
}

/// `super::rigs` in `crate::store::readings` is `crate::store::rigs`. The
/// library's own name, as `main.rs` uses it, is `crate` too.
fn from_the_root(parts: &[String], modules: &[String]) -> Vec<String> {
    let ups = parts.iter().take_while(|part| *part == "super").count();
    let (keep, skip) = match parts.first().map(String::as_str) {
        Some("super") => (modules.len().saturating_sub(ups), ups),
        Some("self") => (modules.len(), 1),
        Some("tapside") => (0, 1),
        _ => return parts.to_vec(),
    };
    let inside = modules.iter().take(keep).chain(parts.iter().skip(skip));
    std::iter::once("crate".to_owned()).chain(inside.cloned()).collect()
}

/// Why a room may not name a path, if it may not.
fn reasons_against(room: &Room, file: &str, parts: &[String], crates: &[String]) -> Vec<String> {
    let mut reasons = Vec::new();
    let path = parts.join("::");
    let last = parts.last().map_or("", String::as_str);
    if PRINTING.contains(&last) && (room.pure || matches!(room.name, "store" | "bot" | "clock")) {
        reasons.push("it must not print: what it has to say, it returns".to_owned());
    }
    if clock_read(&path) && !may_read_the_clock(room, last, parts) {
        reasons.push("only src/clock.rs reads the clock; everything else is told the time".to_owned());
    }
    let Some(first) = parts.first() else { return reasons };
    if first == "crate" {
        let inside = parts.get(1..).unwrap_or_default().join("::");
        let own = inside == room.name || inside.starts_with(&format!("{}::", room.name));
        if !own && !room.rooms.allow(&inside) {
            reasons.push(room.because.to_owned());
        }
        return reasons;
    }
    if !crates.contains(&first.trim_end_matches('!').to_owned()) {
        return reasons;
    }
    for (owned, owner, because) in OWNED {
        if first == owned
            && !file.starts_with(&format!("src/{owner}/"))
            && !file.starts_with(&format!("src/{owner}.rs"))
        {
            reasons.push(format!("only {owner} names it: {because}"));
        }
    }
    let never = room.pure
        && NEVER_PURE
            .iter()
            .any(|never| path == *never || path.starts_with(&format!("{never}::")));
    if reasons.is_empty() && (never || !room.crates.allow(&path)) {
        reasons.push(room.because.to_owned());
    }
    reasons
}

fn clock_read(path: &str) -> bool {
    CLOCKS
        .iter()
        .any(|clock| path == *clock || path.ends_with(&format!("::{clock}")))
}

/// A duration may be measured where the outside world is waited for.
fn may_read_the_clock(room: &Room, last: &str, parts: &[String]) -> bool {
    let monotonic = last == "now" && parts.iter().rev().nth(1).is_some_and(|kind| kind == "Instant");
    room.name == "clock" || monotonic && matches!(room.name, "serve" | "transport")
}

/// A database's clock is a second clock.
fn clocks_in_sql(file: &str, source: &Source) -> Vec<String> {
    let mut breaches = Vec::new();
    for literal in &source.literals {
        let sql = literal.text.to_lowercase();
        for clock in [
            "now()",
            "current_timestamp",
            "unixepoch(",
            "clock_timestamp",
            "strftime(",
        ] {
            if sql.contains(clock) {
                let line = source.line(literal.at);
                breaches.push(format!(
                    "{file}:{line}: store may not use {clock} in SQL, because every time is handed in"
                ));
            }
        }
    }
    breaches
}

#[cfg(test)]
mod tests {
    use super::super::crates_of;
    use super::breaches_in;

    fn breaches(file: &str, text: &str) -> Vec<String> {
        let crates = crates_of(
            "[dependencies]\nteloxide = { version = \"0\" }\ntext2num.workspace = true\nserde = \"1\"\nsqlx = \"0\"\n\
             fluent-bundle = \"0\"\ntokio = \"1\"\njiff = \"1\"\n[dependencies.tiny-skia]\nversion = \"0\"\n[profile.dev]\ndebug = 1\n",
        );
        assert_eq!(crates.len(), 11, "{crates:?}");
        breaches_in(file, text, &crates)
    }

    /// Each snippet, the room that it is put in, and what must be said of it.
    #[test]
    fn a_breach_is_seen_and_told() {
        for (file, text, told) in [
            (
                "src/water/wear.rs",
                "\nuse crate::store::Store;",
                "src/water/wear.rs:2: water may not use crate::store::Store, because a formula",
            ),
            (
                "src/water/wear.rs",
                "use crate::{water::State, message};",
                "water may not use crate::message, because",
            ),
            (
                "src/water/mod.rs",
                "fn f() { super::bot::hear() }",
                "water may not use crate::bot::hear, because",
            ),
            (
                "src/water/wear.rs",
                "fn f() { super::super::bot::g() }",
                "water may not use crate::bot::g, because",
            ),
            (
                "src/water/wear.rs",
                "use crate::*;",
                "water may not use crate::*, because",
            ),
            (
                "src/water.rs",
                "use jiff::Timestamp;",
                "water may not use jiff::Timestamp, because",
            ),
            (
                "src/water/wear.rs",
                "fn f() {\n    println!(\"x\");\n}",
                "wear.rs:2: water may not use println!, because it must not print",
            ),
            (
                "src/message/mod.rs",
                "use std::{collections::HashMap, fs};",
                "message may not use std::fs, because",
            ),
            (
                "src/message/mod.rs",
                "fn f() { let x = ::std::env::var(\"A\"); }",
                "message may not use std::env::var, because",
            ),
            (
                "src/message/mod.rs",
                "#[tokio::test] fn f() {}",
                "message may not use tokio::test, because",
            ),
            (
                "src/replies/words.rs",
                "use jiff::Timestamp;",
                "replies may not use jiff::Timestamp, because",
            ),
            (
                "src/replies/words.rs",
                "extern crate sqlx;",
                "replies may not use sqlx, because words are made",
            ),
            (
                "src/schedule.rs",
                "let x = jiff::Timestamp::now();",
                "schedule may not use jiff::Timestamp::now, because only src/clock.rs",
            ),
            (
                "src/bot/hear.rs",
                "fn f() { SystemTime::now() }",
                "bot may not use SystemTime::now, because only src/clock.rs",
            ),
            (
                "src/bot/hear.rs",
                "use crate::transport::telegram;",
                "bot may not use crate::transport::telegram, because",
            ),
            (
                "src/bot/hear.rs",
                "use std::time::Instant; fn f() { Instant::now(); }",
                "bot may not use Instant::now, because",
            ),
            (
                "src/bot/hear.rs",
                "use sqlx::{Acquire, query_as};",
                "bot may not use sqlx::query_as, because",
            ),
            (
                "src/serve.rs",
                "fn f(p: sqlx::AnyPool) {}",
                "serve may not use sqlx::AnyPool, because",
            ),
            (
                "src/serve.rs",
                "fn f() { chrono::Utc::now() }",
                "serve may not use chrono::Utc::now, because",
            ),
            (
                "src/serve.rs",
                "use teloxide::Bot;",
                "serve may not use teloxide::Bot, because only transport/telegram names it",
            ),
            (
                "src/transport/console.rs",
                "use teloxide::Bot;",
                "transport may not use teloxide::Bot, because only",
            ),
            (
                "src/transport/telegram/send.rs",
                "use crate::bot::Bot;",
                "transport may not use crate::bot::Bot, because it carries",
            ),
            (
                "src/transport/memory.rs",
                "use crate::store::sends::{due};",
                "transport may not use crate::store::sends::due, because",
            ),
            (
                "src/store/slots.rs",
                "const Q: &str = \"select now()\";",
                "src/store/slots.rs:1: store may not use now() in SQL",
            ),
            ("src/helpers.rs", "", "helpers may not use src/, because the plan"),
            (
                "src/main.rs",
                "use tapside::{serve}; fn f() { Utc::now() }",
                "main may not use Utc::now",
            ),
        ] {
            let found = breaches(file, text);
            assert_eq!(found.len(), 1, "{file}: {text}: {found:?}");
            assert!(found[0].contains(told), "{file}: {text}: {found:?}, not {told}");
        }
    }

    #[test]
    fn what_the_plan_allows_is_no_breach() {
        for (file, text) in [
            (
                "src/water/wear.rs",
                "use super::State; use serde::Serialize; use crate::water::{a, b}; // crate::store\nlet x = \"tokio::spawn\";",
            ),
            (
                "src/water/wear.rs",
                "fn f() {}\n#[cfg(test)]\nmod tests { use crate::store::Store; fn t() { println!(\"}\"); } }",
            ),
            (
                "src/message/mod.rs",
                "use deunicode::deunicode; use crate::water::quantity; fn f<'a>() { assert!(a != (b)); State::now(); }",
            ),
            (
                "src/replies/words.rs",
                "use fluent_bundle::FluentArgs; use jiff::civil::Date; use super::figures; fn f() { figures::ppm(1.0); }",
            ),
            ("src/chart/png.rs", "use resvg::tiny_skia::Pixmap;"),
            (
                "src/clock.rs",
                "use std::time::SystemTime; fn f() { SystemTime::now(); }",
            ),
            (
                "src/bot/hear.rs",
                "use crate::store::{self, StoreError}; use crate::replies::Words; use super::Bot;",
            ),
            (
                "src/transport/telegram/poll.rs",
                "use teloxide::Bot; use crate::domain::envelope::Incoming; use crate::domain::envelope::Sent; fn f() { std::time::Instant::now(); }",
            ),
            ("src/main.rs", "use tapside::serve; fn f() { println!(\"x\"); }"),
        ] {
            assert_eq!(breaches(file, text), Vec::<String>::new(), "{file}: {text}");
        }
    }
}
