//! Reads what a crew member typed: text, fleet and open question in, meaning out.
//!
//! Pure and total: no clock, no storage, and no text makes it fail. Recording a reading that was not said is the worst
//! error, so what is doubtful becomes a question and what is not about water stays chatter.
//!
//! Tokens (`crate::language`) become items (`item`), their numbers get roles (`number`, `when`), clauses are cut
//! (`clause`), each says frames (`frame`, `scope`, `values`), and the frames are resolved to what is recorded,
//! one question, or silence (`resolve`); beside them `correction`, `answer`, `nudge`, `query` and `danger`.

mod answer;
mod ask;
pub mod attempt;
mod clause;
mod correction;
mod danger;
mod frame;
mod item;
#[cfg(test)]
mod laws_tests;
mod message;
mod nudge;
mod number;
mod off;
mod plausible;
mod query;
mod resolve;
mod role;
mod scope;
mod trace;
mod values;
mod when;

pub use crate::domain::ServiceKind as What;
pub use crate::domain::meaning::*;
pub use crate::domain::query::{Detail, Query, Span, Topic};
pub use crate::domain::term::Term;
pub use crate::domain::time_off;
pub use crate::language::names::without_article;
pub use answer::choose;
pub use correction::is_strange;
pub use trace::explain;

use crate::language::lexer::{self, Form, Kind, Token};
use crate::language::lexicon::LEXICON;
use crate::language::names::Names;
use item::Items;
use message::Message;

/// Reads one message. Never panics, takes time linear in the text, and gives an empty meaning for chatter.
pub fn read(text: &str, scene: &Scene) -> Meaning {
    let names = names_of(scene);
    let cut = lexer::lex(text);
    let mut best: Option<(u32, Meaning)> = None;
    for tokens in cuttings(cut.tokens) {
        let meaning = with_message(text, &tokens, &names, scene, meaning_of);
        let cost = cost(&meaning);
        if best.as_ref().is_none_or(|(least, _)| cost < *least) {
            best = Some((cost, meaning));
        }
        if cost == 0 {
            break;
        }
    }
    best.map(|(_, meaning)| meaning).unwrap_or_default()
}

/// The question whether a reading is to be noted at all.
pub fn ask_whether(draft: Reading) -> Ask {
    ask::about_values(About::Implausible, draft)
}

/// The question whether services of one kind are told for the second time.
pub fn ask_again(services: &[Service]) -> Option<Ask> {
    let first = services.first()?;
    let told = Told {
        minutes: first.minutes,
        price: first.price.clone(),
        when: first.when,
    };
    let same = services.iter().filter(|one| one.what == first.what);
    let rigs: Vec<i64> = same.map(|one| one.rig).collect();
    Some(ask::about_service(About::Again, first.what, told, &rigs))
}

fn names_of(scene: &Scene) -> Names {
    let of = |(at, rig): (usize, &'_ Rig)| {
        let own = std::iter::once((at, rig.name.clone()));
        own.chain(rig.short_names.iter().map(move |name| (at, name.clone())))
            .collect::<Vec<_>>()
    };
    let all: Vec<(usize, String)> = scene.fleet.iter().enumerate().flat_map(of).collect();
    Names::new(all.iter().map(|(at, name)| (*at, name.as_str())))
}

fn with_message<T>(text: &str, tokens: &[Token], names: &Names, scene: &Scene, then: fn(&Message) -> T) -> T {
    let ids = LEXICON.words_of(tokens);
    let items = item::items(tokens, &ids, names);
    let roles = number::roles(&items, scene);
    then(&Message::new(text, &items, &roles, scene))
}

