//! One invented rig: solution-diffusion with temperature and pressure acting
//! physically, wear of four shapes, seasons, sites, a rounding meter, blunders,
//! leaks, unlogged changes, copied feeds, misstated litres, first membranes of
//! unknown age, weeks off. None of it shares code with the filter.

use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::quantity::{Ppm, Pressure, Temperature, Volume};
use tapside::water::renewal::Prices;
use tapside::water::settings::Settings;

pub const DAYS: usize = 4 * 365;
pub const START: i64 = 1_700_000_000;

/// How a crew logs.
#[derive(Clone, Copy, PartialEq)]
pub enum Kind {
    Easy,
    Typical,
    Harsh,
    Sparse,
}

/// What a kind of rig is like.
struct Habits {
    /// Readings a week, least and most.
    per_week: [f64; 2],
    /// Mean temperature of the water, C: middle and spread.
    mean_c: [f64; 2],
    /// Scatter from site to site, of ln(salt passage), least and most.
    scatter: [f64; 2],
    /// Share of readings with an unrinsed cup or water not run in, which read high.
    unrinsed: f64,
    /// Scatter of the tap, of ln.
    tap_scatter: f64,
    /// Share of feeds copied from the reading before.
    copied: f64,
    blunders: f64,
    /// Share of new membranes that nobody logs.
    unlogged: f64,
    /// ln(litres told over true): middle and spread.
    litres_off: [f64; 2],
    /// Weeks off in a year: winter and summer, at most.
    weeks_off: [f64; 2],
}

impl Kind {
    pub const ALL: [Self; 4] = [Self::Easy, Self::Typical, Self::Harsh, Self::Sparse];

    fn habits(self) -> Habits {
        let typical = Habits {
            per_week: [1.0, 3.0],
            mean_c: [12.0, 1.0],
            scatter: [0.05, 0.14],
            unrinsed: 0.10,
            tap_scatter: 0.12,
            copied: 0.05,
            blunders: 0.025,
            unlogged: 0.2,
            litres_off: [0.15, 0.25],
            weeks_off: [3.0, 2.0],
        };
        match self {
            Self::Typical => typical,
            Self::Sparse => Habits {
                per_week: [0.25, 0.8],
                ..typical
            },
            // Tells the temperature, and its water may be far from 12 C.
            Self::Easy => Habits {
                per_week: [3.0, 6.0],
                mean_c: [14.0, 5.0],
                scatter: [0.04, 0.09],
                unrinsed: 0.04,
                copied: 0.0,
                blunders: 0.015,
                unlogged: 0.1,
                litres_off: [0.05, 0.15],
                ..typical
            },
            Self::Harsh => Habits {
                per_week: [0.8, 2.0],
                scatter: [0.12, 0.24],
                unrinsed: 0.18,
                tap_scatter: 0.25,
                copied: 0.12,
                blunders: 0.05,
                unlogged: 0.45,
                litres_off: [0.25, 0.35],
                weeks_off: [6.0, 3.0],
                ..typical
            },
        }
    }

    pub fn name(self) -> &'static str {
        match self {
            Self::Easy => "easy",
            Self::Typical => "typical",
            Self::Harsh => "harsh",
            Self::Sparse => "sparse",
        }
    }
}

/// Which invented truth, and what the owner tells of the year.
#[derive(Clone, Copy, Default)]
pub struct World {
    /// The second truth: salt passage that grows linearly or ever faster, 93 to 97 %
    /// when new, growth nearly in step with the feed, 80 to 2000 L a working day, and
    /// leaks that multiply the salt passage instead of letting raw water in.
    pub second: bool,
    /// The owner told how busy each month is.
    pub tells_months: bool,
    /// The owner told the first membrane's age, to the year.
    pub tells_age: bool,
}

