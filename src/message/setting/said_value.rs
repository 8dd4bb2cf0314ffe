//! Reads the value of a setting from what was typed, by the kind of value that its row takes.

use super::amount::Amount;
use super::country::Country;
use super::currency::Currency;
use super::hours::{Clock, Days, Weekday};
use super::rows::{Row, Says};
use super::said::Said;
use super::wish::{Change, Wish};
use super::{Field, Meter, Rated, Setting};
use crate::domain::time_off::Why;
use crate::language::lexer::Form;
use crate::water::days_off::DaysOff;
use crate::water::quantity::{Flow, LITRES_PER_CUBIC_FOOT, LITRES_PER_US_GALLON, Pressure, Temperature};

/// A text while a row is tried on it: which of its items are accounted for.
pub(super) struct Reading<'a> {
    pub(super) said: &'a Said<'a>,
    pub(super) used: Vec<bool>,
    /// Which names are rigs, if that is known.
    pub(super) is_rig: Option<&'a dyn Fn(&str) -> bool>,
    /// It is the answer to a question about what the row sets.
    pub(super) asked: Option<Asked>,
    /// It ends with a yes.
    pub(super) sure: bool,
}

/// How a question asks.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    /// For gallons and cubic feet.
    pub(super) american: bool,
}

impl<'a> Reading<'a> {
    pub(super) fn new(said: &'a Said<'a>) -> Self {
        let sure = said.items.len() > 1 && said.items.last().is_some_and(|item| item.is("sure"));
        let mut used = vec![false; said.items.len()];
        if let Some(last) = used.last_mut() {
            *last = sure;
        }
        Self {
            said,
            used,
            is_rig: None,
            asked: None,
            sure,
        }
    }

    pub(super) fn is(&self, at: usize, key: &str) -> bool {
        self.said.items.get(at).is_some_and(|item| item.is(key))
    }

    /// Where an item that nothing accounts for yet may say this.
    pub(super) fn free(&self, key: &str) -> Option<usize> {
        (0..self.used.len()).find(|at| !self.used[*at] && self.is(*at, key))
    }

    pub(super) fn says(&self, key: &str) -> bool {
        (0..self.used.len()).any(|at| self.is(at, key))
    }

    pub(super) fn take(&mut self, key: &str) -> Option<usize> {
        let at = self.free(key)?;
        self.used[at] = true;
        Some(at)
    }

    pub(super) fn take_all(&mut self, key: &str) {
        while self.take(key).is_some() {}
    }

