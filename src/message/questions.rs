//! What a crew asks: how a rig is, when a membrane is due, who has not logged.

use super::clauses::Clause;
use super::meaning::{Query, Scene, Topic};
use super::rig_name::Sure;
use super::senses::Sense;
use super::tokens::Token;

/// The questions of all clauses.
pub fn find(tokens: &[Token], clauses: &[Clause], scene: &Scene) -> Vec<Query> {
    if let Some(topic) = slash_command(tokens) {
        return vec![Query::of(None, topic)];
    }
    let mut queries: Vec<Query> = Vec::new();
    let mut carried: Vec<i64> = Vec::new();
    for clause in clauses {
        let part = &tokens[clause.span.clone()];
        let named = rigs_of(part);
        if !named.is_empty() {
            carried = named;
        }
        let terse = !clause.asks && is_terse(part, scene.own_rig.is_some());
        if !(clause.asks || terse) {
            continue;
        }
        let named = !carried.is_empty();
        // "How's the resin", "last reading?": of the sender's own rig.
        let of_own = scene.own_rig.is_some() && !named && is_about_own(part);
        let Some(topic) = topic(part, named || of_own, terse) else {
            continue;
        };
        // "lynx 180/12?" doubts the values and asks nothing else.
        if clause.only_marked && has_pair(part) && matches!(topic, Topic::Status | Topic::LastReading) {
            continue;
        }
        let about_all =
            matches!(topic, Topic::Fleet | Topic::Quiet | Topic::Shopping | Topic::Help) && carried.is_empty();
        let own = scene
            .own_rig
            .filter(|_| !about_all && carried.is_empty() && !clause.supposes && !has_number(part));
        let topic = if topic == Topic::Status && carried.is_empty() && own.is_none() {
            Topic::Fleet
        } else {
            topic
        };
        if carried.is_empty() {
            queries.push(Query::of(own, topic));
        }
        queries.extend(carried.iter().map(|&rig| Query::of(Some(rig), topic)));
    }
    queries.dedup();
    queries
}

/// "/help", "/status"
fn slash_command(tokens: &[Token]) -> Option<Topic> {
    let words: Vec<&str> = tokens.iter().filter_map(Token::word).collect();
    let asks_help = |word: &str| word == "/help" || word == "/ayuda" || tokens.len() == 1 && tokens[0].has(Sense::Help);
    if words.len() == 1 && words.iter().all(|word| asks_help(word)) {
        return Some(Topic::Help);
    }
    let bare = match tokens {
        [rest @ .., mark] if mark.is_mark('?') => rest,
        all => all,
    };
    if let [only] = bare {
        let fleet = matches!(
            only.word(),
            Some("fleet" | "status" | "all rigs" | "flota" | "estado" | "everyone" | "the lot")
        );
        let shopping = matches!(only.word(), Some("shopping list" | "shopping" | "lista de la compra"));
        return fleet.then_some(Topic::Fleet).or(shopping.then_some(Topic::Shopping));
    }
    let [slash, word, ..] = tokens else { return None };
    let topic = match word.word()? {
        "status" | "fleet" | "all" | "estado" | "flota" => Topic::Fleet,
        "start" => Topic::Help,
        _ => return None,
    };
    slash.is_mark('/').then_some(topic)
}

fn rigs_of(part: &[Token]) -> Vec<i64> {
    let mentions = part.iter().filter_map(Token::mention);
    // A guess among strange words is a word of these, no rig.
    let plain = part.iter().all(|token| !token.is_unknown());
    let clear = mentions
        .filter(|mention| (mention.rigs.len() == 1 || mention.all_of_them) && (plain || mention.sure > Sure::Guess));
    let mut best: Vec<_> = clear.collect();
    // "the grey one, the trailer": what stands last says it best.
    if best.len() > 1 && best.iter().all(|mention| mention.sure < Sure::Full) {
        best = best.split_off(best.len() - 1);
    }
    let mut rigs: Vec<i64> = best
        .into_iter()
        .flat_map(|mention| mention.rigs.iter().copied())
        .collect();
    rigs.dedup();
    rigs
}

