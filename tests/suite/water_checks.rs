//! Every row of `checks.csv` that the core can express, against its published
//! value; the rows that it cannot are listed with the reason.

use serde_json::Value;
use tapside::water::flow::{RatedElement, expected_flow, net_pressure};
use tapside::water::jump::page_sum;
use tapside::water::observation::ewma;
use tapside::water::osmosis::{self, Pressures};
use tapside::water::quantity::{
    Conductivity, Flow, GRAMS_PER_GRAIN, LITRES_PER_CUBIC_FOOT, LITRES_PER_US_GALLON, MeterFactor, Ppm, Pressure,
    Share, Temperature, Volume,
};
use tapside::water::rejection;
use tapside::water::temperature_factor::TemperatureFactor;

use crate::water_nile as nile;
use crate::water_series::{MONTGOMERY_9_1, NIST_6_3_2_3};

const NOT_EXPRESSED: &[(&str, &str)] = &[
    (
        "cf_full_75",
        "a brine and stage balance that no answer of the program needs",
    ),
    (
        "arith_50",
        "a brine and stage balance that no answer of the program needs",
    ),
    (
        "sys_passage_exact",
        "a brine and stage balance that no answer of the program needs",
    ),
    (
        "tcf_astm103_20",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "tcf_astm103_30",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "tcf_army_32F",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "tcf_army_40F",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "tcf_army_68F",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "tcf_army_85F",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "tcf_army_110F",
        "another curve of the flow: a test below tells how far ours is from it",
    ),
    (
        "effp_60psi_1000",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "t320_1000_25",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "vanthoff_250_25",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "vanthoff_500_25",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "vanthoff_2000_25",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "vanthoff_2000_10",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "geankoplis_1391",
        "another formula of the osmotic pressure; the program uses ASTM D4516's",
    ),
    (
        "pyeql_pi_250_25",
        "a library's osmotic pressure: a test below tells how far ours is from it",
    ),
    (
        "pyeql_pi_750_25",
        "a library's osmotic pressure: a test below tells how far ours is from it",
    ),
    (
        "pyeql_pi_500_20",
        "a library's osmotic pressure: a test below tells how far ours is from it",
    ),
    (
        "pyeql_pi_2000_10",
        "a library's osmotic pressure: a test below tells how far ours is from it",
    ),
    (
        "d4516_sps_stcf1",
        "the full standardised passage needs flows that a two-reading rig does not have",
    ),
    (
        "d4516_sps_stcf_eq_tcf",
        "the full standardised passage needs flows that a two-reading rig does not have",
    ),
    (
        "sd_4bar_R",
        "the picture behind the program's rule: a test below checks the rule against it",
    ),
    (
        "sd_7bar_R",
        "the picture behind the program's rule: a test below checks the rule against it",
    ),
    (
        "sd_10bar_R",
        "the picture behind the program's rule: a test below checks the rule against it",
    ),
    (
        "sd_zero",
        "the picture behind the program's rule: a test below checks the rule against it",
    ),
    (
        "salt_ratio_pctC",
        "the picture behind the program's rule: a test below checks the rule against it",
    ),
    (
        "kcl_0.0005M",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "kcl_0.005M",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_0",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_5",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_20",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_22",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_25",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_30",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "iso7888_10.2",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "sm_1273_20",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "sm_1321_25.5",
        "the meter compensates its temperature itself; the program does not",
    ),
    (
        "tds442_23",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "tdsNaCl_23",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "tds442_84",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "tdsNaCl_84",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "tdsNaCl_447",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "tds442_1413",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "tdsNaCl_1413",
        "a meter's table: the program takes the factor that the meter has",
    ),
    (
        "phreeqc442_1000",
        "a chemical model; one factor for all levels is 10 % off at this one",
    ),
    (
        "litres_10L_10ppm",
        "the program's load carries the carbon dioxide as well",
    ),
    (
        "litres_meter_NaCl",
        "the program's load carries the carbon dioxide as well",
    ),
    ("resin_halves", "the program's load carries the carbon dioxide as well"),
    (
        "visc_5",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "visc_10",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "visc_15",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "visc_20",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "visc_25",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "visc_30",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "visc_ratio_5",
        "viscosity is only a lower bound of what cold takes from the flow, and is not used",
    ),
    (
        "jardine_C",
        "a running cost of another shape: water_renewal.rs checks the closed forms by a search that meets it",
    ),
    (
        "jardine_C3",
        "a running cost of another shape: water_renewal.rs checks the closed forms by a search that meets it",
    ),
    (
        "jardine_C4",
        "a running cost of another shape: water_renewal.rs checks the closed forms by a search that meets it",
    ),
    (
        "jardine_C5",
        "a running cost of another shape: water_renewal.rs checks the closed forms by a search that meets it",
    ),
    (
        "linear_repl_C",
        "a running cost of another shape: water_renewal.rs checks the closed forms by a search that meets it",
    ),
    (
        "tcf_alt_ex_1800_15",
        "a second maker's table, which is no single curve; the factor is data of the membrane",
    ),
    (
        "wqa_salt_pctC",
        "a rule of thumb for the salt flux; the core uses its ratio to the water flux (salt_ratio_pctC)",
    ),
    ("astm_d5615_cond", "a test condition in words, no value to compute"),
    ("nsf58_cond", "a test condition in words, no value to compute"),
    ("trade_cond_100psi", "a test condition in words, no value to compute"),
    (
        "army_rej_limits",
        "another apparatus's alarm limits; ours are the owner's",
    ),
    (
        "cond_rule_006",
        "osmotic pressure straight from conductivity: the core goes through ppm",
    ),
    (
        "kcl_001m_0C",
        "conductivity of a KCl standard against temperature; the core compensates natural waters",
    ),
    (
        "kcl_001m_10C",
        "conductivity of a KCl standard against temperature; the core compensates natural waters",
    ),
    (
        "kcl_001m_15C",
        "conductivity of a KCl standard against temperature; the core compensates natural waters",
    ),
    (
        "kcl_001m_25C",
        "conductivity of a KCl standard against temperature; the core compensates natural waters",
    ),
    (
        "kcl_001m_30C",
        "conductivity of a KCl standard against temperature; the core compensates natural waters",
    ),
    (
        "phreeqcNaCl_58",
        "a chemical model; the printed meter table differs from it by 3 % at this level",
    ),
    ("upw_25", "ultrapure water: beyond what a handheld meter shows"),
    ("marsh_stokes_20", "ultrapure water: beyond what a handheld meter shows"),
    ("di_regen", "a rating, quoted in resin.rs; nothing to compute"),
    (
        "epa_cubic_25",
        "an older viscosity cubic, 1.4% off; the core uses IAPWS",
    ),
    (
        "lsi_carrier",
        "scaling index: needs calcium, alkalinity and pH, which a two-reading rig does not know",
    ),
    ("sbs_used", "preservation chemistry in words; the maker's label decides"),
    ("sbs_1pct", "preservation chemistry; the maker's label decides"),
    (
        "mk_S",
        "Mann-Kendall test: the trend is the filter's, with its own uncertainty",
    ),
    (
        "mk_Z",
        "Mann-Kendall test: the trend is the filter's, with its own uncertainty",
    ),
    (
        "mk_p",
        "Mann-Kendall test: the trend is the filter's, with its own uncertainty",
    ),
    (
        "mk_sen",
        "Sen's slope: the trend is the filter's, with its own uncertainty",
    ),
    (
        "mk_tau_a",
        "Kendall's tau: the trend is the filter's, with its own uncertainty",
    ),
    (
        "ewma_ucl1",
        "control limits of an EWMA chart: the core averages, it draws no chart limits",
    ),
];

