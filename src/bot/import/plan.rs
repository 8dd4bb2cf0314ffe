//! What an import would change: which rows are new, which are here already,
//! which rigs there are not yet. Looks and changes nothing.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use jiff::tz::TimeZone;

use crate::domain::ServiceKind;
use crate::grammar::without_article;
use crate::intake::{Intake, Moment, ReadingRow, RigRow, Row, ServiceRow};
use crate::store::{self, Db, StoreError};

use crate::bot::request::Request;
use crate::bot::retention::kept_since;
use crate::bot::rig_names::{fold, proper_name};
use crate::bot::rules::Rules;

/// A clock that is ahead is forgiven so much, in seconds.
const AHEAD: i64 = 86_400;

/// What an import would change.
#[derive(Debug, Default)]
pub struct Plan {
    /// Rows that are not here yet, at their instants.
    pub readings: Vec<(i64, ReadingRow)>,
    /// Rows that are not here yet, at their instants.
    pub services: Vec<(i64, ServiceRow)>,
    /// Rigs whose traits are told.
    pub rigs: Vec<RigRow>,
    /// Rigs that are not on the fleet, by folded name: a number below zero, and the name.
    pub new_rigs: BTreeMap<String, (i64, String)>,
    /// Rows that are here already, or twice among themselves.
    pub known: usize,
    /// Rows that lie in the future.
    pub ahead: usize,
    /// Rows that are older than what is kept.
    pub too_old: usize,
    /// Rows whose rig has a name that no rig can have.
    pub misnamed: usize,
}

impl Plan {
    /// Whether it would change nothing.
    pub fn is_nothing(&self) -> bool {
        self.readings.is_empty() && self.services.is_empty() && self.rigs.is_empty()
    }

    /// From when to when its rows are, if it has any with a time.
    pub fn span(&self) -> Option<(i64, i64)> {
        let times = || {
            let readings = self.readings.iter().map(|(at, _)| *at);
            readings.chain(self.services.iter().map(|(at, _)| *at))
        };
        times().min().zip(times().max())
    }
}

/// What tells a reading from another: rig, instant and figures to the last bit.
type ReadingKey = (i64, i64, u64, Option<u64>, Option<u64>);

/// Plans an import.
pub(in crate::bot) async fn of(db: &mut Db, on: &Request<'_>, intake: &Intake) -> Result<Plan, StoreError> {
    let rigs: HashMap<String, i64> = on.fleet.iter().map(|rig| (fold(&rig.name), rig.id)).collect();
    let readings = store::readings::of_outfit(db, on.outfit.id).await?;
    let services = store::services::of_outfit(db, on.outfit.id).await?;
    let bits = |number: Option<f64>| number.map(f64::to_bits);
    let mut read: HashSet<ReadingKey> = readings
        .iter()
        .filter(|kept| kept.withdrawn_at.is_none())
        .map(|kept| {
            let figures = (kept.feed_ppm.to_bits(), bits(kept.permeate_ppm), bits(kept.product_ppm));
            (kept.rig_id, kept.taken_at, figures.0, figures.1, figures.2)
        })
        .collect();
    let mut done: HashSet<(i64, i64, ServiceKind)> = services
        .iter()
        .filter(|kept| kept.withdrawn_at.is_none())
        .map(|kept| (kept.rig_id, kept.done_at, kept.what))
        .collect();
    let kept_since = kept_since(on).unwrap_or(i64::MIN);
    let mut plan = Plan::default();
    let mut traits = BTreeSet::new();
    for row in &intake.rows {
        let written = match row {
            Row::Reading(row) => &row.rig,
            Row::Service(row) => &row.rig,
            Row::Rig(row) => &row.name,
        };
        // "la Nutria" is Nutria, where there is one and no rig with the longer name.
        let bare = without_article(written);
        let name = match rigs.contains_key(&fold(written)) || !rigs.contains_key(&fold(bare)) {
            true => written.as_str(),
            false => bare,
        };
        let Some(proper) = proper_name(name) else {
            plan.misnamed += 1;
            continue;
        };
        let folded = fold(name);
        // A rig that is not here yet has a number of its own, below zero.
        let rig = match rigs.get(&folded) {
            Some(rig) => *rig,
            None => {
                let next = -1 - plan.new_rigs.len() as i64;
                plan.new_rigs.entry(folded.clone()).or_insert((next, proper)).0
            }
        };
        match row {
            Row::Reading(row) => {
                let at = instant(&on.zone, row.at);
                let key = (
                    rig,
                    at,
                    row.feed_ppm.to_bits(),
                    bits(row.permeate_ppm),
                    bits(row.product_ppm),
                );
                if at > on.now + AHEAD {
                    plan.ahead += 1;
                } else if at < kept_since {
                    plan.too_old += 1;
                } else if read.insert(key) {
                    plan.readings.push((at, in_our_degrees(&on.rules, row, name)));
                } else {
                    plan.known += 1;
                }
            }
            Row::Service(row) => {
                let at = instant(&on.zone, row.at);
                if at > on.now + AHEAD {
                    plan.ahead += 1;
                } else if at < kept_since {
                    plan.too_old += 1;
                } else if done.insert((rig, at, row.what)) {
                    plan.services.push((at, in_our_currency(&on.rules, row, name)));
                } else {
                    plan.known += 1;
                }
            }
            Row::Rig(row) => {
                let same = on.fleet.iter().any(|rig| {
                    fold(&rig.name) == folded && (rig.di_only, rig.flushes_itself) == (row.di_only, row.flushes_itself)
                });
                if same || !traits.insert(folded) {
                    plan.known += 1;
                } else {
                    plan.rigs.push(RigRow {
                        name: name.to_owned(),
                        ..*row
                    });
                }
            }
        }
    }
    Ok(plan)
}

/// The row of a rig; a temperature without a unit is in the outfit's degrees.
fn in_our_degrees(rules: &Rules, row: &ReadingRow, rig: &str) -> ReadingRow {
    let celsius = |degrees: f64| {
        if rules.celsius() {
            degrees
        } else {
            (degrees - 32.0) / 1.8
        }
    };
    ReadingRow {
        rig: rig.to_owned(),
        temperature_c: row.temperature_c.or(row.temperature.map(celsius)),
        ..row.clone()
    }
}

/// The row of a rig; a price is in the outfit's currency.
fn in_our_currency(rules: &Rules, row: &ServiceRow, rig: &str) -> ServiceRow {
    ServiceRow {
        rig: rig.to_owned(),
        price_minor: row.price_minor.or(row.price.and_then(|price| rules.minor(price))),
        ..row.clone()
    }
}

/// A row's instant; a clock on the wall hangs where the outfit is.
fn instant(zone: &TimeZone, at: Moment) -> i64 {
    match at {
        Moment::Instant(at) => at,
        Moment::Local(local) => zone
            .to_ambiguous_zoned_datetime(local)
            .compatible()
            .map_or(i64::MAX, |at| at.timestamp().as_second()),
    }
}
