//! The questions of the guide in words, each with its buttons: what is likely
//! first, the way past it last.

use jiff::tz::TimeZone;

use crate::message::command::{Affair, Command, Terms};
use crate::message::setting::{Bed, Clock, Country, Days, Field, Setting, Stands, VolumeUnit, Weekday};
use crate::message::setup::{self, Guide, Part, Step};
use crate::replies::settings::typed;
use crate::replies::{Words, figures};
use crate::water::quantity::{LITRES_PER_CUBIC_FOOT, LITRES_PER_US_GALLON};

use crate::bot::act::Act;
use crate::bot::answer::{Answer, Press};
use crate::bot::request::Request;
use crate::bot::setting_values::{default_of, ways};
use crate::bot::setup::known::any_rig;

/// Litres of resin to choose from, and of water a day (common practice, no source).
const BEDS_L: [f64; 2] = [11.0, 25.0];

const DAYS_L: [f64; 2] = [400.0, 800.0];

const DAYS_GAL: [f64; 2] = [100.0, 200.0];

/// Usual resin beds where volumes are in gallons: their words and cubic feet (common practice, no source).
const BEDS_FT3: [(&str, f64); 2] = [("setup-half-cubic-foot", 0.5), ("setup-cubic-foot", 1.0)];

/// A question in full.
pub(in crate::bot) fn question(on: &Request<'_>, step: Step) -> Answer {
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
        Step::ResinPrice if on.rules.country().is_some_and(Country::is_american) => "setup-resin-price-feet",
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
    question_with(on, step, key)
}

/// A question's first line alone, with its buttons.
pub(in crate::bot) fn short_question(on: &Request<'_>, step: Step) -> Answer {
    let mut answer = match step {
        Step::Reading => question_with(on, step, "setup-reading-short"),
        _ => question(on, step),
    };
    for part in &mut answer.parts {
        let first = part.lines().next().unwrap_or_default().to_owned();
        *part = first;
    }
    answer
}

/// A question in the words of another text.
pub(in crate::bot) fn question_with(on: &Request<'_>, step: Step, key: &str) -> Answer {
    let rig = match step {
        Step::Rig(id, _) => on.rig_name(id),
        _ => String::new(),
    };
    let facts = assumed(on, step);
    let example = litres_example(on);
    let text = on.words.say(
        key,
        [
            ("rig", (&rig).into()),
            ("facts", (&facts).into()),
            ("example", (&example).into()),
        ],
    );
    let mut answer = Answer::says(text);
    answer.buttons = buttons(on, step, &rig.to_lowercase());
    answer
}

/// How one rig's day is told otherwise.
fn litres_example(on: &Request<'_>) -> String {
    let litres = match on.rules.volume_unit() {
        VolumeUnit::Litres => 600.0,
        VolumeUnit::Gallons => 150.0 * LITRES_PER_US_GALLON,
    };
    let set = typed(on.words, &Field::LitresPerDay.to(litres), ways(&on.rules));
    format!("{} {set}", any_rig(&on.fleet))
}

/// What is taken for granted until somebody says otherwise.
fn assumed(on: &Request<'_>, step: Step) -> String {
    let say = |setting: &Setting| typed(on.words, setting, ways(&on.rules));
    match step {
        Step::Hours => {
            let fields = [Field::WorkingDays, Field::DayEnds, Field::DigestAt];
            let holds = fields.into_iter().filter_map(|field| default_of(on, field));
            holds.map(|setting| say(&setting)).collect::<Vec<_>>().join(", ")
        }
        Step::Rig(id, Part::Facts) => {
            let Some(rig) = on.rig(id) else {
                return String::new();
            };
            let (own, has_bed) = (on.rules.rig(id), on.rules.has_bed(rig));
            let mut facts = vec![if rig.di_only {
                on.words.plain("setup-di-only")
            } else {
                say(&Field::ResinBed.to(if has_bed { Bed::There } else { Bed::Absent }))
            }];
            if !rig.di_only {
                facts.push(say(&Field::Membranes.to(own.membranes())));
                let flush = if rig.flushes_itself {
                    "setup-by-itself"
                } else {
                    "setup-by-hand"
                };
                facts.push(on.words.plain(flush));
            }
            if has_bed {
                facts.push(say(&Field::Stands.to(own.stands().unwrap_or(Stands::Upright))));
            }
            facts.join(", ")
        }
        _ => String::new(),
    }
}

