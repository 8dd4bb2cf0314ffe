//! Time off: a rig that is away, an outfit that is closed, and work that goes on.
//!
//! A clause tells of it by a word for being off; the days stand in it or in what follows it in its sentence. It is told
//! only if nothing asks, doubts, supposes or denies it, and if nobody else is its subject.

use super::clause::Clause;
use super::frame::{one, rigs_of};
use super::item::{Item, Items};
use super::message::Message;
use super::role::Role;
use super::scope;
use crate::domain::meaning::When;
use crate::domain::time_off::{Ahead, Said, TimeOff, Until, Whose, Why};
use crate::language::lexer::Form;
use crate::language::lexicon::LEXICON;
use crate::language::senses::{DENIES, PARTS, Sense, Senses};

/// What makes it doubtful, or not so.
const DOUBTS: Senses = DENIES.and(Senses::of([
    Sense::cond,
    Sense::guess,
    Sense::modal,
    Sense::past,
    Sense::norm,
    Sense::plan,
]));
/// Days that are to come, and words that announce: no mere plans here.
const ANNOUNCED: Senses = Senses::of([
    Sense::weekday,
    Sense::tomorrow,
    Sense::ahead,
    Sense::announces,
    Sense::daylink,
]);
/// What may stand before the word for being off where no rig does.
const BEFORE: Senses = ANNOUNCED.and(Senses::of([
    Sense::filler,
    Sense::be,
    Sense::prep,
    Sense::article,
    Sense::and,
    Sense::yes,
    Sense::chat,
    Sense::today,
    Sense::month,
    Sense::shut,
    Sense::all,
    Sense::stretch,
    Sense::last,
    Sense::sender,
]));
/// A day has so many minutes.
const DAY: i32 = 1440;
/// Values of the key `ahead`: days, then weeks, months, and what has no date.
const WEEKS: i32 = 100;
const MONTHS: i32 = 200;
const NO_DATE: i32 = 300;
const NEW_YEAR: i32 = 301;

/// What a message tells of time off.
pub fn find(message: &Message) -> Vec<TimeOff> {
    let clauses = &message.clauses;
    let mut out: Vec<TimeOff> = Vec::new();
    let mut at = 0;
    while at < clauses.len() {
        let run = run_of(&clauses[at..]);
        let found = of_run(message, &clauses[..at], &clauses[at..at + run]);
        at += if found.is_empty() { 1 } else { run };
        // "Lynx 180 12, off on the 14th": who is off is asked only where nothing else is said.
        let said = |one: &TimeOff| matches!(one.whose, Whose::Rig(_) | Whose::Outfit) || run == clauses.len();
        out.extend(found.into_iter().filter(said));
    }
    out
}

/// How many clauses belong together: the first, and those of its sentence that tell of days and of nobody else.
fn run_of(clauses: &[Clause]) -> usize {
    let more = clauses.iter().skip(1);
    let own = |clause: &&Clause| {
        let else_said = clause.hard || clause.names_rig() || clause.is(Sense::shut) || clause.first_value().is_some();
        !else_said && !days_of(clause).is_empty()
    };
    1 + more.take_while(own).count()
}

