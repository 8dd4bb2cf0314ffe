//! Answers to settings that are typed: who may, what holds from now on, what holds at all.

use crate::message::setting::Ways as CountryWays;
use crate::message::setting::{Clock, Field, Meter, Reach, SetBy, Setting, Wish, WishFor};
use crate::replies::figures;
use crate::replies::settings::{Standing, Ways, list, typed};
use crate::store::people::Role;
use crate::store::rigs::Rig;
use crate::store::{self, StoreError};
use crate::water::settings::Limits;

use super::answer::Answer;
use super::fleet::fold;
use super::rules::Rules;
use super::turn::Turn;

impl Turn<'_> {
    /// Answers a wish about the settings; none if it names no rig of the fleet,
    /// so that it is read as a message.
    pub(super) async fn wish(&mut self, wished: WishFor) -> Result<Option<Answer>, StoreError> {
        let rig = match &wished.rig {
            None => None,
            Some(name) => match self.rig_named(name) {
                Some(rig) => Some(rig),
                None => return Ok(None),
            },
        };
        let field = match &wished.wish {
            Wish::ShowAll => return Ok(Some(Answer::says(self.settings(rig.as_ref())))),
            Wish::Set(setting) => setting.field(),
            Wish::Default(field) => *field,
        };
        if let Some(refusal) = self.refuses(field, &wished.wish, rig.as_ref()) {
            return Ok(Some(refusal));
        }
        // What deletes is asked about first.
        if let Wish::Set(Setting::Keep(years)) = wished.wish {
            return self.keep_for(years, false).await.map(Some);
        }
        let setting = match wished.wish {
            Wish::Set(setting) => Some(setting),
            _ => None,
        };
        let all_told = setting.clone().map(|setting| self.beside_earlier(setting));
        self.put(field, all_told.as_ref(), rig.as_ref()).await?;
        Ok(Some(Answer::says(self.told(field, setting.as_ref(), rig.as_ref()))))
    }

    /// A busy summer leaves what was told of the winter; a hundred per cent takes all back.
    fn beside_earlier(&self, setting: Setting) -> Setting {
        match (setting, self.set_value(Field::BusyMonths, None)) {
            (Setting::BusyMonths(told), Some(Setting::BusyMonths(earlier))) if told != [100; 12] => {
                let month = |at: usize| if told[at] == 100 { earlier[at] } else { told[at] };
                Setting::BusyMonths(std::array::from_fn(month))
            }
            (setting, _) => setting,
        }
    }

    /// How settings are worded here.
    pub(super) fn ways(&self) -> Ways {
        Ways {
            currency: self.rules.currency(),
            volume: self.rules.volume_unit(),
        }
    }

    fn refuses(&self, field: Field, wish: &Wish, rig: Option<&Rig>) -> Option<Answer> {
        match field.set_by() {
            SetBy::Owner if self.member.role != Role::Owner => return Some(self.may_not("who-owner")),
            SetBy::Leads if !self.member.role.leads() => return Some(self.may_not("who-leads")),
            SetBy::Owner | SetBy::Leads => {}
        }
        let example = || match wish {
            Wish::Set(setting) => typed(self.words, setting, self.ways()),
            _ => self.example_of(field),
        };
        match (field.reach(), rig) {
            (Reach::Rig, None) => {
                let name = self.fleet.first().map_or("heron", |rig| &rig.name).to_lowercase();
                let example = example();
                let facts = [("rig", (&name).into()), ("setting", (&example).into())];
                Some(Answer::says(self.words.say("setting-names-a-rig", facts)))
            }
            (Reach::Outfit, Some(_)) => Some(Answer::says(
                self.words.say("setting-for-all", [("setting", (&example()).into())]),
            )),
            _ => match wish {
                Wish::Set(Setting::ShortNames(names)) => self.name_taken(names, Some(rig?)),
                Wish::Set(setting) => self.lines_cross(setting),
                Wish::Default(Field::WearingLine) => self.lines_cross(&Setting::WearingLine(Limits::default().wearing)),
                Wish::Default(Field::DueLine) => self.lines_cross(&Setting::DueLine(Limits::default().due)),
                Wish::Default(Field::SpentLine) => self.lines_cross(&Setting::SpentLine(Limits::default().spent)),
                _ => None,
            },
        }
    }

    /// A short name must not mean two rigs.
    pub(super) fn name_taken(&self, names: &[String], rig: Option<&Rig>) -> Option<Answer> {
        let own = rig.map(|rig| rig.id);
        let others = self.fleet.iter().filter(|other| Some(other.id) != own);
        let mut taken = others.flat_map(|other| {
            let mut known = self.rules.short_names(other.id);
            known.push(other.name.clone());
            known.into_iter().map(move |name| (name, other))
        });
        let (name, other) = taken.find(|(known, _)| names.iter().any(|name| fold(name) == fold(known)))?;
        let facts = [("name", (&name).into()), ("rig", (&other.name).into())];
        Some(Answer::says(self.words.say("setting-name-taken", facts)))
    }

    /// Wearing, due and spent must stand in that order.
    fn lines_cross(&self, setting: &Setting) -> Option<Answer> {
        if !self.lines_would_cross(std::iter::once(setting)) {
            return None;
        }
        let now = self.rules.limits();
        let percent = |line: f64| figures::plain_number(self.words, line * 100.0);
        let [wearing, due, spent] = [now.wearing, now.due, now.spent].map(percent);
        let facts = [
            ("wearing", (&wearing).into()),
            ("due", (&due).into()),
            ("spent", (&spent).into()),
        ];
        Some(Answer::says(self.words.say("setting-lines-cross", facts)))
    }

    /// Whether those three would stand in another order, if all of these were set.
    pub(super) fn lines_would_cross<'a>(&self, settings: impl Iterator<Item = &'a Setting>) -> bool {
        let mut limits = self.rules.limits();
        let mut moved = false;
        for setting in settings {
            match setting {
                Setting::WearingLine(line) => limits.wearing = *line,
                Setting::DueLine(line) => limits.due = *line,
                Setting::SpentLine(line) => limits.spent = *line,
                _ => continue,
            }
            moved = true;
        }
        moved && !(limits.wearing > limits.due && limits.due > limits.spent)
    }

    /// Writes a setting, or its default, and what holds now.
    pub(super) async fn put(
        &mut self,
        field: Field,
        setting: Option<&Setting>,
        rig: Option<&Rig>,
    ) -> Result<(), StoreError> {
        let value = setting.map(Setting::value).unwrap_or_default();
        let teller = self.teller();
        store::settings::set(self.db, teller, rig.map(|rig| rig.id), field.name(), &value).await?;
        if let (Some(Setting::ResinBed(_)), Some(rig)) = (setting, rig.filter(|rig| rig.di_only)) {
            let rig = Rig {
                di_only: false,
                ..rig.clone()
            };
            store::rigs::set_traits(self.db, &rig, self.now).await?;
        }
        if rig.is_none() && self.put_in_column(field, setting) {
            store::outfits::set(self.db, &self.outfit).await?;
        }
        self.rules = Rules::load(self.db, &self.outfit).await?;
        self.lessons = None;
        Ok(())
    }

    /// Some facts of the outfit have a column, which holds. Whether one changed.
    fn put_in_column(&mut self, field: Field, setting: Option<&Setting>) -> bool {
        let degrees_told = self.set_value(Field::Degrees, None).is_some();
        let outfit = &mut self.outfit;
        match (field, setting) {
            (Field::Country, Some(Setting::Country(country))) if !degrees_told => {
                let fahrenheit = country.ways() == CountryWays::American;
                if fahrenheit { "F" } else { "C" }.clone_into(&mut outfit.degrees);
            }
            (Field::DayEnds, Some(Setting::DayEnds(clock))) => outfit.day_ends = clock.text(),
            (Field::DayEnds, _) => "17:00".clone_into(&mut outfit.day_ends),
            (Field::Meter, Some(Setting::Meter(Meter::Conductivity(factor)))) => outfit.us_to_ppm = *factor,
            (Field::Meter, None) => outfit.us_to_ppm = 0.5,
            (Field::Degrees, Some(setting)) => outfit.degrees = setting.value(),
            (Field::Degrees, None) => "C".clone_into(&mut outfit.degrees),
            _ => return false,
        }
        true
    }

    fn told(&self, field: Field, setting: Option<&Setting>, rig: Option<&Rig>) -> String {
        let holds = setting.cloned().or_else(|| self.default_of(field));
        let Some(holds) = holds else {
            return self.words.plain("setting-default-none");
        };
        if let (Some(Setting::DayEnds(clock)), None) = (setting, rig) {
            return self.words.say("day-ends-set", [("time", (&clock.text()).into())]);
        }
        let words = typed(self.words, &holds, self.ways());
        let mut lines = vec![match (setting, rig) {
            (None, _) => self.words.say("setting-as-before", [("setting", (&words).into())]),
            (Some(_), None) => self.words.say("setting-noted", [("setting", (&words).into())]),
            (Some(_), Some(rig)) => {
                let facts = [("rig", (&rig.name).into()), ("setting", (&words).into())];
                self.words.say("setting-noted-rig", facts)
            }
        }];
        if is_money(&holds) && self.rules.currency().is_none() {
            lines.push(self.words.plain("settings-currency"));
        }
        lines.join("\n")
    }

    /// What holds, for the outfit or for one rig.
    fn settings(&self, rig: Option<&Rig>) -> String {
        let id = rig.map(|rig| rig.id);
        let set: Vec<Setting> = Field::all().filter_map(|field| self.set_value(field, id)).collect();
        let is_set = |setting: &Setting| set.iter().any(|one| one.field() == setting.field());
        let defaults: Vec<Setting> = match rig {
            None => Field::all()
                .filter_map(|field| self.default_of(field))
                .filter(|one| !is_set(one))
                .collect(),
            Some(_) => Vec::new(),
        };
        let no_bed = rig.is_some_and(|rig| !self.rules.has_bed(rig));
        let needed = |field: &Field| match rig {
            _ if no_bed => false,
            None => *field != Field::ResinLitres && *field != Field::LitresPerDay || self.fleet.is_empty(),
            Some(_) => true,
        };
        let fields = match rig {
            None => &[
                Field::ResinPrice,
                Field::MembranePrice,
                Field::ResinLitres,
                Field::LitresPerDay,
            ][..],
            Some(_) => &[Field::ResinLitres, Field::LitresPerDay][..],
        };
        let missing: Vec<Setting> = fields
            .iter()
            .filter(|field| needed(field) && self.held(**field, id).is_none())
            .filter_map(|field| example(*field))
            .collect();
        let title = match rig {
            None => self
                .words
                .say("settings-title", [("outfit", (&self.outfit.name).into())]),
            Some(rig) => self.words.say("settings-title-rig", [("rig", (&rig.name).into())]),
        };
        let before = rig
            .map(|rig| format!("{} ", rig.name.to_lowercase()))
            .unwrap_or_default();
        let standing = Standing {
            title,
            set: &set,
            defaults: &defaults,
            missing: &missing,
        };
        list(self.words, &standing, &before, self.ways())
    }

    /// What was set of a field for the outfit, or for this rig alone.
    pub(super) fn set_value(&self, field: Field, rig_id: Option<i64>) -> Option<Setting> {
        let mut set = self.rules.set().iter().rev();
        set.find(|(rig, setting)| *rig == rig_id && setting.field() == field)
            .map(|(_, setting)| setting.clone())
    }

    /// What was set of a field and holds for a rig, its own or the outfit's.
    pub(super) fn held(&self, field: Field, rig_id: Option<i64>) -> Option<Setting> {
        self.set_value(field, rig_id).or_else(|| self.set_value(field, None))
    }

    /// What holds of a field when nobody set it.
    pub(super) fn default_of(&self, field: Field) -> Option<Setting> {
        let limits = self.rules.limits();
        let clock = |time: jiff::civil::Time| Clock::new(time.hour() as u8, time.minute() as u8);
        Some(match field {
            Field::Currency => Setting::Currency(self.rules.currency()?),
            Field::WearingLine => Setting::WearingLine(limits.wearing),
            Field::DueLine => Setting::DueLine(limits.due),
            Field::SpentLine => Setting::SpentLine(limits.spent),
            Field::WorkingDays => Setting::WorkingDays(self.rules.working_days()),
            Field::DayEnds => Setting::DayEnds(Clock::typed(&self.outfit.day_ends, None)?),
            Field::DigestAt => {
                let (day, time) = self.rules.digest_at();
                Setting::DigestAt(day, clock(time)?)
            }
            Field::Digest => Setting::Digest(self.rules.digest()),
            Field::Nudges => Setting::Nudges(self.rules.outfit().nudges()),
            Field::Notices => Setting::Notices(self.rules.notices()),
            Field::QuietHours => {
                let hours = self.rules.quiet_hours();
                Setting::QuietHours(hours.and_then(|(from, to)| clock(from).zip(clock(to))))
            }
            Field::Meter if self.rules.reads_conductivity() => {
                Setting::Meter(Meter::Conductivity(self.outfit.us_to_ppm))
            }
            Field::Meter => Setting::Meter(Meter::Ppm),
            Field::Degrees => Setting::kept(field, &self.outfit.degrees)?,
            Field::PressureUnit => Setting::PressureUnit(self.rules.pressure_unit()),
            Field::VolumeUnit => Setting::VolumeUnit(self.rules.volume_unit()),
            Field::PrefilterDays => Setting::PrefilterDays(180),
            Field::Keep => Setting::Keep(None),
            _ => return None,
        })
    }

    /// How a setting is typed, by its default or else an example.
    pub(super) fn example_of(&self, field: Field) -> String {
        let example = self.default_of(field).or_else(|| example(field));
        example.map_or_else(String::new, |example| typed(self.words, &example, self.ways()))
    }
}

/// What a setting might be, for whoever asks what to type.
fn example(field: Field) -> Option<Setting> {
    let value = match field {
        Field::ResinPrice => "9",
        Field::MembranePrice => "180",
        Field::PrefilterPrice => "25",
        Field::MembraneLabour => "40",
        Field::ResinLabour => "15",
        Field::ResinLitres => "25",
        Field::LitresPerDay => "800",
        Field::Membranes => "2",
        Field::Stands => "lying",
        Field::Rated => "150 77 60",
        Field::ShortNames => "H",
        Field::Country => "US",
        Field::Currency => "EUR",
        Field::DayEndsOn(_) => "13:00",
        Field::BusyMonths => "100,100,100,100,100,150,150,150,100,100,100,100",
        Field::ResinBed => "no",
        _ => return None,
    };
    Setting::kept(field, value)
}

fn is_money(setting: &Setting) -> bool {
    matches!(
        setting,
        Setting::ResinPrice(_)
            | Setting::MembranePrice(_)
            | Setting::PrefilterPrice(_)
            | Setting::MembraneLabour(_)
            | Setting::ResinLabour(_)
    )
}
