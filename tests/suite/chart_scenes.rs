//! Invented rigs for the pictures: a truth that wears, a meter that rounds, beds of
//! resin that fill up. All of it is made up; the pictures are drawn by the real way
//! from readings to PNG.

use jiff::tz::TimeZone;
use tapside::bot::pictures::Seen;
use tapside::water::assess::{Assessment, assess};
use tapside::water::course::{Course, course};
use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::prior::Lessons;
use tapside::water::quantity::Ppm;
use tapside::water::renewal::Prices;
use tapside::water::resin::grams_per_litre;
use tapside::water::settings::Settings;
use tapside::water::verdict::{Behind, Ground, Verdict};

pub const DAY: i64 = 86_400;
/// Wednesday, 25 November 2026, 12:00 UTC.
pub const NOW: i64 = 1_795_608_000;
const LITRES_PER_DAY: f64 = 500.0;
const BED_LITRES: f64 = 10.0;

/// A rig to invent.
#[derive(Clone, Copy)]
pub struct Plot {
    /// Days of readings before [`NOW`].
    pub days: i64,
    /// Days between readings.
    pub every: i64,
    /// Dissolved solids of the tap, ppm.
    pub feed: f64,
    /// Rejection at the beginning, and growth of ln(salt passage) a year.
    pub start: f64,
    pub growth: f64,
    /// Whether the change at the beginning was logged.
    pub logged: bool,
    /// Days before now on which a new membrane came.
    pub renewed: Option<i64>,
    /// A leak, days before now: from, to; and how much more it lets through.
    pub leak: Option<(i64, i64, f64)>,
    /// Days before now with a slip of the thumb.
    pub slips: &'static [i64],
}

impl Default for Plot {
    fn default() -> Self {
        Self {
            days: 400,
            every: 4,
            feed: 214.0,
            start: 0.95,
            growth: 0.4,
            logged: true,
            renewed: None,
            leak: None,
            slips: &[],
        }
    }
}

/// A rig with all that its pictures need.
pub struct Scene {
    pub name: String,
    pub events: Vec<Event>,
    pub settings: Settings,
    pub course: Course,
    pub assessment: Assessment,
    pub verdict: Verdict,
    pub zone: TimeZone,
    pub lessons: Lessons,
}

impl Scene {
    pub fn seen(&self) -> Seen<'_> {
        Seen {
            rig: &self.name,
            events: &self.events,
            settings: &self.settings,
            lessons: &self.lessons,
            course: &self.course,
            assessment: &self.assessment,
            verdict: &self.verdict,
            zone: &self.zone,
        }
    }
}

/// Settings of a rig with prices.
pub fn priced() -> Settings {
    Settings {
        prices: Some(Prices {
            membrane: 260.0,
            membrane_labour: 40.0,
            resin_per_litre: 5.0,
            resin_labour: 15.0,
        }),
        resin_litres: Some(BED_LITRES),
        litres_per_workday: Some(LITRES_PER_DAY),
        ..Settings::default()
    }
}

/// A scene of events.
pub fn scene(name: &str, events: Vec<Event>, settings: Settings) -> Scene {
    let lessons = Lessons::none();
    let course = course(&events, &settings, &lessons, NOW);
    let assessment = assess(&course.history, &settings, &lessons, NOW);
    let ground = Ground {
        utc_offset_seconds: 0,
        behind: Behind::Resin,
        jump_ppm: None,
    };
    Scene {
        name: name.to_owned(),
        events,
        settings,
        course,
        verdict: Verdict::of(&assessment, &ground),
        assessment,
        zone: TimeZone::UTC,
        lessons,
    }
}

/// A scene of a plot.
pub fn played(name: &str, plot: Plot) -> Scene {
    scene(name, events(plot, name.len() as u64), priced())
}

