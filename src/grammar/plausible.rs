//! Whether a reading can be: against physics and against what its rig has shown. All bounds are common practice
//! without a source.

use crate::domain::meaning::{About, Reading, Rig};

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
/// Resin takes solids out; twice the RO outlet behind it is a slip.
const PRODUCT_FACTOR: f64 = 2.0;
const TEMPERATURES_C: std::ops::RangeInclusive<f64> = -2.0..=50.0;
const MOST_KPA: f64 = 2_000.0;

/// What to ask of a complete pair, if anything.
pub fn doubt(reading: &Reading, rig: Option<&Rig>) -> Option<About> {
    let feed = reading.feed?.ppm;
    if rig.is_some_and(|rig| rig.di_only) && reading.permeate.is_none() {
        let swapped = (reading.product?.ppm > feed).then_some(About::Swapped);
        return swapped.or_else(|| doubt_feed(feed, rig));
    }
    let permeate = reading.permeate?.ppm;
    if permeate > feed {
        return Some(About::Swapped);
    }
    if permeate == 0.0 && feed > 0.0 {
        return Some(About::WhichIsWhich);
    }
    let clean = feed >= 1_000.0 && permeate < BEST_PASSAGE_OF_HARD_WATER * feed;
    if permeate > MOST_PASSAGE * feed || feed == permeate || clean {
        return Some(About::Implausible);
    }
    if let Some((low, high)) = rig.and_then(|rig| rig.usual_permeate_ppm) {
        let high = f64::max(high, 5.0);
        if permeate > PERMEATE_FACTOR * high || permeate * PERMEATE_FACTOR < low {
            return Some(About::Implausible);
        }
    }
    if reading
        .product
        .is_some_and(|product| product.ppm > PRODUCT_FACTOR * permeate && product.ppm > feed / 10.0)
    {
        return Some(About::Implausible);
    }
    if reading
        .temperature_c
        .is_some_and(|celsius| !TEMPERATURES_C.contains(&celsius))
    {
        return Some(About::Implausible);
    }
    if reading.pressure_kpa.is_some_and(|kpa| kpa > MOST_KPA) {
        return Some(About::Implausible);
    }
    doubt_feed(feed, rig)
}

fn doubt_feed(feed: f64, rig: Option<&Rig>) -> Option<About> {
    let unusual = rig
        .and_then(|rig| rig.usual_feed_ppm)
        .is_some_and(|(low, high)| feed > FEED_FACTOR * high || feed * FEED_FACTOR < low);
    let usual = rig.and_then(|rig| rig.usual_feed_ppm).is_some();
    let small = feed < LEAST_FEED_PPM && !usual;
    (feed > MOST_FEED_PPM || small || feed <= 0.0 || unusual).then_some(About::Implausible)
}

/// How far a number is from being a slip for another: the same digits are nearest.
pub fn slip_distance(old: f64, said: f64) -> f64 {
    let digits = |value: f64| {
        let mut digits = format!("{value}").into_bytes();
        digits.sort_unstable();
        digits
    };
    if digits(old) == digits(said) {
        -1.0
    } else {
        (old.max(0.5) / said.max(0.5)).ln().abs()
    }
}
