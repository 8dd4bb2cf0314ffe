//! Whether a reading can be: against physics and against the rig's own history.

use super::meaning::{About, Reading, Rig};

/// Below this feed the pair is rather a date or a count than water from a tap.
pub const LEAST_FEED_PPM: f64 = 15.0;
/// No town or bore water that crews can treat has more.
const MOST_FEED_PPM: f64 = 3_000.0;
/// A membrane that passes more than half is a slip of the thumb or a fault that wants a second look.
const MOST_PASSAGE: f64 = 0.5;
/// At 1000 ppm and above, tap pressure does not give a rejection of more than 99 %: one digit too many.
const BEST_PASSAGE_OF_HARD_WATER: f64 = 0.01;
/// Taps differ from site to site; a slip of a digit is a factor of ten.
const FEED_FACTOR: f64 = 3.0;
const PERMEATE_FACTOR: f64 = 8.0;

/// What to ask of a complete pair, if anything. Thresholds are common practice without a source.
pub fn doubt(reading: &Reading, rig: Option<&Rig>) -> Option<About> {
    let feed = reading.feed?.ppm;
    if rig.is_some_and(|rig| rig.di_only) && reading.permeate.is_none() {
        let product = reading.product?.ppm;
        return (product > feed)
            .then_some(About::Swapped)
            .or_else(|| doubt_feed(feed, rig));
    }
    let permeate = reading.permeate?.ppm;
    if permeate > feed {
        return Some(About::Swapped);
    }
    if permeate == 0.0 || permeate > MOST_PASSAGE * feed {
        return Some(About::Implausible);
    }
    if feed >= 1_000.0 && permeate < BEST_PASSAGE_OF_HARD_WATER * feed {
        return Some(About::Implausible);
    }
    if let Some((low, high)) = rig.and_then(|rig| rig.usual_permeate_ppm) {
        let high = f64::max(high, 5.0);
        if permeate > PERMEATE_FACTOR * high || permeate * PERMEATE_FACTOR < low {
            return Some(About::Implausible);
        }
    }
    if reading.product.is_some_and(|product| product.ppm > feed) {
        return Some(About::Implausible);
    }
    doubt_feed(feed, rig)
}

fn doubt_feed(feed: f64, rig: Option<&Rig>) -> Option<About> {
    let unusual = rig
        .and_then(|rig| rig.usual_feed_ppm)
        .is_some_and(|(low, high)| feed > FEED_FACTOR * high || feed * FEED_FACTOR < low);
    (feed > MOST_FEED_PPM || feed <= 0.0 || unusual).then_some(About::Implausible)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::message::Solids;

    fn pair(feed: f64, permeate: f64) -> Reading {
        let solids = |ppm| Some(Solids { ppm, raw_us: None });
        Reading {
            feed: solids(feed),
            permeate: solids(permeate),
            ..Reading::default()
        }
    }

    #[test]
    fn what_cannot_be_is_asked() {
        let table = [
            (180.0, 12.0, None),
            (1480.0, 131.0, None),
            (20.0, 200.0, Some(About::Swapped)),
            (230.0, 230.0, Some(About::Implausible)),
            (1710.0, 9.0, Some(About::Implausible)),
            (18000.0, 120.0, Some(About::Implausible)),
        ];
        for (feed, permeate, expected) in table {
            assert_eq!(doubt(&pair(feed, permeate), None), expected, "{feed} {permeate}");
        }
    }

    #[test]
    fn a_leak_is_recorded_and_a_digit_too_many_is_asked() {
        let rig = Rig {
            usual_feed_ppm: Some((150.0, 190.0)),
            usual_permeate_ppm: Some((7.0, 10.0)),
            ..Rig::default()
        };
        assert_eq!(doubt(&pair(165.0, 31.0), Some(&rig)), None);
        assert_eq!(doubt(&pair(1800.0, 90.0), Some(&rig)), Some(About::Implausible));
        let once = Rig {
            usual_feed_ppm: Some((200.0, 200.0)),
            ..Rig::default()
        };
        for (feed, permeate) in [(1180.0, 120.0), (1200.0, 45.0), (1400.0, 14.0), (40.0, 2.0)] {
            assert_eq!(
                doubt(&pair(feed, permeate), Some(&once)),
                Some(About::Implausible),
                "{feed}"
            );
        }
        assert_eq!(doubt(&pair(450.0, 30.0), Some(&once)), None);
    }
}