    pub(super) fn wish(&mut self, row: &Row) -> Option<Wish> {
        let setting = match row.value {
            Says::Price => row.field.to(self.price(row)?),
            Says::Volume => row.field.to(match self.volume() {
                Some(litres) => litres,
                None => match self.one_unit() {
                    Some(litres) => litres,
                    None => self.asked_unit(LITRES_PER_CUBIC_FOOT)? * self.number()?,
                },
            }),
            Says::PerDay => row.field.to(match self.volume() {
                Some(litres) => litres,
                None => self.take_unit().or_else(|| self.asked_unit(LITRES_PER_US_GALLON))? * self.number()?,
            }),
            Says::Line => {
                self.take_all("percent");
                // 67.8 / 100 is not quite 0.678; a hundredth of a per cent is close enough.
                row.field.to((self.number()? * 100.0).round() / 10_000.0)
            }
            Says::Ppm => row.field.to(self.number()?),
            Says::Days => {
                let days = self.days::<7>("weekday")?;
                if self.says("not") || self.says("shut") {
                    self.take_all("not");
                    return Some(Wish::Change(Change::NotOn(days)));
                }
                row.field.to(Days::new(days)?)
            }
            Says::DayEnd => {
                let day = self
                    .take("weekday")
                    .and_then(|at| weekday(self.said.items[at].value("weekday")?));
                let at = self.clock()?.later()?;
                day.map_or(row.field, Field::DayEndsOn).to(at)
            }
            Says::DigestTime => {
                let day = self
                    .take("weekday")
                    .and_then(|at| weekday(self.said.items[at].value("weekday")?));
                let at = self.clock().map(|at| at.as_typed());
                match (day, at) {
                    (Some(day), Some(at)) => row.field.to((day, at?)),
                    (Some(day), None) if self.asked.is_some() => row.field.to((day, Clock::new(7, 0)?)),
                    (Some(day), None) => return Some(Wish::Change(Change::DigestDay(day.from_monday()))),
                    (None, Some(at)) => return Some(Wish::Change(Change::DigestTime(at?.hour(), at?.minute()))),
                    (None, None) => return None,
                }
            }
            Says::Quiet => return self.quiet(),
            Says::Switch => row.field.to(self.switch()?),
            Says::Busy => {
                let share = match (self.take("twice"), self.take("half")) {
                    (Some(at), _) => self.said.items[at].value("twice"),
                    (_, Some(at)) => self.said.items[at].value("half"),
                    _ => None,
                };
                self.take_all("busy");
                self.take_all("percent");
                let share = share.map_or_else(|| self.number(), |share| Some(f64::from(share)))?;
                let share = (0.0..=500.0).contains(&share).then_some(share.round() as u16)?;
                let months = self.days::<12>("month_of")?;
                row.field.to(months.map(|busy| if busy { share } else { 100 }))
            }
            Says::Meter => match self.says("us") {
                true => row.field.to(Meter::Conductivity(self.number().unwrap_or(0.5))),
                false => row.field.to(Meter::Ppm),
            },
            Says::Choice(choices) => {
                // "psi, not bar"
                let meant =
                    |key: &str| (0..self.used.len()).any(|at| self.is(at, key) && !(at > 0 && self.is(at - 1, "not")));
                let (_, kept) = choices.iter().find(|(key, _)| meant(key))?;
                self.take_all("not");
                for (key, _) in choices {
                    self.take_all(key);
                }
                Setting::kept(row.field, kept)?
            }
            Says::Country => row.field.to(self.named(Country::typed)?),
            Says::Currency => row.field.to(self.named(Currency::typed)?),
            Says::Every => {
                let mut taken = |unit| Some((unit, self.take(unit)?));
                let unit = ["day", "week", "month"].into_iter().find_map(&mut taken);
                let days = unit.map_or(self.asked.map(|_| 1), |(unit, at)| self.said.items[at].value(unit));
                row.field.to(whole(self.number()? * f64::from(days?))?)
            }
            Says::Count => row.field.to(whole(self.number()?)?),
            Says::Rated => row.field.to(self.rated()?),
            Says::Names => row.field.to(self.names()?),
            Says::DaysOff => row.field.to(self.days_off()?),
            Says::Years => {
                self.take_all("year");
                match self.number() {
                    Some(years) => row.field.to(Some(whole(years)?)),
                    None => row.field.to(self.take("all").map(|_| None::<u16>)?),
                }
            }
        };
        Some(Wish::Set(setting))
    }

    /// A number that nothing accounts for, the only one: written in figures or as a word.
    fn number(&mut self) -> Option<f64> {
        let value = |at: usize| {
            let item = &self.said.items[at];
            item.number.or_else(|| item.value("number").map(f64::from))
        };
        let open = (0..self.used.len()).filter(|at| !self.used[*at]);
        let in_figures: Vec<usize> = open
            .clone()
            .filter(|at| self.said.items[*at].number.is_some())
            .collect();
        let in_words: Vec<usize> = open.filter(|at| self.is(*at, "number")).collect();
        let one_thousand = match in_figures.as_slice() {
            // "1 200"
            [first, second] if *second == first + 1 => {
                let (one, other) = (&self.said.items[*first], &self.said.items[*second]);
                let is_group = other.end - other.start == 3 && other.form == Some(Form::Whole);
                (one.number? < 10.0 && is_group)
                    .then(|| one.number.unwrap_or(0.0) * 1000.0 + other.number.unwrap_or(0.0))
            }
            _ => None,
        };
        let (places, number) = match (in_figures.as_slice(), in_words.as_slice()) {
            (_, []) if one_thousand.is_some() => (in_figures.clone(), one_thousand?),
            ([at], _) | ([], [at]) => (vec![*at], value(*at)?),
            _ => return None,
        };
        for at in places {
            self.used[at] = true;
        }
        Some(number)
    }

    /// The litres that a number alone counts where it was asked for: so many in an American unit, or one.
    fn asked_unit(&self, american: f64) -> Option<f64> {
        self.asked.map(|asked| if asked.american { american } else { 1.0 })
    }