struct Check {
    id: String,
    inputs: Value,
    expected: String,
    tolerance: f64,
    source: String,
}

fn checks() -> Vec<Check> {
    let text = include_str!("../data/checks.csv");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader
        .records()
        .map(|row| {
            let row = row.expect("a row of checks.csv");
            Check {
                id: row[1].to_owned(),
                inputs: serde_json::from_str(&row[2]).expect("inputs are JSON"),
                expected: row[3].to_owned(),
                tolerance: row[4].parse().unwrap_or(0.0),
                source: row[6].to_owned(),
            }
        })
        .collect()
}

#[test]
fn every_published_value_is_met_or_listed_with_a_reason() {
    let checks = checks();
    assert_eq!(checks.len(), 155);
    let mut misses = Vec::new();
    let mut met = 0;
    for check in &checks {
        let listed = NOT_EXPRESSED.iter().any(|(id, _)| *id == check.id);
        match (compute(check), listed) {
            (Some(_), true) => misses.push(format!("{}: computed and yet listed as not expressed", check.id)),
            (None, false) => misses.push(format!("{}: neither computed nor listed", check.id)),
            (None, true) => {}
            (Some(value), false) => {
                let expected: f64 = check.expected.parse().expect("a number");
                let slack = check.tolerance.max(1e-9 * expected.abs());
                if (value - expected).abs() > slack {
                    misses.push(format!(
                        "{}: {value} for {expected} +- {slack} ({})",
                        check.id, check.source
                    ));
                }
                met += 1;
            }
        }
    }
    assert!(misses.is_empty(), "{}", misses.join("\n"));
    assert_eq!(met + NOT_EXPRESSED.len(), checks.len());
}