fn of_run(message: &Message, before: &[Clause], run: &[Clause]) -> Vec<TimeOff> {
    let first = &run[0];
    if !is_told(run) || first.first_value().is_some() {
        return Vec::new();
    }
    let told = first
        .items
        .iter()
        .position(|item| why_of(item).is_some() || item.is(Sense::shut) && item.is_word());
    let days: Vec<Day> = run.iter().flat_map(days_of).collect();
    let Some(told) = told else {
        return over(message, first, &days);
    };
    let (item, why) = (&first.items[told], why_of(&first.items[told]).unwrap_or_default());
    let laid_by = matches!(why, Why::Winter | Why::Preserved);
    let anothers = first.items[..told].iter().any(|item| item.is(Sense::foreign));
    if anothers || first.any(PARTS) && !laid_by {
        return Vec::new();
    }
    let whose = whose(message, before, first, told);
    let dated = spans(&days);
    // "For the winter", "until further notice": it is away, and nobody knows how long.
    let lasts = why.lasts() || days.iter().any(|day| matches!(day.what, What::NoDate));
    let of_rigs = matches!(whose[..], [Whose::Rig(_), ..]);
    let dated = match dated {
        dated if !dated.is_empty() => dated,
        _ if of_rigs && lasts => vec![(None, Until::Open)],
        _ => Vec::new(),
    };
    let closes = item.is(Sense::shut) || why == Why::Off || why == Why::Parked;
    let meant = |whose: &&Whose| matches!(whose, Whose::Rig(_)) || closes;
    let of = |whose: &Whose| {
        let whose = *whose;
        dated.clone().into_iter().map(move |(from, until)| TimeOff {
            whose,
            said: Said::Off { from, until, why },
        })
    };
    whose.iter().filter(meant).flat_map(of).collect()
}

/// "Heron's back", where it is off.
fn over(message: &Message, clause: &Clause, days: &[Day]) -> Vec<TimeOff> {
    let small = BEFORE.and(Senses::of([Sense::back_at, Sense::now, Sense::vehicle]));
    let says_so = clause.is(Sense::back_at)
        && days.is_empty()
        && clause
            .items
            .iter()
            .all(|item| item.is_name() || item.mark.is_some() || item.any(small));
    if !says_so {
        return Vec::new();
    }
    let scene = message.scene;
    let rigs: Vec<&crate::domain::meaning::Rig> = ids(message, clause)
        .into_iter()
        .filter_map(|id| scene.fleet.iter().find(|rig| rig.id == id))
        .collect();
    let back = |whose| TimeOff {
        whose,
        said: Said::Back,
    };
    if rigs.is_empty() {
        return Vec::from_iter((scene.all_off && !clause.names_rig()).then(|| back(Whose::Outfit)));
    }
    let off = rigs.into_iter().filter(|rig| rig.off);
    off.map(|rig| back(Whose::Rig(rig.id))).collect()
}

/// Why something is off, if the word says that it is.
fn why_of(item: &Item) -> Option<Why> {
    let named = item.is_word() && item.is(Sense::idle);
    named.then(|| Why::named(LEXICON.name(item.name))).flatten()
}

fn is_told(run: &[Clause]) -> bool {
    // "Tom said ..."; "the garage has it" is no hearsay.
    let hearsay = |items: &[Item]| {
        let mut two = items.windows(2);
        let who = |item: &Item| item.unknown || item.is(Sense::speaker);
        two.any(|two| who(&two[0]) && two[1].is(Sense::says) && two[1].is_word())
    };
    let doubts = |item: &Item| {
        let says = why_of(item).is_some() || item.any(Senses::of([Sense::shut, Sense::back_at]));
        // "In March" is the next one here.
        let month = item.any(Senses::of([Sense::past, Sense::norm])) && (1..=12).contains(&item.value);
        let left = if item.any(ANNOUNCED) {
            DOUBTS.without(Senses::of([Sense::plan]))
        } else {
            DOUBTS
        };
        item.is_word() && !says && !month && item.any(left)
    };
    !run.iter().any(|clause| {
        clause.asked
            || clause.quoted
            || scope::is_question(clause)
            || hearsay(clause.items)
            || clause.items.iter().any(doubts)
    })
}

