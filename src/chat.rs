//! `tapside chat`: the bot in the terminal, no token and no set-up. You speak
//! as the owner; `crew: heron 180 12` speaks as somebody else. Reads a pipe too.

use std::io::{BufRead, IsTerminal, Write};

use crate::bot::Tokens;
use crate::clock;
use crate::desk::{Desk, Heard};
use crate::play::{Files, script};
use crate::store::Store;

/// Talks until the input ends; pictures and files go to `files`.
///
/// # Errors
/// When the terminal or the database fails.
pub async fn run(database: &str, zone: String, files: &mut Files) -> anyhow::Result<()> {
    let store = Store::open(database).await?;
    store.migrate().await?;
    let session = Tokens::Random.draw()?;
    let mut desk = Desk::new(store.clone(), zone, Tokens::Random, session);
    if files.is_wanted() {
        desk.draw();
    }
    let prompt = std::io::stdin().is_terminal() && std::io::stdout().is_terminal();
    let mut out = std::io::stdout();
    if prompt {
        writeln!(
            out,
            "You speak as the owner. As somebody else: crew: heron 180 12   A button: [its label]   Another language: (crew speaks es)   End: Ctrl-D"
        )?;
    }
    let mut show = |heard: &[Heard], speaker: &str| -> anyhow::Result<()> {
        files.keep(heard)?;
        if !heard.is_empty() {
            writeln!(out, "{}", script::write(heard, Some(speaker)))?;
        }
        Ok(())
    };
    show(&desk.settle_in(clock::now()).await?, "owner")?;
    let mut line = String::new();
    loop {
        if prompt {
            print_prompt()?;
        }
        line.clear();
        let mut bytes = Vec::new();
        if std::io::stdin().lock().read_until(b'\n', &mut bytes)? == 0 {
            break;
        }
        line.push_str(&String::from_utf8_lossy(&bytes));
        let now = clock::now();
        show(&desk.time_passes(now).await?, "owner")?;
        let typed = line.trim();
        if typed.is_empty() {
            continue;
        }
        if let Some((who, language)) = script::speaks(typed) {
            desk.speaks(who, language);
            continue;
        }
        let (who, text) = addressed(typed);
        let (who, manner) = script::manner(who);
        show(&desk.says(who, manner, text, now).await?, who)?;
    }
    store.close().await;
    Ok(())
}

/// A speaker's name before a colon is one of the roles, a stranger or a
/// newcomer; any other word before a colon is part of what the owner says, as
/// in `heron: 180 12`.
fn addressed(line: &str) -> (&str, &str) {
    let known = |who: &str| {
        let (name, _) = script::manner(who);
        let stem = name.split('-').next().unwrap_or(name);
        matches!(stem, "owner" | "lead" | "crew" | "stranger" | "newcomer")
    };
    script::spoken(line)
        .filter(|(who, _)| known(who))
        .unwrap_or(("owner", line))
}

fn print_prompt() -> std::io::Result<()> {
    let mut out = std::io::stdout();
    write!(out, "> ")?;
    out.flush()
}

#[cfg(test)]
mod tests {
    use super::addressed;

    #[test]
    fn a_speaker_is_told_from_a_rig_before_a_colon() {
        assert_eq!(addressed("crew: heron 180 12"), ("crew", "heron 180 12"));
        assert_eq!(
            addressed("crew-2 edits: heron 180 12"),
            ("crew-2 edits", "heron 180 12")
        );
        assert_eq!(addressed("heron: 180 12"), ("owner", "heron: 180 12"));
        assert_eq!(addressed("at 7:40 heron 180 12"), ("owner", "at 7:40 heron 180 12"));
    }
}