    /// A unit of volume that no number stands before: litres in it.
    fn take_unit(&mut self) -> Option<f64> {
        UNITS.iter().find_map(|(key, litres)| self.take(key).map(|_| *litres))
    }

    /// "a cubic foot": litres.
    fn one_unit(&mut self) -> Option<f64> {
        let article =
            (1..self.used.len()).find(|at| self.is(at - 1, "per") && UNITS.iter().any(|(key, _)| self.is(*at, key)))?;
        let (_, litres) = UNITS.iter().find(|(key, _)| self.is(article, key))?;
        let half = article.checked_sub(2).filter(|at| self.is(*at, "halfpast"));
        self.used[half.unwrap_or(article - 1)..=article].fill(true);
        Some(if half.is_some() { litres / 2.0 } else { *litres })
    }

    /// A number and the unit behind it: litres.
    fn volume(&mut self) -> Option<f64> {
        for (key, litres) in UNITS {
            for at in 1..self.used.len() {
                let number = self.said.items[at - 1].number;
                let number = number.or_else(|| self.said.items[at - 1].value("number").map(f64::from));
                if let (true, false, Some(number)) = (self.is(at, key), self.used[at], number) {
                    (self.used[at - 1], self.used[at]) = (true, true);
                    return Some(number * litres);
                }
            }
        }
        None
    }

    /// Money, and that it is meant as a price.
    fn price(&mut self, row: &Row) -> Option<Amount> {
        let of_resin = row.field == Field::ResinPrice;
        let mut is_price = row.needs.iter().any(|group| group.contains(&"labour"));
        let priced = self.says("price");
        // "changed" and "new" tell of a deed, unless the price itself is spoken of.
        if self.says("deed") && !priced && !self.says("each") && !self.says("be") {
            return None;
        }
        for at in 0..self.used.len() {
            if self.said.is_money(at) {
                self.used[at] = true;
                is_price = true;
            }
        }
        let has_money = |item: &super::said::Item| item.form == Some(Form::Money);
        is_price |= self.asked.is_some() || priced || self.says("each") || self.said.items.iter().any(has_money);
        let pack = of_resin.then(|| self.volume()).flatten();
        let mut number = self.number()?;
        if of_resin {
            match (pack, self.take_unit()) {
                (Some(litres), _) => (number, is_price) = (number / litres, is_price || self.says("bag")),
                (None, Some(litres)) => (number, is_price) = (number / litres, true),
                (None, None) => number /= self.asked_unit(LITRES_PER_CUBIC_FOOT).unwrap_or(1.0),
            }
            self.take_all("per");
        }
        is_price.then(|| Amount::of_main(number)).flatten()
    }

    /// Days or months: single ones, and from one to another.
    fn days<const N: usize>(&mut self, key: &str) -> Option<[bool; N]> {
        let mut days = [false; N];
        let within = |value: i32| usize::try_from(value).ok().filter(|day| *day < N);
        if N == 7 {
            let whole = [("everyday", 7), ("weekdays", 5)]
                .into_iter()
                .find(|(all, _)| self.take(all).is_some());
            if let Some((_, count)) = whole {
                days[..count].fill(true);
                return Some(days);
            }
        }
        let mut last: Option<(usize, usize)> = None;
        for at in 0..self.used.len() {
            let Some(day) = self.said.items[at]
                .value(key)
                .and_then(within)
                .filter(|_| !self.used[at])
            else {
                continue;
            };
            self.used[at] = true;
            days[day] = true;
            if let Some((place, first)) = last
                && place + 2 == at
                && (self.is(place + 1, "until") || self.said.items[place + 1].text == "-")
            {
                let mut next = first;
                while next != day {
                    next = (next + 1) % N;
                    days[next] = true;
                }
            }
            last = Some((at, day));
        }
        self.take_all("until");
        days.contains(&true).then_some(days)
    }

