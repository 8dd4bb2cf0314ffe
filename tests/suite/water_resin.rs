//! Resin, prefilters, flow and DI-only rigs.

use tapside::water::assess::assess;
use tapside::water::flow::{FlowVerdict, RatedElement, judge_flow};
use tapside::water::history::{Event, Reading, Work};
use tapside::water::prefilter;
use tapside::water::prior::Lessons;
use tapside::water::quantity::{Flow, Ppm, Pressure, Temperature};
use tapside::water::replay::replay;
use tapside::water::resin::BedState;
use tapside::water::settings::Settings;

use crate::water_crew::{at, heard, reading, said, service, settings, wearing};

fn tasted(day: f64, product: f64) -> Event {
    let Event::Reading(mut r) = reading(day, 400.0, 20.0) else {
        unreachable!("a reading")
    };
    r.product = Some(Ppm::new(product).unwrap());
    Event::Reading(r)
}

fn with_resin(days: &[f64]) -> Vec<Event> {
    let mut events = wearing(0.1, 7.0, 281.0);
    events.extend(days.iter().map(|&day| service(day, Work::Resin)));
    events
}

#[test]
fn the_balance_tells_the_days_left() {
    // 10 L at 20 g/L hold 200 g. 500 L on 5 of 7 days x (400 x 0.054 + 4) mg/L are
    // 9.1 g a day: 22 calendar days from the change.
    let bed = said(&with_resin(&[280.0]), 281.0).resin.unwrap();
    let days = (bed.empty.unwrap().likely - at(281.0)) as f64 / 86_400.0;
    assert!((days - 21.0).abs() < 1.0, "{days}");
    let [low, likely, high] = bed.working_days.unwrap();
    assert!(low < likely && likely < high);
}

#[test]
fn capacity_is_learned_from_the_rigs_own_changes() {
    // Beds that last twice as long as the book says.
    let days: Vec<f64> = (0..6).map(|i| 10.0 + 46.0 * f64::from(i)).collect();
    let (history, _) = heard(&with_resin(&days));
    let capacity = history.bed.capacity_g(10.0);
    assert!((300.0..420.0).contains(&capacity), "{capacity}");
}

#[test]
fn high_product_right_after_a_change_means_repack() {
    let mut events = with_resin(&[280.0]);
    events.push(tasted(281.0, 8.0));
    assert_eq!(said(&events, 282.0).bed_state(), Some(BedState::EarlyBreakthrough));
    events.push(service(281.5, Work::Repack));
    assert_eq!(said(&events, 282.0).bed_state(), Some(BedState::Holding));
}

#[test]
fn product_at_ten_spots_the_glass_whatever_the_balance() {
    let mut events = with_resin(&[280.0]);
    events.push(tasted(298.0, 12.0));
    let said = said(&events, 298.5);
    assert!(said.will_spot());
    assert_eq!(said.bed_state(), Some(BedState::Exhausted));
    assert_eq!(said.resin.unwrap().working_days, Some([0.0; 3]));
}

#[test]
fn a_di_only_rig_is_judged_by_its_resin_alone() {
    let di_only = Settings {
        has_membrane: false,
        litres_per_workday: Some(150.0),
        ..settings()
    };
    let tap_and_glass = |day: f64, product: f64| {
        Event::Reading(Reading {
            permeate: None,
            product: Some(Ppm::new(product).unwrap()),
            ..Reading::of(at(day), Ppm::new(150.0).unwrap(), Ppm::new(0.0).unwrap())
        })
    };
    let events = [
        service(0.0, Work::Resin),
        tap_and_glass(0.5, 0.0),
        tap_and_glass(6.0, 5.0),
        tap_and_glass(7.0, 40.0),
    ];
    let on = |upto: usize, day: f64| {
        let (history, _) = replay(&events[..upto], &di_only, &Lessons::none());
        assess(&history, &di_only, &Lessons::none(), at(day))
    };
    let fresh = on(2, 1.0);
    assert_eq!((fresh.condition, fresh.rejection), (None, None));
    // 200 g over 150 L x 5/7 x 154 mg/L = 16.5 g a day: 12 days from the change.
    let days = (fresh.resin.unwrap().empty.unwrap().likely - at(1.0)) as f64 / 86_400.0;
    assert!((days - 11.1).abs() < 0.7, "{days}");
    assert_eq!(on(3, 6.1).bed_state(), Some(BedState::GivingWay));
    assert_eq!(on(4, 7.1).bed_state(), Some(BedState::Exhausted));
    assert_eq!(on(4, 7.1).resin.unwrap().product_rise_ppm, Some(35.0));
}

