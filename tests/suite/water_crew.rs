//! A small stand-in for a crew: readings and services at days, for the tests.

use tapside::water::assess::{Assessment, assess};
use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::observation::Doubt;
use tapside::water::prior::Lessons;
use tapside::water::quantity::Ppm;
use tapside::water::renewal::Prices;
use tapside::water::replay::replay;
use tapside::water::rig::History;
use tapside::water::settings::Settings;

/// 1 January 2024, UTC.
pub const START: i64 = 1_704_067_200;

pub fn at(day: f64) -> i64 {
    START + (day * 86_400.0) as i64
}

pub fn reading(day: f64, feed: f64, permeate: f64) -> Event {
    Event::Reading(Reading::of(
        at(day),
        Ppm::new(feed).unwrap(),
        Ppm::new(permeate).unwrap(),
    ))
}

pub fn service(day: f64, what: ServiceKind) -> Event {
    Event::Service(Service { at: at(day), what })
}

/// A membrane of day 0 that wears from 95% by `growth` a year, read every
/// `every` days up to `days`, with a small made-up scatter that repeats.
pub fn wearing(growth: f64, every: f64, days: f64) -> Vec<Event> {
    const SCATTER: [f64; 7] = [0.04, -0.06, 0.01, 0.07, -0.03, -0.05, 0.02];
    let mut events = vec![service(0.0, ServiceKind::Membrane)];
    let mut day = 1.0;
    let mut i = 0;
    while day <= days {
        let passage = 0.05 * (growth * day / 365.25 + SCATTER[i % 7]).exp();
        events.push(reading(day, 400.0, (400.0 * passage * 10.0).round() / 10.0));
        day += every;
        i += 1;
    }
    events
}

pub fn settings() -> Settings {
    let prices = Prices {
        membrane: 400.0,
        membrane_labour: 50.0,
        resin_per_litre: 6.0,
        resin_labour: 20.0,
    };
    Settings {
        prices: Some(prices),
        resin_litres: Some(10.0),
        litres_per_workday: Some(500.0),
        ..Settings::default()
    }
}

pub fn heard(events: &[Event]) -> (History, Vec<Option<Doubt>>) {
    replay(events, &settings(), &Lessons::none())
}

pub fn said(events: &[Event], day: f64) -> Assessment {
    assess(&heard(events).0, &settings(), &Lessons::none(), at(day))
}