    /// The next time of day.
    fn clock(&mut self) -> Option<TimeTyped> {
        for at in 0..self.used.len() {
            if self.used[at] {
                continue;
            }
            let item = &self.said.items[at];
            let typed = self.said.text.get(item.start..item.end).unwrap_or_default();
            let (hour, minute) = match (item.form, item.number) {
                (Some(Form::Clock(hour, minute)), _) => (hour, minute),
                (Some(Form::Whole), Some(hour)) if hour <= 24.0 => (hour as u8, 0),
                // "cuatro y media"
                (Some(Form::Words), Some(hour)) if hour <= 24.0 => (hour as u8, (hour.fract() * 60.0) as u8),
                (Some(Form::Decimal | Form::Comma(..)), _) => {
                    let (hour, minute) = typed.split_once(['.', ','])?;
                    (hour.parse().ok()?, minute.parse().ok().filter(|_| minute.len() == 2)?)
                }
                _ => continue,
            };
            let (before, behind) = (at.checked_sub(1), at + 1);
            let mut minute = minute;
            self.used[at] = true;
            if let Some(half) = before.filter(|half| self.is(*half, "halfpast") || self.is(*half, "half")) {
                (self.used[half], minute) = (true, 30);
            } else if let Some(quarter) = before.filter(|quarter| self.is(*quarter, "quarter")) {
                (self.used[quarter], minute) = (true, 15);
            } else if self.is(behind, "halfpast") {
                (self.used[behind], minute) = (true, 30);
            } else if self.is(behind, "quarter") {
                (self.used[behind], minute) = (true, 15);
            }
            // "at 8 in the evening", "sunday night at 8"
            let around = (behind..behind + 2).chain(at.saturating_sub(2)..at);
            let mut free = around.filter(|at| self.used.get(*at) == Some(&false));
            let part = free.find(|at| self.is(*at, "am") || self.is(*at, "pm"));
            if let Some(part) = part {
                self.used[part] = true;
            }
            let afternoon = part.map(|part| self.is(part, "pm"));
            let in_full = typed.len() >= 2 && typed.as_bytes().get(1).is_some_and(u8::is_ascii_digit);
            return Some(TimeTyped {
                hour,
                minute,
                afternoon,
                in_full,
            });
        }
        None
    }

    fn quiet(&mut self) -> Option<Wish> {
        let (after, before) = (self.take("after").is_some(), self.take("before").is_some());
        let Some(first) = self.clock() else {
            return match self.switch() {
                Some(false) => Some(Wish::Set(Field::QuietHours.to(None::<(Clock, Clock)>))),
                _ => None,
            };
        };
        self.take_all("from");
        let Some(second) = self.clock() else {
            return match (after, before) {
                (true, false) => first
                    .later()
                    .map(|at| Wish::Change(Change::QuietFrom(at.hour(), at.minute()))),
                (false, true) => first
                    .as_typed()
                    .map(|at| Wish::Change(Change::QuietUntil(at.hour(), at.minute()))),
                _ => None,
            };
        };
        self.take_all("until");
        let both = (first.later()?, second.as_typed()?);
        Some(Wish::Set(Field::QuietHours.to(Some(both))))
    }

    fn switch(&mut self) -> Option<bool> {
        let (on, off) = (self.says("on"), self.says("off") || self.take("not").is_some());
        let is_off = |at: usize| self.is(at, "off") && !self.is(at, "small");
        let sure_off = (0..self.used.len()).any(is_off);
        self.take_all("off");
        self.take_all("on");
        (on || off).then_some(!(off && (sure_off || !on)))
    }

    /// The longest run of words that names one.
    fn named<T>(&mut self, known: impl Fn(&str) -> Option<T>) -> Option<T> {
        let all = self.used.len();
        // "in" is India's code, too: a small word names something only where no other does.
        let runs = |may_be_small: bool| {
            let counts = (1..=4.min(all)).rev();
            counts.flat_map(move |count| (0..=all - count).map(move |from| (count, from, may_be_small)))
        };
        for (count, from, may_be_small) in runs(false).chain(runs(true)) {
            let is_left_out = !may_be_small && count == 1 && self.is(from, "small");
            if is_left_out || (from..from + count).any(|at| self.used[at]) {
                continue;
            }
            let items = &self.said.items[from..from + count];
            let texts: Vec<&str> = items.iter().map(|item| item.text.as_str()).collect();
            if let Some(found) = known(&texts.join(" ")) {
                self.used[from..from + count].fill(true);
                return Some(found);
            }
        }
        None
    }