/// What happens in a plot.
pub fn events(plot: Plot, seed: u64) -> Vec<Event> {
    let mut chance = Chance(seed.wrapping_mul(7919).wrapping_add(17));
    let (from, ppm) = (NOW - plot.days * DAY, |value: f64| Ppm::new(value.max(0.0)).unwrap());
    let mut events = Vec::new();
    let mut new_since = from;
    let mut load_g = 0.0;
    let serve = |at, what| Event::Service(Service { at, what });
    if plot.logged {
        events.push(serve(from, ServiceKind::Membrane));
    }
    events.push(serve(from + 100, ServiceKind::Resin));
    for day in 0..plot.days {
        let at = from + day * DAY + 9 * 3600;
        let left = plot.days - day;
        if plot.renewed == Some(left) {
            new_since = at;
            events.push(serve(at, ServiceKind::Membrane));
        }
        let age = (at - new_since) as f64 / (365.25 * DAY as f64);
        let start = if new_since == from { plot.start } else { 0.95 };
        let mut passage = (1.0 - start) * (plot.growth * age).exp();
        if let Some((leak_from, leak_to, times)) = plot.leak {
            if (leak_to..=leak_from).contains(&left) {
                passage *= times;
            }
            if left == leak_to - 1 {
                events.push(serve(at, ServiceKind::ORing));
            }
        }
        load_g += LITRES_PER_DAY * 5.0 / 7.0 * grams_per_litre(plot.feed, passage);
        if load_g > BED_LITRES * 20.0 * (0.95 + 0.1 * chance.next()) {
            events.push(serve(at + 3600, ServiceKind::Resin));
            load_g = 0.0;
        }
        if day % plot.every == 0 {
            let feed = (plot.feed * (0.93 + 0.14 * chance.next())).round();
            let seen = feed * passage * (1.0 + 0.24 * (chance.next() - 0.5));
            let seen = if plot.slips.contains(&(left / plot.every)) {
                seen * 2.6
            } else {
                seen
            };
            events.push(Event::Reading(Reading::of(at, ppm(feed), ppm(seen.round()))));
        }
    }
    events
}

/// A linear congruential generator (Knuth's MMIX constants), 0 to 1.
pub struct Chance(pub u64);

impl Chance {
    pub fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// Seven rigs of all states, or as many as wanted.
pub fn fleet(count: usize) -> Vec<Scene> {
    const NAMES: [&str; 20] = [
        "Otter",
        "Kestrel",
        "Heron",
        "Mule",
        "Badger",
        "Lynx",
        "Wren",
        "Ibis",
        "Marten",
        "Stoat",
        "Crane",
        "Newt",
        "Puffin",
        "Bison",
        "Gecko",
        "Trailer north yard",
        "Osprey",
        "Tapir",
        "Raven",
        "Seal",
    ];
    (0..count)
        .map(|nth| {
            let name = match nth / NAMES.len() {
                0 => NAMES[nth].to_owned(),
                more => format!("{} {}", NAMES[nth % NAMES.len()], more + 1),
            };
            let calm = Plot {
                growth: 0.2 + 0.03 * (nth % 7) as f64,
                feed: 150.0 + (nth * 13 % 90) as f64,
                ..Plot::default()
            };
            let plot = match nth % 20 {
                0 => Plot {
                    growth: 1.05,
                    ..Plot::default()
                },
                1 => Plot {
                    leak: Some((9, 0, 2.4)),
                    every: 2,
                    days: 300,
                    ..Plot::default()
                },
                3 => Plot {
                    growth: 0.75,
                    renewed: Some(60),
                    ..Plot::default()
                },
                4 => Plot {
                    days: 8,
                    logged: false,
                    ..Plot::default()
                },
                5 => Plot {
                    growth: 1.4,
                    days: 380,
                    ..Plot::default()
                },
                6 | 11 => Plot {
                    growth: 0.75,
                    days: 380,
                    ..Plot::default()
                },
                _ => calm,
            };
            scene(&name, events(plot, nth as u64 + 3), priced())
        })
        .collect()
}