fn buttons(on: &Request<'_>, step: Step, rig: &str) -> Vec<Press> {
    let press = |label: String, act: Act| Press { label, act };
    let named = |key: &str, act: Act| press(on.words.plain(key), act);
    let pass = || Act::Guide(Guide::Pass(Some(step)));
    let one_by_one = || Act::Guide(Guide::OneByOne(Some(step)));
    let skip = || named("setup-skip", pass());
    let of_rig = |setting: Setting| {
        let label = typed(on.words, &setting, ways(&on.rules));
        press(label, Act::set(Some(rig), setting))
    };
    let mut buttons = match step {
        Step::Name | Step::Rigs | Step::MembranePrice | Step::ResinPrice | Step::Rig(_, Part::Rated) => Vec::new(),
        Step::Country => {
            let label = |country: Country| on.words.say("country-name", [("code", country.code().into())]);
            let likely = likely_countries(on).into_iter().take(2);
            likely
                .map(|country| press(label(country), Act::set(None, Field::Country.to(country))))
                .collect()
        }
        Step::Zone => likely_zones(on),
        Step::Reading => {
            let go_on = named("setup-go-on", pass());
            return vec![go_on, named("setup-later", Act::Guide(Guide::Stop))];
        }
        Step::Hours => {
            let fits = named("setup-fits", pass());
            return vec![fits, named("setup-one-by-one", one_by_one())];
        }
        Step::Rig(id, Part::Facts) => return facts_buttons(on, step, id, rig),
        Step::Rig(_, Part::Kind) => {
            return vec![
                of_rig(Field::ResinBed.to(Bed::There)),
                named("setup-di-only", Act::Command(Command::DiOnly(rig.to_owned()))),
                of_rig(Field::ResinBed.to(Bed::Absent)),
            ];
        }
        Step::WorkingDays => {
            let week = [true, true, true, true, true, true, false];
            let days = [Some(Days::MONDAY_TO_FRIDAY), Days::new(week)].into_iter().flatten();
            days.map(|days| {
                press(
                    figures::weekdays(on.words, days),
                    Act::set(None, Field::WorkingDays.to(days)),
                )
            })
            .collect()
        }
        Step::DayEnds => [16, 17]
            .into_iter()
            .filter_map(|hour| Clock::new(hour, 0))
            .map(|at| press(at.text(), Act::set(None, Field::DayEnds.to(at))))
            .collect(),
        Step::Digest => [(Weekday::Monday, 7), (Weekday::Friday, 16)]
            .into_iter()
            .filter_map(|(day, hour)| Some((day, Clock::new(hour, 0)?)))
            .map(|(day, at)| {
                let label = format!("{} {}", figures::weekday(on.words, day), at.text());
                press(label, Act::set(None, Field::DigestAt.to((day, at))))
            })
            .collect(),
        Step::LitresPerDay if on.rules.volume_unit() == VolumeUnit::Gallons => DAYS_GAL
            .map(|gallons| {
                let value = figures::plain_number(on.words, gallons);
                press(
                    on.words.say("gallons", [("value", (&value).into())]),
                    Act::set(None, Field::LitresPerDay.to(gallons * LITRES_PER_US_GALLON)),
                )
            })
            .to_vec(),
        Step::LitresPerDay => DAYS_L
            .map(|litres| litres_button(on.words, litres, Act::set(None, Field::LitresPerDay.to(litres))))
            .to_vec(),
        Step::Rig(_, Part::Membranes) => [1, 2].map(|count| of_rig(Field::Membranes.to(count))).to_vec(),
        Step::Rig(_, Part::Flush) => vec![
            named("setup-by-hand", Act::Command(Command::FlushedByHand(rig.to_owned()))),
            named("setup-by-itself", Act::Command(Command::FlushesItself(rig.to_owned()))),
        ],
        Step::Rig(_, Part::Stands) => vec![
            of_rig(Field::Stands.to(Stands::Upright)),
            of_rig(Field::Stands.to(Stands::Lying)),
        ],
        Step::Rig(_, Part::Resin) if on.rules.volume_unit() == VolumeUnit::Gallons => BEDS_FT3
            .map(|(key, feet)| {
                named(
                    key,
                    Act::set(Some(rig), Field::ResinLitres.to(feet * LITRES_PER_CUBIC_FOOT)),
                )
            })
            .to_vec(),
        Step::Rig(_, Part::Resin) => BEDS_L
            .map(|litres| litres_button(on.words, litres, Act::set(Some(rig), Field::ResinLitres.to(litres))))
            .to_vec(),
        Step::Rig(_, Part::Prefilters) => [90_u16, 180].map(|days| of_rig(Field::PrefilterDays.to(days))).to_vec(),
        Step::Crew => vec![named(
            "setup-invite",
            Act::Command(Command::Affair(Affair::Invite(Terms::default()))),
        )],
    };
    buttons.push(skip());
    buttons
}

