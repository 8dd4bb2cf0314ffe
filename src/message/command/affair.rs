//! The affairs of an outfit: its people, their chat, its data.

use serde::{Deserialize, Serialize};

use super::wording;
use crate::domain::Role;

/// Something to be done about people or the outfit's data.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Affair {
    /// `invite lead, 2 days, once`.
    Invite(Terms),
    /// `invite` with a word that is no term of an invite.
    InviteHow,
    /// `invites`.
    Invites,
    /// `cancel invites`.
    CancelInvites,
    /// `remove anna`.
    Remove(String),
    /// `make anna lead`.
    Make(String, Role),
    /// `hand over to anna`, and with `yes` behind it.
    HandOver(String, Sure),
    /// `I'm on heron today`.
    TodayOn(String),
    /// `no rig`.
    NoRig,
    /// `link crew chat`.
    LinkChat,
    /// `unlink crew chat`.
    UnlinkChat,
    /// `heron same membrane`.
    SameMembrane(String),
    /// `heron preserved`.
    Preserved(String),
    /// `export`.
    Export,
    /// `import`, with the pasted rows below it.
    Import(String),
    /// `import now`.
    TakeIn,
    /// `drop import`.
    DropImport,
    /// `undo import`.
    UndoImport,
    /// `day first` or `month first`, of dates such as 3/4/2026.
    DayFirst(bool),
    /// `changes`.
    Changes,
    /// `forget me`, and with `yes` behind it.
    ForgetMe(Sure),
    /// `close outfit`, and with its name behind it.
    Close(Option<String>),
    /// `keep outfit`.
    Keep,
}

/// Whether somebody said it with a `yes` behind it.
pub type Sure = bool;

/// For whom an invite is, and how long it lasts.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Terms {
    /// What whoever comes in may do.
    pub role: Option<Role>,
    /// Hours until it ends.
    pub hours: Option<u32>,
    /// How many people it lets in.
    pub uses: Option<u32>,
}

/// The affair that a text is, if it is one; commas set nothing apart here.
pub fn read(text: &str) -> Option<Affair> {
    let text = text.replace(',', " ");
    wording::find(&text).find_map(|(key, rest)| made(key, rest))
}

/// What a key of the tables makes of what was typed for its `*`.
pub fn made(key: &str, rest: &str) -> Option<Affair> {
    let short = |most: usize| (rest.split_whitespace().count() <= most).then(|| rest.to_owned());
    Some(match key {
        "invite" => Affair::Invite(Terms::default()),
        "invite as" => invite(rest)?,
        "invites" => Affair::Invites,
        "cancel invites" => Affair::CancelInvites,
        // "remove rig" lacks its name.
        "remove person" if wording::named("term", rest) == Some("rig") => return None,
        "remove person" => Affair::Remove(short(4)?),
        "make owner" => Affair::Make(short(4)?, Role::Owner),
        "make lead" => Affair::Make(short(4)?, Role::Lead),
        "make crew" => Affair::Make(short(4)?, Role::Crew),
        "hand over" => {
            let (name, sure) = surely(rest);
            (name.split_whitespace().count() <= 4).then(|| Affair::HandOver(name.to_owned(), sure))?
        }
        "today on" => Affair::TodayOn(short(3)?),
        "no rig" => Affair::NoRig,
        "link chat" => Affair::LinkChat,
        "unlink chat" => Affair::UnlinkChat,
        "same membrane" => Affair::SameMembrane(short(3)?),
        "preserved" => Affair::Preserved(short(3)?),
        "export" => Affair::Export,
        "import" => Affair::Import(String::new()),
        "take in" => Affair::TakeIn,
        "drop import" => Affair::DropImport,
        "undo import" => Affair::UndoImport,
        "day first" => Affair::DayFirst(true),
        "month first" => Affair::DayFirst(false),
        "changes" => Affair::Changes,
        "forget me" => {
            let (more, sure) = surely(rest);
            more.is_empty().then_some(Affair::ForgetMe(sure))?
        }
        "close" => Affair::Close(Some(rest.to_owned()).filter(|name| !name.is_empty())),
        "keep" => Affair::Keep,
        _ => return None,
    })
}

/// Rows below a first line that says `import`.
pub fn pasted(text: &str) -> Option<Affair> {
    let (first, rows) = text.trim_start().split_once('\n')?;
    let first = first.trim().trim_start_matches('/').trim_end_matches(':');
    let says_import = wording::find(first).any(|(key, _)| key == "import");
    says_import.then(|| Affair::Import(rows.to_owned()))
}

/// What stands before a closing `yes`, and whether there is one.
fn surely(text: &str) -> (&str, Sure) {
    let text = text.trim();
    let last = text.rsplit([' ', ',']).next().unwrap_or_default();
    if ["yes", "sí", "si", "sure"].contains(&last.to_lowercase().as_str()) {
        let before = text.get(..text.len() - last.len()).unwrap_or_default();
        return (before.trim_end_matches([' ', ',']), true);
    }
    (text, false)
}

const HOURS: [(&[&str], u32); 3] = [
    (&["hour", "hours", "h", "hora", "horas"], 1),
    (&["day", "days", "dia", "día", "dias", "días"], 24),
    (&["week", "weeks", "semana", "semanas"], 7 * 24),
];
const USES: [&str; 9] = [
    "use", "uses", "people", "person", "times", "persona", "personas", "usos", "veces",
];
const ONCE: [&str; 3] = ["once", "vez", "uso"];
const FILLERS: [&str; 16] = [
    "a", "an", "for", "one", "as", "and", "un", "una", "uno", "al", "por", "para", "de", "como", "y", "works",
];

