//! Rejection and the mass balance of one membrane stage.
//!
//! Source: Water Treatment Plant Design (AWWA/ASCE), ch. 13, pp. 13.10-13.11;
//! ASTM D4516 for the feed-brine average. Fractions are 0 to 1, concentrations
//! mg/L (a meter's ppm do as well: the factor cancels when both readings share it).

use std::fmt;

use serde::{Deserialize, Serialize};

use super::quantity::{Flow, Ppm, Share};

/// Why two readings give no rejection, or two flows no recovery.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum NoBalance {
    /// The feed shows no dissolved solids, so nothing can be rejected.
    FeedIsZero,
    /// The permeate is above the feed: the two are likely swapped.
    PermeateAboveFeed,
    /// No water is fed, or more leaves than enters.
    FlowsDoNotAdd,
    /// A recovery of 1 leaves no concentrate to carry the salt.
    RecoveryIsWhole,
}

impl fmt::Display for NoBalance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::FeedIsZero => "the feed is 0 ppm: a tap always shows some dissolved solids",
            Self::PermeateAboveFeed => "the permeate is above the feed: the readings may be swapped",
            Self::FlowsDoNotAdd => "the permeate flow must not exceed the feed flow, and the feed must flow",
            Self::RecoveryIsWhole => "a recovery of 1 leaves no concentrate",
        })
    }
}

impl std::error::Error for NoBalance {}

/// Salt passage Cp/Cf, a fraction: the share of the dissolved solids that the
/// membrane lets through.
///
/// # Errors
/// [`NoBalance`] when the feed is zero or the permeate above it.
///
/// # References
/// Water Treatment Plant Design, ch. 13, p. 13.10.
pub fn salt_passage(feed: Ppm, permeate: Ppm) -> Result<f64, NoBalance> {
    if feed.ppm() == 0.0 {
        return Err(NoBalance::FeedIsZero);
    }
    if permeate > feed {
        return Err(NoBalance::PermeateAboveFeed);
    }
    Ok(permeate.ppm() / feed.ppm())
}

/// Rejection (Cf - Cp)/Cf, a fraction 0 to 1.
///
/// # Errors
/// [`NoBalance`] when the feed is zero or the permeate above it.
///
/// # References
/// Water Treatment Plant Design, ch. 13, p. 13.10.
///
/// # Examples
/// ```
/// use tapside::water::{quantity::Ppm, rejection::rejection};
/// let r = rejection(Ppm::new(180.0).unwrap(), Ppm::new(12.0).unwrap()).unwrap();
/// assert!((r - 0.9333).abs() < 1e-4);
/// ```
pub fn rejection(feed: Ppm, permeate: Ppm) -> Result<f64, NoBalance> {
    salt_passage(feed, permeate).map(|passage| 1.0 - passage)
}

/// Recovery Qp/Qf, a fraction: the share of the feed water that becomes permeate.
///
/// # Errors
/// [`NoBalance::FlowsDoNotAdd`] when the feed stands still or the permeate exceeds it.
///
/// # References
/// Water Treatment Plant Design, ch. 13, p. 13.10. 30 of 40 US gal/min is 0.75.
pub fn recovery(permeate: Flow, feed: Flow) -> Result<f64, NoBalance> {
    if feed.litres_per_minute() == 0.0 || permeate > feed {
        return Err(NoBalance::FlowsDoNotAdd);
    }
    Ok(permeate.litres_per_minute() / feed.litres_per_minute())
}

/// Log-mean of the concentration along the feed channel over the feed's,
/// Cfb/Cf = ln(1/(1 - Y))/Y; assumes that no salt passes. 1 at Y = 0.
///
/// # Errors
/// [`NoBalance::RecoveryIsWhole`] at a recovery of 1.
///
/// # References
/// ASTM D4516. Y = 0.15 gives 1.083459.
pub fn feed_brine_factor(recovery: Share) -> Result<f64, NoBalance> {
    let y = recovery.fraction();
    if y >= 1.0 {
        return Err(NoBalance::RecoveryIsWhole);
    }
    if y == 0.0 {
        return Ok(1.0);
    }
    Ok(-(-y).ln_1p() / y)
}
