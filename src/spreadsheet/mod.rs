//! `tapside assess`: bring your own spreadsheet, no bot needed.
//!
//! The rim of the computation: files in, lines out. Bad rows are named by file,
//! line and column, counted and skipped.

mod answer;
mod cell;
mod sheet;
mod table;
mod timeline;

use std::fs::File;
use std::io::Write;
use std::path::{Path, PathBuf};

use sheet::{Asked, Fleet, Query, Texts, Troubles};

/// What `tapside assess` is told.
#[derive(Clone, Debug, clap::Args)]
pub struct AssessArgs {
    /// Readings: rig,time,feed_ppm,permeate_ppm,product_ppm,temp_c,pressure_kpa,litres
    /// (times ISO 8601 with offset; the last four may be empty)
    #[arg(long, value_name = "FILE")]
    pub readings: PathBuf,
    /// Services: rig,time,what,cost with what = membrane, resin, repack, prefilter, flush or oring
    #[arg(long, value_name = "FILE")]
    pub services: Option<PathBuf>,
    /// Rigs: rig,membrane_price,resin_price_per_litre,resin_litres,labour_per_resin_change,
    /// labour_per_membrane,litres_per_workday,workdays_per_week
    #[arg(long, value_name = "FILE")]
    pub rigs: Option<PathBuf>,
    /// Questions: rig,as_of; each is answered from what was known then
    #[arg(long, value_name = "FILE", conflicts_with = "as_of")]
    pub queries: Option<PathBuf>,
    /// Answer for every rig as of this date (default: the last reading)
    #[arg(long, value_name = "DATE")]
    pub as_of: Option<String>,
    /// One line of JSON per query
    #[arg(long)]
    pub json: bool,
    /// One line of JSON per reading, telling whether it was set aside; into FILE if one is named
    #[arg(long, value_name = "FILE", num_args = 0..=1)]
    pub readings_json: Option<Option<PathBuf>>,
}

/// Runs `tapside assess`; returns the exit code: 0, or 1 when no reading could be
/// read or the output could not be written.
pub fn run(args: &AssessArgs, out: &mut dyn Write, err: &mut dyn Write) -> u8 {
    match assess_files(args, out, err) {
        Ok(code) => code,
        // A closed pipe (head, less) is the reader's choice, not a fault.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => 0,
        Err(error) => {
            let _ = writeln!(err, "could not write the answer: {error}");
            1
        }
    }
}

fn assess_files(args: &AssessArgs, out: &mut dyn Write, err: &mut dyn Write) -> std::io::Result<u8> {
    let mut troubles = Troubles::new(err);
    let mut fleet = Fleet::default();
    fleet.times = args.readings_json.is_some().then(Texts::default);
    let mut load = |path: &Path, read: &mut dyn FnMut(File, &str, &mut Troubles)| match File::open(path) {
        Ok(file) => read(file, &path.display().to_string(), &mut troubles),
        Err(error) => troubles.file(&path.display().to_string(), &format!("cannot be opened ({error})")),
    };
    // What is asked comes first: an event long after it, and after today, is a slip of the date.
    let mut asked = Vec::new();
    if let Some(path) = &args.queries {
        load(path, &mut |file, name, troubles| {
            sheet::read_queries(file, name, &mut fleet, &mut asked, troubles)
        });
    }
    let day = args.as_of.as_ref().map(|day| (day, cell::as_of(day)));
    let days = day.iter().filter_map(|(_, as_of)| as_of.as_ref().ok().copied());
    fleet.latest = sheet::latest(asked.iter().map(Asked::as_of).chain(days), clock());
    load(&args.readings, &mut |file, name, troubles| {
        sheet::read_readings(file, name, &mut fleet, troubles)
    });
    if let Some(path) = &args.services {
        load(path, &mut |file, name, troubles| {
            sheet::read_services(file, name, &mut fleet, troubles)
        });
    }
    if let Some(path) = &args.rigs {
        load(path, &mut |file, name, troubles| {
            sheet::read_rigs(file, name, &mut fleet, troubles)
        });
    }
    let queries: Vec<Query> = match &day {
        Some((written, Ok(as_of))) => sheet::ask_every_rig(&fleet, written, *as_of),
        Some((written, Err(why))) => {
            troubles.file("--as-of", &format!("{written:?} {why}"));
            Vec::new()
        }
        None if args.queries.is_none() => sheet::ask_at_last_reading(&fleet),
        None => fleet.place(asked),
    };
    troubles.finish()?;
    if fleet.readings.is_empty() {
        writeln!(err, "no reading could be read from {}", args.readings.display())?;
        return Ok(1);
    }
    let told = timeline::run(&fleet, &queries);
    let only_readings = args.readings_json.is_some() && !args.json;
    if args.json {
        for (query, answer) in queries.iter().zip(&told.answers) {
            writeln!(
                out,
                "{}",
                answer::line(&fleet.names[query.rig], query, answer, fleet.offset_of(query.rig))
            )?;
        }
    } else if !only_readings {
        table::write(out, &fleet, &queries, &told)?;
    }
    match &args.readings_json {
        None => {}
        Some(None) => answer::reading_lines(out, &fleet, &told.set_aside)?,
        Some(Some(path)) => {
            let mut file = std::io::BufWriter::new(File::create(path)?);
            answer::reading_lines(&mut file, &fleet, &told.set_aside)?;
            file.flush()?;
        }
    }
    out.flush()?;
    Ok(0)
}

/// Now, UTC seconds; a clock that was never set says nothing, and forbids no date.
fn clock() -> i64 {
    const NEVER_SET: i64 = 1_600_000_000;
    let now = crate::clock::now();
    if now < NEVER_SET { i64::MAX } else { now }
}