/// Who is off: the rigs of the clause, or the one that was named before it in its sentence, or everybody.
fn whose(message: &Message, before: &[Clause], clause: &Clause, told: usize) -> Vec<Whose> {
    if clause.names_rig() {
        return ids(message, clause).into_iter().map(Whose::Rig).collect();
    }
    let item = &clause.items[told];
    if !item.is(Sense::shut) && !clause.hard && why_of(item).is_some_and(Why::lasts) {
        let last = before.iter().rev().map(|clause| ids(message, clause));
        if let Some(rigs) = last.into_iter().find(|rigs| !rigs.is_empty()) {
            return rigs.into_iter().map(Whose::Rig).collect();
        }
    }
    let small = |item: &Item| item.mark.is_some() || item.num.is_some() || item.any(BEFORE);
    if !clause.items[..told].iter().all(small) {
        return Vec::new();
    }
    // "I'm off till Monday"
    let of_one = clause.items[..=told].iter().any(|item| item.is(Sense::sender));
    vec![match (item.is(Sense::shut), of_one) {
        (true, _) => Whose::Outfit,
        (false, true) => Whose::Sender,
        (false, false) => Whose::Unsaid,
    }]
}

/// The rigs that a clause names, each certain.
fn ids(message: &Message, clause: &Clause) -> Vec<i64> {
    let (rigs, _) = rigs_of(clause);
    let places = rigs.iter().filter_map(one);
    places
        .filter_map(|at| message.scene.fleet.get(at))
        .map(|rig| rig.id)
        .collect()
}

/// How a day hangs in its clause.
#[derive(Clone, Copy, PartialEq)]
enum Link {
    /// By itself: "friday".
    Bare,
    From,
    Until,
    /// "to 2 January": a day off itself.
    Last,
}

#[derive(Clone, Copy)]
enum What {
    Day(Ahead),
    Lasts(u16),
    NoDate,
}

#[derive(Clone, Copy)]
struct Day {
    link: Link,
    what: What,
}

/// The days that a clause names, in order.
fn days_of(clause: &Clause) -> Vec<Day> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < clause.items.len() {
        match day_at(clause, at) {
            Some((len, what)) => {
                out.push(Day {
                    link: link_before(clause, at),
                    what,
                });
                at += len;
            }
            None => at += 1,
        }
    }
    out
}

/// The word that hangs a day on what stands before it; articles and the like between them say nothing.
fn link_before(clause: &Clause, at: usize) -> Link {
    // "Back in March" is one phrase of the tables.
    if clause.items[at].is(Sense::norm) {
        return Link::Until;
    }
    let small = Senses::of([Sense::article, Sense::prep, Sense::at, Sense::be]);
    for item in clause.items[..at].iter().rev() {
        match LEXICON.name(item.name) {
            _ if item.is_mark("-\u{2013}") => return Link::Last,
            "until" if item.is(Sense::daylink) => return Link::Until,
            "last" if item.is(Sense::daylink) => return Link::Last,
            "from" if item.is(Sense::daylink) => return Link::From,
            _ if item.is_word() && item.any(small) => {}
            _ => return Link::Bare,
        }
    }
    Link::Bare
}

