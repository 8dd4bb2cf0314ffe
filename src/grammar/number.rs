//! What each number is by its own neighbours: explained (counted, time, money, job ...), with a unit, or free.

use super::item::Item;
use super::role::Role;
use super::when;
use crate::domain::meaning::{Scene, When};
use crate::language::lexer::{CURRENCIES, Form};
use crate::language::senses::{DONE, SLOTS, Sense, Senses, UNITS};
use crate::language::unit::Unit;

/// One role an item.
pub fn roles(items: &[Item], scene: &Scene) -> Vec<Role> {
    let mut out = vec![Role::None; items.len()];
    for at in 0..items.len() {
        if let Some((value, form)) = items[at].num {
            out[at] = Reader {
                items,
                at,
                value,
                form,
                before: &out,
                month_first: scene.month_first,
                soft_water: scene
                    .fleet
                    .iter()
                    .any(|rig| rig.usual_feed_ppm.is_some_and(|(low, _)| low < 32.0)),
            }
            .role();
        }
    }
    when::words(items, &mut out);
    out
}

struct Reader<'a> {
    items: &'a [Item],
    at: usize,
    value: f64,
    form: Form,
    before: &'a [Role],
    /// The outfit writes the month before the day.
    month_first: bool,
    /// Some tap of the outfit reads as low as a day of the month is counted.
    soft_water: bool,
}

/// Words that may follow a bare value: it is not what they count.
const NOT_COUNTED: Senses = Senses::of([
    Sense::and,
    Sense::at,
    Sense::until,
    Sense::change,
    Sense::flushed,
    Sense::numbered,
]);

