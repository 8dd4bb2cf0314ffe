//! Reads a setting as it was typed, for the outfit or for one rig.
//!
//! A text is a setting if every word of it is accounted for: by what a row needs, by its value, as a small word, or as
//! the name of a rig, of which there is one at most. So talk, which has other words, sets nothing.

use serde::{Deserialize, Serialize};

use super::amount::Amount;
use super::country::Country;
use super::currency::Currency;
use super::hours::{Clock, Days, Weekday};
use super::rows::{NAMES, ROWS, Row, Value};
use super::said::{Other, Said};
use super::{Field, Meter, Rated, Setting};
use crate::language::lexer::Form;
use crate::water::quantity::{Flow, LITRES_PER_CUBIC_FOOT, LITRES_PER_US_GALLON, Pressure, Temperature};

/// What somebody wants of the settings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Wish {
    /// This value from now on.
    Set(Setting),
    /// What holds, but for this part of it.
    Change(Change),
    /// The default again.
    Default(Field),
    /// To see what holds.
    ShowAll,
}

/// A part of a setting, the rest of which stays.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Change {
    /// No work on these days, from Monday on.
    NotOn([bool; 7]),
    /// The digest's day, from Monday on.
    DigestDay(usize),
    /// The digest's hour and minute.
    DigestTime(u8, u8),
    /// When quiet begins.
    QuietFrom(u8, u8),
    /// When it ends.
    QuietUntil(u8, u8),
}

impl Change {
    /// Which setting.
    pub fn field(self) -> Field {
        match self {
            Self::NotOn(_) => Field::WorkingDays,
            Self::DigestDay(_) | Self::DigestTime(..) => Field::DigestAt,
            Self::QuietFrom(..) | Self::QuietUntil(..) => Field::QuietHours,
        }
    }

    /// The setting with this part changed; none if nothing would be left of it.
    pub fn of(self, held: &Setting) -> Option<Setting> {
        let clock = Clock::new;
        match (self, held) {
            (Self::NotOn(off), Setting::WorkingDays(days)) => {
                let works = Weekday::ALL.map(|day| days.includes(day) && !off[day.from_monday()]);
                Days::new(works).map(Setting::WorkingDays)
            }
            (Self::DigestDay(day), Setting::DigestAt(_, at)) => Some(Setting::DigestAt(*Weekday::ALL.get(day)?, *at)),
            (Self::DigestTime(hour, minute), Setting::DigestAt(day, _)) => {
                Some(Setting::DigestAt(*day, clock(hour, minute)?))
            }
            (Self::QuietFrom(hour, minute), Setting::QuietHours(Some((_, until)))) => {
                Some(Setting::QuietHours(Some((clock(hour, minute)?, *until))))
            }
            (Self::QuietUntil(hour, minute), Setting::QuietHours(Some((from, _)))) => {
                Some(Setting::QuietHours(Some((*from, clock(hour, minute)?))))
            }
            _ => None,
        }
        .filter(Setting::is_plausible)
    }
}

/// A wish, and the rig's name as typed if it is for one rig.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WishFor {
    /// None: for the outfit.
    pub rig: Option<String>,
    /// What is wanted.
    pub wish: Wish,
}

/// Longer texts set nothing.
const MOST_ITEMS: usize = 24;
/// Words without a meaning that may stand beside a setting.
const MOST_TALK: usize = 3;
/// A rig's name has at most so many words.
const NAME_WORDS: usize = 3;

/// The wish that a text is, if it is one and nothing else.
pub fn read(text: &str) -> Option<WishFor> {
    read_with(text, None)
}

/// The wish that a text is, among rigs that are known: other words that the language has no meaning for are talk.
pub fn read_among(text: &str, is_rig: &dyn Fn(&str) -> bool) -> Option<WishFor> {
    read_with(text, Some(is_rig))
}

fn read_with(text: &str, is_rig: Option<&dyn Fn(&str) -> bool>) -> Option<WishFor> {
    let said = Said::cut(text, MOST_ITEMS)?;
    if said.items.is_empty() {
        return None;
    }
    let reading = || Reading {
        is_rig,
        ..Reading::new(&said)
    };
    let asks = reading().shows();
    if said.asks {
        return asks;
    }
    asks.or_else(|| reading().puts_back())
        .or_else(|| ROWS.iter().find_map(|row| reading().sets(row)))
}

