//! Who logged what.

use crate::grammar::{Span, What};
use crate::replies::comparing::{self, Logged};
use crate::schedule;
use crate::store::{self, Db, StoreError};

use super::answer::Answer;
use super::request::Request;
use super::spans::days_of;

/// Who sent how many readings and services of which rigs; this week if no
/// time is said.
pub(super) async fn who_logged(
    db: &mut Db,
    on: &Request<'_>,
    rig: Option<i64>,
    span: Option<Span>,
) -> Result<Answer, StoreError> {
    let today = on.today();
    let (from, to) = days_of(span.or(Some(Span::ThisWeek)), today);
    let start = schedule::day_start(&on.zone, from).unwrap_or(0);
    let end = to.tomorrow().ok().and_then(|day| schedule::day_start(&on.zone, day));
    let counts = store::readings::counts(db, on.outfit.id, start, end.unwrap_or(on.now)).await?;
    let mut people: Vec<(i64, Logged)> = Vec::new();
    for count in counts {
        let Some(known) = on.rig(count.rig_id) else {
            continue;
        };
        if rig.is_some_and(|id| id != known.id) {
            continue;
        }
        let row = (known.name.clone(), count.logged);
        match people.last_mut() {
            Some((person, logged)) if *person == count.person_id => logged.rigs.push(row),
            _ => people.push((
                count.person_id,
                Logged {
                    name: count.first_name.filter(|name| !name.is_empty()),
                    rigs: vec![row],
                },
            )),
        }
    }
    let people: Vec<Logged> = people.into_iter().map(|(_, logged)| logged).collect();
    Ok(Answer::says(comparing::who(on.words, &people, (from, to), today)))
}

/// Who last did something, rig by rig.
pub(super) async fn who_did(db: &mut Db, on: &Request<'_>, rig: Option<i64>, what: What) -> Result<Answer, StoreError> {
    let mut done = Vec::new();
    for one in on.fleet.iter().filter(|one| rig.is_none_or(|id| id == one.id)) {
        let last = store::services::last_done_by(db, one.id, what).await?;
        done.extend(last.map(|(at, name)| (one.name.clone(), on.date(at), name.filter(|name| !name.is_empty()))));
    }
    Ok(Answer::says(comparing::who_did(on.words, &done, on.today())))
}
