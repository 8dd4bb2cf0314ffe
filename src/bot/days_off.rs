//! Time off: noted, ended, told.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::digest::season;
use crate::domain::RigId;
use crate::domain::time_off::{Ahead, Said, TimeOff, Until, Whose};
use crate::grammar::Meaning;
use crate::message::setting::Field;
use crate::replies::caution::Occasion;
use crate::replies::days_off as worded;
use crate::store::readings::Reading;
use crate::store::rigs::Rig;
use crate::store::{self, Db, StoreError};
use crate::water::days_off::{self, DaysOff};

use super::act::Act;
use super::answer::{Answer, Press};
use super::refusals::may_not;
use super::request::Request;
use super::scene::CORRECTABLE;
use super::setting_values::put;

/// Nobody plans further ahead, nor longer.
const MOST_DAYS: i64 = 400;

/// Buttons below a question.
const MOST_RIGS: usize = 2;

/// Notes what a message tells of time off, and answers it.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn take(db: &mut Db, on: &mut Request<'_>, told: &[TimeOff]) -> Result<Answer, StoreError> {
    let mut answer = Answer::default();
    for one in told {
        let said = take_one(db, on, one).await?;
        answer.and(said);
    }
    answer.parts.dedup();
    answer.occasions.dedup();
    Ok(answer)
}

async fn take_one(db: &mut Db, on: &mut Request<'_>, told: &TimeOff) -> Result<Answer, StoreError> {
    let (leads, group) = (on.member.role.leads(), on.incoming.chat.group);
    let rig = match told.whose {
        Whose::Rig(id) => match on.rig(id) {
            Some(rig) => Some(rig.clone()),
            None => return Ok(Answer::silence()),
        },
        Whose::Outfit if leads => None,
        Whose::Unsaid if leads && !group => None,
        _ if group => return Ok(Answer::silence()),
        Whose::Outfit => return Ok(may_not(on.words, "who-leads")),
        Whose::Unsaid | Whose::Sender => return Ok(who(on, told)),
    };
    let id = rig.as_ref().map(|rig| rig.id);
    let Said::Off { from, until, why } = told.said else {
        end(db, on, rig.as_ref(), on.today()).await?;
        let name = rig.as_ref().map(|rig| rig.name.as_str());
        return Ok(Answer::says(worded::back(on.words, name)));
    };
    let Some((from, back)) = days(from, until, on.today()) else {
        return Ok(Answer::says(on.words.plain("time-off-when")));
    };
    if rig.is_none() && back.is_none() {
        return Ok(Answer::says(on.words.plain("time-off-until-when")));
    }
    let span = DaysOff { from, back, why };
    if on.rules.time_off(id).contains(&span) {
        let words = worded::noted(on.words, rig.as_ref().map(|rig| rig.name.as_str()), &span, on.today());
        return Ok(Answer::says(
            on.words.say("time-off-already", [("told", (&words).into())]),
        ));
    }
    let spans = Field::TimeOff.to(days_off::with(on.rules.time_off(id), span));
    put(db, on, Field::TimeOff, Some(&spans), rig.as_ref()).await?;
    let name = rig.as_ref().map(|rig| rig.name.as_str());
    let mut answer = Answer::says(worded::noted(on.words, name, &span, on.today()));
    let stands = |rig: &Rig| !rig.di_only;
    let has_membrane = rig.as_ref().map_or(on.fleet.iter().any(stands), stands);
    if span.is_long() {
        if has_membrane {
            answer.parts.push(on.words.plain("time-off-care"));
        }
        let cold = season::in_frost_season(from, on.rules.is_southern())
            || span
                .last()
                .is_some_and(|last| season::in_frost_season(last, on.rules.is_southern()));
        answer.occasions.push(Occasion::Stands { cold });
    }
    Ok(answer)
}

/// "Who's off?", with what would say so.
fn who(on: &Request<'_>, told: &TimeOff) -> Answer {
    let mut answer = Answer::says(on.words.plain("time-off-who"));
    let Said::Off { from, until, why } = told.said else {
        return answer;
    };
    // A button may be pressed on another day.
    let Some((from, back)) = days(from, until, on.today()) else {
        return Answer::says(on.words.plain("time-off-when"));
    };
    let act = |whose| {
        let until = back.map_or(Until::Open, |back| Until::Back(on_date(back)));
        Act::Meaning(Meaning {
            time_off: vec![TimeOff {
                whose,
                said: Said::Off {
                    from: Some(on_date(from)),
                    until,
                    why,
                },
            }],
            ..Meaning::default()
        })
    };
    let mut rigs: Vec<&Rig> = on.fleet.iter().collect();
    rigs.sort_by_key(|rig| on.member.own_rig != Some(rig.id));
    let rig = |rig: &&Rig| Press {
        label: rig.name.clone(),
        act: act(Whose::Rig(rig.id)),
    };
    answer.buttons.extend(rigs.iter().take(MOST_RIGS).map(rig));
    if on.member.role.leads() {
        answer.buttons.push(Press {
            label: on.words.plain("time-off-everybody"),
            act: act(Whose::Outfit),
        });
    }
    answer
}

