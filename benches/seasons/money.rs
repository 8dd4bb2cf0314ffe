//! What each policy's timing would have cost over one life, against the best.

use tapside::water::renewal::yearly_cost_per_passage;

use super::rig::Rig;
use super::tally::Tally;

const WORKDAY_SHARE: f64 = 5.0 / 7.0;

/// Scores every life that began in sight and ended in it. Rules and clairvoyant decide
/// week by week and pay the same bills: salt passage at the day's temperature, the
/// season's use. The clairvoyant foresees them; the rules see readings. `stops`
/// tells, for each membrane, the day on which each policy first said "now".
pub fn score(rig: &Rig, stops: &[[Option<f64>; 3]], tally: &mut Tally) {
    let (Some(prices), Some(resin_litres)) = (rig.settings.prices, rig.settings.resin_litres) else {
        return;
    };
    let site = &rig.site;
    let litres = site.litres * 365.25 * WORKDAY_SHARE;
    let cost = yearly_cost_per_passage(prices.bed(resin_litres), rig.bed_grams, litres, site.feed);
    for (i, membrane) in rig.membranes.iter().enumerate() {
        let Some(end) = rig.membranes.get(i + 1).map(|next| next.from as f64) else {
            continue;
        };
        if i == 0 && !membrane.logged {
            continue;
        }
        let from = membrane.from as f64;
        let mut passed = 0.0;
        let mut means = Vec::new();
        for week in 1..520 {
            let day = from + f64::from(week) * 7.0;
            let use_share = site.litres(day) / (site.litres * WORKDAY_SHARE);
            passed +=
                7.0 / 365.25 * use_share * membrane.passage(day, site.celsius(day), site.usual_bar, site.feed, site);
            means.push((prices.renewal() + cost * passed) / (f64::from(week) * 7.0 / 365.25));
        }
        let best = means.iter().copied().fold(f64::INFINITY, f64::min);
        let at = |day: f64| means[(((day - from) / 7.0).round() as usize).clamp(1, means.len()) - 1];
        let stop = stops.get(i).copied().unwrap_or_default();
        for (policy, stop) in stop.iter().enumerate() {
            tally.losses[policy].note(at(stop.unwrap_or(end)) / best - 1.0);
        }
        // The rule cannot keep a membrane that the invented owner threw out.
        let weeks = ((end - from) / 7.0).round().max(1.0) as usize;
        let best_in_life = means.iter().copied().take(weeks).fold(f64::INFINITY, f64::min);
        let rule = stop[0].unwrap_or(end);
        tally.losses[4].note(at(rule) / best_in_life - 1.0);
        tally.losses[3].note(at(from + 730.0) / best - 1.0);
    }
}
