//! Resin, prefilters, flow and DI-only rigs.

use tapside::water::assess::assess;
use tapside::water::flow::{FlowFinding, FlowInput, FlowVerdict, RatedElement, judge_flow};
use tapside::water::history::{Event, Reading, ServiceKind};
use tapside::water::prefilter;
use tapside::water::prior::Lessons;
use tapside::water::quantity::{Flow, Ppm, Pressure, Temperature};
use tapside::water::replay::replay;
use tapside::water::resin::BedState;
use tapside::water::settings::Settings;

use crate::water_crew::{at, reading, said, service, settings, wearing};

fn tasted(day: f64, product: f64) -> Event {
    let Event::Reading(mut r) = reading(day, 400.0, 20.0) else {
        unreachable!("a reading")
    };
    r.product = Some(Ppm::new(product).unwrap());
    Event::Reading(r)
}

fn with_resin(days: &[f64]) -> Vec<Event> {
    let mut events = wearing(0.1, 7.0, 281.0);
    events.extend(days.iter().map(|&day| service(day, ServiceKind::Resin)));
    events
}

/// Told litres are discounted until beds were spent: exp(-0.20).
const DISCOUNT: f64 = 0.818_730_753_077_982;

#[test]
fn the_balance_tells_the_days_left() {
    // 10 L at 20 g/L hold 200 g. 500 L on 5 of 7 days, discounted, x (400 x 0.054 + 4) mg/L
    // are 7.5 g a day on the mean of the year; October uses up to a tenth more.
    let bed = said(&with_resin(&[280.0]), 281.0).resin.unwrap();
    let days = (bed.empty.unwrap().likely - at(281.0)) as f64 / 86_400.0;
    let by_hand = 200.0 / (500.0 * 5.0 / 7.0 * DISCOUNT * 25.6 / 1000.0) - 1.0;
    assert!((days / by_hand - 1.0).abs() < 0.10, "{days} {by_hand}");
    let [low, likely, high] = bed.working_days.unwrap();
    assert!(low < likely && likely < high);
}

#[test]
fn the_use_is_learned_from_the_rigs_own_beds() {
    // Beds that last 45 days, whatever was told: the days left become theirs.
    let days: Vec<f64> = (0..7).map(|i| 10.0 + 45.0 * f64::from(i)).collect();
    let bed = said(&with_resin(&days), 281.0).resin.unwrap();
    let left = (bed.empty.unwrap().likely - at(281.0)) as f64 / 86_400.0;
    assert!((left - 44.0).abs() < 5.0, "{left}");
}

/// A rig of day 0 to `days` that shows 200 and 20 ppm every third day, told its water's temperature
/// or not, with a new bed at the end; its working days left and its resin bill of a year.
fn told(celsius: Option<f64>, days: f64) -> (f64, f64) {
    let mut events = vec![service(0.0, ServiceKind::Membrane)];
    let mut day = 1.0;
    while day < days {
        let Event::Reading(mut r) = reading(day, 200.0, 20.0) else {
            unreachable!("a reading")
        };
        r.temperature = celsius.map(|c| Temperature::from_celsius(c).unwrap());
        events.push(Event::Reading(r));
        day += 3.0;
    }
    events.push(service(days, ServiceKind::Resin));
    let said = said(&events, days);
    let working_days = said.resin.unwrap().working_days.unwrap()[1];
    (working_days, said.renewal.unwrap().resin_cost_per_year)
}

#[test]
fn the_same_water_gives_the_same_resin_and_money_whatever_temperature_is_told() {
    // By hand: (200 x 0.10 + 4) mg/L = 24 mg/L. A working day of 500 L, discounted to 409.4 L,
    // brings 9.825 g; 200 g last 20.36 working days. A year of 365.25 x 5/7 such days makes
    // 106 803 L, 2563 g, 12.82 beds of 10 x 6 + 20 = 80: 1025.
    let (days, cost) = (
        200.0 / (500.0 * DISCOUNT * 0.024),
        365.25 * 5.0 / 7.0 * 500.0 * DISCOUNT * 0.024 / 200.0 * 80.0,
    );
    assert!(
        (days - 20.36).abs() < 0.01 && (cost - 1025.3).abs() < 1.0,
        "{days} {cost}"
    );
    // Late in April the wave of use is at its mean; it rises to a few percent within the month.
    let seen = [Some(25.0), Some(4.0), None].map(|celsius| told(celsius, 478.0));
    for (resin_days, yearly) in seen {
        assert!((resin_days / days - 1.0).abs() < 0.05, "{seen:?}");
        assert!((yearly / cost - 1.0).abs() < 0.05, "{seen:?}");
        assert!(
            (resin_days / seen[2].0 - 1.0).abs() < 0.05 && (yearly / seen[2].1 - 1.0).abs() < 0.05,
            "{seen:?}"
        );
    }
    // The same after two months alone, against each other.
    let early = [Some(25.0), Some(4.0), None].map(|celsius| told(celsius, 60.0));
    for (resin_days, yearly) in early {
        assert!(
            (resin_days / early[2].0 - 1.0).abs() < 0.05 && (yearly / early[2].1 - 1.0).abs() < 0.05,
            "{early:?}"
        );
    }
}

