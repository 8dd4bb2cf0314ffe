//! The year ahead of the fleet: what will probably be bought, in which month, and for how much.

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::chart::Sheet;
use crate::chart::rig_history::Ahead;
use crate::chart::year_ahead::Membrane;
use crate::digest::week::Lack;
use crate::domain::envelope::{Body, Drawn};
use crate::history::{Followed, Outfit};
use crate::message::setting::Field;
use crate::papers::{self, Cell, workbook};
use crate::replies::Words;
use crate::replies::buying::Uncounted;
use crate::replies::pictures::year as picture;
use crate::replies::year::{self, Month, Year};
use crate::schedule::{day_start, local_date};
use crate::store::{Db, StoreError};
use crate::water::verdict::Behind;
use crate::water::year_ahead::{Amount, YearAhead, look_ahead, renewal_as_advised, sum};

use super::answer::Answer;
use super::digest_files::{file, stamp};
use super::examples::example_for;
use super::messages::{in_private, privately};
use super::picture_answers::drawing_of;
use super::refusals::may_not;
use super::request::Request;
use super::setting_values::example_of;

const MONTHS: usize = 12;

/// What a rig will probably buy.
struct RigYear<'a> {
    followed: Followed<'a>,
    ahead: YearAhead,
    /// Local days on which prefilters fall due, and what a set costs.
    prefilters: Vec<Date>,
    prefilter_price: f64,
}

/// The fleet's year, and the rigs of which it cannot be told.
struct FleetYear<'a> {
    /// The first day of the first month.
    first: Date,
    rigs: Vec<RigYear<'a>>,
    unknown: Vec<(String, Vec<Lack>)>,
}

impl<'a> FleetYear<'a> {
    /// The year from `now` on, parted where a span of so many months ends.
    fn of(known: &'a Outfit, now: i64, months: usize) -> Option<Self> {
        let today = local_date(&known.zone, now)?;
        let first = today.first_of_month();
        let border = |nth: usize| day_start(&known.zone, months_on(first, nth));
        let borders: Vec<i64> = (1..=MONTHS / months).filter_map(|nth| border(nth * months)).collect();
        let mut year = Self {
            first,
            rigs: Vec::new(),
            unknown: Vec::new(),
        };
        for followed in known.follow_fleet(now) {
            let renewal = renewal_as_advised(followed.assessment.renewal.as_ref(), now);
            let (history, lessons) = (&followed.state.filter, &followed.lessons);
            let Some(ahead) = look_ahead(history, followed.settings, lessons, renewal, now, &borders) else {
                if followed.behind == Behind::Resin {
                    year.unknown.push((followed.rig.name.clone(), followed.resin_lacks()));
                }
                continue;
            };
            let price = known.rules.rig(followed.rig.id).prefilter_price();
            year.rigs.push(RigYear {
                prefilters: prefilter_days(&followed, today, &known.zone),
                prefilter_price: price.map_or(0.0, |price| price.main()),
                followed,
                ahead,
            });
        }
        Some(year)
    }

    fn is_priced(&self) -> bool {
        let has_prices = |rig: &RigYear<'_>| rig.followed.settings.prices.is_some();
        !self.rigs.is_empty() && self.rigs.iter().all(has_prices)
    }

    /// What a span of the year costs, or all of it.
    fn cost(&self, nth: Option<usize>, months: usize) -> Amount {
        let of_rig = |rig: &RigYear<'_>| {
            let span = nth.map_or(Some(&rig.ahead.year), |nth| rig.ahead.spans.get(nth));
            span.and_then(|span| span.cost)
        };
        let water = sum(self.rigs.iter().filter_map(of_rig));
        let within = |day: &&Date| nth.is_none_or(|nth| month_of(self.first, **day) / months == nth);
        let of_filters = |rig: &RigYear<'_>| rig.prefilter_price * rig.prefilters.iter().filter(within).count() as f64;
        let filters: f64 = self.rigs.iter().map(of_filters).sum();
        Amount {
            low: water.low + filters,
            likely: water.likely + filters,
            high: water.high + filters,
        }
    }
}