impl<'a> Reader<'a> {
    fn get(&self, offset: isize) -> Option<&'a Item> {
        self.at.checked_add_signed(offset).and_then(|i| self.items.get(i))
    }

    fn role(&self) -> Role {
        if let Some(role) = self.by_form() {
            return role;
        }
        if self.is_line_number() {
            return Role::Explained;
        }
        if let Some(time) = when::clock(self.items, self.at, self.value, self.form) {
            return time;
        }
        if self.is_garbled() {
            return Role::Garbled;
        }
        let labels = Senses::of([Sense::feed, Sense::perm, Sense::prod, Sense::temp, Sense::press]);
        let labelled = self.get(-1).is_some_and(|p| p.any(labels) && p.is_word());
        let strong = labelled || self.is_in_pair();
        self.by_next(strong)
            .or_else(|| {
                if self.is_in_pair() && self.value >= 50.0 {
                    None
                } else {
                    self.by_name(labelled)
                }
            })
            .or_else(|| self.by_unit_before())
            .or_else(|| self.by_fraction())
            .or_else(|| self.by_range())
            .unwrap_or(Role::Free(None))
    }

    fn by_form(&self) -> Option<Role> {
        Some(match self.form {
            Form::Money => Role::Price,
            Form::Percent if self.get(-1).is_some_and(|p| p.is(Sense::numbered) && p.is_word()) => Role::Explained,
            Form::Percent => Role::Percent,
            Form::Long => Role::Explained,
            Form::Garbled => Role::Garbled,
            Form::Date(year, month, day) => {
                // The year stands first in "2026-03-05", which is one way alone.
                let swaps = self.month_first && self.value < 1000.0 && self.value != f64::from(month) && day <= 12;
                Role::Time(if swaps {
                    when::on(year, day, month)
                } else {
                    when::on(year, month, day)
                })
            }
            Form::Ordinal => {
                let on = self.get(-1).is_some_and(|p| {
                    p.is_word() && p.any(Senses::of([Sense::datebefore, Sense::at, Sense::article, Sense::prep]))
                });
                let day = self.value as u8;
                if on {
                    Role::Time(When::DayOfMonth { day, hour_minute: None })
                } else {
                    Role::Explained
                }
            }
            _ => return None,
        })
    }

    /// "1) van 1 ...", "2. ...": the number of a line.
    fn is_line_number(&self) -> bool {
        let first = self.get(-1).is_none_or(|p| p.is_mark("\n.;!?,"));
        let parted = self.get(1).is_some_and(|n| {
            let listed = self.get(-1).is_some_and(|p| p.mark == Some(','));
            n.mark == Some('.') && !listed && self.get(2).is_some_and(|n| n.num.is_none())
        });
        let opened = (1..=3).any(|i| self.get(-i).is_some_and(|item| item.mark == Some('(')));
        let bracket = self.get(1).is_some_and(|n| n.mark == Some(')') && n.glued) && !opened;
        self.value < 20.0 && (first && parted || bracket)
    }

    /// "20A", "v88": a letter that is neither label nor unit.
    fn is_garbled(&self) -> bool {
        let letter = |item: &Item| item.letters == 1 && item.is_word() && !item.any(SLOTS);
        let units = UNITS.and(Senses::of([
            Sense::count,
            Sense::litres,
            Sense::minutes,
            Sense::stretch,
        ]));
        let next = self.get(1).is_some_and(|n| n.glued && letter(n) && !n.any(units));
        let joined = self.get(2).is_some_and(|n| n.glued && n.num.is_some());
        // "permeate -7": nothing has less than none.
        let minus = self.items[self.at].glued
            && self.get(-1).is_some_and(|p| p.mark == Some('-') && !p.glued)
            && self.get(-2).is_some_and(|p| p.is_word() && p.any(SLOTS));
        minus || self.items[self.at].glued && self.get(-1).is_some_and(letter) || next && !joined
    }

    fn by_next(&self, strong: bool) -> Option<Role> {
        let next = self.get(1)?;
        let next2 = self.get(2);
        if next.is(Sense::money) && !next.any(UNITS) {
            return Some(Role::Price);
        }
        let sign = next.mark.is_some_and(|mark| CURRENCIES.contains(&mark));
        if sign && next2.is_none_or(|n| n.num.is_none()) {
            return Some(Role::Price);
        }
        if next.is(Sense::minutes) {
            return Some(Role::Minutes);
        }
        if next.is(Sense::percent) || next.mark == Some('%') {
            return Some(Role::Percent);
        }
        if next.any(Senses::of([Sense::litres, Sense::bottles])) && !next.any(SLOTS) && !strong {
            return Some(Role::Amount);
        }
        // "lynx 180 12 kids are off": the second of a falling pair right behind the rig.
        let pair = self
            .get(-1)
            .and_then(Item::value)
            .is_some_and(|first| first >= 50.0 && first > 2.0 * self.value);
        let strong = strong || pair && self.is_head() && !next.glued;
        let numbers_on = next.is(Sense::numbered) && next2.is_some_and(|n| n.num.is_some());
        if next.is(Sense::count)
            && !numbers_on
            && !(next.any(SLOTS) && !next.glued)
            && (!strong || next.glued && next.letters > 1 && !next.any(UNITS))
        {
            return Some(Role::Explained);
        }
        // "f" is the letter of the tap as well.
        let letter = next.any(SLOTS) && next.is(Sense::fahrenheit);
        if let Some(unit) = Unit::of(next.senses).filter(|_| next.is_word() && !(letter && self.value > 120.0)) {
            return Some(Role::Free(Some(unit)));
        }
        // "2 more houses", "3 big jobs"
        let plain = |item: &Item| item.is_word() && !item.any(SLOTS.and(UNITS));
        let counted = next2.is_some_and(|n| n.is(Sense::count) && n.is_word());
        if plain(next) && !next.any(NOT_COUNTED) && !strong && counted && !self.is_head() {
            return Some(Role::Explained);
        }
        // "180 main st"
        let mut streets = (1..=3).map_while(|i| self.get(i).filter(|item| plain(item)));
        let at = self
            .get(-1)
            .is_some_and(|p| p.is_word() && p.any(Senses::of([Sense::at, Sense::prep])));
        if !strong && (at || !self.is_head()) && streets.any(|n| n.is(Sense::street)) {
            return Some(Role::Explained);
        }
        None
    }

    /// "job 12", "flat # 3", "calle mayor 180 bajo 12"
    fn by_name(&self, labelled: bool) -> Option<Role> {
        let (prev, prev2) = (self.get(-1)?, self.get(-2));
        let names = |item: &Item| item.is(Sense::numbered) && item.is_word();
        let small = prev.is_word() && prev.is(Sense::filler) || prev.is_mark("#:");
        if !labelled && (names(prev) || (small && prev2.is_some_and(names))) {
            return Some(Role::Explained);
        }
        let street = |item: &Item| item.is(Sense::street) && !item.is(Sense::vehicle) && item.is_word();
        // "07700 900 123", "llama al 645 345 123"
        let phone = prev
            .num
            .is_some_and(|(value, form)| form == Form::Long || value >= 100.0);
        if phone && self.value >= 100.0 && self.before[self.at - 1] == Role::Explained {
            return Some(Role::Explained);
        }
        if street(prev) || (prev.unknown && prev2.is_some_and(street)) {
            return Some(Role::Explained);
        }
        // The second number of "tyres 32 and 30", "12 to 1" goes with an explained first.
        if prev.mark == Some('\u{b1}') {
            return Some(Role::Explained);
        }
        prev2.filter(|first| first.num.is_some())?;
        let explained = matches!(self.before[self.at - 2], Role::Explained | Role::Percent);
        let tied = prev.is_link() && !prev.is_mark(",.");
        (explained && tied && !self.get(1).is_some_and(|n| n.any(SLOTS))).then_some(Role::Explained)
    }

    /// "psi 95", "psi was 95": a unit in front, which no number has taken.
    fn by_unit_before(&self) -> Option<Role> {
        let ahead = Senses::of([Sense::psi, Sense::bar, Sense::kpa, Sense::lpm, Sense::gpm]);
        let small = self.get(-1).is_some_and(|p| p.is(Sense::filler) || p.mark == Some(':'));
        let places = [self.at.checked_sub(1), self.at.checked_sub(2).filter(|_| small)];
        let unit = places.into_iter().flatten().find(|&i| {
            let taken = i.checked_sub(1).is_some_and(|p| self.items[p].num.is_some());
            self.items[i].any(ahead) && self.items[i].is_word() && !taken
        })?;
        Some(Role::Free(Unit::of(self.items[unit].senses)))
    }

    fn number_at(&self, at: usize) -> Option<f64> {
        self.items.get(at).and_then(Item::value)
    }

    /// Where a pair begins that the mark ties, both sides glued: "3/4".
    fn tied_at(&self, mark: char) -> Option<usize> {
        let tie = |i: usize| {
            self.items
                .get(i)
                .is_some_and(|item| item.mark == Some(mark) && item.glued)
                && self
                    .items
                    .get(i + 1)
                    .is_some_and(|item| item.glued && item.num.is_some())
        };
        if tie(self.at + 1) {
            return Some(self.at);
        }
        (self.at >= 2 && tie(self.at - 1) && self.items[self.at - 2].num.is_some()).then(|| self.at - 2)
    }

    /// "212-215", "2-1": a range or a score.
    fn by_range(&self) -> Option<Role> {
        let first = self.tied_at('-')?;
        let (a, b) = (self.number_at(first)?, self.number_at(first + 2)?);
        let headed = first > 0 && self.items[first - 1].is_name();
        let score = a < 20.0 && b < 20.0 && (!headed || a <= b);
        let settled = self.items[first..].iter().take(6).any(|item| item.is(Sense::settle));
        let range = b >= a && b < a * 1.15 && settled;
        (score || range).then_some(Role::Explained)
    }

    /// "3/4", "14/12": a smaller over a larger small number, which is no pair of readings.
    fn by_fraction(&self) -> Option<Role> {
        let first = self.tied_at('/')?;
        let whole = |i: usize| {
            self.items
                .get(i)?
                .num
                .filter(|(_, form)| *form == Form::Whole)
                .map(|n| n.0)
        };
        let start = match first.checked_sub(1).map(|i| self.items[i].mark) {
            Some(Some('/')) => first.checked_sub(2)?,
            _ => first,
        };
        let tied = |i: usize| self.items.get(i).is_some_and(|item| item.mark == Some('/'));
        if let (Some(a), Some(b), Some(year), true, true) = (
            whole(start),
            whole(start + 2),
            whole(start + 4),
            tied(start + 1),
            tied(start + 3),
        ) {
            // "15/01/26": as three readings the glass would be far above the RO outlet.
            let (day, month) = if self.month_first || b > 12.0 { (b, a) } else { (a, b) };
            let year = if (20.0..=60.0).contains(&year) {
                year + 2000.0
            } else {
                year
            };
            if (1.0..=31.0).contains(&day) && (1.0..=12.0).contains(&month) && (2000.0..2100.0).contains(&year) {
                return Some(Role::Time(when::on(year as i16, month as u8, day as u8)));
            }
        }
        let (a, b) = (whole(first)?, whole(first + 2)?);
        let before = first.checked_sub(1).map(|i| &self.items[i]);
        let named = before.is_some_and(|p| p.is_name() || p.any(SLOTS));
        if !named && a == b {
            return Some(Role::Explained);
        }
        let longer = |i: usize| self.items.get(i).is_some_and(|item| item.mark == Some('/')) && whole(i + 1).is_some();
        if longer(first + 3) || (first >= 2 && longer(first - 1)) {
            return None;
        }
        let headed = before.is_some_and(|p| p.is_name() || p.mark == Some(':'));
        let dated = Senses::of([Sense::datebefore, Sense::plan, Sense::numbered]);
        let ahead = (1..=3).filter_map(|i| first.checked_sub(i)).map(|i| &self.items[i]);
        let dates = !headed && ahead.take_while(|item| item.num.is_none()).any(|item| item.any(dated));
        let month = (1.0..=12.0).contains(&b) && (1.0..=31.0).contains(&a);
        let on = first > 1 && before.is_some_and(|p| p.is(Sense::prep) && p.is_word() && !p.is(Sense::over)) && month;
        if on {
            return Some(Role::Time(when::on(0, b as u8, a as u8)));
        }
        // "new resin 27/2"
        let words = self.items[..first].iter().rev().take(4);
        let done = words
            .take_while(|item| item.mark.is_none() && item.num.is_none())
            .any(|item| item.any(DONE));
        let (day, other) = if self.month_first || b > 12.0 { (b, a) } else { (a, b) };
        let dates_deed = done && !headed && !self.soft_water;
        if dates_deed && (1.0..=31.0).contains(&day) && (1.0..=12.0).contains(&other) {
            return Some(Role::Time(when::on(0, other as u8, day as u8)));
        }
        ((a < b && b <= 16.0 && !headed) || (month && dates)).then_some(Role::Explained)
    }

    /// Tied by "/" or ">" to a number with which it makes a falling pair.
    fn is_in_pair(&self) -> bool {
        let tied = |a: usize| {
            self.items.get(a + 1).is_some_and(|item| item.is_mark("/>"))
                && matches!((self.number_at(a), self.number_at(a + 2)), (Some(x), Some(y)) if x > 2.0 * y && x >= 20.0)
        };
        tied(self.at) || self.at.checked_sub(2).is_some_and(tied)
    }

    /// Part of the two numbers that stand right behind a rig.
    fn is_head(&self) -> bool {
        let mut numbers = 0;
        for item in self.items[..self.at].iter().rev() {
            if item.is_name() {
                return numbers <= 1;
            }
            if item.num.is_some() {
                numbers += 1;
            } else if !item.is_link() && !item.is(Sense::filler) {
                return false;
            }
            if numbers > 1 {
                return false;
            }
        }
        false
    }
}
