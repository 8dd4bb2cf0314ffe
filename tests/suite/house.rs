//! The test of the house: reads `src/` and says where a room names what it may
//! not. The plan stands in [`rooms`], the verdicts in [`breaches`], the
//! reading in [`source`] and [`paths`].
#![allow(clippy::panic, reason = "a test says by panicking what is wrong")]

mod breaches;
mod paths;
mod rooms;
pub mod source;

use std::fs;
use std::path::{Path, PathBuf};

const MAX_LINES: usize = 800;

#[test]
fn no_room_names_what_it_may_not() {
    let crates = crates_of(&read(&root().join("Cargo.toml")));
    assert!(crates.len() > 3, "Cargo.toml was misread: {crates:?}");
    let mut breaches = Vec::new();
    for path in files("src", "rs") {
        breaches.extend(breaches::breaches_in(&shown(&path), &read(&path), &crates));
    }
    assert!(breaches.is_empty(), "\n{}\n", breaches.join("\n"));
}

#[test]
fn no_file_has_two_jobs() {
    let mut breaches = Vec::new();
    for path in ["src", "tests", "benches"]
        .into_iter()
        .flat_map(|folder| files(folder, "rs"))
    {
        breaches.extend(too_long(&shown(&path), &read(&path)));
    }
    assert!(breaches.is_empty(), "\n{}\n", breaches.join("\n"));
}

/// The crate's folder.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// All files below a folder of the crate, in order, by ending.
pub fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let mut open = vec![root().join(folder)];
    let mut found = Vec::new();
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|is| is == ending) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// The whole text of a file.
pub fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// A path as people name it: from the crate's folder on.
pub fn shown(path: &Path) -> String {
    path.strip_prefix(root())
        .unwrap_or(path)
        .to_string_lossy()
        .replace('\\', "/")
}

/// The crates that code can name: what Cargo.toml lists, and Rust's own.
pub fn crates_of(manifest: &str) -> Vec<String> {
    let mut crates: Vec<String> = ["std", "core", "alloc"].map(str::to_owned).to_vec();
    let mut listing = false;
    for line in manifest.lines().map(str::trim) {
        if let Some(section) = line.strip_prefix('[') {
            let section = section.trim_end_matches(']');
            let (before, after) = section.rsplit_once("dependencies").unwrap_or(("-", ""));
            listing = matches!(before, "" | "dev-" | "build-") || before.ends_with('.');
            if let Some(name) = after.strip_prefix('.') {
                crates.push(name.replace('-', "_"));
                listing = false;
            }
        } else if let (true, Some((name, _))) = (listing && !line.starts_with('#'), line.split_once('=')) {
            let name = name.trim().split('.').next().unwrap_or_default();
            crates.push(name.trim_matches('"').replace('-', "_"));
        }
    }
    crates
}

fn too_long(file: &str, text: &str) -> Option<String> {
    let lines = text.lines().count();
    (lines > MAX_LINES).then(|| {
        format!("{file}:{MAX_LINES}: has {lines} lines and may have {MAX_LINES}, because a longer file has two jobs")
    })
}

#[test]
fn a_file_of_801_lines_is_too_long() {
    assert_eq!(too_long("src/a.rs", &"x\n".repeat(800)), None);
    assert!(
        too_long("src/a.rs", &"x\n".repeat(801)).is_some_and(|told| told.starts_with("src/a.rs:800: has 801 lines"))
    );
}