/// The setting that a text is as the answer to a question about one of these: what the question says need not be said
/// again, and a number alone is in the unit that is asked for, American or metric.
pub fn answer(text: &str, fields: &[Field], american: bool) -> Option<Setting> {
    let said = Said::cut(text, MOST_ITEMS).filter(|said| !said.asks)?;
    ROWS.iter().filter(|row| fields.contains(&row.field)).find_map(|row| {
        let reading = Reading {
            asked: Some(Asked { american }),
            ..Reading::new(&said)
        };
        match reading.sets(row)? {
            WishFor {
                rig: None,
                wish: Wish::Set(setting),
            } if fields.contains(&setting.field()) => Some(setting),
            _ => None,
        }
    })
}

/// "What is the resin price?", "prices": answered by what is set.
pub fn asks_what_is_set(text: &str) -> bool {
    let wished = Said::cut(text, MOST_ITEMS).and_then(|said| {
        let asked = said.asks || said.items.iter().any(|item| item.is("asks"));
        Reading::new(&said).shows().filter(|_| asked)
    });
    wished.is_some_and(|wished| wished.wish == Wish::ShowAll)
}

/// The setting that a text names, and nothing but it and a rig; whether it takes more than a word to say so.
pub(super) fn named(text: &str) -> Option<(Field, Option<String>, bool)> {
    let said = Said::cut(text, MOST_ITEMS)?;
    NAMES.iter().find_map(|(field, needs)| {
        let mut reading = Reading::new(&said);
        reading.needs(needs)?;
        let field = reading.of_day(*field);
        let used = said.items.iter().zip(&reading.used).filter(|(_, used)| **used);
        let words: usize = used.map(|(item, _)| item.text.split(' ').count()).sum();
        let rig = reading.rest(&["line", "ends"])?;
        Some((field, rig, words > 1))
    })
}

/// A text while a row is tried on it: which of its items are accounted for.
struct Reading<'a> {
    said: &'a Said<'a>,
    used: Vec<bool>,
    /// Which names are rigs, if that is known.
    is_rig: Option<&'a dyn Fn(&str) -> bool>,
    /// It is the answer to a question about what the row sets.
    asked: Option<Asked>,
}

/// How a question asks.
#[derive(Clone, Copy)]
struct Asked {
    /// For gallons and cubic feet.
    american: bool,
}

impl<'a> Reading<'a> {
    fn new(said: &'a Said<'a>) -> Self {
        Self {
            said,
            used: vec![false; said.items.len()],
            is_rig: None,
            asked: None,
        }
    }

    fn is(&self, at: usize, key: &str) -> bool {
        self.said.items.get(at).is_some_and(|item| item.is(key))
    }

    /// Where an item that nothing accounts for yet may say this.
    fn free(&self, key: &str) -> Option<usize> {
        (0..self.used.len()).find(|at| !self.used[*at] && self.is(*at, key))
    }

    fn says(&self, key: &str) -> bool {
        (0..self.used.len()).any(|at| self.is(at, key))
    }

    fn take(&mut self, key: &str) -> Option<usize> {
        let at = self.free(key)?;
        self.used[at] = true;
        Some(at)
    }

    fn take_all(&mut self, key: &str) {
        while self.take(key).is_some() {}
    }

    /// Of each group, one is said.
    fn needs(&mut self, needs: &[&[&str]]) -> Option<()> {
        for group in needs {
            let met = group.iter().any(|key| match *key {
                "clock" => true,
                // Values are taken as what they are.
                "weekday" | "weekdays" | "everyday" | "month_of" | "on" | "off" => self.says(key),
                _ => self.take(key).is_some(),
            });
            (met || self.asked.is_some()).then_some(())?;
        }
        Some(())
    }