#[test]
fn high_product_right_after_a_change_means_repack() {
    let mut events = with_resin(&[280.0]);
    events.push(tasted(281.0, 8.0));
    assert_eq!(said(&events, 282.0).bed_state(), Some(BedState::EarlyBreakthrough));
    events.push(service(281.5, ServiceKind::Repack));
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
        service(0.0, ServiceKind::Resin),
        tap_and_glass(0.5, 0.0),
        tap_and_glass(9.0, 5.0),
        tap_and_glass(10.0, 40.0),
    ];
    let on = |upto: usize, day: f64| {
        let (history, _) = replay(&events[..upto], &di_only, &Lessons::none());
        assess(&history, &di_only, &Lessons::none(), at(day))
    };
    let fresh = on(2, 1.0);
    assert_eq!((fresh.condition, fresh.rejection), (None, None));
    // 200 g over 150 L x 5/7 x 154 mg/L = 16.5 g a day, discounted 13.5 g, and 15 % less in
    // January: 17.4 days from the change.
    let days = (fresh.resin.unwrap().empty.unwrap().likely - at(1.0)) as f64 / 86_400.0;
    assert!((days - 16.4).abs() < 0.9, "{days}");
    assert_eq!(on(3, 9.1).bed_state(), Some(BedState::GivingWay));
    assert_eq!(on(4, 10.1).bed_state(), Some(BedState::Exhausted));
    assert_eq!(on(4, 10.1).resin.unwrap().product_rise_ppm, Some(35.0));
}

#[test]
fn resin_changes_alone_say_that_a_membrane_wears() {
    let mut steady = vec![
        service(0.0, ServiceKind::Membrane),
        reading(1.0, 400.0, 20.0),
        reading(4.0, 400.0, 20.0),
    ];
    let mut closer = steady.clone();
    for i in 0..8 {
        steady.push(service(10.0 + 23.0 * f64::from(i), ServiceKind::Resin));
    }
    let mut day = 10.0;
    for gap in [23.0, 23.0, 17.0, 13.0, 11.0, 9.0, 8.0, 7.0] {
        closer.push(service(day, ServiceKind::Resin));
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

#[test]
fn a_flow_is_told_as_a_share_of_what_it_should_be_or_what_is_missing() {
    let rated = RatedElement {
        flow: Flow::from_us_gallons_per_day(1800.0).unwrap(),
        net_pressure: Pressure::from_psi(95.0).unwrap(),
        temperature: Temperature::from_celsius(25.0).unwrap(),
    };
    let flow = |rating: bool, change: &dyn Fn(&mut Reading)| {
        let Event::Reading(mut r) = reading(1.0, 200.0, 10.0) else {
            unreachable!("a reading")
        };
        change(&mut r);
        let settings = Settings {
            rated: rating.then_some(rated),
            ..settings()
        };
        // A later reading without a flow takes nothing away.
        let events = [Event::Reading(r), reading(2.0, 200.0, 10.0)];
        let (history, _) = replay(&events, &settings, &Lessons::none());
        assess(&history, &settings, &Lessons::none(), at(3.0)).flow
    };
    let all = |r: &mut Reading| {
        r.permeate_flow = Some(Flow::from_us_gallons_per_day(400.0).unwrap());
        r.temperature = Some(Temperature::from_celsius(10.0).unwrap());
        r.pressure = Some(Pressure::from_psi(52.0).unwrap());
    };
    let Some(FlowFinding::Judged { at: when, flow: told }) = flow(true, &all) else {
        panic!("not judged")
    };
    // By hand: 0.2654 x 200 x 283.15/999.8 = 15.03 kPa, of which 95% stand against the pump: 2.07
    // of 52 psi. 1800 x 0.58441 x 49.93/95 = 552.9 US gal/day; 400 of them are 72 %.
    assert_eq!(when, at(1.0));
    assert!((told.share - 0.7235).abs() < 0.001, "{told:?}");
    assert_eq!(told.verdict, FlowVerdict::Fouled);
    assert_eq!(flow(false, &|_| ()), None);
    assert_eq!(flow(true, &|_| ()), Some(FlowFinding::Missing(vec![FlowInput::Flow])));
    let flow_alone = |r: &mut Reading| {
        all(r);
        (r.temperature, r.pressure) = (None, None);
    };
    let missing = [FlowInput::Rating, FlowInput::Temperature, FlowInput::Pressure];
    assert_eq!(flow(false, &flow_alone), Some(FlowFinding::Missing(missing.to_vec())));
}
