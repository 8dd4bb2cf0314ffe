//! The questions of the guide in words, each with its buttons: what is likely
//! first, the way past it last.

use jiff::tz::TimeZone;

use crate::message::setting::{Clock, Country, Days, Setting, Stands, VolumeUnit, Weekday};
use crate::message::setup::{self, Part, Step};
use crate::replies::figures;
use crate::replies::settings::typed;
use crate::water::quantity::LITRES_PER_US_GALLON;

use super::super::answer::{Answer, Press};
use super::super::turn::Turn;

/// Litres of resin to choose from, and of water a day (common practice, no source).
const BEDS_L: [f64; 2] = [11.0, 25.0];
const DAYS_L: [f64; 2] = [400.0, 800.0];
const DAYS_GAL: [f64; 2] = [100.0, 200.0];
/// Usual resin beds where volumes are in gallons: their words and cubic feet (common practice, no source).
const BEDS_FT3: [(&str, &str); 2] = [("setup-half-cubic-foot", "0.5"), ("setup-cubic-foot", "1")];

impl Turn<'_> {
    /// A question in full.
    pub(super) fn question(&self, step: Step) -> Answer {
        let key = match step {
            Step::Name => "setup-name",
            Step::Country => "setup-country",
            Step::Zone => "setup-zone",
            Step::Rigs => "setup-rigs",
            Step::Reading => "setup-reading",
            Step::Hours => "setup-hours",
            Step::WorkingDays => "setup-working-days",
            Step::DayEnds => "setup-day-ends",
            Step::Digest => "setup-digest",
            Step::MembranePrice => "setup-membrane-price",
            Step::ResinPrice if self.country().is_some_and(Country::is_american) => "setup-resin-price-feet",
            Step::ResinPrice => "setup-resin-price",
            Step::LitresPerDay => "setup-litres",
            Step::Crew => "setup-crew",
            Step::Rig(_, Part::Facts) => "setup-facts",
            Step::Rig(_, Part::Kind) => "setup-kind",
            Step::Rig(_, Part::Membranes) => "setup-membranes",
            Step::Rig(_, Part::Flush) => "setup-flush",
            Step::Rig(_, Part::Stands) => "setup-stands",
            Step::Rig(_, Part::Resin) => "setup-resin",
            Step::Rig(_, Part::Rated) => "setup-rated",
            Step::Rig(_, Part::Prefilters) => "setup-prefilters",
        };
        self.question_with(step, key)
    }

    /// A question's first line alone, with its buttons.
    pub(super) fn short_question(&self, step: Step) -> Answer {
        let mut answer = match step {
            Step::Reading => self.question_with(step, "setup-reading-short"),
            _ => self.question(step),
        };
        for part in &mut answer.parts {
            let first = part.lines().next().unwrap_or_default().to_owned();
            *part = first;
        }
        answer
    }

    /// A question in the words of another text.
    pub(super) fn question_with(&self, step: Step, key: &str) -> Answer {
        let rig = match step {
            Step::Rig(id, _) => self.rig_name(id),
            _ => String::new(),
        };
        let facts = self.assumed(step);
        let example = self.litres_example();
        let text = self.words.say(
            key,
            [
                ("rig", (&rig).into()),
                ("facts", (&facts).into()),
                ("example", (&example).into()),
            ],
        );
        let mut answer = Answer::says(text);
        answer.buttons = self.buttons(step, &rig.to_lowercase());
        answer
    }

    /// How one rig's day is told otherwise.
    fn litres_example(&self) -> String {
        let litres = match self.rules.volume_unit() {
            VolumeUnit::Litres => 600.0,
            VolumeUnit::Gallons => 150.0 * LITRES_PER_US_GALLON,
        };
        let set = typed(self.words, &Setting::LitresPerDay(litres), self.ways());
        format!("{} {set}", self.any_rig())
    }

    /// What is taken for granted until somebody says otherwise.
    fn assumed(&self, step: Step) -> String {
        let say = |setting: &Setting| typed(self.words, setting, self.ways());
        match step {
            Step::Hours => {
                let fields = [
                    crate::message::setting::Field::WorkingDays,
                    crate::message::setting::Field::DayEnds,
                    crate::message::setting::Field::DigestAt,
                ];
                let holds = fields.into_iter().filter_map(|field| self.default_of(field));
                holds.map(|setting| say(&setting)).collect::<Vec<_>>().join(", ")
            }
            Step::Rig(id, Part::Facts) => {
                let Some(rig) = self.fleet.iter().find(|rig| rig.id == id) else {
                    return String::new();
                };
                let (own, has_bed) = (self.rules.rig(id), self.rules.has_bed(rig));
                let mut facts = vec![if rig.di_only {
                    self.words.plain("setup-di-only")
                } else {
                    say(&Setting::ResinBed(has_bed))
                }];
                if !rig.di_only {
                    facts.push(say(&Setting::Membranes(own.membranes())));
                    let flush = if rig.flushes_itself {
                        "setup-by-itself"
                    } else {
                        "setup-by-hand"
                    };
                    facts.push(self.words.plain(flush));
                }
                if has_bed {
                    facts.push(say(&Setting::Stands(own.stands().unwrap_or(Stands::Upright))));
                }
                facts.join(", ")
            }
            _ => String::new(),
        }
    }

    fn buttons(&self, step: Step, rig: &str) -> Vec<Press> {
        let press = |label: String, says: String| Press { label, says };
        let named = |key: &str, says: String| press(self.words.plain(key), says);
        let skip = || named("setup-skip", format!("skip {}", step.word()));
        let setting = |setting: Setting, says: &str| press(typed(self.words, &setting, self.ways()), says.to_owned());
        let mut buttons = match step {
            Step::Name | Step::Rigs | Step::MembranePrice | Step::ResinPrice | Step::Rig(_, Part::Rated) => Vec::new(),
            Step::Country => {
                let label = |country: Country| self.words.say("country-name", [("code", country.code().into())]);
                let likely = self.likely_countries().into_iter().take(2);
                likely
                    .map(|country| press(label(country), format!("country {}", country.code())))
                    .collect()
            }
            Step::Zone => self.likely_zones(),
            Step::Reading => {
                let go_on = named("setup-go-on", format!("skip {}", step.word()));
                return vec![go_on, named("setup-later", "stop".to_owned())];
            }
            Step::Hours => {
                let fits = named("setup-fits", format!("skip {}", step.word()));
                return vec![fits, named("setup-one-by-one", format!("one by one {}", step.word()))];
            }
            Step::Rig(id, Part::Facts) => return self.facts_buttons(step, id, rig),
            Step::Rig(_, Part::Kind) => {
                return vec![
                    setting(Setting::ResinBed(true), &format!("{rig} ro and di")),
                    named("setup-di-only", format!("{rig} di only")),
                    setting(Setting::ResinBed(false), &format!("{rig} ro only")),
                ];
            }
            Step::WorkingDays => {
                let week = [true, true, true, true, true, true, false];
                let days = [Some(Days::MONDAY_TO_FRIDAY), Days::new(week)].into_iter().flatten();
                days.map(|days| {
                    press(
                        figures::weekdays(self.words, days),
                        format!("working days {}", days.text()),
                    )
                })
                .collect()
            }
            Step::DayEnds => ["16:00", "17:00"]
                .map(|at| press(at.to_owned(), format!("day ends {at}")))
                .to_vec(),
            Step::Digest => [(Weekday::Monday, "07:00"), (Weekday::Friday, "16:00")]
                .map(|(day, at)| {
                    let label = format!("{} {at}", figures::weekday(self.words, day));
                    press(label, format!("digest {} {at}", day.text()))
                })
                .to_vec(),
            Step::LitresPerDay if self.rules.volume_unit() == VolumeUnit::Gallons => DAYS_GAL
                .map(|gallons| {
                    let value = figures::plain_number(self.words, gallons);
                    press(
                        self.words.say("gallons", [("value", (&value).into())]),
                        format!("{gallons} gallons a day"),
                    )
                })
                .to_vec(),
            Step::LitresPerDay => DAYS_L
                .map(|litres| self.litres(litres, format!("{litres} litres a day")))
                .to_vec(),
            Step::Rig(_, Part::Membranes) => [1, 2]
                .map(|count| setting(Setting::Membranes(count), &format!("{rig} {count} membranes")))
                .to_vec(),
            Step::Rig(_, Part::Flush) => vec![
                named("setup-by-hand", format!("{rig} flushed by hand")),
                named("setup-by-itself", format!("{rig} flushes itself")),
            ],
            Step::Rig(_, Part::Stands) => vec![
                setting(Setting::Stands(Stands::Upright), &format!("{rig} upright")),
                setting(Setting::Stands(Stands::Lying), &format!("{rig} lying")),
            ],
            Step::Rig(_, Part::Resin) if self.rules.volume_unit() == VolumeUnit::Gallons => BEDS_FT3
                .map(|(key, feet)| named(key, format!("{rig} resin {feet} cubic feet")))
                .to_vec(),
            Step::Rig(_, Part::Resin) => BEDS_L
                .map(|litres| self.litres(litres, format!("{rig} resin {litres} litres")))
                .to_vec(),
            Step::Rig(_, Part::Prefilters) => [90_u16, 180]
                .map(|days| {
                    setting(
                        Setting::PrefilterDays(days),
                        &format!("{rig} prefilters every {days} days"),
                    )
                })
                .to_vec(),
            Step::Crew => vec![named("setup-invite", "invite".to_owned())],
        };
        buttons.push(skip());
        buttons
    }

    fn litres(&self, litres: f64, says: String) -> Press {
        let value = figures::plain_number(self.words, litres);
        Press {
            label: self.words.say("litres", [("value", (&value).into())]),
            says,
        }
    }

    /// Another rig's facts first, if there are any; then as assumed; then one by one.
    fn facts_buttons(&self, step: Step, id: i64, rig: &str) -> Vec<Press> {
        let before = self.fleet.iter().position(|rig| rig.id == id).unwrap_or(0);
        let behind = self.fleet.len().saturating_sub(before + 1);
        let mut buttons = Vec::new();
        if before > 0
            && let Some(like) = self.fleet.first()
        {
            let (name, like) = ([("rig", (&like.name).into())], like.name.to_lowercase());
            buttons.push(Press {
                label: self.words.say("setup-same-as", name),
                says: format!("{rig} same as {like}"),
            });
            if behind > 0 {
                buttons.push(Press {
                    label: self.words.plain("setup-all-same"),
                    says: format!("all same as {like}"),
                });
            }
        }
        if buttons.len() < 2 {
            buttons.push(Press {
                label: self.words.plain("setup-fits"),
                says: format!("skip {}", step.word()),
            });
        }
        buttons.push(Press {
            label: self.words.plain("setup-one-by-one"),
            says: format!("one by one {}", step.word()),
        });
        buttons
    }

    /// Where somebody probably works: by the clock of the host, the platform's
    /// region, the language.
    fn likely_countries(&self) -> Vec<Country> {
        let language = self.member.language.as_deref().unwrap_or("en");
        let region = language.split(['-', '_']).nth(1).and_then(Country::of_code);
        let spoken = if language.starts_with("es") {
            ["ES", "MX"]
        } else {
            ["US", "GB"]
        };
        let mut likely: Vec<Country> = Vec::new();
        let guesses = region.into_iter().chain(setup::country_of(&self.outfit.zone));
        for country in guesses.chain(spoken.into_iter().filter_map(Country::of_code)) {
            if !likely.contains(&country) {
                likely.push(country);
            }
        }
        likely
    }

    /// The likely zones with what their clocks show now: a glance at the wrist tells.
    fn likely_zones(&self) -> Vec<Press> {
        let mut zones: Vec<&str> = self.country().map(setup::zones_of).unwrap_or_default().to_vec();
        let host = self.outfit.zone.as_str();
        if zones.is_empty() || zones.contains(&host) {
            zones.retain(|zone| *zone != host);
            zones.insert(0, host);
        }
        let shown = |zone: &&str| {
            let at = jiff::Timestamp::from_second(self.now).unwrap_or_default();
            let there = TimeZone::get(zone).ok()?.to_datetime(at);
            let clock = Clock::new(u8::try_from(there.hour()).ok()?, u8::try_from(there.minute()).ok()?)?;
            let city = zone.rsplit('/').next().unwrap_or(zone).replace('_', " ");
            Some(Press {
                label: format!("{city} {}", clock.text()),
                says: format!("zone {zone}"),
            })
        };
        zones.iter().filter_map(shown).take(2).collect()
    }
}