/// Random numbers: splitmix64 (Steele, Lea & Flood, OOPSLA 2014).
pub struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub fn chance(&mut self, p: f64) -> bool {
        self.unit() < p
    }

    pub fn normal(&mut self) -> f64 {
        let (a, b) = (self.unit().max(1e-12), self.unit());
        (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
    }
}

/// One membrane: permeabilities and how they change.
#[derive(Clone)]
pub struct Membrane {
    pub from: usize,
    pub logged: bool,
    pub age0: f64,
    salt0: f64,
    water0: f64,
    rate: f64,
    shape: u8,
    fouling: f64,
    wobble: Vec<f64>,
}

impl Membrane {
    fn draw(dice: &mut Dice, from: usize, logged: bool, age0: f64, rig: &Rig, own_rate: f64) -> Self {
        let feed = rig.site.feed;
        let mut wobble = vec![0.0];
        for _ in 0..600 {
            let last = wobble[wobble.len() - 1];
            wobble.push(last + 0.012 * dice.normal());
        }
        let mut membrane = Self {
            from,
            logged,
            age0,
            salt0: 0.40 * (0.28 * dice.normal()).exp(),
            water0: dice.between(3.4, 4.6),
            rate: own_rate * (feed / 150.0).powf(0.35) * (0.30 * dice.normal()).exp(),
            shape: (dice.unit() * 4.0) as u8,
            fouling: dice.between(0.01, 0.07),
            wobble,
        };
        if rig.world.second {
            let new = dice.between(0.03, 0.07);
            let flux = membrane.water0 * 0.66 * (0.93 * rig.site.usual_bar - 0.15 - 0.0009 * feed);
            membrane.salt0 = new * flux / (1.12 - new);
            membrane.rate *= (feed / 150.0).powf(0.45);
            membrane.shape = 4 + membrane.shape % 2;
        }
        membrane
    }

    /// Salt passage at a day, water temperature, pressure in bar, feed ppm.
    pub fn passage(&self, day: f64, celsius: f64, bar: f64, feed: f64, rig: &Site) -> f64 {
        let t = self.age0 + (day - self.from as f64) / 365.25;
        let growth = match self.shape {
            0 => self.rate * t,
            1 => self.rate * t.powf(1.5) / 1.3,
            2 => (1.0 + 1.6 * self.rate * t).ln(),
            4 => (1.0 + 2.2 * self.rate * t).ln(),
            5 => self.rate * t * (0.5 + 0.35 * t),
            _ => self.rate * t * (1.0 + 0.4 * (2.0 * t + self.rate * 9.0).sin() / 2.0),
        };
        let week = ((t * 52.0) as usize).min(self.wobble.len() - 1);
        let salt = self.salt0 * (growth + self.wobble[week] + rig.salt_per_c * (celsius - 12.0)).exp();
        let water = self.water0 * 0.66 * (-self.fouling * t + rig.water_per_c * (celsius - 12.0)).exp();
        let flux = water * (0.93 * bar - 0.15 - 0.0009 * feed).max(0.05);
        (1.12 * salt / (flux + salt)).min(0.97)
    }
}

/// Where and how a rig works.
#[derive(Clone)]
pub struct Site {
    pub mean_c: f64,
    pub swing_c: f64,
    pub salt_per_c: f64,
    pub water_per_c: f64,
    pub usual_bar: f64,
    pub feed: f64,
    pub litres: f64,
    pub winter: f64,
    /// Weeks off about New Year and in August.
    pub weeks_off: [f64; 2],
}

impl Site {
    pub fn celsius(&self, day: f64) -> f64 {
        let when = (day + (START / 86_400) as f64) / 365.25;
        self.mean_c - self.swing_c * (std::f64::consts::TAU * (when - 0.08)).cos()
    }

    pub fn is_off(&self, day: f64) -> bool {
        let when = (day + (START / 86_400) as f64) / 365.25;
        [0.0, 0.62].iter().zip(self.weeks_off).any(|(middle, weeks)| {
            let apart = (when - middle + 0.5).rem_euclid(1.0) - 0.5;
            apart.abs() < weeks * 7.0 / 365.25 / 2.0
        })
    }