#[test]
fn resin_changes_alone_say_that_a_membrane_wears() {
    let mut steady = vec![
        service(0.0, Work::Membrane),
        reading(1.0, 400.0, 20.0),
        reading(4.0, 400.0, 20.0),
    ];
    let mut closer = steady.clone();
    for i in 0..8 {
        steady.push(service(10.0 + 23.0 * f64::from(i), Work::Resin));
    }
    let mut day = 10.0;
    for gap in [23.0, 23.0, 17.0, 13.0, 11.0, 9.0, 8.0, 7.0] {
        closer.push(service(day, Work::Resin));
        day += gap;
    }
    let rejection = |events: &[Event]| said(events, 175.0).rejection.unwrap().mid;
    assert!(
        rejection(&closer) < rejection(&steady) - 0.01,
        "{} {}",
        rejection(&closer),
        rejection(&steady)
    );
}

#[test]
fn prefilters_go_by_days_or_litres_whichever_comes_first() {
    let by = prefilter::Interval {
        days: 180.0,
        litres: Some(50_000.0),
    };
    let day = 86_400;
    let state = |days: i64, litres: f64| prefilter::assess(Some(0), litres, Some(350.0), &by, days * day).state;
    assert_eq!(state(30, 10_000.0), prefilter::State::InDate);
    assert_eq!(state(170, 10_000.0), prefilter::State::DueSoon);
    assert_eq!(state(181, 10_000.0), prefilter::State::Overdue);
    assert_eq!(state(100, 50_001.0), prefilter::State::Overdue);
    assert_eq!(
        prefilter::assess(None, 0.0, None, &by, 0).state,
        prefilter::State::NeverLogged
    );
}

#[test]
fn a_weak_cold_morning_is_no_fouled_membrane() {
    let pressure = |psi| Pressure::from_psi(psi).unwrap();
    let celsius = |c| Temperature::from_celsius(c).unwrap();
    let rated = RatedElement {
        flow: Flow::from_us_gallons_per_day(1800.0).unwrap(),
        net_pressure: pressure(95.0),
        temperature: celsius(25.0),
    };
    // 1800 x 0.584 (10 C) x 50/95 psi = 553 US gal/day.
    let judge = |gpd: f64| {
        judge_flow(
            Flow::from_us_gallons_per_day(gpd).unwrap(),
            &rated,
            celsius(10.0),
            pressure(50.0),
        )
        .unwrap()
    };
    assert_eq!(judge(545.0).verdict, FlowVerdict::WeakConditions);
    assert_eq!(judge(400.0).verdict, FlowVerdict::Fouled);
    assert_eq!(judge(900.0).verdict, FlowVerdict::TooMuch);
}

#[test]
fn litres_are_learned_by_the_day_and_a_counters_figure_is_left_out() {
    use tapside::water::resin::learn_litres;
    // A tenth of the way from 500 to 600.
    assert_eq!(learn_litres(None, Some(500.0), 600.0), Some(510.0));
    assert_eq!(learn_litres(Some(510.0), Some(500.0), 184_210.0), Some(510.0));
    assert_eq!(learn_litres(None, None, 420.0), Some(420.0));
}
