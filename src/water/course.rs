//! A rig's whole course, for pictures: what was believed of each membrane after each
//! reading, which jumps stood, and how each bed of resin filled up.
//!
//! It takes the same steps as [`super::replay::replay`] and keeps what that forgets.

use super::assess::has_level;
use super::forecast::{Interval, interval_after, rejection_interval};
use super::history::{Event, ServiceKind};
use super::observation::Doubt;
use super::observation::after_years;
use super::prior::Lessons;
use super::replay::{begin, pardon};
use super::rig::{History, step};
use super::settings::Settings;
use super::wear::{FAULT_LASTS_SECONDS, Heard};

/// A level at an instant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Level {
    /// The instant, UTC seconds.
    pub at: i64,
    /// Standardised rejection with its 80 % interval, fractions.
    pub rejection: Interval,
}

/// One membrane, as it was believed in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stretch {
    /// When it was put in, logged or presumed, UTC seconds; `None` before any known change.
    pub began_at: Option<i64>,
    /// Its levels, oldest first.
    pub levels: Vec<Level>,
}

/// A jump, from its first reading to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leak {
    /// Its first reading, UTC seconds.
    pub since: i64,
    /// When it was repaired, or taken for the membrane's own; `None` while it stands.
    pub until: Option<i64>,
    /// Rejection of the whole rig with it, a fraction.
    pub seen_rejection: f64,
}

/// A bed of resin.
#[derive(Clone, Debug, PartialEq)]
pub struct BedSpan {
    /// When it was put in, UTC seconds.
    pub since: i64,
    /// When it was taken out; `None` for the one in use.
    pub until: Option<i64>,
    /// Share of what a bed holds that it had taken up: instant and share. Empty where
    /// the size of the bed or its use is not told.
    pub load: Vec<(i64, f64)>,
}

/// The whole course.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    /// The kept history at its end, as a replay gives it.
    pub history: History,
    /// Of each event, in the order given, whether it was set aside.
    pub doubts: Vec<Option<Doubt>>,
    /// The membranes, oldest first.
    pub stretches: Vec<Stretch>,
    /// The jumps, oldest first.
    pub leaks: Vec<Leak>,
    /// The beds whose beginning is known, oldest first.
    pub beds: Vec<BedSpan>,
}

/// Follows a rig through all its events, in any arrival order, up to `now` (UTC
/// seconds, not before the last event).
#[must_use]
pub fn course(events: &[Event], settings: &Settings, outfit: &Lessons, now: i64) -> Course {
    course_among(events, settings, |_| *outfit, now)
}

/// The same where the outfit learned meanwhile: `outfit` tells what was learned before an instant.
#[must_use]
pub fn course_among(events: &[Event], settings: &Settings, outfit: impl Fn(i64) -> Lessons, now: i64) -> Course {
    let (history, order) = begin(events);
    let mut course = Course {
        history,
        doubts: vec![None; events.len()],
        stretches: vec![Stretch::default()],
        leaks: Vec::new(),
        beds: Vec::new(),
    };
    for (place, &i) in order.iter().enumerate() {
        let event = &events[i];
        if matches!(event, Event::Service(service) if service.what == ServiceKind::Resin) {
            course.change_bed(event.at(), settings);
        }
        let Ok(done) = step(&mut course.history, event, settings, &outfit(event.at())) else {
            continue;
        };
        match done.heard {
            Heard::SetAside(doubt) => course.doubts[i] = Some(doubt),
            Heard::JumpSince(since) | Heard::RenewedSince(since) => {
                pardon(&order[..=place], events, since, &mut course.doubts);
            }
            Heard::Used | Heard::Repaired => {}
        }
        course.follow(event, done.heard);
        let bed = course.history.bed;
        course.weigh(event.at(), &bed, settings);
    }
    course.finish(settings, now);
    course
}

/// The level from `now` on, in `steps` equal steps over `years`: where its ends cross
/// a line, [`super::forecast::crossing`]'s range begins and ends. Empty while no level
/// is told.
#[must_use]
pub fn ahead(history: &History, now: i64, years: f64, steps: u32) -> Vec<Level> {
    let Some(belief) = history.life.belief_at(now).filter(|_| has_level(&history.life)) else {
        return Vec::new();
    };
    (0..=steps)
        .map(|nth| years * f64::from(nth) / f64::from(steps.max(1)))
        .map(|years| Level {
            at: after_years(now, years),
            rejection: interval_after(&belief, years),
        })
        .collect()
}

