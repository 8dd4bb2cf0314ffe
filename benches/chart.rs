//! Speed of the pictures: facts to SVG, and SVG to PNG, which is nearly all of it.
//! At the end it prints the most memory that the process held, on Linux.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use jiff::ToSpan;
use jiff::civil::{Date, date};
use tapside::chart::png;
use tapside::chart::rig_history::{Dot, Level, Record};
use tapside::replies::Words;
use tapside::replies::membrane::DueLine;
use tapside::replies::pictures::fleet::{self, Rig};
use tapside::replies::pictures::resin::Left;
use tapside::replies::pictures::rig_history::{self, Facts};
use tapside::water::condition::Condition;
use tapside::water::settings::Limits;
use tapside::water::verdict::Deed;

const TODAY: Date = date(2026, 11, 25);

/// Two years of two readings a week, and a forecast.
fn two_years() -> Facts<'static> {
    let day = |nth: i32| TODAY.saturating_sub((728 - i64::from(nth)).days());
    let mid = |nth: i32| 0.95 - 0.000_12 * f64::from(nth);
    let level = |nth: i32| Level {
        day: day(nth),
        low: mid(nth) - 0.01,
        mid: mid(nth),
        high: mid(nth) + 0.01,
    };
    let every = |step: i32, from: i32, to: i32| (from..to).filter(move |nth| nth % step == 0);
    Facts {
        rig: "Otter",
        condition: Condition::Fading,
        level: Some((0.85, 0.86, 0.87)),
        readings_used: 208,
        corrected: true,
        due: DueLine::Within {
            early: day(780),
            likely: day(830),
            late: Some(day(900)),
        },
        advice: None,
        permeate_ppm: None,
        record: Record {
            today: TODAY,
            limits: Limits::default(),
            readings: every(3, 0, 728)
                .map(|nth| Dot {
                    day: day(nth),
                    rejection: mid(nth) + 0.008 * f64::from(nth * 7919 % 13 - 6) / 6.0,
                    set_aside: nth % 90 == 0,
                })
                .collect(),
            trend: vec![every(3, 0, 729).map(level).collect()],
            forecast: every(4, 728, 920).map(level).collect(),
            due: None,
            faults: Vec::new(),
            resin_changes: every(30, 0, 728).map(day).collect(),
            membrane_changes: vec![day(0)],
        },
    }
}

fn sixty_rigs() -> Vec<Rig> {
    let rig = |nth: usize| Rig {
        name: format!("Rig {nth}"),
        condition: Some(Condition::Fading),
        level: Some(0.88),
        before_leak: None,
        product_ppm: None,
        resin: Left::Days([6.0, 9.0, 13.0]),
        bed_left: Some(0.4),
        deed: (nth < 3).then_some(Deed::ChangeResin { product_ppm: 12.0 }),
        trend: vec![
            (0..180)
                .map(|day| (TODAY.saturating_sub((180 - day).days()), 0.9))
                .collect(),
        ],
        beds: Vec::new(),
    };
    (0..60).map(rig).collect()
}

fn chart(c: &mut Criterion) {
    let words = Words::of(Some("en"));
    let (facts, rigs) = (two_years(), sixty_rigs());
    let since = TODAY.saturating_sub(182.days());
    let history = || rig_history::sheet(words, facts.clone());
    let fleet = || fleet::sheets(words, rigs.clone(), Limits::default(), since, TODAY);
    c.bench_function("svg of two years of one rig", |b| b.iter(|| black_box(history()).svg()));
    c.bench_function("svg of a fleet's four sheets", |b| {
        b.iter(|| black_box(fleet()).iter().map(|sheet| sheet.svg().len()).sum::<usize>());
    });
    let sheets = [
        ("png of two years of one rig", history()),
        ("png of a fleet's first sheet", fleet().swap_remove(0)),
    ];
    for (name, sheet) in &sheets {
        c.bench_function(name, |b| b.iter(|| png(black_box(sheet)).unwrap().len()));
        println!("{name}: {} bytes", png(sheet).unwrap().len());
    }
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    for line in status.lines().filter(|line| line.starts_with("VmHWM")) {
        println!("{line}");
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(30);
    targets = chart
}
criterion_main!(benches);
