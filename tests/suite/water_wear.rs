//! The wear filter: what must hold whatever the readings.

use proptest::prelude::*;
use tapside::water::condition::Condition;
use tapside::water::forecast::Crossing;
use tapside::water::history::{Event, ServiceKind};
use tapside::water::observation::Doubt;
use tapside::water::prior::Lessons;
use tapside::water::quantity::Ppm;
use tapside::water::replay::replay;
use tapside::water::rig::{History, step};
use tapside::water::settings::Settings;

use crate::water_crew::{at, heard, reading, said, service, settings, wearing};

fn rejection(events: &[Event], day: f64) -> f64 {
    said(events, day).rejection.unwrap().mid
}

#[test]
fn the_level_follows_a_steady_wear() {
    // ln SP grows by 0.5 a year from 0.05: after a year 0.05 exp(0.5) = 0.0824.
    let level = rejection(&wearing(0.5, 3.0, 365.0), 365.0);
    assert!((level - 0.9176).abs() < 0.006, "{level}");
}

#[test]
fn a_blunder_of_ten_moves_the_level_less_than_half_a_point_and_is_set_aside() {
    let mut events = wearing(0.5, 3.0, 200.0);
    let before = rejection(&events, 201.0);
    for blunder in [0.066 * 4000.0, 0.66] {
        events.push(reading(200.5, 400.0, blunder));
        let (_, doubts) = heard(&events);
        assert_eq!(doubts.last().unwrap(), &Some(Doubt::UnlikeTrend), "{blunder}");
        let moved: f64 = (rejection(&events, 201.0) - before).abs();
        assert!(moved < 0.005, "{moved}");
        events.pop();
    }
}

#[test]
fn a_swapped_pair_and_a_strange_tap_are_set_aside_with_their_reason() {
    let mut events = wearing(0.5, 3.0, 60.0);
    events.push(reading(61.0, 20.0, 400.0));
    events.push(reading(62.0, 4000.0, 220.0));
    events.push(reading(63.0, 10.0, 1.0));
    let (_, doubts) = heard(&events);
    let last: Vec<_> = doubts.iter().rev().take(3).rev().copied().collect();
    assert_eq!(
        last,
        [
            Some(Doubt::PermeateNearFeed),
            Some(Doubt::FeedUnlikeOwn),
            Some(Doubt::FeedTooLow)
        ]
    );
}

#[test]
fn a_permeate_nearly_at_the_tap_is_doubted_before_any_trend_is_known() {
    let doubt = |feed, permeate| heard(&[reading(0.0, feed, permeate)]).1[0];
    assert_eq!(doubt(400.0, 370.0), Some(Doubt::PermeateNearFeed));
    assert_ne!(doubt(400.0, 350.0), Some(Doubt::PermeateNearFeed));
}

#[test]
fn few_readings_say_that_they_are_few() {
    let unknown = vec![reading(0.0, 180.0, 12.0), reading(3.0, 180.0, 12.0)];
    assert_eq!(said(&unknown, 4.0).condition, Some(Condition::Unproven));
    assert_eq!(said(&unknown, 4.0).rejection, None);
    let logged = vec![service(0.0, ServiceKind::Membrane), reading(1.0, 180.0, 9.0)];
    assert_eq!(said(&logged, 2.0).condition, Some(Condition::Good));
    assert_eq!(said(&logged, 2.0).points_per_year, None);
    assert_eq!(said(&logged, 2.0).spent, Crossing::NotYetKnown);
}

#[test]
fn a_long_silence_widens_the_interval() {
    let events = wearing(0.5, 3.0, 200.0);
    let width = |day: f64| said(&events, day).rejection.map(|r| r.high - r.low).unwrap();
    assert!(width(400.0) > 1.5 * width(201.0));
}