    /// What nothing accounts for is a rig's name, and a few words of talk where the rigs are known; none if it can be
    /// neither.
    fn rest(&mut self, may: &[&str]) -> Option<Option<String>> {
        let items = &self.said.items;
        let is_small = |at: usize| {
            let item = &items[at];
            let small = item.is("small") || item.text == "-";
            let small = small || self.is_rig.is_some() && item.other() == Some(Other::Small);
            small || may.iter().any(|key| item.is(key))
        };
        let open: Vec<usize> = (0..items.len())
            .filter(|at| !self.used[*at] && !is_small(*at))
            .collect();
        let Some(is_rig) = self.is_rig else {
            let (Some(first), Some(last)) = (open.first().copied(), open.last().copied()) else {
                return Some(None);
            };
            let is_run = last + 1 - first == open.len() && open.len() <= NAME_WORDS;
            let is_name = items[first].other().is_some();
            let text = self.said.typed(first, last);
            return (is_run && is_name && text.chars().any(char::is_alphabetic)).then(|| Some(text.to_owned()));
        };
        let runs = (1..=NAME_WORDS)
            .rev()
            .flat_map(|count| (0..(items.len() + 1).saturating_sub(count)).map(move |at| (at, count)));
        let mut free = runs.filter(|(at, count)| {
            let mut run = *at..at + count;
            run.all(|at| !self.used[at]) && items[*at].other().is_some()
        });
        let name = free.find_map(|(at, count)| {
            let typed = self.said.typed(at, at + count - 1);
            is_rig(typed).then(|| (at..at + count, typed.to_owned()))
        });
        let beside = |at: &usize| name.as_ref().is_none_or(|(run, _)| !run.contains(at));
        let talk: Vec<usize> = open.into_iter().filter(beside).collect();
        let is_talk = |at: &usize| items[*at].other() == Some(Other::Unknown);
        (talk.len() <= MOST_TALK && talk.iter().all(is_talk)).then(|| name.map(|(_, typed)| typed))
    }

    /// "settings", "heron settings", "what's the resin price?"
    fn shows(mut self) -> Option<WishFor> {
        let named = self.take("settings").is_some();
        if !named {
            if !self.says("asks") || !self.says("tag") {
                return None;
            }
            for key in ["tag", "resin", "membrane", "prefilter", "bag", "each"] {
                self.take_all(key);
            }
        }
        let rig = self.rest(&["asks", "on", "price"])?;
        let wish = Wish::ShowAll;
        Some(WishFor { rig, wish })
    }

    /// "resin price default"
    fn puts_back(&self) -> Option<WishFor> {
        NAMES.iter().find_map(|(field, needs)| {
            let mut reading = Reading {
                is_rig: self.is_rig,
                ..Reading::new(self.said)
            };
            reading.take("default")?;
            reading.needs(needs)?;
            let field = reading.of_day(*field);
            let rig = reading.rest(&["line", "reminders"])?;
            let wish = Wish::Default(field);
            Some(WishFor { rig, wish })
        })
    }

    /// "saturday ends" is of one day.
    fn of_day(&mut self, field: Field) -> Field {
        match (field, self.free("weekday")) {
            (Field::DayEnds, Some(at)) => {
                self.used[at] = true;
                let day = self.said.items[at].value("weekday").and_then(weekday);
                day.map_or(field, Field::DayEndsOn)
            }
            _ => field,
        }
    }

    fn sets(mut self, row: &Row) -> Option<WishFor> {
        self.needs(row.needs)?;
        let wish = self.wish(row)?;
        // Beside a name an unknown word may be a part of it: "canadian dollars".
        if matches!(row.value, Value::Country | Value::Currency) {
            self.is_rig = None;
        }
        let rig = self.rest(row.may)?;
        if let Wish::Set(setting) = &wish
            && !setting.is_plausible()
        {
            return None;
        }
        Some(WishFor { rig, wish })
    }

