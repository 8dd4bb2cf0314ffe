//! Follows invented rigs week by week and scores what was said against the truth.

use tapside::water::assess::{Assessment, Question, assess};
use tapside::water::forecast::{Crossing, Range};
use tapside::water::history::Event;
use tapside::water::prior::Lessons;
use tapside::water::renewal_verdict::Verdict;
use tapside::water::replay::replay;
use tapside::water::rig::{History, step};
use tapside::water::year_ahead::look_ahead;

use super::money;
use super::rig::{DAYS, Membrane, Rig, START};
use super::tally::Tally;

/// Weeks from which a year is looked ahead.
const YEARS_BEGIN: [usize; 3] = [30, 78, 126];

/// What one rig's weekly assessments led to.
#[derive(Default)]
struct Followed {
    leaks_seen: Vec<bool>,
    alarm_before: bool,
    presumed_before: Option<i64>,
    stops: Vec<[Option<f64>; 3]>,
}

/// Follows a fleet, and returns each rig's own tally.
pub fn follow(fleet: &[Rig]) -> Vec<Tally> {
    let mut tallies: Vec<Tally> = fleet.iter().map(|_| Tally::default()).collect();
    let mut histories: Vec<History> = fleet.iter().map(|_| History::default()).collect();
    let mut followed: Vec<Followed> = fleet.iter().map(|_| Followed::default()).collect();
    let mut next = vec![0; fleet.len()];
    let mut outfit = Lessons::none();
    for week in 1..=DAYS / 7 {
        let day = week as f64 * 7.0;
        let now = START + (day * 86_400.0) as i64;
        for (i, rig) in fleet.iter().enumerate() {
            while next[i] < rig.events.len() && rig.events[next[i]].at() <= now {
                if let Ok(done) = step(&mut histories[i], &rig.events[next[i]], &rig.settings, &outfit)
                    && let Some(lesson) = done.lesson
                {
                    outfit.learn(&lesson);
                }
                next[i] += 1;
            }
            let said = assess(&histories[i], &rig.settings, &outfit, now);
            score_week(rig, day, &said, &mut followed[i], &mut tallies[i]);
            if YEARS_BEGIN.contains(&week) {
                score_year_ahead(rig, day, &histories[i], &outfit, now, &mut tallies[i]);
            }
        }
    }
    for ((rig, followed), tally) in fleet.iter().zip(&followed).zip(&mut tallies) {
        tally.years += DAYS as f64 / 365.25;
        score_leaks(rig, followed, tally);
        money::score(rig, &followed.stops, tally);
        score_readings(rig, tally);
        tally.unlogged += rig
            .membranes
            .iter()
            .skip(1)
            .filter(|m| !m.logged && m.from + 42 < DAYS)
            .count() as f64;
    }
    tallies
}

fn score_week(rig: &Rig, day: f64, said: &Assessment, followed: &mut Followed, tally: &mut Tally) {
    score_level(rig, day, said, tally);
    score_forecasts(rig, day, said, tally);
    followed.leaks_seen.resize(rig.leaks.len(), false);
    let alarm = said.fault.is_some();
    if alarm && let Some(i) = rig.leaks.iter().position(|leak| (leak.from..leak.to).contains(&day)) {
        followed.leaks_seen[i] = true;
    }
    let explained = rig.leaks.iter().any(|leak| (leak.from..leak.to + 45.0).contains(&day));
    tally.false_alarms += f64::from(alarm && !followed.alarm_before && !explained);
    followed.alarm_before = alarm;
    if let Some(Question::WasMembraneChanged { since }) = said.question {
        if followed.presumed_before.is_none_or(|before| since != before) {
            let since_day = (since - START) as f64 / 86_400.0;
            let right = rig
                .membranes
                .iter()
                .skip(1)
                .any(|m| !m.logged && (m.from as f64 - since_day).abs() < 42.0);
            tally.unlogged_found += f64::from(right);
            tally.false_new += f64::from(!right);
        }
        followed.presumed_before = Some(since);
    }
    note_stops(rig, day, said, followed);
}

/// The year ahead against the beds that were used up, given when the owner renews.
fn score_year_ahead(rig: &Rig, day: f64, history: &History, outfit: &Lessons, now: i64, tally: &mut Tally) {
    const QUARTER: i64 = 91 * 86_400;
    let renewed = rig.membranes.iter().map(|m| m.from as f64).find(|&from| from > day);
    let renewal = renewed.map(|from| {
        let at = START + (from * 86_400.0) as i64;
        Range {
            early: at,
            likely: at,
            late: Some(at),
        }
    });
    let borders = [1, 2, 3].map(|nth| now + nth * QUARTER);
    let Some(ahead) = look_ahead(history, &rig.settings, outfit, renewal, now, &borders) else {
        return;
    };
    let used = |from: i64, to: i64| {
        let within = |day: &&f64| (from..to).contains(&(START + (**day * 86_400.0) as i64));
        rig.resin_days.iter().filter(within).count() as f64
    };
    for (span, held) in ahead.spans.iter().map(|span| (span, 0)).chain([(&ahead.year, 1)]) {
        let true_beds = used(span.from, span.to);
        let held_it = (span.beds.low.floor()..=span.beds.high.ceil()).contains(&true_beds);
        tally.ahead_held[held].note(f64::from(held_it));
    }
    let beds = used(ahead.year.from, ahead.year.to);
    if beds >= 3.0 {
        tally.ahead_error.push((ahead.year.beds.likely - beds).abs() / beds);
    }
}

