//! `tapside assess`, through files.

use std::path::PathBuf;

use serde_json::Value;
use tapside::spreadsheet::{AssessArgs, run};

struct Told {
    code: u8,
    out: String,
    err: String,
}

impl Told {
    fn lines(&self) -> Vec<Value> {
        self.out
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }
}

/// A directory of this test's own, gone when it ends.
struct Desk(PathBuf);

impl Desk {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("tapside-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn file(&self, name: &str, text: &str) -> PathBuf {
        let path = self.0.join(name);
        std::fs::write(&path, text).unwrap();
        path
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn args(readings: PathBuf) -> AssessArgs {
    AssessArgs {
        readings,
        services: None,
        rigs: None,
        queries: None,
        as_of: None,
        json: false,
        readings_json: None,
    }
}

fn tell(args: &AssessArgs) -> Told {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = run(args, &mut out, &mut err);
    Told {
        code,
        out: String::from_utf8(out).unwrap(),
        err: String::from_utf8(err).unwrap(),
    }
}

const HEAD: &str = "rig,time,feed_ppm,permeate_ppm,product_ppm,temp_c,pressure_kpa,litres\n";

/// Heron, read every third day of 2025 while it wears from 95% by 0.9 a year.
fn heron() -> String {
    let mut text = HEAD.to_owned();
    for i in 0..120 {
        let day = 1 + i * 3;
        let date = chrono::NaiveDate::from_yo_opt(2025, day).unwrap();
        let permeate = 400.0 * 0.05 * (0.9 * f64::from(day) / 365.25).exp();
        text += &format!("Heron,{date}T08:00:00+01:00,400,{permeate:.0},,,,\n");
    }
    text
}

const RIGS: &str = "rig,membrane_price,resin_price_per_litre,resin_litres,labour_per_resin_change,labour_per_membrane,litres_per_workday,workdays_per_week
Heron,400,6,10,20,50,500,5
";

#[test]
fn each_query_is_answered_in_order_from_what_was_known_then() {
    let desk = Desk::new("queries");
    let mut args = args(desk.file("R.csv", &heron()));
    args.services = Some(desk.file(
        "S.csv",
        "rig,time,what,cost\nHeron,2025-01-01T07:00:00+01:00,membrane,400\nHeron,2025-12-20T09:00:00+01:00,resin,\n",
    ));
    args.rigs = Some(desk.file("G.csv", RIGS));
    let queries = "rig,as_of\nHeron,2025-12-22\nHeron,2025-02-01T07:00:00+01:00\nNobody,2025-12-22\n";
    args.queries = Some(desk.file("Q.csv", queries));
    args.json = true;
    let told = tell(&args);
    assert_eq!((told.code, told.err.as_str()), (0, ""));
    let lines = told.lines();
    assert_eq!(lines.len(), 3);
    let keys: Vec<&String> = lines[0].as_object().unwrap().keys().collect();
    let mut wanted = [
        "rig",
        "as_of",
        "rejection_now",
        "rejection_low",
        "rejection_high",
        "crosses_80_on",
        "replace_on",
        "fault",
        "di_empty_on",
        "state",
    ];
    wanted.sort_unstable();
    assert_eq!(keys, wanted);
    assert_eq!(
        (&lines[0]["rig"], &lines[0]["as_of"]),
        (&Value::from("Heron"), &Value::from("2025-12-22"))
    );
    // 0.05 exp(0.9 x 356/365.25) = 0.1202.
    assert!((lines[0]["rejection_now"].as_f64().unwrap() - 0.880).abs() < 0.01);
    assert_eq!(lines[0]["replace_on"], "2025-12-22", "{}", told.out);
    assert_eq!(lines[0]["fault"], Value::Bool(false));
    assert_eq!(lines[0]["state"], "fading");
    assert!(lines[0]["crosses_80_on"].as_str().unwrap() > "2026-03-01");
    assert!(lines[0]["di_empty_on"].as_str().unwrap() > "2025-12-22");
    // In February nothing of what came later is known.
    assert!((lines[1]["rejection_now"].as_f64().unwrap() - 0.947).abs() < 0.01);
    assert_eq!(
        (&lines[1]["crosses_80_on"], &lines[1]["replace_on"]),
        (&Value::Null, &Value::Null)
    );
    assert_eq!(
        (&lines[2]["rejection_now"], &lines[2]["state"]),
        (&Value::Null, &Value::from("unproven"))
    );
}

#[test]
fn the_last_query_does_not_depend_on_later_rows() {
    let desk = Desk::new("causal");
    let whole = heron();
    let half: String = whole.lines().take(61).map(|line| format!("{line}\n")).collect();
    let ask = |name: &str, text: &str| {
        let mut args = args(desk.file(name, text));
        args.as_of = Some("2025-06-27T12:00:00+01:00".to_owned());
        args.json = true;
        tell(&args).out
    };
    assert_eq!(ask("whole.csv", &whole), ask("half.csv", &half));
}

#[test]
fn what_happened_at_the_very_instant_of_a_query_was_known_then() {
    let desk = Desk::new("instant");
    let rows = "Heron,2025-06-02T08:00:00+01:00,400,20,,,,\n";
    let mut args = args(desk.file("R.csv", &format!("{HEAD}{rows}")));
    args.services = Some(desk.file(
        "S.csv",
        "rig,time,what,cost\nHeron,2025-06-02T08:00:00+01:00,membrane,400\n",
    ));
    args.queries = Some(desk.file(
        "Q.csv",
        "rig,as_of\nHeron,2025-06-02T07:00:00Z\nHeron,2025-06-02T06:59:59Z\n",
    ));
    args.json = true;
    let lines = tell(&args).lines();
    assert!((lines[0]["rejection_now"].as_f64().unwrap() - 0.95).abs() < 0.01);
    assert_eq!(lines[1]["rejection_now"], Value::Null);
}

#[test]
fn bad_rows_are_named_counted_and_skipped() {
    let desk = Desk::new("bad");
    let rows = "Heron,yesterday,400,20,,,,\nHeron,2025-12-30T08:00:00+01:00,4oo,20,,,,\nHeron,2025-12-30,400,20,,,,\n\
                Heron,2025-12-30T08:00:00+01:00,400,,,,,\nHeron,2025-12-30T08:00:00+01:00,400,20,,250,,\n,2025-12-30T08:00:00+01:00,400,20,,,,\n";
    let path = desk.file("R.csv", &(heron() + rows));
    let told = tell(&args(path.clone()));
    assert_eq!(told.code, 0);
    for (line, column) in [
        (122, "time"),
        (123, "feed_ppm"),
        (124, "time"),
        (125, "permeate_ppm"),
        (126, "temp_c"),
        (127, "rig"),
    ] {
        let named = format!("{}, line {line}, column {column}: ", path.display());
        assert!(told.err.contains(&named), "{named} not in {}", told.err);
    }
    assert!(told.err.ends_with("6 rows skipped\n"), "{}", told.err);
    assert!(told.out.starts_with("rig "), "{}", told.out);
}

#[test]
fn the_exit_code_is_one_only_when_nothing_could_be_read() {
    let desk = Desk::new("nothing");
    assert_eq!(tell(&args(desk.file("empty.csv", HEAD))).code, 1);
    assert_eq!(tell(&args(desk.0.join("missing.csv"))).code, 1);
    assert_eq!(tell(&args(desk.file("odd.csv", "name,when\na,b\n"))).code, 1);
    let mut one = args(desk.file("R.csv", &heron()));
    one.services = Some(desk.0.join("missing.csv"));
    let told = tell(&one);
    assert_eq!(told.code, 0);
    assert!(told.err.contains("missing.csv: cannot be opened"));
}

#[test]
fn each_reading_says_whether_it_was_set_aside() {
    let desk = Desk::new("readings");
    let path = desk.file(
        "R.csv",
        &(heron() + "Heron,2025-12-28T08:00:00+01:00,49,400,,,,\nHeron,2025-12-29T08:00:00+01:00,400,490,,,,\n"),
    );
    let mut args = args(path);
    args.readings_json = Some(None);
    let told = tell(&args);
    let lines = told.lines();
    assert_eq!(lines.len(), 122);
    assert_eq!(lines[121]["time"], "2025-12-29T08:00:00+01:00");
    let rejected: Vec<bool> = lines.iter().map(|line| line["rejected"].as_bool().unwrap()).collect();
    assert_eq!(rejected.iter().filter(|&&r| r).count(), 2, "{rejected:?}");
    assert!(rejected[120] && rejected[121]);
}

#[test]
fn a_sheet_of_semicolons_and_decimal_commas_reads_the_same() {
    let desk = Desk::new("semicolons");
    let plain = heron().replace("08:00:00+01:00,400,", "08:00:00+01:00,400.5,");
    let european = plain.replace(',', ";").replace("400.5", "400,5");
    let mut one = args(desk.file("a.csv", &plain));
    let mut other = args(desk.file("b.csv", &format!("\u{feff}{european}")));
    (one.json, other.json) = (true, true);
    assert_eq!(tell(&one).out, tell(&other).out);
    assert_eq!(tell(&one).lines().len(), 1);
}

#[test]
fn a_rig_without_an_ro_outlet_is_di_only() {
    let desk = Desk::new("di");
    let rows = "Otter,2025-06-02T08:00:00Z,150,,0,,,\nOtter,2025-06-09T08:00:00Z,150,,4,,,\n";
    let mut args = args(desk.file("R.csv", &format!("{HEAD}{rows}")));
    args.services = Some(desk.file("S.csv", "rig,time,what,cost\nOtter,2025-06-01,resin,80\n"));
    args.rigs = Some(desk.file(
        "G.csv",
        "rig,resin_litres,litres_per_workday,workdays_per_week\nOtter,10,150,5\n",
    ));
    args.json = true;
    let lines = tell(&args).lines();
    assert_eq!(
        (&lines[0]["state"], &lines[0]["rejection_now"]),
        (&Value::Null, &Value::Null)
    );
    assert!(lines[0]["di_empty_on"].as_str().unwrap() >= "2025-06-09");
}

#[test]
fn a_year_beyond_sense_is_a_bad_row_and_moves_no_date() {
    let desk = Desk::new("years");
    let slips = "Heron,2126-03-02T08:00:00+01:00,400,20,,,,\nHeron,1926-03-02T08:00:00+01:00,400,20,,,,\n";
    let path = desk.file("R.csv", &(heron() + slips));
    let mut slipped = args(path.clone());
    slipped.services = Some(desk.file("S.csv", "rig,time,what,cost\nHeron,2205-01-01,membrane,\n"));
    let mut plain = args(desk.file("P.csv", &heron()));
    (slipped.json, plain.json) = (true, true);
    let told = tell(&slipped);
    assert_eq!(told.out, tell(&plain).out);
    for line in [122, 123] {
        let named = format!("{}, line {line}, column time: ", path.display());
        assert!(told.err.contains(&named), "{}", told.err);
    }
    assert!(told.err.ends_with("3 rows skipped\n"), "{}", told.err);
    // Asked about in advance, a date ahead of today is no slip.
    let ahead = heron().replace(",2025-", ",2095-");
    let mut asked = args(desk.file("A.csv", &ahead));
    asked.as_of = Some("2095-12-31".to_owned());
    assert_eq!(tell(&asked).err, "");
}