/// The terms of an invite, in any order; none if most of it is talk.
fn invite(rest: &str) -> Option<Affair> {
    let mut terms = Terms::default();
    let (mut number, mut odd) = (None, 0);
    for word in rest.split([' ', ',']).filter(|word| !word.is_empty()) {
        let word = word.to_lowercase();
        let split = word.find(|letter: char| !letter.is_ascii_digit()).unwrap_or(word.len());
        let (digits, word) = word.split_at(split);
        if !digits.is_empty() {
            number = digits.parse::<u32>().ok();
        }
        let hours = HOURS.iter().find(|(words, _)| words.contains(&word));
        if let Some((_, hours)) = hours {
            terms.hours = Some(number.take().unwrap_or(1).saturating_mul(*hours));
        } else if USES.contains(&word) {
            terms.uses = Some(number.take().unwrap_or(1));
        } else if ONCE.contains(&word) {
            terms.uses = Some(1);
        } else if word == "twice" {
            terms.uses = Some(2);
        } else if let Some(role) = wording::named("role", word) {
            terms.role = Role::from_word(role);
        } else if !word.is_empty() && !FILLERS.contains(&word) {
            odd += 1;
        }
    }
    match odd {
        0 if number.is_none() => Some(Affair::Invite(terms)),
        0 | 1 => Some(Affair::InviteHow),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Command, read};
    use super::*;

    fn affair(text: &str) -> Option<Affair> {
        match read(text) {
            Some(Command::Affair(affair)) => Some(affair),
            _ => None,
        }
    }

    fn terms(role: Option<Role>, hours: Option<u32>, uses: Option<u32>) -> Option<Affair> {
        Some(Affair::Invite(Terms { role, hours, uses }))
    }

    #[test]
    fn an_invite_has_terms_in_any_order() {
        for (text, read) in [
            ("invite", terms(None, None, None)),
            ("invite lead", terms(Some(Role::Lead), None, None)),
            (
                "invite a lead, 2 days, once",
                terms(Some(Role::Lead), Some(48), Some(1)),
            ),
            ("invite 3 people for 12 hours", terms(None, Some(12), Some(3))),
            ("invite 2d", Some(Affair::InviteHow)),
            ("invitar 2 días", terms(None, Some(48), None)),
            ("invitar encargado una vez", terms(Some(Role::Lead), None, Some(1))),
            ("invitar 5 personas", terms(None, None, Some(5))),
            ("invite boss", Some(Affair::InviteHow)),
            ("invite 5", Some(Affair::InviteHow)),
            ("invite the lads over", None),
        ] {
            assert_eq!(affair(text), read, "{text}");
        }
    }

    #[test]
    fn affairs_are_worded_in_both_languages() {
        for (english, spanish, read) in [
            ("remove crew-2", "quitar a crew-2", Affair::Remove("crew-2".into())),
            (
                "make Anna an owner",
                "hacer dueña a Anna",
                Affair::Make("Anna".into(), Role::Owner),
            ),
            (
                "make anna lead",
                "hacer encargado a anna",
                Affair::Make("anna".into(), Role::Lead),
            ),
            (
                "hand over to lead",
                "traspasar a lead",
                Affair::HandOver("lead".into(), false),
            ),
            (
                "hand over to lead, yes",
                "traspasar a lead, sí",
                Affair::HandOver("lead".into(), true),
            ),
            (
                "I'm on heron today",
                "hoy estoy en heron",
                Affair::TodayOn("heron".into()),
            ),
            ("no rig", "sin equipo", Affair::NoRig),
            ("my rig none", "mi equipo ninguno", Affair::NoRig),
            ("link crew chat", "vincular chat", Affair::LinkChat),
            (
                "heron same membrane",
                "heron misma membrana",
                Affair::SameMembrane("heron".into()),
            ),
            ("heron preserved", "heron conservada", Affair::Preserved("heron".into())),
            ("export", "exportar", Affair::Export),
            ("import", "importar", Affair::Import(String::new())),
            ("import now", "importar ya", Affair::TakeIn),
            ("drop import", "descartar importación", Affair::DropImport),
            ("undo import", "deshacer importación", Affair::UndoImport),
            ("day first", "primero el día", Affair::DayFirst(true)),
            ("changes", "cambios", Affair::Changes),
            ("forget me", "olvídame", Affair::ForgetMe(false)),
            ("forget me yes", "olvídame sí", Affair::ForgetMe(true)),
            ("close outfit", "cerrar empresa", Affair::Close(None)),
            (
                "close outfit Blue Ladder",
                "cerrar empresa Blue Ladder",
                Affair::Close(Some("Blue Ladder".into())),
            ),
            ("keep outfit", "conservar empresa", Affair::Keep),
        ] {
            assert_eq!(affair(english), Some(read.clone()), "{english}");
            assert_eq!(affair(spanish), Some(read), "{spanish}");
        }
    }

    #[test]
    fn rows_below_import_are_handed_on() {
        assert_eq!(
            pasted("Import:\nrig;tap\nheron;180"),
            Some(Affair::Import("rig;tap\nheron;180".into()))
        );
        assert_eq!(pasted("heron 180 12\notter 200 20"), None);
        assert_eq!(pasted("import the new one\nheron"), None);
    }

    #[test]
    fn talk_is_no_affair() {
        for text in [
            "remove rig heron",
            "remove the old sediment filter from the van",
            "make sure heron is flushed",
            "forget me not flowers",
            "export of water",
            "invite the neighbours for coffee",
            "keep the ladder",
            "keep 0 years",
            "keep 5 litres",
        ] {
            assert_eq!(affair(text), None, "{text}");
        }
    }
}