    /// Litres on an average calendar day at a time of year.
    pub fn litres(&self, day: f64) -> f64 {
        if self.is_off(day) {
            return 0.0;
        }
        self.litres * 5.0 / 7.0 * (1.0 + self.winter * (self.celsius(day) - self.mean_c) / self.swing_c)
    }
}

pub struct Leak {
    pub from: f64,
    pub to: f64,
    /// Share of raw water in the permeate, or a factor on the salt passage.
    pub raw_share: Option<f64>,
    /// Salt passage with over without it, when it began.
    pub factor: f64,
}

impl Leak {
    fn with(&self, passage: f64) -> f64 {
        let leaking = match self.raw_share {
            Some(share) => passage + share * (1.0 - passage),
            None => passage * self.factor,
        };
        leaking.min(0.95)
    }
}

pub struct Rig {
    world: World,
    pub site: Site,
    pub membranes: Vec<Membrane>,
    pub leaks: Vec<Leak>,
    pub bed_grams: f64,
    pub events: Vec<Event>,
    /// For each event, whether it is a reading with a blunder.
    pub blunders: Vec<bool>,
    pub settings: Settings,
    /// Days on which the bed ran out.
    pub resin_days: Vec<f64>,
    /// Days on which half of it was used.
    pub half_days: Vec<f64>,
}

impl Rig {
    pub fn membrane_at(&self, day: f64) -> &Membrane {
        self.membranes
            .iter()
            .rev()
            .find(|m| m.from as f64 <= day)
            .unwrap_or(&self.membranes[0])
    }

    /// What the membrane would reject at 12 C and the usual pressure.
    pub fn true_rejection(&self, day: f64) -> f64 {
        let s = &self.site;
        1.0 - self.membrane_at(day).passage(day, 12.0, s.usual_bar, s.feed, s)
    }

    pub fn leak_at(&self, day: f64) -> Option<&Leak> {
        self.leaks.iter().find(|leak| (leak.from..leak.to).contains(&day))
    }
}

pub fn invent(kind: Kind, seed: u64, world: World) -> Rig {
    let mut dice = Dice(seed);
    for _ in 0..5 {
        dice.next();
    }
    let habits = kind.habits();
    let mut site = Site {
        mean_c: (habits.mean_c[0] + habits.mean_c[1] * dice.normal()).clamp(4.0, 27.0),
        swing_c: dice.between(3.0, 8.0),
        salt_per_c: dice.between(0.048, 0.062),
        water_per_c: dice.between(0.025, 0.033),
        usual_bar: dice.between(3.0, 5.0),
        feed: (5.2 + 0.45 * dice.normal()).exp().clamp(60.0, 600.0),
        litres: dice.between(200.0, 800.0),
        winter: dice.between(0.0, 0.4),
        weeks_off: habits.weeks_off.map(|most| most * dice.unit()),
    };
    if world.second {
        site.litres = 80.0 * 25.0_f64.powf((site.litres - 200.0) / 600.0);
    }
    let resin_litres = (dice.between(6.0, 20.0)).round();
    let prices = Prices {
        membrane: dice.between(150.0, 500.0).round(),
        membrane_labour: dice.between(0.0, 80.0).round(),
        resin_per_litre: dice.between(4.0, 9.0),
        resin_labour: dice.between(0.0, 30.0).round(),
    };
    let litres_off = habits.litres_off[0] + habits.litres_off[1] * dice.normal();
    let mut rig = Rig {
        world,
        bed_grams: resin_litres * 20.0 * dice.between(0.7, 1.3),
        membranes: Vec::new(),
        leaks: Vec::new(),
        events: Vec::new(),
        blunders: Vec::new(),
        resin_days: Vec::new(),
        half_days: Vec::new(),
        settings: Settings {
            prices: Some(prices),
            resin_litres: Some(resin_litres),
            litres_per_workday: Some((site.litres * litres_off.exp()).round()),
            ..Settings::default()
        },
        site,
    };
    if world.tells_months {
        let january = -((START / 86_400) as f64);
        rig.settings.month_shares = std::array::from_fn(|month| {
            let from = january + month as f64 * 365.25 / 12.0;
            let mean = (0..30).map(|day| rig.site.litres(from + f64::from(day))).sum::<f64>() / 30.0;
            (10.0 * mean / (rig.site.litres * 5.0 / 7.0)).round() / 10.0
        });
    }
    membranes(&mut rig, &habits, &mut dice);
    leaks(&mut rig, &mut dice);
    resin(&mut rig, &mut dice);
    tell_age(&mut rig);
    readings(&mut rig, kind, &habits, &mut dice);
    let mut order: Vec<usize> = (0..rig.events.len()).collect();
    order.sort_by_key(|&i| rig.events[i].at());
    rig.blunders = order.iter().map(|&i| rig.blunders[i]).collect();
    rig.events = order.iter().map(|&i| rig.events[i]).collect();
    rig
}