fn compute(check: &Check) -> Option<f64> {
    let n = |key: &str| check.inputs[key].as_f64().expect("a numeric input");
    let share = |key: &str| Share::new(n(key)).expect("a share");
    let celsius = |key: &str| Temperature::from_celsius(n(key)).expect("a temperature");
    let ppm = |key: &str| Ppm::new(n(key)).expect("ppm");
    let id = check.id.as_str();
    let family = id.split('_').next().unwrap_or(id);
    Some(match (family, id) {
        (_, "rec_30_40") => {
            let gpm = |key| Flow::from_us_gallons_per_minute(n(key)).expect("a flow");
            100.0 * rejection::recovery(gpm("permeate_gpm"), gpm("feed_gpm")).expect("a recovery")
        }
        (_, "logmean_1986_75") => n("Cf_mgL") * rejection::feed_brine_factor(share("Y")).expect("a factor"),
        ("logmean", _) => rejection::feed_brine_factor(share("Y")).expect("a factor"),
        ("tcfdiv", _) => 1.0 / TemperatureFactor::HANDBOOK.at(celsius("T_C")),
        ("tcfmul", _) => TemperatureFactor::HANDBOOK.at(celsius("T_C")),
        ("tcf2700", _) => TemperatureFactor {
            cold: n("U"),
            warm: n("U"),
        }
        .at(celsius("T_C")),
        (_, "tcf_ex_1800_15") => flow_at_15c(n("rated"), celsius("T_C")),
        (_, "ndp_wtpd") => osmosis::net_driving_pressure(&Pressures {
            feed: n("Pf"),
            concentrate: n("Pc"),
            permeate: n("Pp"),
            osmotic_feed_brine: (n("pif") + n("pic")) / 2.0,
            osmotic_permeate: n("pip"),
        }),
        (_, "d4516_ndp_s") => osmosis::net_driving_pressure(&Pressures {
            feed: n("Pf_kPa"),
            concentrate: n("Pf_kPa"),
            permeate: 0.0,
            osmotic_feed_brine: n("pi_fb"),
            osmotic_permeate: 0.05 * n("pi_fb"),
        }),
        (_, "d4516_qratio") => cold_flow_standardised(),
        (_, "wqa_flow_pctC") => {
            100.0 * (TemperatureFactor::HANDBOOK.at(Temperature::from_celsius(26.0).expect("26 C")) - 1.0)
        }
        (_, id) if id.starts_with("astm_pi") => osmosis::osmotic_pressure_kpa(ppm("C_mgL"), celsius("T_C")),
        (_, "factor_050") => MeterFactor::NACL.ppm_per_us(),
        (_, "factor_natural") => MeterFactor::NATURAL.ppm_per_us(),
        (_, "phreeqc442_300") => from_ppm(ppm("ppm442"), MeterFactor::NATURAL),
        (_, "phreeqcNaCl_584") => from_ppm(ppm("NaCl_mgL"), MeterFactor::NACL),
        (_, "eqL_kgr") => 50.0 * n("eq_L") * LITRES_PER_CUBIC_FOOT / GRAMS_PER_GRAIN / 1000.0,
        (_, "fdeg") => 0.010 * n("french_deg") * LITRES_PER_US_GALLON / GRAMS_PER_GRAIN,
        (_, "cap_10kgr_eq") => grams_per_litre(n("gr_ft3")) / 50.0,
        (_, "nile_s2eps") => nile::most_likely().0,
        (_, "nile_s2eta") => nile::most_likely().1,
        (_, "nile_ll_approx") => nile::log_likelihood_approximate(n("P0")),
        (_, "nile_ll_conc") => nile::concentrated_log_likelihood(n("q")),
        (_, id) if id.starts_with("nile_smooth") => nile::smoothed(n("year"), n("s2eps"), n("s2eta")),
        (_, id) if id.starts_with("nile_fc_se") => nile::forecast_error(n("h")),
        (_, id) if id.starts_with("ewma_") && id != "ewma_ucl1" => {
            let upto = MONTGOMERY_9_1.iter().take(n("i") as usize);
            upto.fold(n("z0"), |z, &x| ewma(z, x, n("lambda")))
        }
        (_, id) if id.starts_with("cusum_m") => {
            let upto = MONTGOMERY_9_1.iter().take(n("i") as usize);
            upto.fold(0.0, |sum, &x| page_sum(sum, x - (n("mu") + n("K"))))
        }
        (_, id) if id.starts_with("cusum_nist") => {
            let upto = NIST_6_3_2_3.iter().take(n("i") as usize);
            upto.fold(0.0, |sum, &x| page_sum(sum, x - (n("target") + n("k"))))
        }
        (_, "gal_us") => Volume::from_us_gallons(1.0).expect("a gallon").litres(),
        (_, "gal_imp") => Volume::from_imperial_gallons(1.0).expect("a gallon").litres(),
        _ => return None,
    })
}

