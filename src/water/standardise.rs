//! Flow and salt passage as they would be at standard conditions (ASTM D4516).

use super::osmosis::{Pressures, net_driving_pressure, osmotic_pressure_kpa};
use super::quantity::{Ppm, Pressure, Share, Temperature};
use super::rejection::{NoBalance, feed_brine_factor};
use super::temperature_factor::TemperatureFactor;

/// Permeate's osmotic pressure over the feed-brine mean, on brackish water.
const PERMEATE_OSMOTIC_SHARE: f64 = 0.05;

/// Conditions at which a membrane works or is compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Water temperature.
    pub temperature: Temperature,
    /// Feed, gauge.
    pub feed_pressure: Pressure,
    /// Loss along the channel.
    pub pressure_drop: Pressure,
    /// Permeate, gauge (a hose or tank held up high).
    pub permeate_pressure: Pressure,
    /// Dissolved solids of the feed.
    pub feed: Ppm,
    /// Recovery.
    pub recovery: Share,
}

impl Conditions {
    /// Feed-brine average concentration, ppm.
    ///
    /// # Errors
    /// [`NoBalance::RecoveryIsWhole`].
    pub fn feed_brine_ppm(&self) -> Result<f64, NoBalance> {
        feed_brine_factor(self.recovery).map(|factor| factor * self.feed.ppm())
    }

    /// Net driving pressure, kPa.
    ///
    /// # Errors
    /// [`NoBalance`] when the recovery is 1 or the brine beyond any tap.
    pub fn net_driving_pressure_kpa(&self) -> Result<f64, NoBalance> {
        let brine = Ppm::new(self.feed_brine_ppm()?).map_err(|_| NoBalance::RecoveryIsWhole)?;
        let osmotic = osmotic_pressure_kpa(brine, self.temperature);
        Ok(net_driving_pressure(&Pressures {
            feed: self.feed_pressure.kpa(),
            concentrate: self.feed_pressure.kpa() - self.pressure_drop.kpa(),
            permeate: self.permeate_pressure.kpa(),
            osmotic_feed_brine: osmotic,
            osmotic_permeate: PERMEATE_OSMOTIC_SHARE * osmotic,
        }))
    }
}

/// Standardised over actual permeate flow, (NDPs TCFs)/(NDPa TCFa): multiply the
/// flow seen with it. Above 1 on a cold morning.
///
/// # Errors
/// [`NoBalance`]; [`NoBalance::FlowsDoNotAdd`] when no pressure is left to drive water.
///
/// # References
/// ASTM D4516. 10 C, 60 psi, 300 ppm, Y 0.40 against 25 C, 100 psi, 500 ppm, Y 0.15:
/// 2.87339 (worked for this project; the inputs are ours).
pub fn flow_factor(actual: &Conditions, standard: &Conditions, tcf: TemperatureFactor) -> Result<f64, NoBalance> {
    let (ndp_a, ndp_s) = (actual.net_driving_pressure_kpa()?, standard.net_driving_pressure_kpa()?);
    if ndp_a <= 0.0 {
        return Err(NoBalance::FlowsDoNotAdd);
    }
    Ok(ndp_s * tcf.at(standard.temperature) / (ndp_a * tcf.at(actual.temperature)))
}

/// Standardised salt passage, a fraction:
/// SPs = SPa (EPFa/EPFs)(STCFs/STCFa)(CFBs/CFBa)(Cfa/Cfs).
///
/// `flow_ratio` is EPFa/EPFs, actual over standard flow of an element; without a
/// flow meter it is NDPa TCFa/(NDPs TCFs), one over [`flow_factor`], which takes
/// the water permeability as unchanged. `salt_factor_ratio` is STCFs/STCFa, made
/// explicit: equal to TCFs/TCFa it cancels the temperature.
///
/// # Errors
/// [`NoBalance`] when a recovery is 1 or the standard feed zero.
///
/// # References
/// ASTM D4516 (this equation from memory and by derivation from SP = B CFB/(Jw Cf)).
pub fn salt_passage(
    actual_passage: f64,
    flow_ratio: f64,
    salt_factor_ratio: f64,
    actual: &Conditions,
    standard: &Conditions,
) -> Result<f64, NoBalance> {
    if standard.feed.ppm() == 0.0 || actual.feed.ppm() == 0.0 {
        return Err(NoBalance::FeedIsZero);
    }
    let brine_ratio = standard.feed_brine_ppm()? / actual.feed_brine_ppm()?;
    let feed_ratio = actual.feed.ppm() / standard.feed.ppm();
    Ok(actual_passage * flow_ratio * salt_factor_ratio * brine_ratio * feed_ratio)
}
