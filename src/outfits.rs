//! `tapside outfits`: one line an outfit, for the host. No person's name.

use std::io::Write;

use jiff::tz::TimeZone;

use crate::schedule::local_date;
use crate::store::Store;
use crate::store::tallies::{self, OutfitTally};

/// Prints the outfits.
///
/// # Errors
/// When the database cannot be read or nothing can be printed.
pub async fn run(store: &Store, out: &mut impl Write) -> anyhow::Result<()> {
    let mut db = store.read().await?;
    let outfits = tallies::outfits(&mut db).await?;
    if outfits.is_empty() {
        writeln!(out, "No outfit yet: `tapside serve` logs the link for the first owner.")?;
        return Ok(());
    }
    let mut rows = vec![["number", "name", "people", "rigs", "last reading", "zone"].map(str::to_owned)];
    rows.extend(outfits.iter().map(row));
    let widths: Vec<usize> = (0..rows[0].len())
        .map(|column| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0))
        .collect();
    for row in &rows {
        let cells: Vec<String> = row
            .iter()
            .zip(&widths)
            .map(|(cell, width)| format!("{cell:<width$}"))
            .collect();
        writeln!(out, "{}", cells.join("  ").trim_end())?;
    }
    Ok(())
}

fn row(outfit: &OutfitTally) -> [String; 6] {
    let zone = TimeZone::get(&outfit.zone).unwrap_or(TimeZone::UTC);
    let day = outfit.last_reading_at.and_then(|at| local_date(&zone, at));
    [
        outfit.id.to_string(),
        // Nothing that an owner typed may move a terminal's cursor.
        outfit.name.chars().filter(|char| !char.is_control()).collect(),
        outfit.people.to_string(),
        outfit.rigs.to_string(),
        day.map_or_else(|| "none".to_owned(), |day| day.to_string()),
        outfit.zone.clone(),
    ]
}