/// The day, stretch or length of time that begins at an item, and how many items it takes.
fn day_at(clause: &Clause, at: usize) -> Option<(usize, What)> {
    let item = &clause.items[at];
    let get = |at: usize| clause.items.get(at);
    let month = |at: usize| {
        get(at)
            .filter(|item| item.is(Sense::month))
            .map(month_of)
            .filter(|month| *month > 0)
    };
    let year = |at: usize| {
        let year = get(at)?.value().filter(|year| (2000.0..2100.0).contains(year))?;
        Some(year as i16)
    };
    if let Some((value, form)) = item.num {
        let day = (1.0..32.0).contains(&value) && value.fract() == 0.0;
        if let Form::Date(year, month, day) = form {
            return Some((1, What::Day(Ahead::On((year != 0).then_some(year), month, day))));
        }
        let linked = 1 + usize::from(get(at + 1).is_some_and(|next| next.is(Sense::prep) && next.is_word()));
        if let Some((len, month)) = [1, linked]
            .into_iter()
            .find_map(|ahead| Some((ahead, month(at + ahead)?)))
            .filter(|_| day)
        {
            let year = year(at + len + 1);
            let on = Ahead::On(year, month, value as u8);
            return Some((len + 1 + usize::from(year.is_some()), What::Day(on)));
        }
        let stretch = get(at + 1).filter(|next| next.is(Sense::stretch) && next.value >= DAY);
        if let Some(stretch) = stretch.filter(|_| (1.0..=400.0).contains(&value)) {
            let days = value as i32 * (stretch.value / DAY);
            return Some((2, What::Lasts(u16::try_from(days).ok()?)));
        }
        let dated = form == Form::Ordinal || matches!(clause.roles.get(at), Some(Role::Time(When::DayOfMonth { .. })));
        return (day && dated).then_some((1, What::Day(Ahead::DayOfMonth(value as u8))));
    }
    if !item.is_word() {
        return None;
    }
    if let Some(in_month) = month(at) {
        let day = get(at + 1)
            .and_then(Item::value)
            .filter(|day| (1.0..32.0).contains(day) && day.fract() == 0.0);
        return Some(match day {
            Some(day) => {
                let year = year(at + 2);
                let on = Ahead::On(year, in_month, day as u8);
                (2 + usize::from(year.is_some()), What::Day(on))
            }
            None => {
                let year = year(at + 1);
                (
                    1 + usize::from(year.is_some()),
                    What::Day(Ahead::InMonth(year, in_month)),
                )
            }
        });
    }
    // "In march" is one phrase of the tables.
    if item.any(Senses::of([Sense::past, Sense::norm])) && (1..=12).contains(&item.value) {
        return Some((1, What::Day(Ahead::InMonth(None, month_of(item)))));
    }
    if item.is(Sense::weekday) && (1..=7).contains(&item.value) {
        return Some((1, What::Day(Ahead::Weekday(item.value as u8))));
    }
    if item.is(Sense::ahead) || item.is(Sense::today) {
        return Some((1, ahead(item.value)?));
    }
    // "For a week"
    let article = at
        .checked_sub(1)
        .and_then(get)
        .is_some_and(|before| before.is(Sense::article) || before.is(Sense::each));
    let stretch = item.is(Sense::stretch) && item.value >= DAY && article;
    stretch
        .then(|| Some((1, What::Lasts(u16::try_from(item.value / DAY).ok()?))))
        .flatten()
}

fn month_of(item: &Item) -> u8 {
    u8::try_from(item.value).ok().filter(|month| *month <= 12).unwrap_or(0)
}

fn ahead(value: i32) -> Option<What> {
    Some(match value {
        NO_DATE => What::NoDate,
        // Work goes on after the first of January, which is a holiday in most places.
        NEW_YEAR => What::Day(Ahead::On(None, 1, 2)),
        MONTHS.. => What::Day(Ahead::Month(u8::try_from(value - MONTHS).ok()?)),
        WEEKS.. => What::Day(Ahead::Week(u8::try_from(value - WEEKS).ok()?)),
        _ => What::Day(Ahead::Days(u16::try_from(value).ok()?)),
    })
}

/// The spans that days make up: one with an end, or each day by itself.
fn spans(days: &[Day]) -> Vec<(Option<Ahead>, Until)> {
    let day = |day: &Day| match day.what {
        What::Day(ahead) => Some(ahead),
        _ => None,
    };
    let begins = days
        .iter()
        .find(|one| matches!(one.link, Link::Bare | Link::From))
        .and_then(day);
    let end = days
        .iter()
        .enumerate()
        .find_map(|(at, one)| match (one.link, one.what) {
            (Link::Until, What::Day(ahead)) => Some(Until::Back(ahead)),
            (Link::Last, What::Day(ahead)) if at > 0 => Some(Until::Last(ahead)),
            (_, What::Lasts(days)) => Some(Until::Lasts(days)),
            _ => None,
        });
    match (begins, end) {
        (begins, Some(end)) => vec![(begins, end)],
        (Some(ahead), None) if days.iter().any(|one| one.link == Link::From) => vec![(Some(ahead), Until::Open)],
        (_, None) => days
            .iter()
            .filter(|one| one.link == Link::Bare)
            .filter_map(day)
            .map(|ahead| (Some(ahead), Until::Last(ahead)))
            .collect(),
    }
}
