//! What each policy's timing would have cost over one life, against the best.

use tapside::water::renewal::yearly_cost_per_passage;

use super::rig::Rig;
use super::tally::Tally;

const WORKDAY_SHARE: f64 = 5.0 / 7.0;

/// Scores every life that ended in sight, from its beginning, seen or not. Rules and clairvoyant decide
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
    let mut lives = Vec::new();
    for (i, membrane) in rig.membranes.iter().enumerate() {
        let Some(end) = rig.membranes.get(i + 1).map(|next| next.from as f64) else {
            continue;
        };
        let from = membrane.from as f64 - 365.25 * membrane.age0;
        let mut passed = 0.0;
        let mut means = Vec::new();
        for week in 1..520 {
            let day = from + f64::from(week) * 7.0;
            let use_share = site.litres(day) / (site.litres * WORKDAY_SHARE);
            passed +=
                7.0 / 365.25 * use_share * membrane.passage(day, site.celsius(day), site.usual_bar, site.feed, site);
            means.push((prices.renewal() + cost * passed) / (f64::from(week) * 7.0 / 365.25));
        }
        // What was lost before anybody read it is nobody's choice.
        let seen_from = ((-from / 7.0).ceil().max(0.0) as usize).min(means.len() - 1);
        let weeks_at = |day: f64| (((day - from) / 7.0).round() as usize).clamp(1, means.len());
        let rule_weeks = weeks_at(stops.get(i).and_then(|stop| stop[0]).unwrap_or(end));
        lives.push((means.clone(), seen_from, rule_weeks));
        let best = means[seen_from..].iter().copied().fold(f64::INFINITY, f64::min);
        let at = |day: f64| means[(((day - from) / 7.0).round() as usize).clamp(1, means.len()) - 1];
        let stop = stops.get(i).copied().unwrap_or_default();
        let first = usize::from(i > 0);
        for (policy, stop) in stop.iter().enumerate() {
            tally.losses[policy].note(at(stop.unwrap_or(end)) / best - 1.0);
        }
        // The rule cannot keep a membrane that the invented owner threw out.
        let weeks = ((end - from) / 7.0).round().max(1.0) as usize;
        let in_life = &means[seen_from.min(weeks - 1)..weeks.min(means.len())];
        let best_in_life = in_life.iter().copied().fold(f64::INFINITY, f64::min);
        let rule = stop[0].unwrap_or(end);
        tally.first_later[first].note(at(rule) / best - 1.0);
        tally.losses[4].note(at(rule) / best_in_life - 1.0);
        tally.losses[3].note(at(from + 730.0) / best - 1.0);
    }
    if !lives.is_empty() {
        tally.long_run.note(long_run_loss(&lives));
    }
}

/// Loss of a rig's lives together: all money over all years, against the clairvoyant
/// who minimises that ratio and not each life's own mean (Dinkelbach, Management
/// Science 13 (1967) 492-498). Each life: mean cost by weeks, first week that can be
/// chosen, weeks by the rule.
fn long_run_loss(lives: &[(Vec<f64>, usize, usize)]) -> f64 {
    let total = |chosen: &[usize]| {
        let (mut money, mut years) = (0.0, 0.0);
        for ((means, ..), &weeks) in lives.iter().zip(chosen) {
            money += means[weeks - 1] * weeks as f64;
            years += weeks as f64;
        }
        money / years
    };
    let rule = total(&lives.iter().map(|life| life.2).collect::<Vec<_>>());
    let mut best = rule;
    for _ in 0..10 {
        let chosen: Vec<usize> = lives
            .iter()
            .map(|(means, from, _)| {
                let net = |weeks: &usize| (means[weeks - 1] - best) * *weeks as f64;
                ((*from).max(1)..=means.len())
                    .min_by(|a, b| net(a).total_cmp(&net(b)))
                    .unwrap_or(1)
            })
            .collect();
        best = total(&chosen);
    }
    rule / best - 1.0
}
