//! Renewal by money: the closed forms against direct minimisation and against
//! what the trade holds for true.

use tapside::water::assess::assess;
use tapside::water::lambert::lambert_w0;
use tapside::water::prior::Lessons;
use tapside::water::renewal::{Standing, best_salt_passage};
use tapside::water::renewal_verdict::Verdict;
use tapside::water::replay::replay;
use tapside::water::settings::Settings;

use crate::water_crew::{at, settings, wearing};

const NEW: f64 = 0.05;

/// Mean cost a period of renewing every `interval` periods, for a running cost of
/// any shape: (renewal + integral of it)/interval, by Simpson's rule.
fn mean_cost_of(renewal: f64, interval: f64, running_cost: impl Fn(f64) -> f64) -> f64 {
    const PANELS: u32 = 128;
    let step = interval / f64::from(PANELS);
    let inner: f64 = (1..PANELS)
        .map(|i| if i % 2 == 1 { 4.0 } else { 2.0 } * running_cost(f64::from(i) * step))
        .sum();
    (renewal + (running_cost(0.0) + inner + running_cost(interval)) * step / 3.0) / interval.max(1e-9)
}

/// Interval up to `horizon` with the least mean cost, for a running cost that
/// grows: where it reaches the mean so far.
fn best_interval_directly(renewal: f64, horizon: f64, running_cost: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, horizon);
    for _ in 0..80 {
        let middle = f64::midpoint(low, high);
        if running_cost(middle) < mean_cost_of(renewal, middle, &running_cost) {
            low = middle;
        } else {
            high = middle;
        }
    }
    f64::midpoint(low, high)
}

#[test]
fn the_direct_search_finds_the_published_optimum_of_jardine_and_tsang() {
    // Jardine & Tsang: A 100, B 80, k 0.21 a week, renewal 100: 4.739 weeks at 70.430 a
    // week, 73.98 at three weeks and 70.471 at five. This search checks the closed forms below.
    let running = |t: f64| 100.0 - 80.0 * (-0.21 * t).exp();
    let best = best_interval_directly(100.0, 20.0, running);
    assert!((best - 4.739_367).abs() < 1e-5, "{best}");
    for (weeks, cost) in [(best, 70.430), (3.0, 73.980), (4.0, 70.877), (5.0, 70.471)] {
        assert!((mean_cost_of(100.0, weeks, running) - cost).abs() < 1e-3, "{weeks}");
    }
}

/// From 95% to 80% in four years.
const FOUR_YEARS: f64 = 0.346_573_590_279_972_65;

#[test]
fn lambert_w_solves_its_equation_and_meets_known_values() {
    // Corless et al. (1996): W(-1/e) = -1, W(0) = 0, W(1) = 0.567143..., W(e) = 1.
    assert!((lambert_w0(-1.0 / std::f64::consts::E).unwrap() + 1.0).abs() < 1e-6);
    assert!(lambert_w0(0.0).unwrap().abs() < 1e-15);
    assert!((lambert_w0(1.0).unwrap() - 0.567_143_290_409_783_8).abs() < 1e-15);
    assert!((lambert_w0(std::f64::consts::E).unwrap() - 1.0).abs() < 1e-15);
    assert_eq!(lambert_w0(-0.4), None);
    for x in [-0.3, -0.1, 0.01, 0.5, 2.0, 3.5, 50.0, 1e6, 1e200] {
        let w = lambert_w0(x).unwrap();
        assert!((w * w.exp() / x - 1.0).abs() < 1e-12, "{x}: {w}");
    }
}

#[test]
fn the_trades_four_year_membrane_has_its_optimum_at_the_trades_fence() {
    // Common practice, no source: 250 of resin a year at 80% (1250 a year per unit
    // of salt passage), a membrane of 450, four years from 95% to 80%: 80.2%.
    let best = best_salt_passage(NEW, FOUR_YEARS, 450.0, 250.0 / 0.20).unwrap();
    assert!((1.0 - best - 0.802).abs() < 0.0005, "{best}");
}

#[test]
fn heavier_use_moves_the_optimum_up() {
    // Common practice, no source: about 88 % at 5000 a year per unit, 92% at 20 000.
    let at = |cost| 1.0 - best_salt_passage(NEW, FOUR_YEARS, 450.0, cost).unwrap();
    assert!((at(5_000.0) - 0.88).abs() < 0.01, "{}", at(5_000.0));
    assert!((at(20_000.0) - 0.92).abs() < 0.01, "{}", at(20_000.0));
}

#[test]
fn the_closed_form_is_where_direct_minimisation_ends() {
    for (growth, renewal, cost) in [
        (0.35, 450.0, 1250.0),
        (0.5, 200.0, 8000.0),
        (1.1, 500.0, 3000.0),
        (0.2, 80.0, 20e3),
    ] {
        let running = |t: f64| cost * NEW * (growth * t).exp();
        let closed = (best_salt_passage(NEW, growth, renewal, cost).unwrap() / NEW).ln() / growth;
        let direct = best_interval_directly(renewal, 60.0, running);
        assert!((closed - direct).abs() < 1e-4, "{closed} {direct}");
        for other in [0.8 * closed, 1.2 * closed] {
            assert!(mean_cost_of(renewal, closed, running) < mean_cost_of(renewal, other, running));
        }
    }
}