fn score_level(rig: &Rig, day: f64, said: &Assessment, tally: &mut Tally) {
    let Some(r) = said.rejection else { return };
    let truth = rig.true_rejection(day);
    let membrane = rig.membrane_at(day);
    tally.square.note((r.mid - truth).powi(2));
    tally.covered.note(f64::from((r.low..=r.high).contains(&truth)));
    let leaky = rig.leaks.iter().any(|leak| (leak.from..leak.to + 30.0).contains(&day));
    let unlogged = !membrane.logged && membrane.from > 0 && day < membrane.from as f64 + 42.0;
    if !leaky && !unlogged {
        tally.quiet_square.note((r.mid - truth).powi(2));
    }
}

fn score_forecasts(rig: &Rig, day: f64, said: &Assessment, tally: &mut Tally) {
    let days = |at: i64| (at - said.now) as f64 / 86_400.0;
    if let Crossing::Within(range) = said.spent
        && rig.true_rejection(day) > 0.80
    {
        let membrane = rig.membrane_at(day);
        let crosses = (1..1500)
            .map(f64::from)
            .find(|ahead| passage_at_reference(rig, membrane, day + ahead) > 0.20);
        if let Some(ahead) = crosses {
            tally.forecast_days.push((days(range.likely) - ahead).abs());
        }
    }
    let runs_out = rig.resin_days.iter().find(|&&d| d > day);
    if let (Some(empty), Some(runs_out)) = (said.resin.and_then(|bed| bed.empty), runs_out) {
        let error = (days(empty.likely) - (runs_out - day)).abs();
        tally.empty_days.push(error);
        let half = rig.half_days.iter().rfind(|&&half| half < day);
        if half.is_some_and(|half| day - half <= 7.0 && runs_out - half > 14.0) {
            tally.half_error.push(error / (runs_out - day));
            let held =
                days(empty.early) <= runs_out - day && empty.late.is_none_or(|late| runs_out - day <= days(late));
            tally.half_held.note(f64::from(held));
        }
    }
    score_six_months(rig, day, said, tally);
}

/// The due line, in the week six months before it is crossed on a membrane that lives so long.
fn score_six_months(rig: &Rig, day: f64, said: &Assessment, tally: &mut Tally) {
    const AHEAD: f64 = 182.0;
    let membrane = rig.membrane_at(day);
    let below = |day: f64| passage_at_reference(rig, membrane, day) > 1.0 - rig.settings.limits.due;
    let crossed_before = (0..AHEAD as u32).any(|ahead| below(day + f64::from(ahead)));
    let crosses = (0..7)
        .map(|more| AHEAD + f64::from(more))
        .find(|&ahead| below(day + ahead));
    let (false, Some(ahead)) = (crossed_before, crosses) else {
        return;
    };
    let days = |at: i64| (at - said.now) as f64 / 86_400.0;
    match said.due {
        Crossing::NotYetKnown => {}
        Crossing::Within(range) => {
            tally.six_months.push((days(range.likely) - ahead).abs());
            let held = days(range.early) <= ahead && range.late.is_none_or(|late| ahead <= days(late));
            tally.six_months_held.note(f64::from(held));
        }
        Crossing::Already => {
            tally.six_months.push(ahead);
            tally.six_months_held.note(0.0);
        }
        Crossing::NotInSight => {
            tally.six_months.push(3.0 * 365.25 - ahead);
            tally.six_months_held.note(0.0);
        }
    }
}

/// When each policy would first renew this life.
fn note_stops(rig: &Rig, day: f64, said: &Assessment, followed: &mut Followed) {
    let life = rig.membranes.iter().rposition(|m| m.from as f64 <= day).unwrap_or(0);
    followed.stops.resize(rig.membranes.len(), [None; 3]);
    // Whoever changed a membrane a month ago knows it, logged or not.
    if !rig.membranes[life].logged && day < rig.membranes[life].from as f64 + 42.0 {
        return;
    }
    let stop = &mut followed.stops[life];
    if said.renewal.is_some_and(|renewal| renewal.verdict == Verdict::Now) {
        stop[0].get_or_insert(day);
    }
    if said.rejection.is_some_and(|r| r.mid < 0.80) {
        stop[1].get_or_insert(day);
    }
    if said.rejection.is_some_and(|r| r.mid < 0.85) {
        stop[2].get_or_insert(day);
    }
}

fn passage_at_reference(rig: &Rig, membrane: &Membrane, day: f64) -> f64 {
    membrane.passage(day, 12.0, rig.site.usual_bar, rig.site.feed, &rig.site)
}

fn score_leaks(rig: &Rig, followed: &Followed, tally: &mut Tally) {
    for (leak, &found) in rig.leaks.iter().zip(&followed.leaks_seen) {
        let read = rig.events.iter().filter(|event| {
            let day = (event.at() - START) as f64 / 86_400.0;
            matches!(event, Event::Reading(_)) && (leak.from..leak.to).contains(&day)
        });
        if leak.to > DAYS as f64 || read.count() < 4 {
            continue;
        }
        // Smaller ones are below the noise, and nothing is promised of them.
        if leak.factor >= 1.3 {
            tally.all_leaks.note(f64::from(found));
        }
        let tally = if leak.factor >= 1.5 {
            &mut tally.leaks
        } else {
            &mut tally.small_leaks
        };
        tally.note(f64::from(found));
    }
}

fn score_readings(rig: &Rig, tally: &mut Tally) {
    let (_, doubts) = replay(&rig.events, &rig.settings, &Lessons::none());
    for ((event, &blunder), doubt) in rig.events.iter().zip(&rig.blunders).zip(&doubts) {
        if !matches!(event, Event::Reading(_)) {
            continue;
        }
        let tally = if blunder { &mut tally.blunders } else { &mut tally.good };
        tally.note(f64::from(doubt.is_some()));
    }
}