fn prefilter_days(followed: &Followed<'_>, today: Date, zone: &TimeZone) -> Vec<Date> {
    let every = followed.settings.prefilter.days;
    let due = followed.assessment.prefilter.due_at.and_then(|at| local_date(zone, at));
    let Some(due) = due.filter(|_| every >= 1.0) else {
        return Vec::new();
    };
    let (first, end) = (due.max(today), today.saturating_add(1.year()));
    #[allow(
        clippy::cast_possible_truncation,
        reason = "days between changes, at most some years"
    )]
    let later = |nth: i64| first.saturating_add((nth * every as i64).days());
    (0..).map(later).take_while(|day| *day < end).collect()
}

fn months_on(first: Date, months: usize) -> Date {
    first.saturating_add(i32::try_from(months).unwrap_or_default().months())
}

/// How many months a day lies behind the first of one.
fn month_of(first: Date, day: Date) -> usize {
    let months = |date: Date| 12 * i32::from(date.year()) + i32::from(date.month());
    usize::try_from(months(day) - months(first)).unwrap_or_default()
}

/// "The year ahead", in words and as a picture.
pub(super) fn year_ahead(on: &Request<'_>) -> Answer {
    if !on.member.role.leads() {
        return may_not(on.words, "who-leads");
    }
    let Some(told) = told(on) else {
        return Answer::says(on.words.plain("fleet-empty"));
    };
    let text = year::year(on.words, &told, on.rules.currency());
    let mut answer = match on.incoming.chat.group {
        true => {
            let mut answer = in_private(on);
            let body = Body::Say {
                text,
                buttons: Vec::new(),
                reply_to: None,
            };
            answer.to_others.push(privately(on, body));
            answer
        }
        false => Answer::says(text),
    };
    if told.cost.is_some() {
        let drawing = drawing_of(on, "year-ahead.png".to_owned(), Drawn::YearAhead);
        let body = Body::Drawings {
            drawings: vec![drawing],
            caption: String::new(),
            reply_to: None,
        };
        answer.to_others.push(privately(on, body));
    }
    answer
}

/// The year ahead as a workbook, to the asker's private chat.
pub(super) async fn year_ahead_file(db: &mut Db, on: &Request<'_>) -> Result<Answer, StoreError> {
    if !on.member.role.leads() {
        return Ok(may_not(on.words, "who-leads"));
    }
    let Some(told) = told(on) else {
        return Ok(Answer::says(on.words.plain("fleet-empty")));
    };
    let sheet = table(on, &told);
    let bytes = workbook(&[sheet], stamp(on.now)).map_err(|why| StoreError::Stored {
        what: "workbook",
        why: why.to_string(),
    })?;
    file(db, on, format!("year-ahead-{}.xlsx", on.today()), &bytes, "file-year").await
}

/// The year as a table, a row a month.
fn table(on: &Request<'_>, year: &Year) -> papers::Sheet {
    let words = on.words;
    let code = on
        .rules
        .currency()
        .map_or_else(String::new, |currency| currency.code().to_owned());
    let titles = words.say("year-columns", [("currency", (&code).into())]);
    let row = |month: &Month| {
        let cost = |part: fn(&Amount) -> f64| Cell::number(month.cost.as_ref().map(|cost| part(cost).round()));
        vec![
            Cell::Date(month.first),
            Cell::text(year::named(words, &month.resin)),
            Cell::text(year::named(words, &month.membranes)),
            Cell::text(year::named(words, &month.prefilters)),
            cost(|cost| cost.likely),
            cost(|cost| cost.low),
            cost(|cost| cost.high),
        ]
    };
    papers::Sheet {
        name: words.plain("year-sheet"),
        titles: titles.lines().map(|title| title.trim().to_owned()).collect(),
        rows: year.months.iter().map(row).collect(),
    }
}

