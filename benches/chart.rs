//! Speed of the pictures: facts to SVG, and SVG to PNG, which is nearly all of it.
//! At the end it prints the most memory that the process held, on Linux.
#![allow(missing_docs, clippy::unwrap_used, clippy::print_stdout)]

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use jiff::ToSpan;
use jiff::civil::{Date, date};
use tapside::chart::fleet_sheet::{self, Fleet, Row};
use tapside::chart::rig_history::Level;
use tapside::chart::{png, rig_history};
use tapside::replies::Words;
use tapside::replies::membrane::DueLine;
use tapside::replies::pictures::rig_history::{Facts, picture};
use tapside::water::condition::Condition;
use tapside::water::settings::Limits;

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
        today: TODAY,
        limits: Limits::default(),
        condition: Some(Condition::Wearing),
        level: Some((0.85, 0.86, 0.87)),
        readings_used: 208,
        due: DueLine::Within {
            early: day(780),
            likely: day(830),
            late: Some(day(900)),
        },
        advice: None,
        readings: every(3, 0, 728)
            .map(|nth| rig_history::Dot {
                day: day(nth),
                rejection: mid(nth) + 0.008 * f64::from(nth * 7919 % 13 - 6) / 6.0,
                set_aside: nth % 90 == 0,
            })
            .collect(),
        trend: vec![every(3, 0, 729).map(level).collect()],
        forecast: every(4, 728, 920).map(level).collect(),
        leaks: Vec::new(),
        resin_changes: every(30, 0, 728).map(day).collect(),
        membrane_changes: vec![day(0)],
    }
}

fn sixty_rigs() -> Fleet {
    let row = |nth: usize| Row {
        name: format!("Rig {nth}"),
        state: Some(Condition::Wearing),
        word: "wearing".to_owned(),
        value: "88 %".to_owned(),
        resin: "resin: 6-13 days".to_owned(),
        urgent: nth < 3,
        trend: vec![
            (0..180)
                .map(|day| (TODAY.saturating_sub((180 - day).days()), 0.9))
                .collect(),
        ],
    };
    Fleet {
        headline: "3 of 60 rigs need attention".to_owned(),
        subline: "Rejection over 26 weeks, most urgent first".to_owned(),
        since: TODAY.saturating_sub(182.days()),
        today: TODAY,
        limits: Limits::default(),
        rigs: (0..60).map(row).collect(),
        rest: None,
        zone: Some("due below 85 %".to_owned()),
        nothing: String::new(),
    }
}

fn chart(c: &mut Criterion) {
    let words = Words::of(Some("en"));
    let facts = picture(words, two_years());
    let fleet = sixty_rigs();
    c.bench_function("svg of two years of one rig", |b| {
        b.iter(|| rig_history::draw(black_box(&facts)).svg());
    });
    c.bench_function("svg of a fleet's first sheet", |b| {
        b.iter(|| fleet_sheet::draw(black_box(&fleet)).svg());
    });
    let sheets = [
        ("png of two years of one rig", rig_history::draw(&facts)),
        ("png of a fleet's first sheet", fleet_sheet::draw(&fleet)),
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