impl Course {
    /// Takes down what a step did to the membrane.
    fn follow(&mut self, event: &Event, heard: Heard) {
        let at = event.at();
        let life = &self.history.life;
        match (event, heard) {
            (Event::Reading(_), Heard::JumpSince(since)) => {
                self.forget_since(since);
                self.leaks.push(Leak {
                    since,
                    until: None,
                    seen_rejection: 1.0,
                });
            }
            (Event::Reading(_), Heard::RenewedSince(since)) => {
                self.forget_since(since);
                self.stretches.push(Stretch {
                    began_at: Some(since),
                    levels: Vec::new(),
                });
            }
            // A change that was only logged late begins no second life.
            (Event::Service(service), _)
                if service.what == ServiceKind::Membrane && (life.readings == 0 || self.stretches.is_empty()) =>
            {
                self.stretches.push(Stretch {
                    began_at: Some(at),
                    levels: Vec::new(),
                });
            }
            _ => {}
        }
        if let Some(leak) = self.leaks.last_mut().filter(|leak| leak.until.is_none()) {
            match &self.history.life.fault {
                Some(fault) => leak.seen_rejection = (1.0 - fault.after.mean[0].exp()).clamp(0.0, 1.0),
                None => leak.until = Some(at.min(leak.since + FAULT_LASTS_SECONDS)),
            }
        }
        if matches!(event, Event::Reading(_)) && !matches!(heard, Heard::SetAside(_)) {
            self.note_level(at);
        }
    }

    fn note_level(&mut self, at: i64) {
        let life = &self.history.life;
        if !has_level(life) {
            return;
        }
        if let (Some(belief), Some(stretch)) = (life.belief_at(at), self.stretches.last_mut()) {
            // A presumed beginning becomes a logged one.
            stretch.began_at = life.began_at().or(stretch.began_at);
            stretch.levels.push(Level {
                at,
                rejection: rejection_interval(&belief),
            });
        }
    }

    /// What was believed while a jump was not yet seen for one, is not believed any more.
    fn forget_since(&mut self, since: i64) {
        if let Some(stretch) = self.stretches.last_mut() {
            stretch.levels.retain(|level| level.at < since);
        }
    }

    fn change_bed(&mut self, at: i64, settings: &Settings) {
        let mut carried = self.history.clone();
        if carried.until.is_some_and(|until| until <= at) {
            carried.carry(at, settings);
            self.weigh(at, &carried.bed, settings);
        }
        if let Some(bed) = self.beds.last_mut() {
            bed.until = Some(at);
        }
        self.beds.push(BedSpan {
            since: at,
            until: None,
            load: Vec::new(),
        });
    }

    /// Notes the load of the bed in use, in grams; [`Self::finish`] makes shares of them.
    fn weigh(&mut self, at: i64, bed: &super::resin::Bed, settings: &Settings) {
        if settings.resin_litres.is_some()
            && self.history.daily_litres(settings).is_some()
            && let Some(span) = self.beds.last_mut()
        {
            span.load.push((at, bed.load_g));
        }
    }

    fn finish(&mut self, settings: &Settings, now: i64) {
        let mut carried = self.history.clone();
        carried.carry(now.max(carried.until.unwrap_or(now)), settings);
        if self.history.until.is_some() {
            self.weigh(now, &carried.bed, settings);
        }
        if let Some(litres) = settings.resin_litres {
            let capacity = super::resin::capacity_g(litres).max(1e-9);
            for (_, load) in self.beds.iter_mut().flat_map(|bed| &mut bed.load) {
                *load /= capacity;
            }
        }
        if let Some(leak) = self.leaks.last_mut().filter(|leak| leak.until.is_none())
            && now - leak.since > FAULT_LASTS_SECONDS
        {
            leak.until = Some(leak.since + FAULT_LASTS_SECONDS);
        }
        if self.stretches.last().is_some_and(|stretch| !stretch.levels.is_empty()) {
            self.note_level(now);
        }
        self.stretches
            .retain(|stretch| stretch.began_at.is_some() || !stretch.levels.is_empty());
    }
}
