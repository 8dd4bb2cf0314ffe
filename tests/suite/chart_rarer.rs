//! Invented rigs whose pictures say what is seldom said: the first readings, a jump of
//! today, a bed at its end, prices that hardly matter.

use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::quantity::{Ppm, Temperature};
use tapside::water::renewal::Prices;
use tapside::water::settings::Settings;

use crate::chart_scenes::{self as scenes, DAY, NOW, Plot, Scene, events, priced, scene};

const HOUR: i64 = 3600;

fn ppm(value: f64) -> Ppm {
    Ppm::new(value).unwrap()
}

/// A reading some time before now.
fn read(before: i64, feed: f64, permeate: f64) -> Event {
    Event::Reading(Reading::of(NOW - before, ppm(feed), ppm(permeate)))
}

/// A reading with the glass.
fn glass(before: i64, feed: f64, permeate: f64, product: f64) -> Event {
    Event::Reading(Reading {
        product: Some(ppm(product)),
        ..Reading::of(NOW - before, ppm(feed), ppm(permeate))
    })
}

fn done(before: i64, what: ServiceKind) -> Event {
    Event::Service(Service { at: NOW - before, what })
}

/// The same, with the temperature of the water.
fn told_warmth(event: Event) -> Event {
    match event {
        Event::Reading(reading) => Event::Reading(Reading {
            temperature: Temperature::from_celsius(14.0).ok(),
            ..reading
        }),
        service => service,
    }
}

/// A rig that was read for months, with what happened lately.
fn lately(name: &str, plot: Plot, last: &[Event]) -> Scene {
    let mut all = events(plot, name.len() as u64);
    all.extend_from_slice(last);
    scene(name, all, priced())
}

/// A rig with its bed changed some days ago, and a last look at the glass.
fn bed(name: &str, age_days: i64, product: f64, settings: Settings) -> Scene {
    let all = vec![
        done(200 * DAY, ServiceKind::Membrane),
        done(age_days * DAY, ServiceKind::Resin),
        read(150 * DAY, 210.0, 10.0),
        read(60 * DAY, 212.0, 11.0),
        glass(2 * HOUR, 214.0, 12.0, product),
    ];
    scene(name, all, settings)
}

fn without_membrane(name: &str, product: f64) -> Scene {
    let tasted = |before: i64, product: f64| {
        Event::Reading(Reading {
            permeate: None,
            product: Some(ppm(product)),
            ..Reading::of(NOW - before, ppm(180.0), ppm(1.0))
        })
    };
    let all = vec![
        done(9 * DAY, ServiceKind::Resin),
        tasted(8 * DAY, 0.0),
        tasted(HOUR, product),
    ];
    let settings = Settings {
        has_membrane: false,
        resin_litres: Some(50.0),
        litres_per_workday: Some(300.0),
        ..Settings::default()
    };
    scene(name, all, settings)
}

/// Sums so small that a month sooner or later rounds to nothing.
fn cheap() -> Settings {
    Settings {
        prices: Some(Prices {
            membrane: 2.6,
            membrane_labour: 0.0,
            resin_per_litre: 0.05,
            resin_labour: 0.0,
        }),
        ..priced()
    }
}

/// Dear membranes, so that a worn one is kept a while.
fn dear_membrane() -> Settings {
    Settings {
        prices: Some(Prices {
            membrane: 1900.0,
            membrane_labour: 40.0,
            resin_per_litre: 5.0,
            resin_labour: 15.0,
        }),
        ..priced()
    }
}