fn flow_at_15c(rated_gpd: f64, at: Temperature) -> f64 {
    let pressure = Pressure::from_psi(100.0).expect("a pressure");
    let rated = RatedElement {
        flow: Flow::from_us_gallons_per_day(rated_gpd).expect("a flow"),
        net_pressure: pressure,
        temperature: Temperature::from_celsius(25.0).expect("25 C"),
    };
    expected_flow(&rated, at, pressure)
        .expect("a flow")
        .us_gallons_per_day()
}

fn from_ppm(solids: Ppm, factor: MeterFactor) -> f64 {
    Conductivity::from_ppm(solids, factor)
        .expect("a conductivity")
        .us_per_cm()
}

fn grams_per_litre(grains_per_cubic_foot: f64) -> f64 {
    grains_per_cubic_foot * GRAMS_PER_GRAIN / LITRES_PER_CUBIC_FOOT
}

/// Rated over expected flow in the worked example of the rows `d4516_*`: 10 C, 60 psi,
/// 300 ppm, Y 0.40 against a rating at 25 C, 100 psi, 500 ppm, Y 0.15; no losses.
fn cold_flow_standardised() -> f64 {
    let net = |c: f64, psi: f64, ppm: f64, y: f64| {
        let celsius = Temperature::from_celsius(c).expect("a temperature");
        let gauge = Pressure::from_psi(psi).expect("a pressure");
        let share = Share::new(y).expect("a recovery");
        let net = net_pressure(gauge, Ppm::new(ppm).expect("ppm"), celsius, Some(share)).expect("a pressure");
        (celsius, net)
    };
    let ((cold, cold_net), (warm, warm_net)) = (net(10.0, 60.0, 300.0, 0.40), net(25.0, 100.0, 500.0, 0.15));
    let rated = RatedElement {
        flow: Flow::from_litres_per_minute(5.0).expect("a flow"),
        net_pressure: warm_net,
        temperature: warm,
    };
    let expected = expected_flow(&rated, cold, cold_net).expect("a flow");
    5.0 / expected.litres_per_minute()
}

/// ln(salt passage) by solution-diffusion without polarisation, Js = B (Cm - Cp),
/// Jw = A (P - pi): B/(Jw + B) (Water Treatment Plant Design, ch. 13).
fn solution_diffusion(water: f64, salt: f64, pressure_bar: f64, osmotic_bar: f64) -> f64 {
    (salt / (water * (pressure_bar - osmotic_bar) + salt)).ln()
}

