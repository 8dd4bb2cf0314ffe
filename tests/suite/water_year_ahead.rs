//! The year ahead: beds and membranes by span, with their ranges.

use tapside::water::forecast::Range;
use tapside::water::history::{Event, ServiceKind};
use tapside::water::prior::Lessons;
use tapside::water::renewal::Prices;
use tapside::water::replay::replay;
use tapside::water::settings::Settings;
use tapside::water::year_ahead::{Amount, YearAhead, look_ahead, sum};

use crate::water_crew::{at, reading, service};

const TODAY: f64 = 478.0;
const QUARTER: f64 = 91.0;

/// A rig that shows 200 and 20 ppm for over a year and gets a new bed of 10 L today.
fn ahead(renewal: Option<Range>, prices: Option<Prices>) -> Option<YearAhead> {
    let settings = Settings {
        prices,
        resin_litres: Some(10.0),
        litres_per_workday: Some(500.0),
        ..Settings::default()
    };
    let mut events: Vec<Event> = vec![service(0.0, ServiceKind::Membrane)];
    events.extend((0..159).map(|nth| reading(1.0 + 3.0 * f64::from(nth), 200.0, 20.0)));
    events.push(service(TODAY, ServiceKind::Resin));
    let history = replay(&events, &settings, &Lessons::none()).0;
    let borders = [1.0, 2.0, 3.0].map(|nth| at(TODAY + nth * QUARTER));
    look_ahead(&history, &settings, &Lessons::none(), renewal, at(TODAY), &borders)
}

const PRICES: Prices = Prices {
    membrane: 300.0,
    membrane_labour: 40.0,
    resin_per_litre: 6.0,
    resin_labour: 20.0,
};

#[test]
fn a_steady_rig_buys_the_beds_that_a_hand_calculation_gives() {
    // By hand: (200 x 0.10 + 4) mg/L = 24 mg/L. A working day of 500 L, discounted by exp(-0.20) to
    // 409.4 L, brings 9.825 g; 364 x 5/7 = 260 such days bring 2554 g, 12.8 beds of 200 g. The year
    // begins with a full bed and ends within one: half a bed less is bought on average. What is
    // open of the use lifts the mean by exp(0.30^2 / 2), 4.6 %.
    let by_hand = 260.0 * 500.0 * (-0.2f64).exp() * 0.024 / 200.0 * (0.045f64).exp() - 0.5;
    let ahead = ahead(None, Some(PRICES)).unwrap();
    let Amount { low, likely, high } = ahead.year.beds;
    assert!((likely / by_hand - 1.0).abs() < 0.08, "{likely} for {by_hand}");
    assert!(low < likely && likely < high, "{low} {likely} {high}");
    // A bed in place is 10 x 6 + 20 = 80, and nothing else is bought.
    let cost = ahead.year.cost.unwrap();
    assert!((cost.likely - 80.0 * likely).abs() < 1e-6, "{cost:?}");
    assert!(
        ahead.bed_days.is_sorted() && ahead.bed_days.len() >= 11,
        "{:?}",
        ahead.bed_days
    );
    // The parts add up to the year; their ranges do more than that.
    let parts = |of: fn(Amount) -> f64| ahead.spans.iter().map(|span| of(span.beds)).sum::<f64>();
    assert!((parts(|beds| beds.likely) - likely).abs() < 1e-9);
    assert!(parts(|beds| beds.low) <= low && high <= parts(|beds| beds.high));
}

#[test]
fn a_membrane_is_paid_once_in_the_span_of_its_day_and_saves_resin_afterwards() {
    let bought = at(TODAY + 1.5 * QUARTER);
    let day = Range {
        early: bought,
        likely: bought,
        late: Some(bought),
    };
    let (without, with) = (
        ahead(None, Some(PRICES)).unwrap(),
        ahead(Some(day), Some(PRICES)).unwrap(),
    );
    let membranes = |year: &YearAhead, nth: usize| {
        let span = year.spans[nth];
        span.cost.unwrap().likely - 80.0 * span.beds.likely
    };
    let paid: Vec<f64> = (0..4).map(|nth| membranes(&with, nth)).collect();
    for (nth, paid) in paid.iter().enumerate() {
        let due = if nth == 1 { 340.0 } else { 0.0 };
        assert!((paid - due).abs() < 1e-6, "{nth}: {paid}");
    }
    assert!((with.spans[0].beds.likely - without.spans[0].beds.likely).abs() < 1e-9);
    // A new one passes some 4 % where this one passes 10 %: 12 mg/L instead of 24.
    let saved = with.spans[3].beds.likely / without.spans[3].beds.likely;
    assert!((0.35..0.75).contains(&saved), "{saved}");
    // A date that may lie on either side of a border is paid in part on each.
    let open = Range {
        early: at(TODAY + 0.5 * QUARTER),
        likely: at(TODAY + QUARTER),
        late: Some(at(TODAY + 1.5 * QUARTER)),
    };
    let open = ahead(Some(open), Some(PRICES)).unwrap();
    let shares = [0, 1].map(|nth| membranes(&open, nth) / 340.0);
    assert!(shares.iter().all(|share| (0.35..0.65).contains(share)), "{shares:?}");
}

#[test]
fn the_year_is_the_same_whenever_it_is_asked_and_counts_beds_without_prices() {
    assert_eq!(ahead(None, Some(PRICES)), ahead(None, Some(PRICES)));
    let unpriced = ahead(None, None).unwrap();
    assert_eq!(unpriced.year.cost, None);
    assert_eq!(unpriced.year.beds, ahead(None, Some(PRICES)).unwrap().year.beds);
}

#[test]
fn ranges_of_independent_rigs_add_as_squares() {
    let rig = Amount {
        low: 70.0,
        likely: 100.0,
        high: 140.0,
    };
    let both = Amount {
        low: 60.0,
        likely: 100.0,
        high: 130.0,
    };
    // 30 and 40 make 50 below; 40 and 30 make 50 above.
    let fleet = Amount {
        low: 150.0,
        likely: 200.0,
        high: 250.0,
    };
    assert_eq!(sum([rig, both].into_iter()), fleet);
}
