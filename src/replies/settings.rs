//! Settings in the words in which they could be typed: what is shown can be
//! changed, sent back, and is understood.

use crate::message::setting::{self, Amount, Currency, Field, Meter, Setting, Unit, Value, VolumeUnit, Wish};

use super::{Words, figures, lists};
use crate::water::days_off::DaysOff;

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

/// The key of a setting's text: by its lasting name, and by its value where that is one of few words.
pub fn key(setting: &Setting) -> String {
    let name = setting.field().name();
    match setting.value() {
        Value::Clock(_) if matches!(setting.field(), Field::DayEndsOn(_)) => "set-day-ends-on".to_owned(),
        value if is_word(value) => format!("set-{name}-{}", setting.text().to_lowercase()),
        _ => format!("set-{name}"),
    }
}

/// Whether a value is one of few words, and has a text of its own.
fn is_word(value: &Value) -> bool {
    matches!(
        value,
        Value::Between(None)
            | Value::Meter(Meter::Ppm)
            | Value::Degrees(_)
            | Value::Pressure(_)
            | Value::Volume(_)
            | Value::Bed(_)
            | Value::Stands(_)
            | Value::Years(None)
    )
}

fn worded(words: Words, setting: &Setting, ways: Ways, exactly: bool) -> String {
    let say = |key: &str, value: &str| words.say(key, [("value", value.into())]);
    let number = |number: f64| {
        if exactly {
            figures::exact_number(words, number)
        } else {
            figures::plain_number(words, number)
        }
    };
    let money = |key: &str, amount: Amount| {
        if exactly {
            say(key, &number(amount.main()))
        } else {
            say(key, &figures::money(words, amount, ways.currency))
        }
    };
    let volume = |key: &str, litres: f64| {
        if exactly {
            say(key, &words.say("litres", [("value", (&number(litres)).into())]))
        } else {
            say(key, &figures::volume(words, litres, ways.volume))
        }
    };
    let count = |key: &str, count: u16| words.say(key, [("value", i64::from(count).into())]);
    let key = key(setting);
    let key = key.as_str();
    match setting.value() {
        Value::Money(amount) => money(key, *amount),
        Value::Number(value) => match setting.field().unit() {
            Unit::Litres => volume(key, *value),
            Unit::Share => say(key, &number(value * 100.0)),
            Unit::Ppm => say(key, &number(*value)),
        },
        Value::Count(value) | Value::Years(Some(value)) => count(key, *value),
        Value::Switch(on) => count(key, u16::from(*on)),
        Value::Clock(clock) => match setting.field() {
            Field::DayEndsOn(day) => on_day(words, key, &figures::weekday(words, day), &clock.text()),
            _ => say(key, &clock.text()),
        },
        Value::Days(days) => say(key, &figures::weekdays(words, *days)),
        Value::DayAt((day, clock)) => on_day(words, key, &figures::weekday(words, *day), &clock.text()),
        Value::Between(Some((from, to))) => {
            words.say(key, [("from", (&from.text()).into()), ("to", (&to.text()).into())])
        }
        Value::Months(months) => busy(words, months),
        Value::Meter(Meter::Conductivity(factor)) => say(key, &number(*factor)),
        Value::Rated(rated) => words.say(
            key,
            [
                ("flow", (&number(rated.gallons_per_day)).into()),
                ("temperature", (&number(rated.temperature_f)).into()),
                ("pressure", (&number(rated.pressure_psi)).into()),
            ],
        ),
        Value::Names(names) => {
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            say(key, &lists::either(words, &names))
        }
        Value::DaysOff(spans) => {
            let spans: Vec<String> = spans.iter().map(|span| days_off(words, span)).collect();
            say(key, &spans.join(", "))
        }
        Value::Country(_) | Value::Currency(_) => say(key, &setting.text()),
        _ => words.plain(key),
    }
}

/// A span of days off as it is typed, to the day.
fn days_off(words: Words, span: &DaysOff) -> String {
    let (from, last) = (span.from.to_string(), span.last().map(|last| last.to_string()));
    words.say(
        "set-time-off-span",
        [
            ("from", (&from).into()),
            ("ends", i64::from(last.is_some()).into()),
            ("last", last.as_deref().unwrap_or_default().into()),
            ("why", span.why.name().into()),
        ],
    )
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