fn litres_button(words: Words, litres: f64, act: Act) -> Press {
    let value = figures::plain_number(words, litres);
    Press {
        label: words.say("litres", [("value", (&value).into())]),
        act,
    }
}

/// Another rig's facts first, if there are any; then as assumed; then one by one.
fn facts_buttons(on: &Request<'_>, step: Step, id: i64, rig: &str) -> Vec<Press> {
    let before = on.fleet.iter().position(|rig| rig.id == id).unwrap_or(0);
    let behind = on.fleet.len().saturating_sub(before + 1);
    let mut buttons = Vec::new();
    if before > 0
        && let Some(like) = on.fleet.first()
    {
        let (name, like) = ([("rig", (&like.name).into())], like.name.to_lowercase());
        buttons.push(Press {
            label: on.words.say("setup-same-as", name),
            act: Act::Guide(Guide::Same {
                rig: Some(rig.to_owned()),
                like: like.clone(),
            }),
        });
        if behind > 0 {
            buttons.push(Press {
                label: on.words.plain("setup-all-same"),
                act: Act::Guide(Guide::AllSame(like)),
            });
        }
    }
    if buttons.len() < 2 {
        buttons.push(Press {
            label: on.words.plain("setup-fits"),
            act: Act::Guide(Guide::Pass(Some(step))),
        });
    }
    buttons.push(Press {
        label: on.words.plain("setup-one-by-one"),
        act: Act::Guide(Guide::OneByOne(Some(step))),
    });
    buttons
}

/// Where somebody probably works: by the clock of the host, the platform's
/// region, the language.
fn likely_countries(on: &Request<'_>) -> Vec<Country> {
    let language = on.member.language.as_deref().unwrap_or("en");
    let region = language.split(['-', '_']).nth(1).and_then(Country::of_code);
    let spoken = if language.starts_with("es") {
        ["ES", "MX"]
    } else {
        ["US", "GB"]
    };
    let mut likely: Vec<Country> = Vec::new();
    let guesses = region.into_iter().chain(setup::country_of(&on.outfit.zone));
    for country in guesses.chain(spoken.into_iter().filter_map(Country::of_code)) {
        if !likely.contains(&country) {
            likely.push(country);
        }
    }
    likely
}

/// The likely zones with what their clocks show now: a glance at the wrist tells.
fn likely_zones(on: &Request<'_>) -> Vec<Press> {
    let mut zones: Vec<&str> = on.rules.country().map(setup::zones_of).unwrap_or_default().to_vec();
    let host = on.outfit.zone.as_str();
    if zones.is_empty() || zones.contains(&host) {
        zones.retain(|zone| *zone != host);
        zones.insert(0, host);
    }
    let shown = |zone: &&str| {
        let at = jiff::Timestamp::from_second(on.now).unwrap_or_default();
        let there = TimeZone::get(zone).ok()?.to_datetime(at);
        let clock = Clock::new(u8::try_from(there.hour()).ok()?, u8::try_from(there.minute()).ok()?)?;
        let city = zone.rsplit('/').next().unwrap_or(zone).replace('_', " ");
        Some(Press {
            label: format!("{city} {}", clock.text()),
            act: Act::Command(Command::Zone((*zone).to_owned())),
        })
    };
    zones.iter().filter_map(shown).take(2).collect()
}
