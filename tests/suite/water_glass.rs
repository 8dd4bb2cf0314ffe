//! What the RO water of a rig without resin brings to the glass.

use tapside::water::assess::assess;
use tapside::water::forecast::Crossing;
use tapside::water::glass::{Glass, glass};
use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::prior::Lessons;
use tapside::water::quantity::Ppm;
use tapside::water::replay::replay;
use tapside::water::settings::{Limits, Settings};

const DAY: i64 = 86_400;

/// A logged new membrane and readings every ten days, its permeate by `ppm(day)`.
fn seen(feed: f64, days: i64, ppm: impl Fn(i64) -> f64) -> Glass {
    let start = 1_700_000_000;
    let renewed = Event::Service(Service {
        at: start,
        what: ServiceKind::Membrane,
    });
    let read = |day: i64| {
        let (feed, permeate) = (Ppm::new(feed).unwrap(), Ppm::new(ppm(day)).unwrap());
        Event::Reading(Reading::of(start + day * DAY + 3600, feed, permeate))
    };
    let events: Vec<Event> = std::iter::once(renewed)
        .chain((0..days).step_by(10).map(read))
        .collect();
    let settings = Settings::default();
    let (history, _) = replay(&events, &settings, &Lessons::none());
    let now = start + days * DAY;
    let assessment = assess(&history, &settings, &Lessons::none(), now);
    glass(&history, &settings, &Lessons::none(), &assessment).unwrap()
}

#[test]
fn hard_water_spots_behind_any_membrane() {
    let glass = seen(300.0, 200, |_| 18.0);
    assert_eq!(glass.spots, Crossing::Already);
    assert!((15.0..21.0).contains(&glass.ppm), "{glass:?}");
    // 300 ppm x 4.2% is 12.6 ppm, a little more with its own experience.
    assert!(glass.new_ppm > Limits::default().spots_ppm, "{glass:?}");
}

#[test]
fn soft_water_spots_once_the_membrane_has_faded() {
    let glass = seen(120.0, 400, |day| (6.0 + 2.0 * day as f64 / 400.0).round());
    let Crossing::Within(range) = glass.spots else {
        panic!("{glass:?}")
    };
    assert!(glass.ppm < Limits::default().spots_ppm && range.likely > 1_700_000_000 + 400 * DAY);
}

#[test]
fn a_few_readings_tell_the_level_and_no_date() {
    let glass = seen(120.0, 20, |_| 6.0);
    assert_eq!(glass.spots, Crossing::NotYetKnown);
    assert!((5.0..8.0).contains(&glass.ppm), "{glass:?}");
}