/// The rigs, by what is told of them.
pub fn rigs() -> Vec<(&'static str, Scene)> {
    let short = |days, logged| Plot {
        days,
        logged,
        ..Plot::default()
    };
    let worn = Plot {
        growth: 1.0,
        ..Plot::default()
    };
    let leak = |days: &[i64]| -> Vec<Event> { days.iter().map(|before| read(*before, 214.0, 46.0)).collect() };
    let weekly = |from: i64, beds: &[i64]| -> Vec<Event> {
        let changes = beds.iter().map(|days| done(days * DAY, ServiceKind::Resin));
        let readings = (0..from / 7).map(|week| read((7 * week + 1) * DAY, 214.0, 12.0));
        changes.chain(readings).collect()
    };
    vec![
        ("first", scenes::played("Wren", short(1, true))),
        ("first_unlogged", scenes::played("Ibis", short(1, false))),
        ("second_unlogged", scenes::played("Newt", short(5, false))),
        (
            "jump_today",
            lately("Otter", Plot::default(), &leak(&[4 * HOUR, 3 * HOUR, 2 * HOUR, HOUR])),
        ),
        (
            "jump_yesterday",
            lately("Heron", Plot::default(), &leak(&[DAY, DAY - HOUR, 3 * HOUR, HOUR])),
        ),
        ("unpriced", scene("Lynx", events(worn, 5), Settings::default())),
        ("kept", scene("Crane", events(worn, 5), dear_membrane())),
        (
            "small_sums",
            scene("Stoat", events(Plot { growth: 0.85, ..worn }, 5), cheap()),
        ),
        (
            "wearing",
            scene(
                "Seal",
                (0..6).map(|nth| read((3 * nth + 1) * DAY, 200.0, 24.0)).collect(),
                Settings::default(),
            ),
        ),
        (
            "wearing_until",
            scene(
                "Raven",
                events(
                    Plot {
                        growth: 0.9,
                        days: 330,
                        ..Plot::default()
                    },
                    5,
                ),
                Settings::default(),
            ),
        ),
        (
            "sound_until",
            scenes::played(
                "Tapir",
                Plot {
                    growth: 0.7,
                    days: 240,
                    ..Plot::default()
                },
            ),
        ),
        (
            "sound_long",
            scenes::played(
                "Gecko",
                Plot {
                    growth: 0.05,
                    days: 500,
                    ..Plot::default()
                },
            ),
        ),
        ("spots", bed("Mule", 30, 14.0, priced())),
        ("loose", bed("Bison", 3, 8.0, priced())),
        (
            "long",
            bed(
                "Osprey",
                5,
                0.0,
                Settings {
                    resin_litres: Some(60.0),
                    litres_per_workday: Some(150.0),
                    ..priced()
                },
            ),
        ),
        ("last_day", bed("Puffin", 30, 7.0, priced())),
        ("last_hours", bed("Gecko", 30, 9.5, priced())),
        ("one_day", bed("Marten", 30, 3.0, priced())),
        (
            "shrinking",
            scene("Badger", weekly(300, &[290, 210, 135, 80, 45, 15]), priced()),
        ),
        (
            "mended",
            scenes::played(
                "Puffin",
                Plot {
                    leak: Some((90, 50, 2.4)),
                    days: 250,
                    growth: 0.2,
                    ..Plot::default()
                },
            ),
        ),
        (
            "warmth_told",
            scene("Teal", events(worn, 5).into_iter().map(told_warmth).collect(), priced()),
        ),
        ("never_changed", scene("Kestrel", weekly(60, &[]), priced())),
    ]
}

/// Fleets of rigs without a membrane, one by one: in order, and not.
pub fn alone() -> Vec<(&'static str, Scene)> {
    vec![
        ("in_order", without_membrane("Mule", 0.0)),
        ("wants", without_membrane("Mule", 12.0)),
    ]
}

/// A fleet in order.
pub fn in_order() -> Vec<Scene> {
    ["Heron", "Gecko", "Osprey"]
        .into_iter()
        .map(|name| {
            scenes::played(
                name,
                Plot {
                    growth: 0.1,
                    days: 300,
                    ..Plot::default()
                },
            )
        })
        .collect()
}

/// A fleet in order but for a leak.
pub fn one_job() -> Vec<Scene> {
    let leak = Plot {
        leak: Some((9, 0, 2.4)),
        every: 2,
        ..Plot::default()
    };
    let mut scenes = in_order();
    scenes.push(scenes::played("Kestrel", leak));
    scenes
}

/// A fleet whose beds are in every state.
pub fn beds() -> Vec<Scene> {
    rigs()
        .into_iter()
        .filter(|(name, _)| ["spots", "loose", "long", "one_day"].contains(name))
        .map(|(_, scene)| scene)
        .collect()
}