#[test]
fn the_reference_formula_meets_its_published_values() {
    // A 4 LMH/bar, B 0.35 LMH, osmotic 0.4 bar: 97.6271, 98.6916 and 99.0968 % at 4, 7 and 10 bar.
    for (bar, rejection) in [(4.0, 97.6271), (7.0, 98.6916), (10.0, 99.0968)] {
        let passage = solution_diffusion(4.0, 0.35, bar, 0.4).exp();
        assert!((100.0 * (1.0 - passage) - rejection).abs() < 1e-3, "{bar}");
    }
}

#[test]
fn the_temperature_rule_lies_between_the_published_two_and_three_percent() {
    use tapside::water::observation::log_passage_warmer;
    // WQA Education Kit, vol. X art. 4: salt flux 6 %/C over water flux 3 %/C, 1.0291 a degree;
    // 2 %/C is the lower end in print. Over 4 to 26 C ours is at most 3.2% above the one and 9.2%
    // under the other (both at 26 C), and exact at 12 C.
    let (mut most, mut least) = (0.0_f64, 0.0_f64);
    for c in 4..=26 {
        let warmer = f64::from(c) - 12.0;
        let ours = log_passage_warmer(f64::from(c));
        let ends = [1.02_f64.ln() * warmer, (1.06_f64 / 1.03).ln() * warmer];
        assert!((ends[0].min(ends[1])..=ends[0].max(ends[1])).contains(&ours), "{c} C");
        most = most.max((ours - ends[0]).exp() - 1.0);
        least = least.min((ours - ends[1]).exp() - 1.0);
    }
    assert!(most < 0.032 && least > -0.092, "{most} {least}");
}

#[test]
fn the_pressure_rule_is_within_nine_percent_of_solution_diffusion() {
    use tapside::water::observation::LOG_PASSAGE_PER_LOG_PRESSURE;
    // Taps of 2.5 to 6 bar about a usual 4, 0.15 bar of osmotic pressure (200 ppm), membranes
    // that pass 3 to 25 % at 4 bar. The rule suits a worn membrane best: a new one follows the
    // pressure more closely, a spent one less.
    let mut worst = 0.0_f64;
    for passage in [0.03, 0.05, 0.10, 0.15, 0.20, 0.25] {
        let salt = 3.85 * passage / (1.0 - passage);
        for tenths in 25..=60 {
            let bar = f64::from(tenths) / 10.0;
            let exact = solution_diffusion(1.0, salt, bar, 0.15) - solution_diffusion(1.0, salt, 4.0, 0.15);
            let rule = -LOG_PASSAGE_PER_LOG_PRESSURE * (bar / 4.0).ln();
            worst = worst.max(((rule - exact).exp() - 1.0).abs());
        }
    }
    assert!(worst < 0.09, "{worst}");
}

#[test]
fn the_osmotic_pressure_is_within_five_percent_of_an_outside_library() {
    // pyEQL 1.7.0, Solution.osmotic_pressure of NaCl, bar: mg/L, C.
    for (ppm, c, bar) in [
        (250.0, 25.0, 0.20735),
        (750.0, 25.0, 0.61391),
        (500.0, 20.0, 0.4047),
        (2000.0, 10.0, 1.53351),
    ] {
        let celsius = Temperature::from_celsius(c).expect("a temperature");
        let ours = osmosis::osmotic_pressure_kpa(Ppm::new(ppm).expect("ppm"), celsius) / 100.0;
        assert!((ours / bar - 1.0).abs() < 0.05, "{ppm} ppm: {ours} for {bar}");
    }
}

#[test]
fn the_flow_curve_is_near_other_published_ones() {
    // US Army TM 10-4610-309-14, WP 0083, table 3 (40, 68, 85 F); ASTM D4516's default,
    // 1.03 a degree from 25 C (20 and 30 C).
    let c = |f: f64| (f - 32.0) / 1.8;
    for (celsius, factor, within) in [
        (c(40.0), 0.57, 0.18),
        (c(68.0), 0.87, 0.04),
        (c(85.0), 1.13, 0.02),
        (20.0, 0.86261, 0.03),
        (30.0, 1.15927, 0.01),
    ] {
        let ours = TemperatureFactor::HANDBOOK.at(Temperature::from_celsius(celsius).expect("a temperature"));
        assert!((ours / factor - 1.0).abs() < within, "{celsius} C: {ours} for {factor}");
    }
}