#[test]
fn states_follow_the_lines_of_the_owner() {
    let spent = wearing(1.4, 3.0, 420.0);
    assert_eq!(said(&spent, 420.0).condition, Some(Condition::Spent));
    let early = wearing(0.3, 3.0, 150.0);
    let mut limits = settings();
    assert_eq!(said(&early, 150.0).condition, Some(Condition::Good));
    limits.limits.spent = 0.96;
    let (history, _) = replay(&early, &limits, &Lessons::none());
    let strict = tapside::water::assess::assess(&history, &limits, &Lessons::none(), at(150.0));
    assert_eq!(strict.condition, Some(Condition::Spent));
}

#[test]
fn the_forecast_brackets_the_truth_of_a_steady_wear() {
    // 0.05 exp(0.7 t) = 0.20 at t = ln 4/0.7 = 1.980 years, day 723.
    let Crossing::Within(range) = said(&wearing(0.7, 3.0, 500.0), 500.0).spent else {
        panic!("no forecast")
    };
    assert!(
        range.early <= at(723.0) && range.late.is_none_or(|late| late >= at(723.0)),
        "{range:?}"
    );
    assert!((range.likely - at(723.0)).abs() < 60 * 86_400, "{range:?}");
}

#[test]
fn an_own_past_life_shapes_what_is_expected_of_the_next() {
    let fast = |growth: f64| {
        let mut events = wearing(growth, 3.0, 500.0);
        events.push(service(501.0, ServiceKind::Membrane));
        let (history, _) = heard(&events);
        history.life.trend.unwrap().mean[1]
    };
    assert!(fast(1.2) > fast(0.3) + 0.2, "{} {}", fast(1.2), fast(0.3));
}

#[test]
fn the_kept_state_is_small_and_comes_back_the_same() {
    let (history, _) = heard(&wearing(0.5, 1.0, 1825.0));
    let text = serde_json::to_string(&history).unwrap();
    assert!(text.len() < 6_000, "{} bytes", text.len());
    let back: History = serde_json::from_str(&text).unwrap();
    // Text may cost the last bit of a number, and nothing else.
    let assessed = |h: &History| tapside::water::assess::assess(h, &settings(), &Lessons::none(), at(1830.0));
    let (before, after) = (assessed(&history), assessed(&back));
    assert!((before.rejection.unwrap().mid - after.rejection.unwrap().mid).abs() < 1e-12);
    assert_eq!((before.condition, before.reasons), (after.condition, after.reasons));
}

#[test]
fn an_event_older_than_the_history_is_refused_and_changes_nothing() {
    let (mut history, _) = heard(&wearing(0.5, 3.0, 30.0));
    let before = history.clone();
    assert!(step(&mut history, &reading(5.0, 400.0, 20.0), &settings(), &Lessons::none()).is_err());
    assert_eq!(history, before);
}

proptest! {
    #[test]
    fn any_arrival_order_gives_the_same_state(seed in 0u64..1000) {
        let events = wearing(0.6, 5.0, 200.0);
        let mut shuffled = events.clone();
        let n = shuffled.len();
        for i in (1..n).rev() {
            shuffled.swap(i, (seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(i as u64 * 1_442_695) >> 33) as usize % (i + 1));
        }
        prop_assert_eq!(heard(&shuffled).0, heard(&events).0);
    }

    #[test]
    fn more_permeate_never_means_more_rejection(permeate in 19.0..25.0f64, more in 0.05..5.0f64) {
        // Within what is believed; further out a reading is weighed down as a blunder.
        let with = |last: f64| {
            let mut events = wearing(0.5, 7.0, 28.0);
            events.push(reading(30.0, 400.0, last));
            rejection(&events, 30.0)
        };
        prop_assert!(with((permeate + more).min(25.0)) <= with(permeate) + 1e-9);
    }

    #[test]
    fn the_meters_scale_cancels(factor in 1.0..1.4f64) {
        // The same water on the 0.5 and on another scale; rounding and floor aside.
        let scaled: Vec<Event> = wearing(0.5, 3.0, 150.0).into_iter().map(|event| match event {
            Event::Reading(mut r) => {
                r.feed = Ppm::new(r.feed.ppm() * factor).unwrap();
                r.permeate = r.permeate.map(|p| Ppm::new(p.ppm() * factor).unwrap());
                Event::Reading(r)
            }
            other => other,
        }).collect();
        let (one, other) = (rejection(&wearing(0.5, 3.0, 150.0), 150.0), rejection(&scaled, 150.0));
        prop_assert!((one - other).abs() < 5e-4, "{one} {other}");
    }

    #[test]
    fn no_reading_breaks_the_state(rows in prop::collection::vec((0.0..900.0f64, 0.0..2000.0f64, 0.0..2000.0f64), 0..80)) {
        let events: Vec<Event> = rows.iter().map(|(day, feed, permeate)| reading(*day, *feed, *permeate)).collect();
        let (history, doubts) = replay(&events, &Settings::default(), &Lessons::none());
        prop_assert_eq!(doubts.len(), events.len());
        if let Some(trend) = history.life.trend {
            prop_assert!(trend.mean.iter().all(|x| x.is_finite()));
            prop_assert!((0..4).all(|i| trend.covariance[i][i] >= 0.0 && trend.covariance[i][i].is_finite()));
        }
        let said = said(&events, 901.0);
        if let Some(r) = said.rejection {
            prop_assert!(0.0 <= r.low && r.low <= r.mid && r.mid <= r.high && r.high <= 1.0);
        }
    }
}

