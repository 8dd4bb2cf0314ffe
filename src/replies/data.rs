//! Words about what comes in and goes out: how much of what.

use super::Words;

/// How much of each; what there is nothing of is not spoken of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it")]
pub struct Counted {
    pub readings: usize,
    pub services: usize,
    pub rigs: usize,
    pub settings: usize,
}

impl Counted {
    /// In words: `9 readings, 2 rigs`; none if there is nothing.
    pub fn told(self, words: Words) -> Option<String> {
        let told: Vec<String> = [
            (self.readings, "counted-readings"),
            (self.services, "counted-services"),
            (self.rigs, "counted-rigs"),
            (self.settings, "counted-settings"),
        ]
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, key)| words.say(key, [("count", whole(count).into())]))
        .collect();
        (!told.is_empty()).then(|| told.join(", "))
    }
}

/// A number as one that chooses a plural.
pub fn whole(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}
