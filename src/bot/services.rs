//! Services: recorded, and the words for them.

use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::grammar::{self, Meaning};
use crate::message::setting::{Amount, Currency};
use crate::replies::caution::Occasion;
use crate::replies::figures::spoken::on_day;
use crate::replies::{figures, reading};
use crate::store::services::Service;

use super::answer::Answer;
use super::request::Request;
use super::rules::Rules;
use super::understood::Source;
use super::when::{instant, is_ahead};

/// For so long the price of a service may be told after it.
const PRICE_MAY_FOLLOW: i64 = 3 * 3600;

fn is_our_money(rules: &Rules, price: &grammar::Price) -> bool {
    let ours = rules.currency().zip(price.currency.as_deref());
    ours.is_none_or(|(ours, typed)| ours.may_be(typed))
}

/// "Heron new resin £140", just after it was told without its price: the service that the price is added to.
pub(super) fn priced_later(on: &Request<'_>, kept: &Service) -> Option<i64> {
    kept.price_minor?;
    let same = on.known.rig(kept.rig_id)?.state.done.get(&kept.what)?;
    let lately = (same.at - kept.done_at).abs() < PRICE_MAY_FOLLOW;
    (lately && same.price_minor.is_none()).then_some(same.id)
}

/// For so long the same change told again is taken for one that two people tell. Common practice, no source.
const SAME_CHANGE: i64 = 6 * 3600;

/// Whether a change of a part was told of this rig already, a few hours ago: then it is asked about.
pub(super) fn is_told_again(on: &Request<'_>, said: &grammar::Service, source: &Source) -> bool {
    use grammar::What;
    let renews = matches!(said.what, What::Membrane | What::Resin | What::Prefilter | What::ORing);
    let known = on.known.rig(said.rig).filter(|_| renews);
    let Some(last) = known.and_then(|known| known.state.done.get(&said.what)) else {
        return false;
    };
    let done_at = instant(said.when, source.sent_at, &on.zone);
    // A price that follows its change belongs to it.
    let adds_price = said.price.is_some() && last.price_minor.is_none();
    (last.at - done_at).abs() < SAME_CHANGE && !adds_price
}

/// That these are logged already, a line each.
pub(super) fn told_already(on: &Request<'_>, services: &[grammar::Service]) -> Answer {
    let line = |said: &grammar::Service| {
        let (rig, what) = (on.rig_name(said.rig), reading::service_word(on.words, said.what));
        let facts = [("rig", (&rig).into()), ("what", (&what).into())];
        on.words.say("service-told-already", facts)
    };
    let lines: Vec<String> = services.iter().map(line).collect();
    match lines.is_empty() {
        true => Answer::silence(),
        false => Answer::says(lines.join("\n")),
    }
}

/// The services that a message tells, as they are kept; those that are still to come are not.
pub(super) fn kept_services(on: &Request<'_>, meaning: &Meaning, source: &Source) -> Vec<Service> {
    let done = meaning
        .services
        .iter()
        .filter(|said| !is_ahead(said.when, source.sent_at, &on.zone));
    let kept = |said: &grammar::Service| {
        let price = said.price.as_ref().filter(|price| is_our_money(&on.rules, price));
        let done_at = instant(said.when, source.sent_at, &on.zone);
        Service {
            minutes: said.minutes.map(i64::from),
            price_minor: price.and_then(|price| on.rules.minor(price.amount)),
            ..Service::new(said.rig, said.what, source.key.clone(), done_at)
        }
    };
    done.map(kept).collect()
}

/// The words for the services that a message tells, some of which were recorded.
pub(super) fn words_for_services(on: &Request<'_>, meaning: &Meaning, source: &Source, kept: &[Service]) -> Answer {
    let mut answer = Answer::default();
    let (mut lines, mut told) = (Vec::new(), BTreeSet::new());
    let mut left_out = meaning.price_left_out;
    let mut kept = kept.iter();
    for said in &meaning.services {
        if is_ahead(said.when, source.sent_at, &on.zone) {
            let rig = on.rig_name(said.rig);
            lines.push(on.words.say("service-ahead", [("rig", (&rig).into())]));
            continue;
        }
        left_out |= said.price.as_ref().is_some_and(|price| !is_our_money(&on.rules, price));
        let Some(kept) = kept.next() else { continue };
        answer.occasions.push(Occasion::Done(said.what));
        let resets = told.insert(said.what);
        let sign = said.price.as_ref().and_then(|price| price.currency.as_deref());
        lines.push(noted(on, kept, resets, sign));
    }
    if let Some(first) = meaning.services.first().filter(|_| left_out) {
        let rig = on.rig_name(first.rig).to_lowercase();
        lines.push(reading::price_left_out(on.words, &rig, on.rules.currency()));
    }
    if !lines.is_empty() {
        answer.parts.push(lines.join("\n"));
    }
    answer
}

/// The words for a service that was just recorded; the price has the sign that was typed while the outfit has no
/// currency.
pub(super) fn noted(on: &Request<'_>, kept: &Service, resets: bool, typed_sign: Option<&str>) -> String {
    let today = on.today();
    let done_on = Some(on.date(kept.done_at)).filter(|day| *day != today);
    let currency = on.rules.currency();
    let price = kept
        .price_minor
        .and_then(|minor| Amount::of_minor(minor, currency.map_or(2, Currency::digits)))
        .map(|price| figures::money(on.words, price, currency));
    let typed_sign = typed_sign.filter(|sign| currency.is_none() && !sign.chars().any(char::is_alphabetic));
    let price = price.map(|price| format!("{}{price}", typed_sign.unwrap_or_default()));
    let day = done_on.map(|day| on_day(on.words, day, today));
    let rig = on.rig_name(kept.rig_id);
    let line = reading::service(on.words, &rig, kept.what, day.as_deref(), price.as_deref());
    let resets = what_it_resets(on, kept.what, done_on).filter(|_| resets);
    resets.map_or(line.clone(), |resets| format!("{line} {resets}"))
}

/// What a service resets, where its name does not say so; from the day on which it was done, if not today.
pub(super) fn what_it_resets(on: &Request<'_>, what: grammar::What, done_on: Option<Date>) -> Option<String> {
    let (now, from) = match what {
        grammar::What::Membrane => ("resets-membrane", "resets-membrane-from"),
        grammar::What::Resin => ("resets-resin", "resets-resin-from"),
        _ => return None,
    };
    Some(match done_on {
        None => on.words.plain(now),
        Some(date) => {
            let day = figures::day(on.words, date, on.today());
            on.words.say(from, [("day", (&day).into())])
        }
    })
}
