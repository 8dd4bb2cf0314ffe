//! How water flow follows temperature: several published factors, one convention.
//!
//! Every factor here MULTIPLIES the flow at 25 C: below 1 when cold, above 1 when
//! warm. The opposite convention is in print as well; [`TemperatureFactor::divisor`] gives it.

use serde::{Deserialize, Serialize};

use super::quantity::Temperature;

/// A temperature correction of the water flow; the curve is data of the membrane.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum TemperatureFactor {
    /// exp(U (1/298 - 1/(273 + T))), with U in kelvin for cold and warm water.
    Exponential {
        /// U below 25 C, kelvin.
        cold: f64,
        /// U from 25 C on, kelvin.
        warm: f64,
    },
    /// base^(T - 25).
    Power {
        /// Growth per C, such as 1.03.
        base: f64,
    },
}

impl TemperatureFactor {
    /// The handbook curve of polyamide: U = 3020 below 25 C and 2640 above, read in
    /// a technical note quoting ASTM D4516, section 2.4. 15 C gives 0.70336.
    pub const HANDBOOK: Self = Self::Exponential {
        cold: 3020.0,
        warm: 2640.0,
    };
    /// ASTM D4516's default when the supplier gives none: 1.03 per C. 20 C gives 0.86261.
    pub const ASTM_DEFAULT: Self = Self::Power { base: 1.03 };

    /// The factor at a temperature; 1 at 25 C.
    #[must_use]
    pub fn at(self, temperature: Temperature) -> f64 {
        let t = temperature.celsius();
        match self {
            Self::Exponential { cold, warm } => {
                let u = if t < 25.0 { cold } else { warm };
                (u * (1.0 / 298.0 - 1.0 / (273.0 + t))).exp()
            }
            Self::Power { base } => base.powf(t - 25.0),
        }
    }

    /// The same in the other convention: DIVIDE the rated flow by it. The handbook
    /// curve gives 1.422 at 15 C, so 1800 US gal/day become 1266.
    #[must_use]
    pub fn divisor(self, temperature: Temperature) -> f64 {
        1.0 / self.at(temperature)
    }
}

/// Dynamic viscosity of water at 0.1 MPa, mPa s. Viscosity alone is a lower bound
/// of what cold takes from the flow: mu(15)/mu(25) = 1.278 against 1.422 above.
///
/// # References
/// IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water
/// at 0.1 MPa, eq. 7 (coefficients from memory; the tests hold them to IAPWS values).
#[must_use]
pub fn water_viscosity_mpa_s(temperature: Temperature) -> f64 {
    const TERMS: [(f64, f64); 4] = [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.459_03, -40.0)];
    let relative = (temperature.celsius() + 273.15) / 300.0;
    TERMS.iter().map(|(a, b)| a * relative.powf(*b)).sum::<f64>() / 1000.0
}
