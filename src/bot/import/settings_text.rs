//! Settings out of a text: each line is what somebody could type to set that
//! very value. Looks and changes nothing.

use std::collections::BTreeMap;

use crate::message::command::{self, Command};
use crate::message::setting::{self, Field, Reach, Setting, Wish, WishFor};
use crate::store::rigs::Rig;

use crate::bot::import::bad_lines::BadLine;
use crate::bot::request::Request;
use crate::bot::rig_names::{fold, proper_name};
use crate::bot::setting_conflicts::{lines_would_cross, name_taken};
use crate::bot::setting_values::set_value;
use crate::bot::zones::zone_named;

/// No outfit has more to set: a longer text is none of settings.
const MOST_LINES: usize = 2000;

/// What one line sets.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    Name(String),
    /// An IANA name.
    Zone(String),
    Setting {
        /// The rig's name, if it is for one rig.
        rig: Option<String>,
        setting: Setting,
    },
}

/// What a text of settings would change.
#[derive(Debug, Default)]
pub struct Settings {
    /// What is not so yet, in the order of the lines, each as it is written there.
    pub changes: Vec<(String, Told)>,
    /// Rigs that are not on the fleet, by folded name.
    pub new_rigs: BTreeMap<String, String>,
    /// Lines that say what holds already.
    pub known: usize,
    /// A line that would have old rows deleted: that is asked about by itself.
    pub keep: Option<String>,
    pub bad: Vec<BadLine>,
}

/// A line before it is weighed: its number, its text, what it sets.
type Line = (u64, String, Result<Told, &'static str>);

/// Reads a text of settings; none if no line of it sets anything.
pub(in crate::bot) fn settings(on: &Request<'_>, text: &str) -> Option<Settings> {
    let written = (1..)
        .zip(text.trim_start_matches('\u{feff}').lines())
        .map(|(number, line)| (number, line.trim()))
        .filter(|(_, line)| !line.is_empty() && !line.starts_with('#'))
        .take(MOST_LINES + 1);
    let written: Vec<(u64, &str)> = written.collect();
    if written.len() > MOST_LINES {
        return None;
    }
    let lines: Vec<Line> = written
        .into_iter()
        .map(|(number, line)| (number, line.to_owned(), told(on, line)))
        .collect();
    lines.iter().any(|(_, _, told)| told.is_ok()).then_some(())?;
    Some(weigh(on, lines))
}

fn is_line(setting: &Setting) -> bool {
    matches!(setting.field(), Field::WearingLine | Field::DueLine | Field::SpentLine)
}

fn told(on: &Request<'_>, line: &str) -> Result<Told, &'static str> {
    match command::read(line) {
        Some(Command::Name(name)) if name.chars().count() <= 60 => return Ok(Told::Name(name)),
        Some(Command::Zone(zone)) => {
            let (_, name) = zone_named(&zone).map_err(|_| "bad-no-zone")?;
            return Ok(Told::Zone(name));
        }
        _ => {}
    }
    let wished = of_fleet(&on.fleet, line).or_else(|| setting::read(line));
    let Some(WishFor {
        rig,
        wish: Wish::Set(setting),
        ..
    }) = wished
    else {
        return Err("bad-no-setting");
    };
    match (setting.field().reach(), &rig) {
        (Reach::Rig, None) => return Err("bad-needs-rig"),
        (Reach::Outfit, Some(_)) => return Err("bad-for-all"),
        _ => {}
    }
    let Some(typed) = rig else {
        return Ok(Told::Setting { rig: None, setting });
    };
    let known = on.rig_named(&typed).map(|rig| rig.name);
    let name = known.or_else(|| proper_name(&typed)).ok_or("bad-no-setting")?;
    Ok(Told::Setting {
        rig: Some(name),
        setting,
    })
}

/// A line that begins with the name of a rig, however many words that has.
fn of_fleet(fleet: &[Rig], line: &str) -> Option<WishFor> {
    let behind = |rig: &Rig| {
        let rest = line.get(rig.name.len()..)?;
        let same = line.get(..rig.name.len())?.to_lowercase() == rig.name.to_lowercase();
        let wished = setting::read(rest.strip_prefix(' ')?).filter(|wished| same && wished.rig.is_none())?;
        Some(WishFor {
            rig: Some(rig.name.clone()),
            ..wished
        })
    };
    fleet.iter().find_map(behind)
}

fn weigh(on: &Request<'_>, lines: Vec<Line>) -> Settings {
    let crossed = lines_would_cross(
        &on.rules,
        lines.iter().filter_map(|(_, _, told)| match told {
            Ok(Told::Setting { setting, .. }) => Some(setting),
            _ => None,
        }),
    );
    let mut settings = Settings::default();
    let mut short_names: BTreeMap<String, String> = BTreeMap::new();
    for (number, line, told) in lines {
        let told = match told {
            Ok(Told::Setting { setting, .. }) if setting.field() == Field::Keep => {
                settings.keep = Some(line);
                continue;
            }
            Ok(Told::Setting { setting, .. }) if crossed && is_line(&setting) => Err("bad-lines-cross"),
            Ok(Told::Setting {
                rig: Some(ref rig),
                ref setting,
            }) if setting
                .get()
                .is_some_and(|names: Vec<String>| is_taken(on, &names, rig, &mut short_names)) =>
            {
                Err("bad-name-taken")
            }
            other => other,
        };
        match told {
            Err(why) => settings.bad.push(BadLine {
                line: number,
                why,
                cell: line,
            }),
            Ok(told) if holds(on, &told) => settings.known += 1,
            Ok(told) => {
                if let Told::Setting { rig: Some(rig), .. } = &told
                    && on.rig_named(rig).is_none()
                {
                    settings.new_rigs.insert(fold(rig), rig.clone());
                }
                settings.changes.push((line, told));
            }
        }
    }
    settings
}

/// Whether a short name means another rig, on the fleet or among these lines.
fn is_taken(on: &Request<'_>, names: &[String], rig: &str, seen: &mut BTreeMap<String, String>) -> bool {
    let own = on.rig_named(rig);
    if name_taken(on, names, own.as_ref()).is_some() {
        return true;
    }
    names
        .iter()
        .any(|name| *seen.entry(fold(name)).or_insert_with(|| fold(rig)) != fold(rig))
}

/// Whether that is so already.
fn holds(on: &Request<'_>, told: &Told) -> bool {
    match told {
        Told::Name(name) => *name == on.outfit.name,
        Told::Zone(zone) => *zone == on.outfit.zone,
        Told::Setting { rig: None, setting } => set_value(&on.rules, setting.field(), None).as_ref() == Some(setting),
        Told::Setting {
            rig: Some(rig),
            setting,
        } => on
            .rig_named(rig)
            .is_some_and(|rig| set_value(&on.rules, setting.field(), Some(rig.id)).as_ref() == Some(setting)),
    }
}