    /// "150 gpd at 77 F and 60 psi", in any order.
    fn rated(&mut self) -> Option<Rated> {
        let before = |reading: &mut Self, keys: &[&'static str]| {
            keys.iter().find_map(|key| {
                let at = (1..reading.used.len()).find(|at| !reading.used[*at] && reading.is(*at, key))?;
                let back = at - 1 - usize::from(reading.is(at - 1, "degrees"));
                let number = reading.said.items.get(back)?.number?;
                reading.used[back..=at].fill(true);
                Some((*key, number))
            })
        };
        let temperature_f = match before(self, &["fahrenheit", "celsius"])? {
            ("celsius", value) => Temperature::from_celsius(value).ok()?.fahrenheit(),
            (_, value) => value,
        };
        let pressure_psi = match before(self, &["psi", "bar"])? {
            ("bar", value) => Pressure::from_bar(value).ok()?.psi(),
            (_, value) => value,
        };
        let gallons_per_day = match before(self, &["gpd"]) {
            Some((_, value)) => value,
            None => {
                let litres = self.volume()?;
                self.take("perday")?;
                Flow::from_litres_per_minute(litres / 1440.0).ok()?.us_gallons_per_day()
            }
        };
        Some(Rated {
            gallons_per_day,
            temperature_f,
            pressure_psi,
        })
    }

    /// "2026-12-24 to 2027-01-02 garage", "from 2027-03-01": the second day is the last one off.
    fn days_off(&mut self) -> Option<Vec<DaysOff>> {
        let mut told: Vec<(Date, Option<Date>, Why)> = Vec::new();
        let mut ends = false;
        for (at, item) in self.said.items.iter().enumerate() {
            if let Some(Form::Date(year, month, day)) = item.form {
                match told.last_mut() {
                    Some((_, last @ None, _)) if ends => *last = Some((year, month, day)),
                    _ => told.push(((year, month, day), None, Why::Off)),
                }
                ends = false;
            } else if let Some(why) = item.value("why") {
                told.last_mut()?.2 = Why::ALL.get(usize::try_from(why).ok()?)?.0;
            } else if item.is("until") {
                ends = true;
            } else if !item.is("from") {
                continue;
            }
            self.used[at] = true;
        }
        let spans = told.into_iter().map(|(from, last, why)| DaysOff::of(from, last, why));
        spans.collect()
    }

    /// The names behind "also called", between commas, "or" and "and".
    fn names(&mut self) -> Option<Vec<String>> {
        let at = self.used.iter().position(|used| *used)?;
        let typed = self.said.text.get(self.said.items[at].end..)?;
        self.used[at..].fill(true);
        let mut names = vec![String::new()];
        for word in typed.replace(',', " , ").split_whitespace() {
            if [",", "or", "and", "o", "y", "u"]
                .iter()
                .any(|link| word.eq_ignore_ascii_case(link))
            {
                names.push(String::new());
                continue;
            }
            let name = names.last_mut()?;
            if !name.is_empty() {
                name.push(' ');
            }
            name.push_str(word);
        }
        names.retain(|name| !name.is_empty());
        Some(names)
    }
}

/// Year, month, day.
type Date = (i16, u8, u8);

/// Units of volume, and litres in them.
const UNITS: [(&str, f64); 3] = [
    ("litre", 1.0),
    ("gallon", LITRES_PER_US_GALLON),
    ("cubicfoot", LITRES_PER_CUBIC_FOOT),
];

pub(super) fn weekday(value: i32) -> Option<Weekday> {
    Weekday::ALL.get(usize::try_from(value).ok()?).copied()
}

fn whole(number: f64) -> Option<u16> {
    (number.fract() == 0.0 && (0.0..=60_000.0).contains(&number)).then_some(number as u16)
}

/// A time of day as typed: "5:30" may be in the afternoon, "05:30" is not.
#[derive(Clone, Copy)]
struct TimeTyped {
    hour: u8,
    minute: u8,
    afternoon: Option<bool>,
    in_full: bool,
}

impl TimeTyped {
    fn as_typed(self) -> Option<Clock> {
        match self.afternoon {
            None => Clock::new(self.hour, self.minute),
            Some(_) if !(1..=12).contains(&self.hour) => None,
            Some(later) => Clock::new(self.hour % 12 + if later { 12 } else { 0 }, self.minute),
        }
    }

    /// What happens late in the day: "5:30" is half past five in the afternoon.
    fn later(self) -> Option<Clock> {
        let meant = match self.afternoon {
            None if !self.in_full && (1..=11).contains(&self.hour) => Some(true),
            said => said,
        };
        Self {
            afternoon: meant,
            ..self
        }
        .as_typed()
    }
}
