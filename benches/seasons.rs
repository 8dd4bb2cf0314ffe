//! A seasons simulator: invented rigs whose truth does not follow the filter's
//! assumptions, to see how far the numbers can be trusted. Prints a table.
//!
//! `cargo bench --bench seasons` or `cargo bench --bench seasons -- RIGS SEED`; the
//! word `second` invents another truth, `months` lets the owner tell the busy months,
//! `ages` the first membrane's age, and `each` prints a line for each rig, so that two
//! states of the code can be compared in pairs. All truth here is invented.
#![allow(missing_docs, clippy::print_stdout)]

#[path = "seasons/money.rs"]
mod money;
#[path = "seasons/rig.rs"]
mod rig;
#[path = "seasons/score.rs"]
mod score;
#[path = "seasons/tally.rs"]
mod tally;

use tally::Tally;

fn main() {
    let numbers: Vec<u64> = std::env::args().filter_map(|arg| arg.parse().ok()).collect();
    let rigs = numbers.first().copied().unwrap_or(400);
    let seed = numbers.get(1).copied().unwrap_or(1);
    let told = |word: &str| std::env::args().any(|arg| arg == word);
    let world = rig::World {
        second: told("second"),
        tells_months: told("months"),
        tells_age: told("ages"),
    };
    let mut columns: Vec<(&str, Tally)> = Vec::new();
    let mut all = Tally::default();
    for kind in rig::Kind::ALL {
        let mut tally = Tally::default();
        let number = |i: u64| (seed + 77 * kind as u64) * 1_000_003 + i * 7919;
        let fleet: Vec<rig::Rig> = (0..rigs / 4).map(|i| rig::invent(kind, number(i), world)).collect();
        for (nth, own) in score::follow(&fleet).iter().enumerate() {
            if told("each") {
                println!("{},{nth},{}", kind.name(), own.line());
            }
            tally.add(own);
        }
        all.add(&tally);
        columns.push((kind.name(), tally));
    }
    columns.push(("all", all));
    if told("each") {
        return;
    }
    println!("{rigs} invented rigs over 4 years, seed {seed}\n");
    let names: Vec<String> = columns.iter().map(|(name, _)| format!("{name:>8}")).collect();
    println!("| {:60} | {} | {:>9} |", "", names.join(" | "), "target");
    println!(
        "|{}|{}{}|",
        "-".repeat(62),
        "----------|".repeat(columns.len()),
        "-".repeat(11)
    );
    let tables: Vec<Vec<tally::Row>> = columns.iter().map(|(_, tally)| tally.rows()).collect();
    for (i, row) in tables[0].iter().enumerate() {
        let cells: Vec<String> = tables.iter().map(|rows| format!("{:>8}", rows[i].value)).collect();
        println!("| {:60} | {} | {:>9} |", row.what, cells.join(" | "), row.target);
    }
}
