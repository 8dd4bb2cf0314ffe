//! The menu of commands: which there are, who sees which, and which of them
//! the platform has not been told yet.
//!
//! A menu is a convenience: what somebody may do is checked when they do it.

use sha2::{Digest, Sha256};

use crate::domain::envelope::{Menu, MenuEntry, MenuPlace};
use crate::replies::Words;
use crate::replies::words::LANGUAGES;
use crate::store::people::Role;
use crate::store::{StoreError, invites, menus};

use super::Bot;

/// Every command of the menu, in its order: what is typed, the key of its
/// description, and whether only those see it who look after the outfit.
const COMMANDS: [(&str, &str, bool); 10] = [
    ("fleet", "menu-fleet", false),
    ("picture", "menu-picture", false),
    ("history", "menu-history", false),
    ("digest", "menu-digest", true),
    ("spreadsheet", "menu-spreadsheet", true),
    ("settings", "menu-settings", true),
    ("undo", "menu-undo", false),
    ("people", "menu-people", true),
    ("invite", "menu-invite", true),
    ("help", "menu-help", false),
];

impl Bot {
    /// At most so many menus that the platform has not been told, or told
    /// otherwise: everybody's in each language, and one for each owner and lead.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn menus_to_tell(&self, most: usize) -> Result<Vec<Menu>, StoreError> {
        let mut tx = self.store.begin().await?;
        let leads = menus::leads(&mut tx).await?;
        let mut told = menus::told(&mut tx).await?;
        drop(tx);
        let mut wanted = everybody();
        wanted.extend(leads.iter().map(|(chat, language, role)| Menu {
            place: MenuPlace::Chat(chat.clone()),
            entries: entries(Words::of(language.as_deref()), *role),
        }));
        let mut changed: Vec<Menu> = wanted
            .into_iter()
            .filter(|menu| told.remove(&name(&menu.place)).as_deref() != Some(hash(menu).as_str()))
            .collect();
        // Whoever leads no longer sees everybody's again.
        changed.extend(told.keys().filter_map(|name| {
            Some(Menu {
                place: MenuPlace::Chat(name.strip_prefix("chat/")?.to_owned()),
                entries: Vec::new(),
            })
        }));
        changed.truncate(most);
        Ok(changed)
    }

    /// The platform was told.
    ///
    /// # Errors
    /// Whatever the database says; then it is told once more.
    pub async fn menu_told(&self, menu: &Menu) -> Result<(), StoreError> {
        let mut tx = self.store.begin().await?;
        let hash = (!menu.entries.is_empty()).then(|| hash(menu));
        menus::note(&mut tx, &name(&menu.place), hash.as_deref()).await?;
        tx.commit().await?;
        Ok(())
    }
}

/// What somebody of this role sees, in these words.
pub fn entries(words: Words, role: Role) -> Vec<MenuEntry> {
    COMMANDS
        .iter()
        .filter(|(_, _, leads_only)| role.leads() || !leads_only)
        .map(|(command, key, _)| MenuEntry {
            command: (*command).to_owned(),
            description: words.plain(key),
        })
        .collect()
}

/// Crew's commands: the first language for all whose language has no texts,
/// and every other for those who have it.
fn everybody() -> Vec<Menu> {
    LANGUAGES
        .iter()
        .enumerate()
        .map(|(index, (tag, _))| Menu {
            place: MenuPlace::Everybody((index > 0).then(|| (*tag).to_owned())),
            entries: entries(Words::of(Some(*tag)), Role::Crew),
        })
        .collect()
}

fn name(place: &MenuPlace) -> String {
    match place {
        MenuPlace::Everybody(None) => "everybody".to_owned(),
        MenuPlace::Everybody(Some(language)) => format!("everybody/{language}"),
        MenuPlace::Chat(address) => format!("chat/{address}"),
    }
}

fn hash(menu: &Menu) -> String {
    let mut hash = Sha256::new();
    for entry in &menu.entries {
        hash.update(format!("{}\n{}\n", entry.command, entry.description));
    }
    invites::hex(&hash.finalize())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::message::command;

    #[test]
    fn every_command_of_the_menu_is_one_and_says_what_it_does() {
        for (tag, _) in LANGUAGES {
            for entry in entries(Words::of(Some(tag)), Role::Owner) {
                let name = &entry.command;
                assert!(command::read(&format!("/{name}")).is_some(), "/{name}");
                assert!(command::read(name).is_some(), "{name}, for those who type");
                // The platform's limits.
                assert!(name.len() <= 32 && name.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_'));
                assert!((3..=256).contains(&entry.description.chars().count()), "{tag}: {name}");
                assert!(!entry.description.starts_with("menu-"), "{tag}: {name}");
            }
        }
    }

    #[test]
    fn crew_are_not_offered_what_they_may_not_do() {
        let offered = |role| {
            let entries = entries(Words::of(None), role);
            entries
                .into_iter()
                .map(|entry| entry.command)
                .collect::<Vec<_>>()
                .join(" ")
        };
        assert_eq!(offered(Role::Crew), "fleet picture history undo help");
        assert_eq!(
            offered(Role::Lead),
            "fleet picture history digest spreadsheet settings undo people invite help"
        );
    }
}
