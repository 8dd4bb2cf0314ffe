//! Settings in the words in which they could be typed: what is shown can be
//! changed, sent back, and is understood.

use crate::message::setting::{
    self, Amount, Currency, Degrees, Meter, PressureUnit, Setting, Stands, VolumeUnit, Wish,
};

use super::{Words, figures, lists};

/// What a setting's words depend on.
#[derive(Clone, Copy)]
pub struct Ways {
    /// What the outfit pays with, if it is known.
    pub currency: Option<Currency>,
    /// The unit of volumes.
    pub volume: VolumeUnit,
}

/// A setting with its value, as it could be typed: rounded as people read it.
pub fn typed(words: Words, setting: &Setting, ways: Ways) -> String {
    worded(words, setting, ways, false)
}

/// A setting with its value, as it could be typed to the last digit: in the
/// usual words if those say all of it.
pub fn typed_exactly(words: Words, setting: &Setting, ways: Ways) -> String {
    let usual = typed(words, setting, ways);
    let reads_back = setting::read(&usual).is_some_and(|read| read.wish == Wish::Set(setting.clone()));
    if reads_back {
        return usual;
    }
    worded(words, setting, ways, true)
}

fn worded(words: Words, setting: &Setting, ways: Ways, exactly: bool) -> String {
    let say = |key, value: &str| words.say(key, [("value", value.into())]);
    let number = |number: f64| {
        if exactly {
            figures::exact_number(words, number)
        } else {
            figures::plain_number(words, number)
        }
    };
    let money = |key, amount: Amount| {
        if exactly {
            say(key, &number(amount.main()))
        } else {
            say(key, &figures::money(words, amount, ways.currency))
        }
    };
    let volume = |key, litres: f64| {
        if exactly {
            say(key, &words.say("litres", [("value", (&number(litres)).into())]))
        } else {
            say(key, &figures::volume(words, litres, ways.volume))
        }
    };
    let percent = |key, line: f64| say(key, &number(line * 100.0));
    let switch = |key, on: bool| words.say(key, [("value", i64::from(on).into())]);
    match setting {
        Setting::Currency(currency) => say("set-currency", currency.code()),
        Setting::Country(country) => say("set-country", country.code()),
        Setting::ResinPrice(amount) => money("set-resin-price", *amount),
        Setting::MembranePrice(amount) => money("set-membrane-price", *amount),
        Setting::PrefilterPrice(amount) => money("set-prefilter-price", *amount),
        Setting::MembraneLabour(amount) => money("set-membrane-labour", *amount),
        Setting::ResinLabour(amount) => money("set-resin-labour", *amount),
        Setting::ResinLitres(litres) => volume("set-resin-litres", *litres),
        Setting::LitresPerDay(litres) => volume("set-litres-per-day", *litres),
        Setting::BusyMonths(months) => busy(words, months),
        Setting::WearingLine(line) => percent("set-wearing-line", *line),
        Setting::DueLine(line) => percent("set-due-line", *line),
        Setting::SpentLine(line) => percent("set-spent-line", *line),
        Setting::WorkingDays(days) => say("set-working-days", &figures::weekdays(words, *days)),
        Setting::DayEnds(clock) => say("set-day-ends", &clock.text()),
        Setting::DayEndsOn(day, clock) => {
            on_day(words, "set-day-ends-on", &figures::weekday(words, *day), &clock.text())
        }
        Setting::DigestAt(day, clock) => on_day(words, "set-digest-at", &figures::weekday(words, *day), &clock.text()),
        Setting::Digest(on) => switch("set-digest", *on),
        Setting::Nudges(on) => switch("set-nudges", *on),
        Setting::Notices(on) => switch("set-notices", *on),
        Setting::QuietHours(None) => words.plain("set-quiet-hours-off"),
        Setting::QuietHours(Some((from, to))) => words.say(
            "set-quiet-hours",
            [("from", (&from.text()).into()), ("to", (&to.text()).into())],
        ),
        Setting::Meter(Meter::Ppm) => words.plain("set-meter-ppm"),
        Setting::Meter(Meter::Conductivity(factor)) => say("set-meter-us", &number(*factor)),
        Setting::Degrees(Degrees::Celsius) => say("set-degrees", "C"),
        Setting::Degrees(Degrees::Fahrenheit) => say("set-degrees", "F"),
        Setting::PressureUnit(PressureUnit::Bar) => say("set-pressure", "bar"),
        Setting::PressureUnit(PressureUnit::Psi) => say("set-pressure", "psi"),
        Setting::VolumeUnit(VolumeUnit::Litres) => words.plain("set-volume-litres"),
        Setting::VolumeUnit(VolumeUnit::Gallons) => words.plain("set-volume-gallons"),
        Setting::PrefilterDays(days) => say("set-prefilter-days", &days.to_string()),
        Setting::Membranes(count) => words.say("set-membranes", [("value", i64::from(*count).into())]),
        Setting::ResinBed(true) => words.plain("set-ro-and-di"),
        Setting::ResinBed(false) => words.plain("set-ro-only"),
        Setting::Stands(Stands::Upright) => words.plain("set-upright"),
        Setting::Stands(Stands::Lying) => words.plain("set-lying"),
        Setting::Rated(rated) => words.say(
            "set-rated",
            [
                ("flow", (&number(rated.gallons_per_day)).into()),
                ("temperature", (&number(rated.temperature_f)).into()),
                ("pressure", (&number(rated.pressure_psi)).into()),
            ],
        ),
        Setting::ShortNames(names) => {
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            say("set-short-names", &lists::either(words, &names))
        }
        Setting::Keep(None) => words.plain("set-keep-everything"),
        Setting::Keep(Some(years)) => words.say("set-keep", [("value", i64::from(*years).into())]),
    }
}