/// The owner tells the first membrane's age to the year, where that is asked for.
fn tell_age(rig: &mut Rig) {
    rig.settings.first_membrane_years = Some(rig.membranes[0].age0.round()).filter(|_| rig.world.tells_age);
}

fn at(day: f64) -> i64 {
    START + (day * 86_400.0) as i64
}

fn serve(rig: &mut Rig, day: f64, what: ServiceKind) {
    rig.events.push(Event::Service(Service { at: at(day), what }));
    rig.blunders.push(false);
}

fn membranes(rig: &mut Rig, habits: &Habits, dice: &mut Dice) {
    let own_rate = 0.50 * (0.35 * dice.normal()).exp();
    let mut from = 0;
    let old = dice.chance(0.5);
    let age = if old { dice.between(0.0, 2.0) } else { 0.0 };
    let mut next = Membrane::draw(dice, 0, !old, age, rig, own_rate);
    loop {
        if next.logged {
            serve(rig, from as f64, ServiceKind::Membrane);
        }
        rig.membranes.push(next);
        let worn = dice.between(0.74, 0.82);
        let Some(end) = (from + 60..DAYS).find(|&day| rig.true_rejection(day as f64) < worn) else {
            return;
        };
        from = end;
        let logged = !dice.chance(habits.unlogged);
        next = Membrane::draw(dice, from, logged, 0.0, rig, own_rate);
    }
}

fn leaks(rig: &mut Rig, dice: &mut Dice) {
    let mut day = 60.0 - 365.0 / 0.35 * dice.unit().max(1e-9).ln();
    while day < DAYS as f64 {
        let lasts = dice.between(15.0, 70.0);
        let passage = 1.0 - rig.true_rejection(day);
        let drawn = dice.unit();
        let raw_share = 0.02 * (0.12_f64 / 0.02).powf(drawn);
        let raw_share = (!rig.world.second).then_some(raw_share);
        let factor = match raw_share {
            Some(share) => 1.0 + share * (1.0 - passage) / passage,
            None => 1.3 * (3.0_f64 / 1.3).powf(drawn),
        };
        rig.leaks.push(Leak {
            from: day,
            to: day + lasts,
            raw_share,
            factor,
        });
        if dice.chance(0.5) {
            serve(rig, day + lasts, ServiceKind::ORing);
        }
        day += lasts - 365.0 / 0.35 * dice.unit().max(1e-9).ln();
    }
}

fn leaving(rig: &Rig, day: f64) -> f64 {
    let s = &rig.site;
    let passage = rig
        .membrane_at(day)
        .passage(day, s.celsius(day), s.usual_bar, s.feed, s);
    rig.leak_at(day).map_or(passage, |leak| leak.with(passage))
}