fn has_number(part: &[Token]) -> bool {
    part.iter().any(|token| token.number().is_some() && !token.spent)
}

fn has_pair(part: &[Token]) -> bool {
    part.iter()
        .filter(|token| token.number().is_some() && !token.spent)
        .count()
        >= 2
}

fn words_of(part: &[Token]) -> usize {
    part.iter().filter(|token| token.word().is_some()).count()
}

/// Few words, all known, of one rig's parts or readings, and of no other rigs.
fn is_about_own(part: &[Token]) -> bool {
    let about = [
        Sense::Membrane,
        Sense::Resin,
        Sense::Rejection,
        Sense::Trend,
        Sense::History,
        Sense::Current,
    ];
    let others = [
        Sense::All,
        Sense::Who,
        Sense::We,
        Sense::FleetWide,
        Sense::Buy,
        Sense::Advice,
        Sense::Help,
    ];
    words_of(part) <= 7
        && !has_number(part)
        && part.iter().any(|token| token.has_any(&about))
        && part
            .iter()
            .all(|token| !token.is_unknown() && !token.has_any(&others) && !is_general(token))
}

/// "What is rejection": asks what a word means.
fn is_general(token: &Token) -> bool {
    matches!(
        token.word(),
        Some("rig" | "rigs" | "vans" | "mean" | "what is" | "what" | "good")
    )
}

/// "badger status", "lynx history": a name and a topic, nothing else.
fn is_terse(part: &[Token], has_own: bool) -> bool {
    let named = part.iter().any(|token| token.mention().is_some()) || (has_own && part.len() == 1);
    // Small words beside the topic say nothing: "chart for badger please".
    let small = |token: &Token| {
        token.has(Sense::Greeting) || (token.has(Sense::Filler) && !token.has_any(&[Sense::How, Sense::Current]))
    };
    let words: Vec<&Token> = part
        .iter()
        .filter(|token| token.word().is_some() && !small(token))
        .collect();
    let topic = |token: &&Token| {
        token.has_any(&[Sense::Trend, Sense::Rejection, Sense::Quiet, Sense::Shopping])
            || (token.has(Sense::Current)
                && token
                    .word()
                    .is_some_and(|word| word.contains("last") || word.starts_with("ultim")))
            || matches!(
                token.word(),
                Some(
                    "status"
                        | "current"
                        | "latest"
                        | "latest reading"
                        | "history"
                        | "historial"
                        | "estado"
                        | "last reading"
                        | "update"
                        | "ultima lectura"
                )
            )
    };
    // The whole name alone asks how the rig is.
    let alone = words.is_empty()
        && part
            .iter()
            .all(|token| token.mention().is_none_or(|mention| mention.sure == Sure::Full));
    let past = |token: &&Token| topic(token) || token.has_any(&[Sense::History, Sense::Current]);
    let one_topic =
        words.len() == 1 && words.iter().all(topic) || (2..=3).contains(&words.len()) && words.iter().all(past);
    // "lynx resin", "lynx membrane when", "resin days lynx"
    let is_part = |token: &Token| matches!(token.word(), Some("membrane" | "membrana" | "resin" | "resina"));
    let span =
        |token: &Token| token.has(Sense::When) || matches!(token.word(), Some("days" | "life" | "left" | "dias"));
    let of_part = part.iter().any(is_part)
        && part
            .iter()
            .all(|token| is_part(token) || span(token) || token.mention().is_some() || token.word() == Some("on"));
    let number = part.iter().any(|token| token.number().is_some());
    let percent = words.is_empty() && part.len() == 2 && part[1].is_mark('%');
    named && !number && (one_topic || of_part || percent || (alone && part.len() == 1 && part[0].mention().is_some()))
}

