//! The topic of a question about rigs, their parts and the fleet.

use super::details;

use super::query::{Detail, Topic};
use super::questions::{has_number, words_of};
use super::senses::Sense;
use super::tokens::Token;

/// A clause that asks.
pub(super) struct Asked<'a> {
    pub part: &'a [Token],
    /// The rigs that it or an earlier clause names.
    pub rigs: &'a [i64],
    /// No rig is named and the sender's own is meant.
    pub of_own: bool,
    /// A name and a topic, nothing else.
    pub terse: bool,
}

/// What the clause asks; `None` when it is no question for us.
pub(super) fn find(asked: &Asked) -> Option<(Topic, Detail)> {
    let named = !asked.rigs.is_empty() || asked.of_own;
    let topic = details::topic(asked).or_else(|| of_rigs_and_parts(asked.part, named, asked.terse))?;
    Some((topic, details::find(asked.part, topic)))
}

fn of_rigs_and_parts(part: &[Token], named: bool, terse: bool) -> Option<Topic> {
    let has = |sense: Sense| part.iter().any(|token| token.has(sense));
    let any = |senses: &[Sense]| part.iter().any(|token| token.has_any(senses));
    let unknown = part.iter().filter(|token| token.is_unknown()).count();
    let water = any(&[
        Sense::Feed,
        Sense::Permeate,
        Sense::Membrane,
        Sense::Prefilter,
        Sense::Rejection,
        Sense::Flush,
        Sense::Flushed,
    ]) || any(&[Sense::ORing, Sense::Ppm])
        || has(Sense::WaterWord);
    if has(Sense::FleetWide) && unknown == 0 && !named {
        return Some(Topic::Fleet);
    }
    if has(Sense::Quiet) && unknown == 0 && !any(&[Sense::Flush, Sense::Flushed]) {
        return Some(Topic::Quiet);
    }
    if has(Sense::Shopping) && unknown == 0 && !named {
        return Some(Topic::Shopping);
    }
    if has(Sense::Who) && has(Sense::Not) && any(&[Sense::Log, Sense::ReadsWord]) {
        return Some(Topic::Quiet);
    }
    if any(&[Sense::Flush, Sense::Flushed]) {
        return if has(Sense::Advice) {
            Some(Topic::Help)
        } else {
            (named || unknown == 0).then_some(Topic::FlushStatus)
        };
    }
    let measures = part.iter().any(|token| token.number().is_some());
    if has(Sense::Rejection) && !named && !measures {
        return (unknown <= 1).then_some(Topic::Help);
    }
    if has(Sense::Rejection) {
        return Some(if any(&[Sense::Trend, Sense::History]) || has(Sense::Month) {
            Topic::Trend
        } else {
            Topic::Rejection
        });
    }
    let percent = part.iter().any(|token| token.is_mark('%')) && !part.iter().any(|token| token.number().is_some());
    if named && percent && unknown <= 1 {
        return Some(Topic::Rejection);
    }
    let told = has(Sense::Past);
    let day = any(&[
        Sense::Later,
        Sense::Hypothetical,
        Sense::Morning,
        Sense::Afternoon,
        Sense::Yesterday,
    ]);
    let last = has(Sense::LastOnes);
    let counted = last && part.iter().any(|token| token.number().is_some()) || has(Sense::LastOnesAlone);
    let in_past = has(Sense::History) || (told && (day || last && has(Sense::When))) || (named && counted);
    let how = any(&[Sense::How]) && any(&[Sense::Asks, Sense::AsksFirst]) && !measures;
    let ahead = any(&[Sense::When, Sense::Due, Sense::Intent]) || (how && (named || unknown == 0));
    // "How do i change the resin" asks how it is done.
    let how_to = has(Sense::HowTo);
    if how_to && !named && water && unknown <= 1 && !any(&[Sense::When]) {
        return Some(Topic::Help);
    }
    if has(Sense::Buy)
        && !named
        && unknown <= 1
        && (water || has(Sense::Shopping) || (has(Sense::Asks) && has(Sense::We)))
    {
        return Some(Topic::Shopping);
    }
    if has(Sense::Help) && (!named || measures) && unknown == 0 {
        return Some(Topic::Help);
    }
    if has(Sense::Spare) && !named {
        return None;
    }
    if has(Sense::Membrane) && ahead && !any(&[Sense::Permeate]) && (named || unknown <= 1) {
        return Some(if in_past { Topic::History } else { Topic::MembraneWhen });
    }
    if has(Sense::Resin) && ahead && (named || unknown == 0) {
        return Some(if in_past { Topic::History } else { Topic::ResinWhen });
    }
    let when = has(Sense::When) || any(&[Sense::Due]) && any(&[Sense::Asks, Sense::AsksFirst]);
    if has(Sense::Prefilter) && ahead && named {
        return Some(if in_past { Topic::History } else { Topic::Status });
    }
    if has(Sense::Prefilter) && when && unknown == 0 && !measures && !in_past {
        return Some(Topic::Shopping);
    }
    // "Does lynx need anything", "is lynx due anything"
    let wants = has(Sense::Needs);
    if named && wants && unknown == 0 && !water && !measures && any(&[Sense::Asks, Sense::AsksFirst, Sense::Advice]) {
        return Some(Topic::Status);
    }
    if has(Sense::Advice) || (has(Sense::Hypothetical) && has_number(part)) {
        let pair = has(Sense::FeedWeak) && has(Sense::PermeateWeak) && has_number(part);
        let reads = has(Sense::ReadsWord);
        let measured = pair || water || reads;
        return (named && (measured || unknown <= 2) || measured && unknown <= 2).then_some(Topic::Help);
    }
    if named && has(Sense::Trend) {
        return Some(Topic::Trend);
    }
    let in_past = in_past || has(Sense::Log) && any(&[Sense::Month, Sense::Hypothetical]);
    if named && in_past && unknown == 0 {
        return Some(Topic::History);
    }
    if named && in_past && any(&[Sense::Current, Sense::Log, Sense::Asks, Sense::AsksFirst]) {
        return Some(Topic::History);
    }
    if named && any(&[Sense::Current, Sense::Log]) {
        return Some(Topic::LastReading);
    }
    // "is 25 bad on the ro?"
    let judged =
        has(Sense::How) && has_number(part) && any(&[Sense::Permeate, Sense::Feed, Sense::Product, Sense::Ppm]);
    if judged && !named && unknown == 0 {
        return Some(Topic::Help);
    }
    let whole = has(Sense::We) || has(Sense::All);
    if part.iter().any(|token| token.has(Sense::How) && token.has(Sense::Asks)) && whole && unknown == 0 {
        let rigs = any(&[Sense::WholeFleet, Sense::All]);
        return Some(if rigs { Topic::Fleet } else { Topic::Status });
    }
    // "resin?", "membrane?" behind a name
    let short = words_of(part) <= 3 && unknown == 0 && !measures;
    if named && (short || terse) && (terse || part.iter().any(|token| token.is_mark('?'))) {
        if has(Sense::Membrane) {
            return Some(Topic::MembraneWhen);
        }
        if has(Sense::Resin) {
            return Some(Topic::ResinWhen);
        }
        if has(Sense::Prefilter) {
            return Some(Topic::Status);
        }
        if has(Sense::Now) {
            return Some(Topic::LastReading);
        }
    }
    // "reckon lynx's membrane is gone?"
    let marked = part.iter().any(|token| token.is_mark('?'));
    if named && marked && has(Sense::Membrane) && !measures && unknown <= 1 && words_of(part) <= 7 {
        return Some(Topic::MembraneWhen);
    }
    // "What's lynx on", "what's the tap on lynx"
    let what = has(Sense::What);
    let plain = unknown == 0 && !measures && !any(&[Sense::Later, Sense::Intent, Sense::How, Sense::Counted]);
    if named && what && plain {
        return Some(Topic::LastReading);
    }
    // "how is badger", "badger?"
    let small = |token: &Token| token.has_any(&[Sense::Filler, Sense::Article]) && !token.has(Sense::Intent);
    let words = part
        .iter()
        .filter(|token| token.word().is_some() && !(marked && small(token)))
        .count();
    (named && unknown <= 2 && (has(Sense::How) && any(&[Sense::Asks, Sense::AsksFirst, Sense::How]) || words == 0))
        .then_some(Topic::Status)
}
