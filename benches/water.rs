//! Speed of the water room: one step of the filter, one assessment from kept state.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use tapside::water::assess::assess;
use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::prior::Lessons;
use tapside::water::quantity::Ppm;
use tapside::water::renewal::Prices;
use tapside::water::replay::replay;
use tapside::water::rig::step;
use tapside::water::settings::Settings;

const DAY: i64 = 86_400;

/// Five years of two readings a week, two changes of membrane, a bed every month.
fn five_years() -> Vec<Event> {
    let ppm = |value: f64| Ppm::new(value).unwrap();
    let mut events = Vec::new();
    for i in 0..520_i64 {
        let at = i * 7 * DAY / 2;
        let age = (at % (700 * DAY)) as f64 / (365.25 * DAY as f64);
        let scatter = 0.06 * ((i * 7919 % 13) as f64 / 6.0 - 1.0);
        events.push(Event::Reading(Reading::of(
            at,
            ppm(180.0),
            ppm((9.0 * (0.5 * age + scatter).exp()).round()),
        )));
        if at % (700 * DAY) == 0 {
            events.push(Event::Service(Service {
                at,
                what: ServiceKind::Membrane,
            }));
        }
        if i % 9 == 0 {
            events.push(Event::Service(Service {
                at,
                what: ServiceKind::Resin,
            }));
        }
    }
    events
}

fn water(c: &mut Criterion) {
    let prices = Prices {
        membrane: 400.0,
        membrane_labour: 50.0,
        resin_per_litre: 6.0,
        resin_labour: 20.0,
    };
    let settings = Settings {
        prices: Some(prices),
        resin_litres: Some(10.0),
        litres_per_workday: Some(500.0),
        ..Settings::default()
    };
    let outfit = Lessons::none();
    let events = five_years();
    let (history, _) = replay(&events, &settings, &outfit);
    let now = 5 * 365 * DAY;
    let next = Event::Reading(Reading::of(now, Ppm::new(180.0).unwrap(), Ppm::new(11.0).unwrap()));
    c.bench_function("one step of the filter", |b| {
        b.iter_batched_ref(
            || history.clone(),
            |history| step(black_box(history), black_box(&next), &settings, &outfit),
            BatchSize::SmallInput,
        );
    });
    c.bench_function("assess five years from kept state", |b| {
        b.iter(|| assess(black_box(&history), &settings, &outfit, now));
    });
    c.bench_function("replay five years", |b| {
        b.iter(|| replay(black_box(&events), &settings, &outfit))
    });
}

criterion_group!(benches, water);
criterion_main!(benches);
