//! Cautions: which goes with which answer, and its words. Usual care only;
//! local codes and licensed practice come first.

use crate::digest::notes::Topic;
use crate::domain::ServiceKind as What;
use crate::domain::meaning::Danger;
use crate::water::verdict::Kind;

use super::Words;

/// What is said first, and at once, about a danger.
pub fn danger(words: Words, danger: Danger) -> String {
    words.plain(match danger {
        Danger::Chemical => "danger-chemical",
        Danger::Electric => "danger-electric",
        Danger::Frozen => "danger-frozen",
        Danger::Burst => "danger-burst",
        Danger::Hurt => "danger-hurt",
        Danger::Drink => "danger-drink",
    })
}

/// One kind of caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// From safe footing, not from a ladder or an edge.
    Height,
    /// Relieve the pressure before opening a housing.
    Pressure,
    /// What a new membrane may come in.
    Chemicals,
    /// Preservative that is put into a membrane.
    Preservative,
    /// Waste water and backflow are matters of local code.
    Plumbing,
    /// Frost ruins membranes and housings.
    Frost,
    /// Purified water is not for drinking.
    NotDrinking,
}

/// What an answer is about, as far as a caution may go with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Occasion {
    /// Somebody came into an outfit.
    Joined,
    /// A rig came onto the fleet, or its flush was set.
    RigSetUp,
    /// Such a deed was asked for: most open a housing.
    Advised(Kind),
    /// Something was done to a rig.
    Done(What),
    /// The water was read at this temperature, degrees Celsius.
    WaterAt(f64),
    /// Rigs are to stand for a while, in the months with frost or not.
    Stands {
        /// In the months with frost.
        cold: bool,
    },
    /// Something was said unasked.
    Noted(Topic),
}

/// Water this cold comes with frost at night. Common practice, no source.
const FROST_NEAR_C: f64 = 4.0;

/// After this long a caution may be said again, seconds: about once a season.
pub const AGAIN_AFTER: i64 = 300 * 86_400;

/// The cautions that go with an answer, unless this person was told lately.
pub fn cautions(occasion: Occasion) -> &'static [Caution] {
    match occasion {
        Occasion::Joined => &[Caution::Height, Caution::NotDrinking],
        Occasion::RigSetUp => &[Caution::Plumbing],
        Occasion::Advised(
            Kind::ChangeResin | Kind::RepackResin | Kind::FindLeak | Kind::NewMembrane | Kind::Prefilters,
        ) => &[Caution::Pressure],
        Occasion::Advised(_) => &[],
        Occasion::Done(What::Membrane) => &[Caution::Pressure, Caution::Chemicals],
        Occasion::Done(What::Prefilter | What::ORing) => &[Caution::Pressure],
        Occasion::Done(
            What::Resin | What::Repack | What::Flush | What::SameMembrane | What::Preserved | What::Meter,
        ) => &[],
        Occasion::WaterAt(temperature_c) if temperature_c <= FROST_NEAR_C => &[Caution::Frost],
        Occasion::WaterAt(_) => &[],
        Occasion::Stands { cold: true } => &[Caution::Frost, Caution::Preservative],
        Occasion::Stands { cold: false } => &[Caution::Preservative],
        Occasion::Noted(Topic::Resin | Topic::Prefilters) => &[Caution::Pressure],
        Occasion::Noted(Topic::Idle30) => &[Caution::Preservative, Caution::Pressure],
        Occasion::Noted(Topic::Frost) => &[Caution::Frost],
        Occasion::Noted(Topic::Membrane | Topic::Idle14 | Topic::Idle5 | Topic::AskMembrane) => &[],
    }
}

impl Caution {
    /// Its lasting name in the store.
    pub fn key(self) -> &'static str {
        match self {
            Self::Height => "height",
            Self::Pressure => "pressure",
            Self::Chemicals => "chemicals",
            Self::Preservative => "preservative",
            Self::Plumbing => "plumbing",
            Self::Frost => "frost",
            Self::NotDrinking => "not drinking",
        }
    }

    /// Its words.
    pub fn text(self, words: Words) -> String {
        words.plain(match self {
            Self::Height => "caution-height",
            Self::Pressure => "caution-pressure",
            Self::Chemicals => "caution-chemicals",
            Self::Preservative => "caution-preservative",
            Self::Plumbing => "caution-plumbing",
            Self::Frost => "caution-frost",
            Self::NotDrinking => "caution-not-drinking",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whoever_is_sent_into_a_housing_is_told_of_the_pressure() {
        for occasion in [
            Occasion::Advised(Kind::FindLeak),
            Occasion::Advised(Kind::NewMembrane),
            Occasion::Done(What::Membrane),
            Occasion::Done(What::Prefilter),
            Occasion::Done(What::ORing),
            Occasion::Noted(Topic::Resin),
            Occasion::Noted(Topic::Prefilters),
            Occasion::Noted(Topic::Idle30),
        ] {
            assert!(cautions(occasion).contains(&Caution::Pressure), "{occasion:?}");
        }
        assert!(cautions(Occasion::Advised(Kind::Flush)).is_empty());
        assert!(cautions(Occasion::Done(What::Flush)).is_empty());
    }

    #[test]
    fn frost_is_told_of_with_cold_water_alone() {
        assert_eq!(cautions(Occasion::WaterAt(3.0)), [Caution::Frost]);
        assert!(cautions(Occasion::WaterAt(12.0)).is_empty());
        assert_eq!(cautions(Occasion::Noted(Topic::Frost)), [Caution::Frost]);
    }
}
