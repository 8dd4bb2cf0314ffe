//! Reads a setting as it was typed, for the outfit or for one rig.
//!
//! A text is a setting if every word of it is accounted for: by what a row needs, by its value, as a small word, or as
//! the name of a rig, of which there is one at most. So talk, which has other words, sets nothing.

use super::rows::{ROWS, Row, Says};
use super::said::{Other, Said};
use super::said_value::{Asked, Reading, weekday};
use super::wish::{Wish, WishFor};
use super::{Field, Setting};

/// Longer texts set nothing.
const MOST_ITEMS: usize = 24;
/// Words without a meaning that may stand beside a setting.
const MOST_TALK: usize = 3;
/// A text has at most so many parts that settings are looked for in.
const MOST_PARTS: usize = 8;
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

/// Settings between commas and words for "and", if a text is nothing else: those of a rig stay with the rig that was named.
pub fn read_each(text: &str, is_rig: Option<&dyn Fn(&str) -> bool>) -> Option<Vec<WishFor>> {
    let mut cuts = vec![(0, 0)];
    for (mark, len) in [(",", 1), (";", 1), (" and ", 5), (" y ", 3), (" e ", 3)] {
        cuts.extend(text.match_indices(mark).map(|(at, _)| (at, at + len)));
    }
    cuts.push((text.len(), text.len()));
    cuts.sort_unstable();
    if !(3..=MOST_PARTS + 1).contains(&cuts.len()) {
        return None;
    }
    let (mut from, mut wishes) = (0, Vec::<WishFor>::new());
    while from + 1 < cuts.len() {
        let before = wishes.last().zip(text.get(..cuts[from].0));
        // The longest that is one: "monday, tuesday and friday".
        let (to, mut wish) = (from + 1..cuts.len()).rev().find_map(|to| {
            let part = text.get(cuts[from].1..cuts[to].0)?;
            let wish = read_with(part, is_rig).or_else(|| same_of_another(part, before?, is_rig?));
            Some((to, wish?))
        })?;
        let named = wishes.last().and_then(|last| last.rig.clone());
        if let Wish::Set(setting) = &wish.wish
            && setting.field().reach() != super::Reach::Outfit
            && wish.rig.is_none()
        {
            wish.rig = named;
        }
        wishes.push(wish);
        from = to;
    }
    Some(wishes)
}

/// "heron does 400 litres a day, otter 700": what was said before of one rig, with the value of another.
fn same_of_another(
    text: &str,
    (before, said_before): (&WishFor, &str),
    is_rig: &dyn Fn(&str) -> bool,
) -> Option<WishFor> {
    let Wish::Set(setting) = &before.wish else {
        return None;
    };
    let american = Said::cut(said_before, MOST_ITEMS)?
        .items
        .iter()
        .any(|item| item.is("gallon") || item.is("cubicfoot"));
    let said = Said::cut(text, MOST_ITEMS).filter(|said| !said.asks)?;
    let rows = ROWS.iter().filter(|row| row.field == setting.field());
    let mut read = rows.filter_map(|row| {
        let reading = Reading {
            asked: Some(Asked { american }),
            is_rig: Some(is_rig),
            ..Reading::new(&said)
        };
        reading.sets(row)
    });
    read.find(|wish| wish.rig.is_some() && wish.rig != before.rig)
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
        let set = reading.sets(row)?.of_outfit();
        set.filter(|setting| fields.contains(&setting.field()))
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

/// The settings that have a name, those of more words first: "resin labour" is not "labour".
fn special_first() -> impl Iterator<Item = Field> {
    let of = |words| Field::all().filter(move |field| field.called().len() == words);
    of(2).chain(of(1))
}

/// The setting that a text names, and nothing but it and a rig; whether it takes more than a word to say so.
pub(super) fn named(text: &str) -> Option<(Field, Option<String>, bool)> {
    let said = Said::cut(text, MOST_ITEMS)?;
    special_first().find_map(|field| {
        let mut reading = Reading::new(&said);
        reading.needs(field.called())?;
        let field = reading.of_day(field);
        let used = said.items.iter().zip(&reading.used).filter(|(_, used)| **used);
        let words: usize = used.map(|(item, _)| item.text.split(' ').count()).sum();
        let rig = reading.rest(&["line", "ends"])?;
        Some((field, rig, words > 1))
    })
}

impl Reading<'_> {
    /// Of each group, one is said.
    fn needs(&mut self, needs: &[&[&str]]) -> Option<()> {
        for group in needs {
            let met = group.iter().any(|key| match *key {
                "clock" => true,
                // Values are taken as what they are.
                "weekday" | "weekdays" | "everyday" | "month_of" | "on" | "off" | "not" | "after" | "before"
                | "cubicfoot" => self.says(key),
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
        Some(WishFor {
            rig,
            wish: Wish::ShowAll,
            sure: self.sure,
        })
    }

    /// "resin price default"
    fn puts_back(&self) -> Option<WishFor> {
        special_first().find_map(|field| {
            let mut reading = Reading {
                is_rig: self.is_rig,
                ..Reading::new(self.said)
            };
            reading.take("default")?;
            reading.needs(field.called())?;
            let field = reading.of_day(field);
            let rig = reading.rest(&["line", "reminders"])?;
            Some(WishFor {
                rig,
                wish: Wish::Default(field),
                sure: reading.sure,
            })
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
        if matches!(row.value, Says::Country | Says::Currency) {
            self.is_rig = None;
        }
        let rig = self.rest(row.may)?;
        if let Wish::Set(setting) = &wish
            && !setting.is_plausible()
        {
            return None;
        }
        let sure = self.sure;
        Some(WishFor { rig, wish, sure })
    }
}
