//! How much resin a rig wants over the days ahead.

use crate::water::rig::History;
use crate::water::settings::Settings;

/// Working days that a full bed lasts at present. `None` where size, litres or feed are
/// not known.
#[must_use]
pub fn bed_workdays(history: &History, settings: &Settings) -> Option<f64> {
    history.bed_workdays(settings)
}

/// Beds to buy for `ahead` working days, when the present one has `left` and a
/// full one lasts `bed_workdays`: none while the present one holds out, then one
/// for each that runs empty. Never more than one a working day.
///
/// # Examples
/// Three days left of ten ahead and beds of four days: empty after 3 and 7 days.
/// ```
/// use tapside::digest::resin_need::beds_needed;
/// assert_eq!(beds_needed(10.0, 3.0, Some(4.0)), 2);
/// assert_eq!(beds_needed(10.0, 12.0, Some(4.0)), 0);
/// ```
#[must_use]
pub fn beds_needed(ahead: f64, left: f64, bed_workdays: Option<f64>) -> u32 {
    if left >= ahead {
        return 0;
    }
    let more = bed_workdays.map_or(0.0, |days| ((ahead - left.max(0.0)) / days.max(1.0)).ceil() - 1.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let more = more.clamp(0.0, ahead.max(0.0)) as u32;
    1 + more
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::water::settings::Settings;

    #[test]
    fn beds_are_counted_by_hand() {
        for (ahead, left, bed, beds) in [
            (10.0, 0.0, None, 1),
            (10.0, 9.9, Some(30.0), 1),
            (10.0, 10.0, Some(30.0), 0),
            // Empty now, after 5, and not at 10: the third is the next fortnight's.
            (10.0, 0.0, Some(5.0), 2),
            (10.0, 0.5, Some(1.0), 10),
            (10.0, 0.0, Some(0.0), 10),
        ] {
            assert_eq!(beds_needed(ahead, left, bed), beds, "{ahead} {left} {bed:?}");
        }
    }

    #[test]
    fn nothing_is_known_of_a_bed_without_size() {
        assert_eq!(bed_workdays(&History::default(), &Settings::default()), None);
    }
}