    fn wish(&mut self, row: &Row) -> Option<Wish> {
        let setting = match row.value {
            Value::Price => {
                let amount = self.price(row)?;
                match row.field {
                    Field::ResinPrice => Setting::ResinPrice(amount),
                    Field::MembranePrice => Setting::MembranePrice(amount),
                    Field::PrefilterPrice => Setting::PrefilterPrice(amount),
                    Field::ResinLabour => Setting::ResinLabour(amount),
                    _ => Setting::MembraneLabour(amount),
                }
            }
            Value::Volume => Setting::ResinLitres(match self.volume() {
                Some(litres) => litres,
                None => self.asked_unit(LITRES_PER_CUBIC_FOOT)? * self.number()?,
            }),
            Value::PerDay => Setting::LitresPerDay(match self.volume() {
                Some(litres) => litres,
                None => self.take_unit().or_else(|| self.asked_unit(LITRES_PER_US_GALLON))? * self.number()?,
            }),
            Value::Line => {
                self.take_all("percent");
                // 67.8 / 100 is not quite 0.678; a hundredth of a per cent is close enough.
                let line = (self.number()? * 100.0).round() / 10_000.0;
                match row.field {
                    Field::WearingLine => Setting::WearingLine(line),
                    Field::DueLine => Setting::DueLine(line),
                    _ => Setting::SpentLine(line),
                }
            }
            Value::Days => {
                let days = self.days::<7>("weekday")?;
                if self.says("not") || self.says("shut") {
                    self.take_all("not");
                    return Some(Wish::Change(Change::NotOn(days)));
                }
                Setting::WorkingDays(Days::new(days)?)
            }
            Value::DayEnd => {
                let day = self
                    .take("weekday")
                    .and_then(|at| weekday(self.said.items[at].value("weekday")?));
                let at = self.clock()?.later()?;
                day.map_or(Setting::DayEnds(at), |day| Setting::DayEndsOn(day, at))
            }
            Value::DigestTime => {
                let day = self
                    .take("weekday")
                    .and_then(|at| weekday(self.said.items[at].value("weekday")?));
                let at = self.clock().map(|at| at.as_typed());
                match (day, at) {
                    (Some(day), Some(at)) => Setting::DigestAt(day, at?),
                    (Some(day), None) if self.asked.is_some() => Setting::DigestAt(day, Clock::new(7, 0)?),
                    (Some(day), None) => return Some(Wish::Change(Change::DigestDay(day.from_monday()))),
                    (None, Some(at)) => return Some(Wish::Change(Change::DigestTime(at?.hour(), at?.minute()))),
                    (None, None) => return None,
                }
            }
            Value::Quiet => return self.quiet(),
            Value::Switch => {
                let on = self.switch()?;
                match row.field {
                    Field::Digest => Setting::Digest(on),
                    Field::Nudges => Setting::Nudges(on),
                    _ => Setting::Notices(on),
                }
            }
            Value::Busy => {
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
                Setting::BusyMonths(months.map(|busy| if busy { share } else { 100 }))
            }
            Value::Meter => match self.says("us") {
                true => Setting::Meter(Meter::Conductivity(self.number().unwrap_or(0.5))),
                false => Setting::Meter(Meter::Ppm),
            },
            Value::Choice(choices) => {
                let (_, kept) = choices.iter().find(|(key, _)| self.says(key))?;
                for (key, _) in choices {
                    self.take_all(key);
                }
                Setting::kept(row.field, kept)?
            }
            Value::Country => Setting::Country(self.named(Country::typed)?),
            Value::Currency => Setting::Currency(self.named(Currency::typed)?),
            Value::Every => {
                let mut taken = |unit| Some((unit, self.take(unit)?));
                let unit = ["day", "week", "month"].into_iter().find_map(&mut taken);
                let days = unit.map_or(self.asked.map(|_| 1), |(unit, at)| self.said.items[at].value(unit));
                Setting::PrefilterDays(whole(self.number()? * f64::from(days?))?)
            }
            Value::Count => Setting::Membranes(u8::try_from(whole(self.number()?)?).ok()?),
            Value::Rated => self.rated()?,
            Value::Names => self.names()?,
            Value::Years => {
                self.take_all("year");
                match self.number() {
                    Some(years) => Setting::Keep(Some(whole(years)?)),
                    None => self.take("all").map(|_| Setting::Keep(None))?,
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
            let part = (behind..behind + 2).find(|at| self.is(*at, "am") || self.is(*at, "pm"));
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
                Some(false) => Some(Wish::Set(Setting::QuietHours(None))),
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
        Some(Wish::Set(Setting::QuietHours(Some(both))))
    }

    fn switch(&mut self) -> Option<bool> {
        let (on, off) = (self.says("on"), self.says("off"));
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
    fn rated(&mut self) -> Option<Setting> {
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
        Some(Setting::Rated(Rated {
            gallons_per_day,
            temperature_f,
            pressure_psi,
        }))
    }

    /// The names behind "also called", between commas, "or" and "and".
    fn names(&mut self) -> Option<Setting> {
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
        Some(Setting::ShortNames(names))
    }
}

/// Units of volume, and litres in them.
const UNITS: [(&str, f64); 3] = [
    ("litre", 1.0),
    ("gallon", LITRES_PER_US_GALLON),
    ("cubicfoot", LITRES_PER_CUBIC_FOOT),
];

fn weekday(value: i32) -> Option<Weekday> {
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
