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

use sheet::{Fleet, Query, Troubles};

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
    let mut troubles = Troubles::default();
    let mut fleet = Fleet::default();
    let mut load = |path: &Path, read: &mut dyn FnMut(File, &str, &mut Troubles)| match File::open(path) {
        Ok(file) => read(file, &path.display().to_string(), &mut troubles),
        Err(error) => troubles.file(&path.display().to_string(), &format!("cannot be opened ({error})")),
    };
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
    let mut queries: Vec<Query> = Vec::new();
    if let Some(path) = &args.queries {
        load(path, &mut |file, name, troubles| {
            sheet::read_queries(file, name, &mut fleet, &mut queries, troubles)
        });
    }
    if let Some(day) = &args.as_of {
        match cell::as_of(day) {
            Ok(as_of) => queries = sheet::ask_every_rig(&fleet, day, as_of),
            Err(why) => troubles.file("--as-of", &format!("{day:?} {why}")),
        }
    } else if args.queries.is_none() {
        queries = sheet::ask_at_last_reading(&fleet);
    }
    troubles.tell(err)?;
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