fn on_day(words: Words, key: &str, day: &str, clock: &str) -> String {
    words.say(key, [("day", day.into()), ("value", clock.into())])
}

/// The months that are not ordinary, a line for each share of an ordinary one.
fn busy(words: Words, months: &[u16; 12]) -> String {
    let mut shares: Vec<u16> = Vec::new();
    for share in months.iter().copied().filter(|share| *share != 100) {
        if !shares.contains(&share) {
            shares.push(share);
        }
    }
    if shares.is_empty() {
        shares.push(100);
    }
    let line = |share: u16| {
        let named: Vec<String> = (1_i8..)
            .zip(months)
            .filter(|(_, percent)| **percent == share)
            .map(|(month, _)| figures::month_name(words, month))
            .collect();
        let (months, value) = (named.join(", "), share.to_string());
        words.say(
            "set-busy-months",
            [("months", (&months).into()), ("value", (&value).into())],
        )
    };
    shares.into_iter().map(line).collect::<Vec<_>>().join("\n")
}

/// What holds: lines that were set, defaults that were not, and what is missing.
pub struct Standing<'a> {
    /// The outfit's name or the rig's.
    pub title: String,
    /// What was set.
    pub set: &'a [Setting],
    /// What holds although nobody set it.
    pub defaults: &'a [Setting],
    /// Examples of what the computation lacks.
    pub missing: &'a [Setting],
}

/// The list of settings. `before` stands before each line: a rig's name, or nothing.
pub fn list(words: Words, standing: &Standing<'_>, before: &str, ways: Ways) -> String {
    let line = |setting: &Setting| format!("{before}{}", typed(words, setting, ways));
    let mut lines = vec![standing.title.clone()];
    lines.extend(standing.set.iter().map(line));
    if !standing.defaults.is_empty() {
        lines.push(words.plain("settings-defaults"));
        lines.extend(standing.defaults.iter().map(line));
    }
    if !standing.missing.is_empty() {
        lines.push(words.plain("settings-missing"));
        lines.extend(standing.missing.iter().map(line));
    }
    let example = match before.trim() {
        "" => words.plain("settings-back-example"),
        rig => words.say("settings-back-example-rig", [("rig", rig.into())]),
    };
    lines.push(words.say("settings-back", [("example", (&example).into())]));
    lines.join("\n")
}