fn topic(part: &[Token], named: bool, terse: bool) -> Option<Topic> {
    let has = |sense: Sense| part.iter().any(|token| token.has(sense));
    let any = |senses: &[Sense]| part.iter().any(|token| token.has_any(senses));
    let says = |text: &str| part.iter().any(|token| token.word() == Some(text));
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
        || says("resin")
        || says("di")
        || says("resina");
    if has(Sense::FleetWide) && unknown == 0 && !named {
        return Some(Topic::Fleet);
    }
    if has(Sense::Quiet) && unknown == 0 {
        return Some(Topic::Quiet);
    }
    if has(Sense::Shopping) && unknown == 0 && !named {
        return Some(Topic::Shopping);
    }
    if has(Sense::Who) && has(Sense::Not) && (has(Sense::Log) || says("readings") || says("reading")) {
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
    let told = ["did", "was", "were", "fue", "estaba", "dio", "marco"]
        .into_iter()
        .any(says);
    let day = any(&[
        Sense::Later,
        Sense::Hypothetical,
        Sense::Morning,
        Sense::Afternoon,
        Sense::Yesterday,
    ]);
    let counted = says("last") && part.iter().any(|token| token.number().is_some()) || says("ultimas");
    let in_past = has(Sense::History) || (told && (day || says("last") && has(Sense::When))) || (named && counted);
    let how = any(&[Sense::How]) && any(&[Sense::Asks, Sense::AsksFirst]) && !measures;
    let ahead = any(&[Sense::When, Sense::Due, Sense::Intent]) || (how && (named || unknown == 0));
    // "How do i change the resin" asks how it is done.
    let how_to = part
        .iter()
        .any(|token| matches!(token.word(), Some("how do i" | "how do you" | "como se")));
    if how_to && !named && water && unknown <= 1 && !any(&[Sense::When]) {
        return Some(Topic::Help);
    }
    if has(Sense::Buy)
        && !named
        && unknown <= 1
        && (water || says("shopping list") || (has(Sense::Asks) && has(Sense::We)))
    {
        return Some(Topic::Shopping);
    }
    if has(Sense::Help) && !named && unknown == 0 {
        return Some(Topic::Help);
    }
    if says("spare") && !named {
        return None;
    }
    if has(Sense::Membrane) && ahead && !any(&[Sense::Permeate]) && (named || unknown <= 1) {
        return Some(if in_past { Topic::History } else { Topic::MembraneWhen });
    }
    if has(Sense::Resin) && ahead && (named || unknown == 0) {
        return Some(if in_past { Topic::History } else { Topic::ResinWhen });
    }
    if has(Sense::Prefilter) && ahead && named {
        return Some(Topic::History);
    }
    // "Does lynx need anything", "is lynx due anything"
    let wants = ["need", "needs", "due", "necesita"].into_iter().any(says);
    if named && wants && unknown == 0 && !water && !measures && any(&[Sense::Asks, Sense::AsksFirst, Sense::Advice]) {
        return Some(Topic::Status);
    }
    if has(Sense::Advice) || (has(Sense::Hypothetical) && has_number(part)) {
        let pair = has(Sense::FeedWeak) && has(Sense::PermeateWeak) && has_number(part);
        let reads = ["reading", "readings", "meter", "probe", "levels", "numbers"]
            .into_iter()
            .any(says);
        let measured = pair || water || reads;
        return (named && (measured || unknown <= 2) || measured && unknown <= 2).then_some(Topic::Help);
    }
    if named && has(Sense::Trend) {
        return Some(Topic::Trend);
    }
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
        let rigs = says("all rigs") || says("fleet") || says("everyone") || says("rigs") || has(Sense::All);
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
        if has(Sense::Now) {
            return Some(Topic::LastReading);
        }
    }
    // "What's lynx on", "what's the tap on lynx"
    let what = ["what", "whats", "cuanto", "cual"].into_iter().any(says);
    let plain = unknown == 0 && !measures && !any(&[Sense::Later, Sense::Intent, Sense::How, Sense::Counted]);
    if named && what && plain {
        return Some(Topic::LastReading);
    }
    // "how is badger", "badger?"
    let words = part.iter().filter(|token| token.word().is_some()).count();
    (named && unknown <= 2 && (has(Sense::How) && any(&[Sense::Asks, Sense::AsksFirst, Sense::How]) || words == 0))
        .then_some(Topic::Status)
}
