//! The digest of rigs whose assessments come from readings, not from a table.

use jiff::civil::date;
use tapside::digest::resin_need::bed_workdays;
use tapside::digest::week::Jump;
use tapside::digest::{Kind, Week, decide};
use tapside::water::assess::assess;
use tapside::water::dates::local_date;
use tapside::water::history::{Event, Reading, Service, ServiceKind};
use tapside::water::prior::Lessons;
use tapside::water::quantity::Ppm;
use tapside::water::replay::replay;
use tapside::water::settings::Settings;

use crate::digest_fleet::{DAY, NOW, empty, sound};

/// The week's kinds for a rig with a reading every other day until Saturday,
/// 180 at the tap and `ro` at the RO outlet on the n-th of 60 days.
fn kinds(resin_days_ago: i64, ro: impl Fn(i64) -> f64) -> Vec<Kind> {
    let settings = Settings {
        resin_litres: Some(6.0),
        litres_per_workday: Some(400.0),
        manual_flush: true,
        ..Settings::default()
    };
    let service = |days_ago: i64, what| {
        let at = NOW - days_ago * DAY;
        Event::Service(Service { at, what })
    };
    let mut events = vec![
        service(62, ServiceKind::Membrane),
        service(62, ServiceKind::Prefilter),
        service(resin_days_ago, ServiceKind::Resin),
    ];
    events.extend((0..60).step_by(2).map(|day| {
        let at = NOW - (60 - day) * DAY;
        let (feed, permeate) = (Ppm::new(180.0).unwrap(), Ppm::new(ro(day)).unwrap());
        Event::Reading(Reading::of(at, feed, permeate))
    }));
    let (history, _) = replay(&events, &settings, &Lessons::default());
    let mut rig = sound(1, "Heron");
    rig.assessment = assess(&history, &settings, &Lessons::default(), NOW);
    rig.jump = rig.assessment.fault.as_ref().map(|fault| Jump {
        opened_on: local_date(fault.since, 0),
        closed_on: None,
        before_ppm: ro(0),
        after_ppm: ro(58),
    });
    rig.bed_workdays = bed_workdays(&history, &settings);
    rig.last_reading_on = Some(date(2026, 2, 28));
    let digest = decide(&Week {
        rigs: vec![rig],
        ..empty()
    });
    digest.actions.iter().map(|action| action.kind).collect()
}

#[test]
fn a_steady_rig_with_fresh_resin_wants_nothing() {
    assert_eq!(kinds(2, |_| 12.0), []);
}

#[test]
fn a_jump_in_the_readings_asks_for_the_leak() {
    assert_eq!(kinds(2, |day| if day < 50 { 12.0 } else { 31.0 }), [Kind::FindLeak]);
}

#[test]
fn resin_is_asked_for_when_its_load_is_nearly_full() {
    // 6 L take up about 6 x 20 = 120 g. A working day brings 400 L of 12 + 4 mg/L, 6.4 g as
    // told; discounted by exp(-0.20) and in winter by 14 % more, 4.5 g, so a bed lasts about
    // 27 working days, 37 days on the calendar.
    assert_eq!(kinds(10, |_| 12.0), []);
    assert_eq!(kinds(33, |_| 12.0), [Kind::ResinSoon]);
}
