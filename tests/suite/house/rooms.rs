//! The plan of the house: which rooms each room may name, which crates, and
//! why. A new room, or a new need of an old one, is a change of this table.

/// One room: a file or a folder of `src/`.
pub struct Room {
    /// Its name: `store` is `src/store.rs` or `src/store/`.
    pub name: &'static str,
    /// The rooms, or parts of rooms, that it may name. Its own is always among them.
    pub rooms: Names,
    /// The crates that it may name.
    pub crates: Names,
    /// No clock, input, output, database or printing.
    pub pure: bool,
    /// Completes "may not use X, because ...".
    pub because: &'static str,
}

/// A list of names.
pub enum Names {
    /// These.
    Only(&'static [&'static str]),
    /// All others.
    AllBut(&'static [&'static str]),
}

impl Names {
    /// Whether a path (`bot::envelope::Send`) is among them, by its beginning.
    pub fn allow(&self, path: &str) -> bool {
        let begins = |with: &str| {
            path.strip_prefix(with)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with("::"))
        };
        match self {
            Self::Only(names) => names.iter().any(|name| begins(name)),
            Self::AllBut(names) => !names.iter().any(|name| begins(name)),
        }
    }
}

use Names::{AllBut, Only};

/// What only one room may name, wherever the others stand: the crate, the room, why.
pub const OWNED: &[(&str, &str, &str)] = &[(
    "teloxide",
    "transport/telegram",
    "another chat platform must be one more folder in transport/, and no other change",
)];

/// What a pure room never names, beside what its row says.
pub const NEVER_PURE: &[&str] = &[
    "std::env",
    "std::fs",
    "std::io",
    "std::net",
    "std::os",
    "std::process",
    "std::thread",
    "std::time::Instant",
    "std::time::SystemTime",
    "tokio",
    "sqlx",
    "teloxide",
    "tracing",
];

/// What reads the clock.
pub const CLOCKS: &[&str] = &[
    "SystemTime::now",
    "Utc::now",
    "Local::now",
    "Timestamp::now",
    "Zoned::now",
    "OffsetDateTime::now_utc",
    "Instant::now",
];

