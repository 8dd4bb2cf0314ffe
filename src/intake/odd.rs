//! Rows that can be read and look like slips: they come in, and are pointed out.

use std::collections::HashMap;

use super::{Bad, ReadingRow, Row, Why};

/// So many rows of a rig tell what its tap is like.
const ENOUGH: usize = 5;
/// A tap this many times above or below its usual is a slipped digit or point
/// (common practice, no source).
const FAR: f64 = 3.0;

/// The readings among rows, with their lines, that look like slips.
pub fn odd(rows: &[(u64, Row)]) -> Vec<Bad> {
    let readings = || {
        rows.iter().filter_map(|(line, row)| match row {
            Row::Reading(row) => Some((*line, row)),
            Row::Service(_) | Row::Rig(_) => None,
        })
    };
    let mut taps: HashMap<String, Vec<f64>> = HashMap::new();
    for (_, row) in readings() {
        taps.entry(row.rig.to_lowercase()).or_default().push(row.feed_ppm);
    }
    let usual: HashMap<String, f64> = taps
        .into_iter()
        .filter(|(_, taps)| taps.len() >= ENOUGH)
        .map(|(rig, taps)| (rig, median(taps)))
        .collect();
    readings()
        .filter_map(|(line, row)| {
            let why = why(row, usual.get(&row.rig.to_lowercase()).copied())?;
            let cell = row.permeate_ppm.map_or_else(
                || row.feed_ppm.to_string(),
                |permeate| format!("{} / {permeate}", row.feed_ppm),
            );
            Some(Bad { line, cell, why })
        })
        .collect()
}

fn why(row: &ReadingRow, usual: Option<f64>) -> Option<Why> {
    if row.permeate_ppm.is_some_and(|permeate| permeate >= row.feed_ppm) {
        return Some(Why::Risen);
    }
    let far = usual.is_some_and(|usual| row.feed_ppm > FAR * usual || row.feed_ppm * FAR < usual);
    far.then_some(Why::FarTap)
}

fn median(mut taps: Vec<f64>) -> f64 {
    taps.sort_by(f64::total_cmp);
    taps[taps.len() / 2]
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test says by panicking what is wrong")]
mod tests {
    use super::super::read;
    use super::*;

    #[test]
    fn a_swapped_pair_and_a_slipped_point_are_pointed_out() {
        let sheet = "rig,date,tap,ro\n\
            heron,2026-02-02,180,12\nheron,2026-02-03,182,12\nheron,2026-02-04,178,11\n\
            heron,2026-02-05,12,180\nheron,2026-02-06,1.180,12\nheron,2026-02-07,1800,12\nheron,2026-02-08,181,12\n\
            otter,2026-02-08,20,1\n";
        let found: Vec<_> = read(sheet, None)
            .unwrap()
            .odd
            .iter()
            .map(|odd| (odd.line, odd.why))
            .collect();
        assert_eq!(found, [(5, Why::Risen), (6, Why::Risen), (7, Why::FarTap)]);
    }
}