fn resin(rig: &mut Rig, dice: &mut Dice) {
    let mut load = rig.bed_grams * dice.unit();
    for day in 0..DAYS {
        let day = day as f64;
        let before = load;
        load += rig.site.litres(day) * (rig.site.feed * leaving(rig, day) + 3.0) / 1000.0;
        if before < 0.5 * rig.bed_grams && load >= 0.5 * rig.bed_grams {
            rig.half_days.push(day);
        }
        if load > rig.bed_grams {
            rig.resin_days.push(day);
            serve(rig, day + dice.between(0.0, 3.0), ServiceKind::Resin);
            load = 0.0;
        }
    }
}

fn readings(rig: &mut Rig, kind: Kind, habits: &Habits, dice: &mut Dice) {
    let per_week = dice.between(habits.per_week[0], habits.per_week[1]);
    let tells_c = if kind == Kind::Easy {
        0.9
    } else {
        *[0.0, 0.0, 0.3].get((dice.unit() * 3.0) as usize).unwrap_or(&0.0)
    };
    let tells_bar = if kind == Kind::Easy { 0.7 } else { 0.1 };
    let scatter = dice.between(habits.scatter[0], habits.scatter[1]);
    let mut drift = 0.0;
    let mut day = 0.3;
    let mut last_feed = None;
    loop {
        day += -7.0 / per_week * dice.unit().max(1e-9).ln();
        if day >= DAYS as f64 {
            return;
        }
        if rig.site.is_off(day) {
            continue;
        }
        drift = 0.9 * drift + 0.02 * dice.normal();
        let bar = rig.site.usual_bar * (0.10 * dice.normal()).exp();
        let celsius = rig.site.celsius(day) + 1.5 * dice.normal();
        let mut feed = rig.site.feed * (habits.tap_scatter * dice.normal()).exp();
        let membrane = rig.membrane_at(day);
        let passage = membrane.passage(day, celsius, bar, feed, &rig.site);
        let passage = rig.leak_at(day).map_or(passage, |leak| leak.with(passage));
        let unrinsed = if dice.chance(habits.unrinsed) {
            -0.25 * dice.unit().max(1e-9).ln()
        } else {
            0.0
        };
        let mut permeate = feed * (passage * (scatter * dice.normal() + drift + unrinsed).exp()).min(0.95);
        feed *= 1.0 + 0.012 * dice.normal();
        permeate *= 1.0 + 0.012 * dice.normal();
        let blunder = dice.chance(habits.blunders);
        if blunder {
            match (dice.unit() * 5.0) as u8 {
                0 => permeate *= 10.0,
                1 => permeate /= 10.0,
                2 => std::mem::swap(&mut feed, &mut permeate),
                3 => feed *= 10.0,
                _ => permeate += feed * dice.between(0.08, 0.3),
            }
        } else if dice.chance(habits.copied)
            && let Some(last) = last_feed
        {
            feed = last;
        }
        let ppm = |value: f64| Ppm::new(value.round().max(0.0));
        let (Ok(feed), Ok(permeate)) = (ppm(feed), ppm(permeate)) else {
            continue;
        };
        last_feed = Some(feed.ppm()).filter(|_| !blunder);
        let mut reading = Reading::of(at(day), feed, permeate);
        if dice.chance(tells_c) {
            reading.temperature = Temperature::from_celsius(celsius.max(0.5).round()).ok();
        }
        if dice.chance(tells_bar) {
            reading.pressure = Pressure::from_kpa((bar * 100.0 / 5.0).round() * 5.0).ok();
        }
        if dice.chance(0.1) {
            reading.litres = Volume::from_litres(rig.settings.litres_per_workday.unwrap_or(800.0)).ok();
        }
        rig.events.push(Event::Reading(reading));
        rig.blunders.push(blunder);
    }
}