/// The rooms, from the inside out.
pub const ROOMS: &[Room] = &[
    Room {
        name: "domain",
        rooms: Only(&[]),
        crates: Only(&["std", "core", "serde"]),
        pure: true,
        because: "everything speaks of it, so it speaks of nothing",
    },
    Room {
        name: "water",
        rooms: Only(&["domain"]),
        crates: Only(&["std", "core", "serde", "jiff::civil"]),
        pure: true,
        because: "a formula must be checkable by hand and cannot fail by anything but its input",
    },
    Room {
        name: "language",
        rooms: Only(&["domain"]),
        crates: Only(&["std", "core", "serde", "strsim", "deunicode"]),
        pure: true,
        because: "tokens and senses of words are the same whatever is said with them",
    },
    Room {
        name: "grammar",
        rooms: Only(&["domain", "language"]),
        crates: Only(&["std", "core", "serde", "strsim", "proptest", "proptest!"]),
        pure: true,
        because: "what a text means depends on the text and its scene, on nothing else",
    },
    Room {
        name: "message",
        rooms: Only(&["domain", "language", "water"]),
        crates: Only(&["std", "core", "serde", "strsim", "deunicode"]),
        pure: true,
        because: "what a command or setting says depends on its text, on nothing else",
    },
    Room {
        name: "replies",
        rooms: Only(&["domain", "water", "message", "digest", "chart"]),
        crates: Only(&["std", "core", "jiff::civil", "fluent_bundle", "unic_langid"]),
        pure: true,
        because: "words are made of facts that are handed in; it looks nothing up",
    },
    Room {
        name: "chart",
        rooms: Only(&["domain", "water"]),
        crates: Only(&[
            "std",
            "core",
            "resvg",
            "skrifa",
            "deunicode",
            "jiff::civil",
            "jiff::Span",
            "jiff::ToSpan",
        ]),
        pure: true,
        because: "a picture is made of facts that are handed in; the same facts give the same picture",
    },
    Room {
        name: "digest",
        rooms: Only(&["domain", "water"]),
        crates: Only(&["std", "core", "jiff::civil"]),
        pure: true,
        because: "what an owner should do this week follows from facts that are handed in",
    },
    Room {
        name: "papers",
        rooms: Only(&["domain", "water"]),
        crates: Only(&["std", "core", "chrono", "csv", "jiff::civil", "rust_xlsxwriter"]),
        pure: true,
        because: "a file is made of rows that are handed in, and is bytes until somebody sends it",
    },
    Room {
        name: "intake",
        rooms: Only(&["domain"]),
        crates: Only(&["std", "core", "csv", "deunicode", "jiff"]),
        pure: true,
        because: "what rows say depends on the rows; whose they are and what is new is the bot's to find",
    },
    Room {
        name: "schedule",
        rooms: Only(&[]),
        crates: Only(&["std", "core", "jiff"]),
        pure: true,
        because: "what falls due between two instants is arithmetic; who asks brings the instants",
    },
    Room {
        name: "clock",
        rooms: Only(&[]),
        crates: Only(&["std"]),
        pure: false,
        because: "it reads the clock and does nothing else",
    },
    Room {
        name: "store",
        rooms: Only(&["domain"]),
        crates: Only(&[
            "std",
            "core",
            "sqlx",
            "serde",
            "serde_json",
            "sha2",
            "thiserror",
            "tokio",
        ]),
        pure: false,
        because: "it keeps what it is given, and decides and words nothing",
    },
    Room {
        name: "outbox",
        rooms: Only(&["domain", "store", "clock"]),
        crates: Only(&[
            "std",
            "core",
            "futures_util",
            "tokio",
            "tracing",
            "proptest",
            "proptest!",
        ]),
        pure: false,
        because: "it holds what the store leased to it, and knows neither who wrote it nor how it is carried",
    },
    Room {
        name: "history",
        rooms: Only(&["domain", "water", "digest", "message", "schedule", "store"]),
        crates: Only(&["std", "core", "serde", "serde_json", "jiff", "thiserror"]),
        pure: false,
        because: "it is the only way from the store into the computation, and words nothing",
    },
    Room {
        name: "bot",
        rooms: Only(&[
            "domain", "water", "grammar", "message", "replies", "chart", "digest", "papers", "intake", "schedule",
            "store", "history", "outbox",
        ]),
        // Of sqlx the transaction, but no statement: all SQL stands in store/.
        crates: AllBut(&[
            "axum",
            "clap",
            "dotenvy",
            "reqwest",
            "teloxide",
            "std::env",
            "std::fs",
            "std::net",
            "sqlx::*",
            "sqlx::query",
            "sqlx::query_as",
            "sqlx::query_scalar",
            "sqlx::raw_sql",
            "sqlx::QueryBuilder",
        ]),
        pure: false,
        because: "it must answer the same on every transport and be told the time and the settings",
    },
    Room {
        name: "transport",
        rooms: Only(&["domain"]),
        crates: AllBut(&["clap", "dotenvy", "sqlx"]),
        pure: false,
        because: "it carries envelopes and does not know what is in them",
    },
    // The rim: wiring and subcommands, which may name every room, but hold no SQL.
    rim("lib", "it only lists the rooms"),
    rim("main", "it only reads the command line and calls a room"),
    rim("config", "it turns flags and environment into settings"),
    rim("serve", "it wires the rooms together"),
    rim("chat", "it is a subcommand"),
    rim("check", "it is a subcommand"),
    rim("outfits", "it is a subcommand"),
    rim("backup", "it is two subcommands"),
    rim("desk", "it is what the subcommands share"),
    rim("digest_files", "it is a subcommand"),
    rim("play", "it is a subcommand"),
    rim("read_lines", "it is a subcommand"),
    rim("spreadsheet", "it is a subcommand"),
];

const fn rim(name: &'static str, because: &'static str) -> Room {
    Room {
        name,
        rooms: AllBut(&[]),
        crates: AllBut(&["sqlx"]),
        pure: false,
        because,
    }
}