/// The ways to cut numbers that are worth reading: a comma as decimal or as parting a pair, a space as thousands.
fn cuttings(tokens: Vec<Token>) -> Vec<Vec<Token>> {
    let parts = |token: &Token| match token.kind {
        Kind::Number(_, Form::Comma(a, b) | Form::Thousands(a, b)) => Some((a, b)),
        _ => None,
    };
    let mut out = Vec::with_capacity(1);
    if tokens.iter().any(|token| parts(token).is_some()) {
        let split = tokens.iter().flat_map(|token| match parts(token) {
            Some((a, b)) => {
                let piece = |kind: Kind, glued: bool| Token {
                    kind,
                    glued,
                    ..token.clone()
                };
                let comma = Token {
                    text: ",".into(),
                    ..piece(Kind::Mark(','), true)
                };
                vec![
                    piece(Kind::Number(a, Form::Whole), token.glued),
                    comma,
                    piece(Kind::Number(b, Form::Whole), true),
                ]
            }
            None => vec![token.clone()],
        });
        out.push(split.collect());
    }
    let joins = |two: &[Token]| {
        let (low, high) = (two[1].whole(), two[0].whole());
        let three = two[1].text.len() == 3 && two[1].span.0 == two[0].span.1 + 1;
        three && low.is_some() && high.is_some_and(|high| (1.0..10.0).contains(&high))
    };
    let tied = |at: usize| tokens.get(at + 1).is_some_and(|token| token.kind == Kind::Mark('/'));
    let place = (1..tokens.len()).find(|&at| at >= 2 && joins(&tokens[at - 1..=at]) && !tied(at));
    if let Some(at) = place {
        let mut joined = tokens.clone();
        let low = joined.remove(at).whole().unwrap_or(0.0);
        if let Some(high) = joined[at - 1].whole() {
            joined[at - 1].kind = Kind::Number(high * 1000.0 + low, Form::Whole);
            out.push(joined);
        }
    }
    out.insert(0, tokens);
    out
}

/// What a cutting costs: questions, and nothing understood.
fn cost(meaning: &Meaning) -> u32 {
    let ask = match meaning.ask.as_ref().map(|ask| ask.about) {
        None => 0,
        Some(About::MissingReading) => 4,
        Some(_) => 3,
    };
    let changes = !meaning.corrections.is_empty()
        || !meaning.services.is_empty()
        || !meaning.amends.is_empty()
        || !meaning.time_off.is_empty();
    let nothing = meaning.readings.is_empty() && meaning.ask.is_none() && !changes;
    ask + if nothing {
        6
    } else {
        u32::from(meaning.readings.is_empty() && !changes)
    }
}

/// What the message means in its scene.
fn meaning_of(message: &Message) -> Meaning {
    let mut meaning = understood(message);
    meaning.danger = danger::of(&message.clauses);
    meaning
}

fn understood(message: &Message) -> Meaning {
    let scene = message.scene;
    let resolver = resolve::Resolver {
        scene,
        text: message.text,
        frames: &message.frames,
    };
    let mut fresh = resolver.meaning();
    fresh.time_off = off::find(message);
    if !fresh.time_off.is_empty() {
        fresh.queries = query::find(message, resolver.own());
        return fresh;
    }
    let named = message.names_rig();
    let pair = |ask: &Ask| {
        let whole = |draft: &Reading| draft.feed.is_some() && draft.permeate.or(draft.product).is_some();
        !ask.drafts.is_empty() && ask.drafts.iter().all(whole)
    };
    // A reading that stands on its own supersedes what is open, and one that is doubtful too is asked about anew.
    let stands = named && (!fresh.readings.is_empty() || fresh.ask.as_ref().is_some_and(pair));
    if !stands {
        if let Some(answer) = nudge::answer(message) {
            return answer;
        }
        if let Some(mut answer) = answer::find(message) {
            let when = message.when();
            answer
                .readings
                .iter_mut()
                .for_each(|reading| reading.when = reading.when.or(when));
            return answer;
        }
    }
    let other = named
        && fresh
            .readings
            .iter()
            .any(|one| scene.last.iter().all(|last| last.rig != one.rig));
    if !other && let Some(correction) = correction::find(message) {
        return correction;
    }
    fresh.queries = query::find(message, resolver.own());
    // "at 180 in and 12 out, what rejection is that?": the values belong to the question.
    let asks = message.frames.queries().next().is_some();
    let of_values = fresh
        .ask
        .as_ref()
        .is_some_and(|ask| ask.about == About::WhichRig && ask.service.is_none());
    if !named && asks && of_values && fresh.services.is_empty() {
        fresh.ask = None;
    }
    let silent = fresh.readings.is_empty() && fresh.services.is_empty() && fresh.ask.is_none();
    if silent
        && fresh.queries.is_empty()
        && (!asks || message.items.iter().filter(|item| item.mark.is_none()).count() == 1)
    {
        fresh.queries = query::terse(message, resolver.own());
    }
    fresh
}