fn on_date(date: Date) -> Ahead {
    Ahead::On(
        Some(date.year()),
        date.month().unsigned_abs(),
        date.day().unsigned_abs(),
    )
}

/// Ends what is off on a day: it is a day of work.
async fn end(db: &mut Db, on: &mut Request<'_>, rig: Option<&Rig>, day: Date) -> Result<(), StoreError> {
    let spans = days_off::ended(on.rules.time_off(rig.map(|rig| rig.id)), day);
    let setting = (!spans.is_empty()).then(|| Field::TimeOff.to(spans));
    put(db, on, Field::TimeOff, setting.as_ref(), rig).await
}

/// The span of its own in which a rig is on a day.
pub(super) fn own_span(on: &Request<'_>, rig: RigId, day: Date) -> Option<DaysOff> {
    let spans = on.rules.time_off(Some(rig)).iter();
    spans.copied().find(|span| span.holds(day))
}

/// A reading says that its rig works again: the lines to say so.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn back_by_reading(
    db: &mut Db,
    on: &mut Request<'_>,
    readings: &[Reading],
) -> Result<Answer, StoreError> {
    let mut answer = Answer::default();
    for reading in readings {
        let day = on.date(reading.taken_at);
        let Some(span) = own_span(on, reading.rig_id, day) else {
            continue;
        };
        let Some(rig) = on.rig(reading.rig_id).cloned() else {
            continue;
        };
        end(db, on, Some(&rig), day).await?;
        let mut line = worded::back(on.words, Some(&rig.name));
        let stood = DaysOff {
            back: Some(day),
            ..span
        };
        if span.from < day && stood.is_long() && !rig.di_only {
            line = format!("{line} {}", on.words.plain("time-off-first-reading"));
        }
        answer.parts.push(line);
    }
    Ok(answer)
}

/// What is off on a rig today, as a line.
pub(super) fn line(on: &Request<'_>, rig: RigId) -> Option<String> {
    let span = on.rules.off_on(Some(rig), on.today())?;
    Some(worded::standing(on.words, &span, on.today()))
}

/// Takes back what the sender told last of time off, if it still stands and was told no earlier than
/// `since`; with when it was told.
///
/// # Errors
/// Whatever the database says.
pub(super) async fn take_back(
    db: &mut Db,
    on: &mut Request<'_>,
    since: Option<i64>,
) -> Result<Option<(i64, String)>, StoreError> {
    let oldest = since.unwrap_or(i64::MIN).max(on.now - CORRECTABLE);
    let name = Field::TimeOff.name();
    let Some(told) = store::settings::told_last(db, on.outfit.id, on.member.id, name, oldest).await? else {
        return Ok(None);
    };
    let rig = told.rig_id.and_then(|id| on.rig(id)).cloned();
    if told.rig_id.is_some() && rig.is_none() {
        return Ok(None);
    }
    store::settings::put_back(db, on.outfit.id, told.rig_id, name, on.now).await?;
    on.reload(db).await?;
    let words = worded::taken_back(on.words, rig.as_ref().map(|rig| rig.name.as_str()));
    Ok(Some((told.set_at, words)))
}

/// From when to when, as dates: the second is the day of work after it. None if there are no such days, or none so near.
fn days(from: Option<Ahead>, until: Until, today: Date) -> Option<(Date, Option<Date>)> {
    let span = |begins: Date| {
        let back = match until {
            Until::Open => return Some((begins, None)),
            Until::Back(ahead) => {
                let (day, after) = first(ahead, begins, today)?;
                if day > begins {
                    day
                } else {
                    first(ahead, after, today)?.0
                }
            }
            Until::Last(ahead) => first(ahead, begins, today)?.1,
            Until::Lasts(days) => begins.checked_add(i64::from(days).days()).ok()?,
        };
        Some((begins, Some(back)))
    };
    let mut begins = match from {
        None => today,
        Some(ahead) => first(ahead, today, today)?.0.max(today),
    };
    // "Closed 20 December to 3 January", said on the 22nd.
    if let Some(Ahead::On(None, month, day)) = from
        && begins > today
    {
        let mut earlier = date(today.year() - 1, month, day)
            .into_iter()
            .chain(date(today.year(), month, day));
        let runs = |begun: &Date| *begun < today && span(*begun).is_some_and(|(_, back)| back > Some(today));
        begins = earlier.rfind(runs).unwrap_or(begins);
    }
    let (begins, back) = span(begins)?;
    let near = (begins - today).get_days() <= MOST_DAYS as i32;
    let short = back.is_none_or(|back| (1..=MOST_DAYS as i32).contains(&(back - begins).get_days()) && back > today);
    (near && short).then_some((begins, back))
}

fn date(year: i16, month: u8, day: u8) -> Option<Date> {
    Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()
}

