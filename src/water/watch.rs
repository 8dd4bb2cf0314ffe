//! The watch over jumps in a membrane's life: leaks, repairs, and membranes
//! changed without a word.

use super::jump::{self, Suspicion};
use super::observation::years_between;
use super::prior::{Age, Expected, first_belief};
use super::trend::{Observation, Trend};
use super::wear::{Beginning, FAULT_LASTS_SECONDS, Heard, Life, SETTLING_READINGS, trust, wander};

/// How much worse than new a membrane must be before a fall can mean a new one.
const RENEWED_BY: f64 = 0.35;
/// Further evidence asked for by each denial of a new membrane, and at most: a rig
/// whose readings fall for other reasons does so again.
const MORE_BY_DENIAL: f64 = 2.0;
const MOST_MORE: f64 = 6.0;
/// Evidence for a repair that ends a fault, natural log units: more than one reading gives.
const REPAIRED: f64 = 3.05;

/// How far two meters lie apart at the RO outlet, of ln: some 2 ppm at 10 (a judgement on what handheld meters state, no
/// source).
const METER_SPREAD: f64 = 0.25;

impl Life {
    /// Takes a repair at its word: the leak is gone, how well is to be seen.
    pub fn repair(&mut self) {
        self.rise = None;
        if let Some(lapsed) = self.lapsed.take() {
            self.trend = Some(lapsed.before);
        } else if self.fault.take().is_none() {
            // A leak that was mended before it was found ends in a fall.
            self.unwatched_falls = SETTLING_READINGS;
            self.fall = None;
            return;
        }
        self.fall = None;
        if let Some(trend) = &mut self.trend {
            trend.covariance[0][0] += 0.10 * 0.10;
        }
    }

    /// Takes up another meter: what it shows otherwise is neither a leak nor a new membrane.
    pub fn remeter(&mut self) {
        (self.rise, self.fall) = (None, None);
        if let Some(trend) = &mut self.trend {
            trend.covariance[0][0] += METER_SPREAD * METER_SPREAD;
        }
    }

    pub(super) fn watch_rise(&mut self, at: i64, years: f64, now: &Trend, seen: &Observation) -> Option<Heard> {
        let fresh = jump::leaking(now);
        let rise = jump::follow(self.rise.take(), at, years, &wander(self.spread), now, &fresh, seen)?;
        if !jump::is_leak(&rise, self.spread) {
            self.rise = Some(rise);
            return None;
        }
        self.trend = Some(rise.before);
        self.fault = Some(Suspicion { sum: 0.0, ..rise });
        self.fall = None;
        Some(Heard::JumpSince(rise.since))
    }

    pub(super) fn watch_fall(
        &mut self,
        at: i64,
        years: f64,
        now: &Trend,
        seen: &Observation,
        expected: &Expected,
        denials: u32,
    ) -> Option<Heard> {
        let open = self.fall.take();
        // What a fall would lead to: the level before a lapsed fault, else a new membrane's.
        let fresh = self
            .lapsed
            .map_or_else(|| first_belief(Age::New, expected, Some(now)), |lapsed| lapsed.before);
        if open.is_none() && now.mean[0] < fresh.mean[0] + RENEWED_BY {
            return None;
        }
        let fall = jump::follow(open, at, years, &wander(self.spread), now, &fresh, seen)?;
        let more = (MORE_BY_DENIAL * f64::from(denials)).min(MOST_MORE);
        let worn = fall.before.mean[0] - fresh.mean[0];
        if !jump::is_renewal(&fall, worn, more) || fall.after.mean[0] > fall.before.mean[0] - 0.9 * RENEWED_BY {
            self.fall = Some(fall);
            return None;
        }
        if self
            .lapsed
            .take()
            .is_some_and(|lapsed| fall.after.mean[0] > lapsed.before.mean[0] - RENEWED_BY)
        {
            self.trend = Some(fall.after);
            return Some(Heard::Repaired);
        }
        let spread = self.spread;
        *self = Self::begin(Beginning::Presumed(fall.since));
        self.first(fall.since, expected, Some(&fall.after));
        self.trend = Some(fall.after);
        self.spread = spread;
        self.readings = fall.readings;
        self.passed_years = fall.after.mean[0].exp() * years_between(fall.since, at);
        self.carried_to = at;
        Some(Heard::RenewedSince(fall.since))
    }

    pub(super) fn hear_while_faulty(&mut self, at: i64, seen: &Observation) -> Heard {
        let (Some(fault), Some(trend)) = (&mut self.fault, self.trend) else {
            return Heard::Used;
        };
        if at - fault.since > FAULT_LASTS_SECONDS {
            self.trend = Some(fault.after);
            self.lapsed = self.fault.take();
            return self.believe(seen);
        }
        fault.readings += 1;
        fault.sum = jump::page_sum(fault.sum, jump::evidence(&fault.after, &trend, seen));
        if fault.sum >= REPAIRED {
            self.fault = None;
            self.believe(seen);
            return Heard::Repaired;
        }
        let (weight, _) = trust(&fault.after, seen);
        fault.after.update(&Observation {
            variance: seen.variance / weight,
            ..*seen
        });
        self.readings += 1;
        Heard::Used
    }
}