#[test]
fn the_age_of_the_first_membrane_shapes_what_is_believed_of_it() {
    let told = |years| {
        let told = Settings {
            first_membrane_years: years,
            ..settings()
        };
        let events = [reading(0.0, 180.0, 12.0)];
        let (history, _) = replay(&events, &told, &Lessons::none());
        tapside::water::assess::assess(&history, &told, &Lessons::none(), at(1.0))
    };
    let mid = |said: &tapside::water::assess::Assessment| said.rejection.map(|r| r.mid);
    let (new, old, unknown) = (told(Some(0.0)), told(Some(2.0)), told(None));
    // One reading tells a level where the age is known, and none where it is not.
    assert!(mid(&new) > mid(&old) && mid(&old).is_some() && mid(&unknown).is_none());
    assert_eq!(new.membrane_since, Some(at(0.0)));
    assert_eq!(old.membrane_since, Some(at(-730.5)));
    assert_eq!(unknown.membrane_since, None);
}

#[test]
fn a_told_temperature_moves_the_level_to_the_reference_and_no_more() {
    // 9 ppm of 180 at 25 C: 0.05 exp(-0.022 x 13) = 0.0376 at 12 C.
    let mut events = vec![service(0.0, ServiceKind::Membrane)];
    for i in 0..60 {
        let Event::Reading(mut r) = reading(f64::from(i) * 3.0, 180.0, 9.0) else {
            unreachable!("a reading")
        };
        r.temperature = tapside::water::quantity::Temperature::from_celsius(25.0).ok();
        events.push(Event::Reading(r));
    }
    let level = rejection(&events, 180.0);
    assert!((level - 0.9624).abs() < 0.003, "{level}");
    // Two thirds of the way no temperature is told any more: the water is still known.
    for event in events.iter_mut().skip(40) {
        if let Event::Reading(r) = event {
            r.temperature = None;
        }
    }
    let untold = rejection(&events, 180.0);
    assert!((untold - level).abs() < 0.003, "{untold} {level}");
}

#[test]
fn even_with_every_suspicion_open_the_kept_state_is_small() {
    let (mut history, _) = heard(&wearing(0.5, 1.0, 1825.0));
    let suspicion = tapside::water::jump::Suspicion {
        since: at(1800.0),
        readings: 3,
        sum: 1.234_567_890_123_456_7,
        before: history.life.trend.unwrap(),
        after: history.life.trend.unwrap(),
    };
    let life = &mut history.life;
    (life.rise, life.fall, life.lapsed) = (Some(suspicion), Some(suspicion), Some(suspicion));
    history.usage = Some(tapside::water::usage::Usage::first(&settings()));
    let text = serde_json::to_string(&history).unwrap();
    assert!(text.len() < 6_000, "{} bytes", text.len());
}