#[test]
fn a_life_in_progress_agrees_with_the_whole_life() {
    let (growth, renewal, cost) = (0.6, 400.0, 5000.0);
    let whole = (best_salt_passage(NEW, growth, renewal, cost).unwrap() / NEW).ln() / growth;
    for age in [0.2, 1.0, 3.0] {
        let standing = Standing {
            age_years: age,
            passed_years: NEW * (growth * age).exp_m1() / growth,
            log_passage: NEW.ln() + growth * age,
            growth,
        };
        let left = standing.years_to_best(renewal, cost).unwrap();
        assert!((age + left - whole).abs() < 1e-9, "{age} {left} {whole}");
        if left > 0.0 {
            let direct = standing.years_to_best_directly(renewal, cost, 5.0, 0.001, |_| 1.0);
            assert!((direct - left).abs() < 0.002, "{direct} {left}");
        }
    }
}

#[test]
fn a_quiet_season_ahead_puts_the_change_off() {
    // Due now with even use; half a year of little work ahead costs hardly any resin.
    let standing = Standing {
        age_years: 1.0,
        passed_years: 0.10,
        log_passage: 0.22_f64.ln(),
        growth: 0.5,
    };
    let even = standing.years_to_best_directly(450.0, 4000.0, 3.0, 0.01, |_| 1.0);
    let quiet = standing.years_to_best_directly(450.0, 4000.0, 3.0, 0.01, |step| if step < 50 { 0.3 } else { 1.3 });
    assert!(even < 0.01 && (quiet - 0.5).abs() < 0.02, "{even} {quiet}");
}

#[test]
fn nothing_that_wears_or_costs_gives_no_date() {
    assert_eq!(best_salt_passage(NEW, 0.0, 450.0, 1250.0), None);
    assert_eq!(best_salt_passage(NEW, 0.3, 450.0, 0.0), None);
}

const BUSY_WINTER: [f64; 12] = [1.8, 1.8, 1.8, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 1.8, 1.8, 1.8];
const QUIET_WINTER: [f64; 12] = [0.2, 0.2, 0.2, 1.8, 1.8, 1.8, 1.8, 1.8, 1.8, 0.2, 0.2, 0.2];

/// The verdict on a day for a membrane that wears from 95% by 1.0 a year, last read
/// on day 280 (early October) at the latest; its level pays for itself about then.
/// The months are told on that day, so that they speak of what is ahead alone; so is the wave of
/// ln(salt passage) with the water's warmth, by its amplitude in January.
fn verdict(day: f64, month_shares: [f64; 12], warm_january: f64) -> Verdict {
    let settings = settings();
    let (mut history, _) = replay(&wearing(1.0, 4.0, day.min(280.0)), &settings, &Lessons::none());
    history.life.trend.as_mut().unwrap().mean[2] = warm_january;
    let told = Settings {
        month_shares,
        ..settings
    };
    let said = assess(&history, &told, &Lessons::none(), at(day));
    said.renewal.unwrap().verdict
}

#[test]
fn a_worn_membrane_waits_through_a_quiet_winter_and_not_through_a_busy_one() {
    assert!(matches!(verdict(280.0, QUIET_WINTER, 0.0), Verdict::Later(_)));
    assert_eq!(verdict(280.0, BUSY_WINTER, 0.0), Verdict::Now);
}

#[test]
fn it_waits_through_cold_water_and_not_through_warm() {
    assert!(matches!(verdict(280.0, [1.0; 12], -0.25), Verdict::Later(_)));
    assert_eq!(verdict(280.0, [1.0; 12], 0.25), Verdict::Now);
}

#[test]
fn no_membrane_is_bought_on_an_old_reading() {
    assert_eq!(verdict(310.0, BUSY_WINTER, 0.0), Verdict::Now);
    assert!(matches!(verdict(340.0, BUSY_WINTER, 0.0), Verdict::Later(_)));
}

#[test]
fn a_new_membrane_is_advised_only_where_waiting_loses_enough() {
    use tapside::water::renewal::Prices;
    let mut advised = 0;
    for resin_price in [1.5, 3.0, 6.0, 12.0] {
        for week in 10..70 {
            let day = f64::from(week) * 7.0;
            let prices = Prices {
                resin_per_litre: resin_price,
                ..settings().prices.unwrap()
            };
            let told = Settings {
                prices: Some(prices),
                ..settings()
            };
            let (history, _) = replay(&wearing(0.8, 4.0, day), &told, &Lessons::none());
            let renewal = assess(&history, &told, &Lessons::none(), at(day)).renewal.unwrap();
            match renewal.verdict {
                Verdict::Now => {
                    advised += 1;
                    let a_year = 12.0 * renewal.waiting_per_month;
                    assert!(
                        renewal.waiting_per_month >= 10.0 || a_year >= 0.03 * renewal.mean_cost_per_year,
                        "{resin_price} {day}: {renewal:?}"
                    );
                }
                Verdict::Later(range) => assert!(range.early <= range.likely && range.likely > at(day)),
                Verdict::NotInSight | Verdict::NotYetKnown => {}
            }
        }
    }
    assert!(advised > 20, "{advised}");
}
