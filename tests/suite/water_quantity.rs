//! Quantities, rejection and expected flow: refusals, exact conversions, identities.

use proptest::prelude::*;
use tapside::water::flow::{RatedElement, expected_flow};
use tapside::water::quantity::{Flow, MeterFactor, Ppm, Pressure, Share, Temperature, Volume};
use tapside::water::rejection::{NoBalance, feed_brine_factor, recovery, rejection};

fn celsius(c: f64) -> Temperature {
    Temperature::from_celsius(c).unwrap()
}

/// Flow to expect at a temperature and a pressure of an element rated 5 L/min at 15 C and 60 psi.
fn flow_at(c: f64, psi: f64) -> f64 {
    let pressure = |psi| Pressure::from_psi(psi).unwrap();
    let rated = RatedElement {
        flow: Flow::from_litres_per_minute(5.0).unwrap(),
        net_pressure: pressure(60.0),
        temperature: celsius(15.0),
    };
    expected_flow(&rated, celsius(c), pressure(psi))
        .unwrap()
        .litres_per_minute()
}

#[test]
fn conversions_are_the_definitions() {
    assert_eq!(Volume::from_us_gallons(1.0).unwrap().litres(), 3.785_411_784);
    assert_eq!(Volume::from_imperial_gallons(1.0).unwrap().litres(), 4.546_09);
    assert_eq!(Pressure::from_bar(4.0).unwrap().kpa(), 400.0);
    // NIST SP 811: 1 psi = 6.894 757 kPa.
    assert!((Pressure::from_psi(60.0).unwrap().kpa() - 413.685_437_59).abs() < 1e-7);
    assert_eq!(Temperature::from_fahrenheit(77.0).unwrap().celsius(), 25.0);
    assert_eq!(Temperature::from_celsius(15.0).unwrap().fahrenheit(), 59.0);
    assert!((Flow::from_us_gallons_per_minute(0.5).unwrap().litres_per_minute() - 1.892_705_892).abs() < 1e-12);
}

#[test]
fn nonsense_is_refused_and_the_refusal_says_what_and_why() {
    let said = Ppm::new(-3.0).unwrap_err().to_string();
    assert_eq!(said, "dissolved solids of -3 ppm is outside 0 to 100000 ppm");
    assert_eq!(
        Temperature::from_celsius(f64::NAN).unwrap_err().to_string(),
        "water temperature must be a number"
    );
    assert!(Temperature::from_celsius(95.0).is_err());
    assert!(Pressure::from_bar(-1.0).is_err());
    assert!(Share::new(1.01).is_err());
    assert!(MeterFactor::new(5.0).is_err());
    assert!(Volume::from_litres(f64::INFINITY).is_err());
}

#[test]
fn readings_without_a_rejection_say_why() {
    let ppm = |value| Ppm::new(value).unwrap();
    assert_eq!(rejection(ppm(0.0), ppm(0.0)), Err(NoBalance::FeedIsZero));
    assert_eq!(rejection(ppm(12.0), ppm(180.0)), Err(NoBalance::PermeateAboveFeed));
    assert_eq!(rejection(ppm(100.0), ppm(2.0)), Ok(0.98));
    assert_eq!(
        feed_brine_factor(Share::new(1.0).unwrap()),
        Err(NoBalance::RecoveryIsWhole)
    );
    let still = Flow::from_litres_per_minute(0.0).unwrap();
    assert_eq!(recovery(still, still), Err(NoBalance::FlowsDoNotAdd));
}

#[test]
fn at_its_rating_an_element_gives_its_rating() {
    assert!((flow_at(15.0, 60.0) - 5.0).abs() < 1e-12);
}

proptest! {
    #[test]
    fn cold_water_and_weak_pressure_take_from_the_flow(cold in 1.0..14.9f64, psi in 20.0..59.0f64) {
        prop_assert!(flow_at(cold, 60.0) < 5.0);
        prop_assert!(flow_at(15.0, psi) < 5.0);
    }

    #[test]
    fn rejection_knows_no_scale(feed in 20.0..900.0f64, share in 0.0..1.0f64, scale in 0.1..10.0f64) {
        let r = |k: f64| rejection(Ppm::new(feed * k).unwrap(), Ppm::new(feed * share * k).unwrap()).unwrap();
        prop_assert!((r(1.0) - r(scale)).abs() < 1e-12);
    }

    #[test]
    fn no_number_makes_a_quantity_panic(value in prop::num::f64::ANY) {
        let _ = (Ppm::new(value), Share::new(value), Volume::from_us_gallons(value), Flow::from_us_gallons_per_day(value));
        let _ = (Temperature::from_fahrenheit(value), Pressure::from_psi(value), MeterFactor::new(value));
    }
}
