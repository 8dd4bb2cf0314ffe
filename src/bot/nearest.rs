//! Half-typed settings and commands: the nearest right example, with this
//! outfit's rigs and values, for those who may do it.

use crate::message::command;
use crate::message::setting::{
    self, Degrees, Field, Meant, Nearest, PressureUnit, Reach, SetBy, Setting, Stands, VolumeUnit,
};
use crate::message::{Meaning, command::Page};
use crate::replies::help;
use crate::replies::settings::typed;
use crate::store::StoreError;
use crate::store::people::Role;

use super::answer::Answer;
use super::turn::Turn;

/// Commands that only owners and leads are shown.
const OF_LEADS: [&str; 11] = [
    "add rigs",
    "remove rig",
    "name",
    "zone",
    "roles",
    "hand over",
    "remove person",
    "set up",
    "same as",
    "parts",
    "link chat",
];

impl Turn<'_> {
    /// The example for what can hardly be anything but a setting, although the
    /// reader finds half a reading in it, or nothing.
    pub(super) async fn meant_to_set(&mut self, text: &str, meaning: &Meaning) -> Result<Option<Answer>, StoreError> {
        let Some(nearest) = self.nearest_setting(text).filter(|nearest| nearest.sure) else {
            return Ok(None);
        };
        let mut rest = meaning.clone();
        rest.ask = None;
        // "resin price?" asks what is set, and "resumen martes" no summary.
        if !matches!(nearest.meant, Meant::Field(_)) {
            rest.queries.clear();
        }
        if rest != Meaning::default() || (self.incoming.chat.group && !self.is_addressed().await?) {
            return Ok(None);
        }
        Ok(self.set_like_this(&nearest, true))
    }

    /// The example for what seems to be half a setting or command.
    pub(super) fn half_typed(&self, text: &str) -> Option<Answer> {
        let set = || self.set_like_this(&self.nearest_setting(text)?, false);
        set().or_else(|| self.command_like_this(text))
    }

    fn nearest_setting(&self, text: &str) -> Option<Nearest> {
        setting::nearest(text, |name| self.rig_named(name).is_some())
    }

    /// How a setting is typed. Who may not set it is told so, or given no
    /// example if it could as well be talk.
    fn set_like_this(&self, nearest: &Nearest, sure: bool) -> Option<Answer> {
        let rig = match &nearest.rig {
            Some(name) => Some(self.rig_named(name)?),
            None => None,
        };
        let field = nearest.meant.field();
        let (may, who) = match field.set_by() {
            SetBy::Owner => (self.member.role == Role::Owner, "who-owner"),
            SetBy::Leads => (self.member.role.leads(), "who-leads"),
        };
        if !may {
            return sure.then(|| self.may_not(who));
        }
        let held = self.set_value(field, rig.as_ref().map(|rig| rig.id));
        let shown = |setting: &Setting| typed(self.words, setting, self.ways());
        let examples = match (&nearest.meant, &held) {
            (Meant::Value(setting), _) | (Meant::Name(_), Some(setting)) => vec![shown(setting)],
            (_, held) => match (choices(field), held) {
                (Some(choices), _) => choices.iter().map(shown).collect(),
                (None, Some(held)) => vec![shown(held)],
                (None, None) => vec![self.example_of(field)],
            },
        };
        let before = match (field.reach(), &rig) {
            (Reach::Outfit, _) | (Reach::Either, None) => String::new(),
            (_, Some(rig)) => format!("{} ", rig.name.to_lowercase()),
            (Reach::Rig, None) => format!("{} ", self.known_rig().to_lowercase()),
        };
        self.bot
            .note_tried(&self.incoming.person.address, page_of(field), self.now);
        let examples: Vec<String> = examples.iter().map(|example| format!("{before}{example}")).collect();
        let example = examples.join(" - ");
        Some(Answer::says(match (&nearest.meant, held) {
            (Meant::Name(_), Some(_)) => self.words.say("hint-now", [("example", (&example).into())]),
            _ => help::like_this(self.words, &example),
        }))
    }

    fn command_like_this(&self, text: &str) -> Option<Answer> {
        let (rig, said) = self.behind_a_rig(text);
        let (key, rest) = command::nearest(said)?;
        if OF_LEADS.contains(&key) && !self.member.role.leads() {
            return None;
        }
        // These want a rig, and what was typed is none.
        let of_a_rig = matches!(key, "picture" | "resin picture" | "money picture" | "set up");
        if of_a_rig && !rest.is_empty() && self.rig_named(rest).is_none() {
            return Some(self.unknown_rig(rest));
        }
        let rig = rig.unwrap_or_else(|| self.known_rig());
        let example = help::half_typed(self.words, key, &rig, &self.other_rig(&rig))?;
        Some(Answer::says(help::like_this(self.words, &example)))
    }

    /// A rig that a text begins with, and what stands behind its name.
    fn behind_a_rig<'a>(&self, text: &'a str) -> (Option<String>, &'a str) {
        let ends = text.match_indices(' ').map(|(at, _)| at).take(3);
        let mut named = ends.filter_map(|end| {
            let rig = self.rig_named(&text[..end])?;
            Some((Some(rig.name), text[end..].trim()))
        });
        named.next().unwrap_or((None, text))
    }
}

/// Both values of a setting that has no others.
fn choices(field: Field) -> Option<[Setting; 2]> {
    Some(match field {
        Field::Digest => [true, false].map(Setting::Digest),
        Field::Nudges => [true, false].map(Setting::Nudges),
        Field::Notices => [true, false].map(Setting::Notices),
        Field::Degrees => [Degrees::Celsius, Degrees::Fahrenheit].map(Setting::Degrees),
        Field::PressureUnit => [PressureUnit::Bar, PressureUnit::Psi].map(Setting::PressureUnit),
        Field::VolumeUnit => [VolumeUnit::Litres, VolumeUnit::Gallons].map(Setting::VolumeUnit),
        Field::Stands => [Stands::Upright, Stands::Lying].map(Setting::Stands),
        Field::ResinBed => [true, false].map(Setting::ResinBed),
        _ => return None,
    })
}

/// The page of help that tells of a setting.
fn page_of(field: Field) -> Page {
    match field {
        Field::Currency
        | Field::ResinPrice
        | Field::MembranePrice
        | Field::PrefilterPrice
        | Field::MembraneLabour
        | Field::ResinLabour => Page::Prices,
        Field::BusyMonths
        | Field::WorkingDays
        | Field::DayEnds
        | Field::DayEndsOn(_)
        | Field::DigestAt
        | Field::Digest
        | Field::Nudges
        | Field::Notices
        | Field::QuietHours => Page::Hours,
        Field::Meter | Field::Degrees | Field::PressureUnit | Field::VolumeUnit => Page::Units,
        Field::PrefilterDays => Page::Prefilters,
        Field::ResinLitres
        | Field::LitresPerDay
        | Field::Membranes
        | Field::ResinBed
        | Field::Stands
        | Field::Rated => Page::Parts,
        Field::ShortNames => Page::Rigs,
        Field::Keep => Page::Data,
        Field::Country | Field::WearingLine | Field::DueLine | Field::SpentLine => Page::Settings,
    }
}
