//! A rig's course: the same steps as a replay, and what of it pictures need.

use tapside::water::course::{ahead, course};
use tapside::water::forecast::{Crossing, crossing};
use tapside::water::history::{Event, ServiceKind};
use tapside::water::prior::Lessons;
use tapside::water::renewal::Standing;
use tapside::water::renewal_curve::cost_curve;
use tapside::water::replay::replay;
use tapside::water::settings::Settings;

use crate::chart_scenes::{DAY, NOW, Plot, events, priced};

fn plots() -> Vec<Plot> {
    vec![
        Plot::default(),
        Plot {
            growth: 1.0,
            renewed: Some(110),
            leak: Some((260, 230, 2.2)),
            days: 500,
            ..Plot::default()
        },
        Plot {
            logged: false,
            growth: 0.8,
            slips: &[10, 30],
            ..Plot::default()
        },
    ]
}

#[test]
fn a_course_ends_where_a_replay_does() {
    for (seed, plot) in plots().into_iter().enumerate() {
        let (settings, lessons) = (priced(), Lessons::none());
        let mut events = events(plot, seed as u64);
        events.reverse();
        let course = course(&events, &settings, &lessons, NOW);
        let (history, doubts) = replay(&events, &settings, &lessons);
        assert_eq!(course.history, history);
        assert_eq!(course.doubts, doubts);
        for stretch in &course.stretches {
            assert!(stretch.levels.windows(2).all(|pair| pair[0].at <= pair[1].at));
        }
    }
}

#[test]
fn each_membrane_has_its_own_line_and_a_leak_is_none() {
    let plot = plots()[1];
    let course = course(&events(plot, 1), &priced(), &Lessons::none(), NOW);
    let began: Vec<i64> = course.stretches.iter().filter_map(|stretch| stretch.began_at).collect();
    assert_eq!(began.len(), 2, "{began:?}");
    assert!((NOW - began[1] - 110 * DAY).abs() < DAY);
    let [leak] = course.leaks.as_slice() else {
        panic!("{:?}", course.leaks)
    };
    assert!((NOW - leak.since - 260 * DAY).abs() < 20 * DAY, "{leak:?}");
    assert!(
        leak.until
            .is_some_and(|until| (NOW - until - 229 * DAY).abs() < 8 * DAY)
    );
    // The membrane's own line does not fall with the leak.
    let during = course.stretches[0]
        .levels
        .iter()
        .filter(|level| (leak.since..leak.until.unwrap_or(NOW)).contains(&level.at));
    for level in during {
        assert!(level.rejection.mid > leak.seen_rejection + 0.05, "{level:?} {leak:?}");
    }
}

#[test]
fn what_is_ahead_meets_the_line_when_the_forecast_says() {
    let (settings, lessons) = (priced(), Lessons::none());
    let plot = Plot {
        growth: 0.6,
        ..Plot::default()
    };
    let course = course(&events(plot, 5), &settings, &lessons, NOW);
    let belief = course.history.life.belief_at(NOW).unwrap();
    let line = settings.limits.due;
    let Crossing::Within(range) = crossing(&belief, line, NOW) else {
        panic!("the due line is ahead")
    };
    let years = (range.late.unwrap() - NOW) as f64 / (365.25 * 86_400.0);
    let levels = ahead(&course.history, NOW, years * 1.1, 400);
    let first_below = |of: fn(&tapside::water::forecast::Interval) -> f64| {
        levels
            .iter()
            .find(|level| of(&level.rejection) < line)
            .map(|level| level.at)
            .unwrap()
    };
    // A step of the fan, and the twelve halvings of the forecast's own search.
    let close = years * 1.1 / 400.0 * 365.25 * 86_400.0 + 2.0 * DAY as f64;
    for (found, told) in [
        (first_below(|i| i.low), range.early),
        (first_below(|i| i.mid), range.likely),
        (first_below(|i| i.high), range.late.unwrap()),
    ] {
        assert!(((found - told) as f64).abs() < close, "{found} {told} {close}");
    }
}

#[test]
fn a_bed_fills_until_it_is_changed() {
    let events = events(Plot::default(), 2);
    let changes = events
        .iter()
        .filter(|event| matches!(event, Event::Service(service) if service.what == ServiceKind::Resin))
        .count();
    let course = course(&events, &priced(), &Lessons::none(), NOW);
    assert_eq!(course.beds.len(), changes);
    assert!(changes > 5);
    for bed in &course.beds {
        assert!(
            bed.load
                .windows(2)
                .all(|pair| pair[0].0 <= pair[1].0 && pair[0].1 <= pair[1].1)
        );
        if let Some(until) = bed.until {
            assert_eq!(bed.load.last().map(|load| load.0), Some(until));
            assert!(
                (0.6..1.5).contains(&bed.load.last().unwrap().1),
                "{:?}",
                bed.load.last()
            );
        }
    }
    assert_eq!(course.beds.last().unwrap().load.last().unwrap().0, NOW);
    let untold = Settings::default();
    let course = tapside::water::course::course(&events, &untold, &Lessons::none(), NOW);
    assert_eq!(course.beds.len(), changes, "changes are known without litres");
    assert!(course.beds.iter().all(|bed| bed.load.is_empty()));
}

#[test]
fn the_curve_of_costs_is_least_where_the_search_finds_it() {
    let life = Standing {
        age_years: 0.8,
        passed_years: 0.06,
        log_passage: 0.09_f64.ln(),
        growth: 0.6,
    };
    let step = 7.0 / 365.25;
    let share = |week: usize| 1.0 + 0.4 * (week as f64 / 52.0 * std::f64::consts::TAU).sin();
    let costs: Vec<f64> = life.mean_costs(300.0, 4000.0, step, share).take(200).collect();
    let (least, _) = costs.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1)).unwrap();
    let found = life.years_to_best_directly(300.0, 4000.0, 199.0 * step, step, share);
    assert!((least as f64 * step - found).abs() < 1e-9);
    // Without seasons the closed form says the same of a single point.
    let even: Vec<f64> = life.mean_costs(300.0, 4000.0, 0.001, |_| 1.0).take(501).collect();
    assert!((even[500] - life.mean_cost(0.5, 300.0, 4000.0)).abs() < 1e-3 * even[500]);
}

#[test]
fn the_flat_part_holds_the_least_and_what_is_as_good() {
    let settings = priced();
    let plot = Plot {
        growth: 0.8,
        days: 250,
        ..Plot::default()
    };
    let course = course(&events(plot, 4), &settings, &Lessons::none(), NOW);
    let curve = cost_curve(&course.history, &settings, &Lessons::none(), NOW).unwrap();
    let (from, to) = curve.flat;
    assert!(from <= curve.least.0 && curve.least.0 <= to);
    for (at, cost) in &curve.points {
        assert!(*cost >= curve.least.1);
        if (from..=to).contains(at) {
            assert!(*cost <= 1.02 * curve.least.1 + 1e-9);
        }
    }
    let unpriced = Settings::default();
    assert!(cost_curve(&course.history, &unpriced, &Lessons::none(), NOW).is_none());
}