/// The first day of what is ahead, on or after `from`, and the day after its last.
fn first(ahead: Ahead, from: Date, today: Date) -> Option<(Date, Date)> {
    let day = |day: Date| Some((day, day.tomorrow().ok()?));
    match ahead {
        Ahead::Days(days) => day(today.checked_add(i64::from(days).days()).ok()?),
        Ahead::Week(weeks) => {
            let monday = today
                .checked_sub(i64::from(today.weekday().to_monday_zero_offset()).days())
                .ok()?;
            let monday = monday.checked_add(i64::from(weeks).weeks()).ok()?;
            Some((monday, monday.checked_add(1.week()).ok()?))
        }
        Ahead::Month(months) => {
            let month = today.first_of_month().checked_add(i64::from(months).months()).ok()?;
            Some((month, month.checked_add(1.month()).ok()?))
        }
        Ahead::Weekday(weekday) => {
            let weekday = i8::try_from(weekday).ok()?;
            let days = (weekday - from.weekday().to_monday_one_offset()).rem_euclid(7);
            day(from.checked_add(i64::from(days).days()).ok()?)
        }
        Ahead::DayOfMonth(of_month) => {
            let months = (0..3).filter_map(|months| from.first_of_month().checked_add(months.months()).ok());
            let mut days = months.filter_map(|month| date(month.year(), month.month().unsigned_abs(), of_month));
            day(days.find(|day| *day >= from)?)
        }
        Ahead::InMonth(year, month) => {
            let mut years = year.map_or(from.year()..from.year() + 2, |year| year..year + 1);
            years.find_map(|year| {
                let month = date(year, month, 1)?;
                let after = month.checked_add(1.month()).ok()?;
                (after > from).then_some((month, after))
            })
        }
        Ahead::On(year, month, of_month) => {
            let mut years = year.map_or(from.year()..from.year() + 5, |year| year..year + 1);
            day(years.find_map(|one| date(one, month, of_month).filter(|day| year.is_some() || *day >= from))?)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Date {
        text.parse().unwrap_or_default()
    }

    #[test]
    fn days_ahead_become_dates() {
        // A Wednesday.
        let today = read("2026-12-02");
        let on = |month, day| Ahead::On(None, month, day);
        for (from, until, begins, back) in [
            (None, Until::Open, "2026-12-02", None),
            (None, Until::Back(Ahead::Weekday(1)), "2026-12-02", Some("2026-12-07")),
            (None, Until::Back(Ahead::Weekday(3)), "2026-12-02", Some("2026-12-09")),
            (None, Until::Back(on(1, 4)), "2026-12-02", Some("2027-01-04")),
            (
                None,
                Until::Back(Ahead::InMonth(None, 4)),
                "2026-12-02",
                Some("2027-04-01"),
            ),
            (
                None,
                Until::Back(Ahead::InMonth(None, 12)),
                "2026-12-02",
                Some("2027-12-01"),
            ),
            (None, Until::Lasts(14), "2026-12-02", Some("2026-12-16")),
            (
                Some(on(12, 24)),
                Until::Last(on(1, 2)),
                "2026-12-24",
                Some("2027-01-03"),
            ),
            (
                Some(Ahead::Week(1)),
                Until::Last(Ahead::Week(1)),
                "2026-12-07",
                Some("2026-12-14"),
            ),
            (
                Some(Ahead::Week(0)),
                Until::Last(Ahead::Week(0)),
                "2026-12-02",
                Some("2026-12-07"),
            ),
            (
                Some(Ahead::Days(1)),
                Until::Last(Ahead::Days(1)),
                "2026-12-03",
                Some("2026-12-04"),
            ),
            (
                Some(Ahead::DayOfMonth(21)),
                Until::Last(Ahead::DayOfMonth(3)),
                "2026-12-21",
                Some("2027-01-04"),
            ),
            (
                Some(Ahead::Weekday(5)),
                Until::Last(Ahead::Weekday(5)),
                "2026-12-04",
                Some("2026-12-05"),
            ),
            (
                Some(Ahead::Month(1)),
                Until::Last(Ahead::Month(1)),
                "2027-01-01",
                Some("2027-02-01"),
            ),
        ] {
            let meant = (read(begins), back.map(read));
            assert_eq!(days(from, until, today), Some(meant), "{from:?} {until:?}");
        }
        // Already begun.
        let later = read("2026-12-22");
        let closed = days(Some(on(12, 20)), Until::Last(on(1, 3)), later);
        assert_eq!(closed, Some((read("2026-12-20"), Some(read("2027-01-04")))));
        // No such days.
        for (from, until) in [
            (None, Until::Back(on(2, 30))),
            (None, Until::Lasts(0)),
            (
                Some(Ahead::On(Some(2020), 1, 1)),
                Until::Last(Ahead::On(Some(2020), 1, 5)),
            ),
            (Some(Ahead::On(Some(2031), 1, 1)), Until::Open),
        ] {
            assert_eq!(days(from, until, today), None, "{from:?} {until:?}");
        }
    }
}