/// The year in facts for its words; none without rigs.
fn told(on: &Request<'_>) -> Option<Year> {
    let fleet = FleetYear::of(&on.known, on.now, 1).filter(|_| !on.fleet.is_empty())?;
    let is_priced = fleet.is_priced();
    let name = |rig: &RigYear<'_>| rig.followed.rig.name.clone();
    let local = |at: i64| on.date(at);
    // The year ends within the thirteenth month.
    let month = |nth: usize| {
        let counted = |rig: &RigYear<'_>, days: &mut dyn Iterator<Item = Date>| {
            let count = days.filter(|day| month_of(fleet.first, *day) == nth).count();
            (count > 0).then(|| (name(rig), count))
        };
        let rigs = &fleet.rigs;
        let beds = |rig: &RigYear<'_>| counted(rig, &mut rig.ahead.bed_days.iter().map(|at| local(*at)));
        let membranes = |rig: &RigYear<'_>| counted(rig, &mut rig.ahead.membrane.iter().map(|when| local(when.likely)));
        let filters = |rig: &RigYear<'_>| counted(rig, &mut rig.prefilters.iter().copied());
        Month {
            first: months_on(fleet.first, nth),
            resin: rigs.iter().filter_map(beds).collect(),
            membranes: rigs.iter().filter_map(membranes).collect(),
            prefilters: rigs.iter().filter_map(filters).collect(),
            cost: is_priced.then(|| fleet.cost(Some(nth), 1)),
        }
    };
    let membranes = fleet.rigs.iter().filter_map(|rig| {
        let when = rig.ahead.membrane?;
        Some((name(rig), local(when.early), local(when.likely)))
    });
    let uncounted = fleet.unknown.iter().map(|(name, lacks)| {
        let rig = on.fleet.iter().find(|rig| rig.name == *name);
        let example = rig.zip(lacks.first()).map(|(rig, lack)| example_for(on, rig, *lack));
        Uncounted {
            rigs: vec![name.clone()],
            lacks: lacks.clone(),
            example: example.unwrap_or_default(),
        }
    });
    let whole = on.rules.outfit();
    let lacking = match (whole.resin_price(), whole.membrane_price()) {
        (None, _) => Some(Field::ResinPrice),
        (_, None) => Some(Field::MembranePrice),
        _ => None,
    };
    Some(Year {
        cost: is_priced.then(|| fleet.cost(None, 1)),
        price_example: lacking.map(|field| example_of(on, field)),
        months: (0..=MONTHS).map(month).collect(),
        membranes: membranes.collect(),
        uncounted: uncounted.collect(),
    })
}

/// The picture of the year ahead; none without prices, or without a rig that can be counted.
pub(super) fn sheet(words: Words, known: &Outfit, now: i64, money: &dyn Fn(f64) -> String) -> Option<Sheet> {
    const QUARTER: usize = 3;
    let fleet = FleetYear::of(known, now, QUARTER).filter(FleetYear::is_priced)?;
    let local = |at: i64| local_date(&known.zone, at).unwrap_or_default();
    let sum = |cost: Amount| picture::Sum {
        low: cost.low,
        likely: cost.likely,
        high: cost.high,
    };
    let membrane = |rig: &RigYear<'_>| {
        let when = rig.ahead.membrane?;
        Some(Membrane {
            rig: rig.followed.rig.name.clone(),
            when: Ahead {
                early: local(when.early),
                likely: local(when.likely),
                late: when.late.map(local),
            },
        })
    };
    let mut resin: Vec<Date> = fleet
        .rigs
        .iter()
        .flat_map(|rig| &rig.ahead.bed_days)
        .map(|at| local(*at))
        .collect();
    resin.sort_unstable();
    let mut prefilters: Vec<Date> = fleet
        .rigs
        .iter()
        .flat_map(|rig| rig.prefilters.iter().copied())
        .collect();
    prefilters.sort_unstable();
    let litres: Vec<Option<f64>> = fleet
        .rigs
        .iter()
        .map(|rig| rig.followed.settings.resin_litres)
        .collect();
    let facts = picture::Facts {
        first: fleet.first,
        membranes: fleet.rigs.iter().filter_map(membrane).collect(),
        resin,
        bed_litres: litres
            .first()
            .copied()
            .flatten()
            .filter(|one| litres.iter().all(|other| *other == Some(*one))),
        prefilters,
        quarters: std::array::from_fn(|nth| sum(fleet.cost(Some(nth), QUARTER))),
        year: sum(fleet.cost(None, QUARTER)),
        money,
    };
    Some(picture::sheet(words, &facts))
}
