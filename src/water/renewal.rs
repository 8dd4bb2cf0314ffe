//! Renewal by money: when a new membrane is cheaper than the resin that it saves.
//!
//! Money is in any one currency; salt passage is a fraction; times are years. A
//! life costs M (membrane and labour) once and U times its salt passage a year in
//! resin; its mean cost a year, (M + U * integral of SP) / age, is least where the
//! running cost U SP reaches the mean so far (marginal equals average: Jardine &
//! Tsang, Maintenance, Replacement and Reliability, ch. 2, optimal replacement
//! interval for equipment whose operating cost increases with use).

use serde::{Deserialize, Serialize};

use super::lambert::lambert_w0;

/// What a rig's membrane and resin cost, in one currency.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Prices {
    /// A new membrane.
    pub membrane: f64,
    /// Labour to change it.
    pub membrane_labour: f64,
    /// Resin, per litre.
    pub resin_per_litre: f64,
    /// Labour to change the bed.
    pub resin_labour: f64,
}

impl Prices {
    /// A new membrane in place.
    #[must_use]
    pub fn renewal(&self) -> f64 {
        self.membrane + self.membrane_labour
    }

    /// A new bed in place.
    #[must_use]
    pub fn bed(&self, resin_litres: f64) -> f64 {
        self.resin_per_litre * resin_litres + self.resin_labour
    }
}

/// Yearly resin cost per unit of salt passage: bed cost / G x grams fed a year,
/// where G is what a bed takes up, grams.
///
/// # Examples
/// A bed of 60 that takes 300 g, 100 000 L a year of 150 ppm: 3000 a year per unit.
/// ```
/// use tapside::water::renewal::yearly_cost_per_passage;
/// assert_eq!(yearly_cost_per_passage(60.0, 300.0, 100_000.0, 150.0), 3000.0);
/// ```
#[must_use]
pub fn yearly_cost_per_passage(bed_cost: f64, bed_grams: f64, litres_per_year: f64, feed_ppm: f64) -> f64 {
    bed_cost / bed_grams.max(1e-9) * litres_per_year * feed_ppm / 1000.0
}

/// Salt passage at which a membrane that wears as SP0 exp(b t) is best renewed:
/// SP* = SP0 exp(1 + W0((kappa - 1)/e)), kappa = b M/(U SP0). Exact.
///
/// `None` when nothing wears or no resin is bought: it never pays.
///
/// # References
/// Derived from marginal = average; the tests check it against direct
/// minimisation and against the published optimum of Jardine & Tsang's kind.
#[must_use]
pub fn best_salt_passage(new_passage: f64, growth_per_year: f64, renewal: f64, cost_per_passage: f64) -> Option<f64> {
    if new_passage <= 0.0 || growth_per_year <= 0.0 || renewal < 0.0 || cost_per_passage <= 0.0 {
        return None;
    }
    let kappa = growth_per_year * renewal / (cost_per_passage * new_passage);
    lambert_w0((kappa - 1.0) / std::f64::consts::E).map(|w| new_passage * (1.0 + w).exp())
}

/// A life in progress, as the money sees it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Standing {
    /// Years since the membrane was new.
    pub age_years: f64,
    /// Integral of the salt passage over those years.
    pub passed_years: f64,
    /// ln(salt passage) now.
    pub log_passage: f64,
    /// Growth of ln(salt passage) a year from here on.
    pub growth: f64,
}

impl Standing {
    /// Mean cost a year if the membrane is renewed `years` from now, resin use
    /// spread evenly over the year.
    #[must_use]
    pub fn mean_cost(&self, years: f64, renewal: f64, cost_per_passage: f64) -> f64 {
        let ahead = self.log_passage.exp() * growth_integral(self.growth, years);
        (renewal + cost_per_passage * (self.passed_years + ahead)) / (self.age_years + years).max(1e-6)
    }

    /// Running cost a year, `years` from now.
    #[must_use]
    pub fn running_cost(&self, years: f64, cost_per_passage: f64) -> f64 {
        cost_per_passage * (self.log_passage + self.growth * years).exp()
    }

    /// Years from now to the cheapest renewal, in closed form; negative when it
    /// is past. `None` when it never pays.
    ///
    /// With u = b (a + t) - 1 the condition reads u exp(u) = (b (M/U + I) - SP) exp(b a - 1)/SP,
    /// so u is Lambert's W of the right side; for a life that wore as SP0 exp(b t)
    /// throughout this is [`best_salt_passage`].
    #[must_use]
    pub fn years_to_best(&self, renewal: f64, cost_per_passage: f64) -> Option<f64> {
        let (a, b, passage) = (self.age_years, self.growth, self.log_passage.exp());
        if b <= 0.0 || cost_per_passage <= 0.0 {
            return None;
        }
        let x = (b * (renewal / cost_per_passage + self.passed_years) - passage) * (b * a - 1.0).exp() / passage;
        // Below the branch point the mean cost only ever rises: it was cheapest before.
        let u = lambert_w0(x).unwrap_or(-1.0);
        Some((u + 1.0) / b - a)
    }

    /// Mean cost a year of renewing now, one `step` (years) from now, two, and so on;
    /// `share(n)` as in [`Self::years_to_best_directly`], which finds the least of them.
    pub fn mean_costs(
        &self,
        renewal: f64,
        cost_per_passage: f64,
        step: f64,
        share: impl Fn(usize) -> f64,
    ) -> impl Iterator<Item = f64> {
        let growth = (self.growth * step).exp();
        let (mut years, mut passed) = (self.age_years, self.passed_years);
        let mut passage = (self.log_passage + self.growth * step / 2.0).exp();
        (0..).map(move |n| {
            let cost = (renewal + cost_per_passage * passed) / years.max(1e-6);
            passed += step * share(n) * passage;
            passage *= growth;
            years += step;
            cost
        })
    }

    /// Years from now to the cheapest renewal by direct minimisation of the mean
    /// cost over `0..=horizon` in steps of `step`; `share(n)` says how hard the
    /// rig works in the n-th step (1 on average), so that seasons count.
    #[must_use]
    pub fn years_to_best_directly(
        &self,
        renewal: f64,
        cost_per_passage: f64,
        horizon: f64,
        step: f64,
        share: impl Fn(usize) -> f64,
    ) -> f64 {
        let (mut best, mut best_cost) = (0.0, f64::INFINITY);
        let (mut years, mut passed) = (0.0, self.passed_years);
        let mut passage = (self.log_passage + self.growth * step / 2.0).exp();
        let growth = (self.growth * step).exp();
        let mut n = 0;
        while years <= horizon {
            let cost = (renewal + cost_per_passage * passed) / (self.age_years + years).max(1e-6);
            if cost < best_cost {
                (best, best_cost) = (years, cost);
            }
            passed += step * share(n) * passage;
            passage *= growth;
            years += step;
            n += 1;
        }
        best
    }
}

/// Integral of exp(b t) from 0 to t.
fn growth_integral(growth: f64, years: f64) -> f64 {
    if growth.abs() < 1e-9 {
        years
    } else {
        (growth * years).exp_m1() / growth
    }
}
