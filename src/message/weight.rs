//! Whether a group of words and numbers is about water at all.

use super::adjacency::Link;
use super::groups::{self, Group, Who};
use super::labels::Measured;
use super::plausibility::LEAST_FEED_PPM;
use super::rig_name::Sure;
use super::second_thoughts::is_lone_name;
use super::senses::Sense;
use super::tokens::Token;

/// What speaks for a reading.
pub(super) struct Weight {
    pub complete: bool,
    pub any_label: usize,
    pub strong_label: bool,
    pub link: Link,
    pub unknown: usize,
    pub bare: usize,
    pub left_out: bool,
}

impl Weight {
    /// Whether the group is about water at all. The less is labelled, the fewer strange words may stand around.
    pub fn is_enough(&self, who: &Who, largest: f64, tokens: &[Token], group: &Group, bare: &[Measured]) -> bool {
        let full = matches!(who, Who::Rigs(_, Sure::Full));
        let named = *who != Who::Nobody;
        let sane = largest >= LEAST_FEED_PPM;
        // Small pairs are dates and counts more often than water.
        let small = largest < 32.0;
        if self.left_out {
            return named && self.unknown == 0;
        }
        let has = |sense: Sense| group.indices.iter().any(|&at| tokens[at].has(sense));
        if small && (has(Sense::Later) || !named && has(Sense::Counted)) {
            return false;
        }
        if has(Sense::Foreign) && !(named && self.complete) {
            return false;
        }
        if !named {
            // "Filled up 60 in": one weak label among other words.
            let light = |&at: &usize| {
                tokens[at].word().is_none()
                    || tokens[at].has_any(&[Sense::Filler, Sense::FeedWeak, Sense::PermeateWeak, Sense::ProductWeak])
            };
            let one_weak = !self.complete && self.any_label == 1 && !self.strong_label;
            if one_weak && !group.indices.iter().all(light) {
                return false;
            }
            // "60/40 split" and the tap of a customer are no rig's.
            let halves = bare.len() == 2 && bare[1].value > 0.5 * bare[0].value && self.unknown > 0;
            if halves && self.any_label == 0 {
                return false;
            }
            if is_lone_name(tokens, bare) {
                return true;
            }
            let strange = if self.any_label >= 2 && self.strong_label || self.link == Link::Tight {
                2
            } else {
                0
            };
            let alone = self.bare == 1 && self.any_label == 0;
            let bare_words = group.indices.iter().filter(|&&at| tokens[at].word().is_some()).count();
            return sane
                && self.unknown <= if small { 0 } else { strange }
                && (!alone || bare_words == 0)
                && (self.bare < 2 || self.link > Link::Apart || self.unknown == 0 && bare_words <= 1);
        }
        // "lynx 0 0"
        if self.complete && largest == 0.0 {
            return self.unknown == 0 && group.indices.len() <= 5;
        }
        if self.complete && self.any_label >= 2 {
            return self.unknown <= if self.strong_label { 12 } else { 6 } && (sane || self.strong_label);
        }
        if self.complete && self.any_label == 1 {
            return sane && self.unknown <= if self.strong_label { 3 } else { 1 };
        }
        if self.complete && self.link == Link::Tight {
            let most = if small {
                0
            } else if full || begins_pair(tokens, bare) {
                6
            } else {
                3
            };
            return sane && self.unknown <= most;
        }
        // "Badger 180 12 leaking": whatever is remarked behind it, it is a reading.
        if self.complete
            && let [_, second] = bare
            && groups::is_pair_of_name(tokens, second.at)
        {
            return sane && self.unknown <= 8;
        }
        if self.complete {
            let most = if full && self.link == Link::Loose { 2 } else { 0 };
            let rising = bare
                .windows(2)
                .any(|two| two[0].value < two[1].value && two[1].value < 60.0);
            let most = if rising { 0 } else { most };
            return sane && self.unknown <= most && !counts_something(tokens, bare);
        }
        // "Lynx 180 today, need 12 more" counts something else.
        let counts = |&at: &usize| {
            tokens[at].has_any(&[Sense::Counted, Sense::Currency, Sense::Intent]) && !tokens[at].has(Sense::Filler)
        };
        if self.any_label == 0 && group.indices.iter().any(counts) {
            return false;
        }
        // "The 30" is some other thing.
        let of_article = |one: &Measured| {
            let before = one.at.checked_sub(1).map(|before| &tokens[before]);
            before.is_some_and(|token| token.has(Sense::Article) && !token.has(Sense::NumberSign))
        };
        if self.any_label == 0 && bare.iter().any(of_article) {
            return false;
        }
        // "Van 2 14", "robin says 13": a name and a number are half a reading.
        let half = |&at: &usize| {
            let token = &tokens[at];
            token.mention().is_some()
                || token.number().is_some_and(|number| number.value >= 4.0 && !number.shy)
                || token.has(Sense::Filler) && !token.has_any(&[Sense::At, Sense::To, Sense::Article])
        };
        if full && self.bare == 1 && self.any_label == 0 && tokens.len() <= 4 && group.indices.iter().all(half) {
            return true;
        }
        // One number only: a label of the trade, or nothing else at all.
        self.unknown <= if self.strong_label { 2 } else { 0 } && (sane || self.strong_label)
    }
}

/// "tank 230/26": the name stands right before the pair.
fn begins_pair(tokens: &[Token], bare: &[Measured]) -> bool {
    let before = bare
        .first()
        .and_then(|one| one.at.checked_sub(1))
        .map(|before| &tokens[before]);
    before.is_some_and(|token| token.mention().is_some())
}

/// "180 panes 12 doors": the word behind the last number is what it counts.
fn counts_something(tokens: &[Token], bare: &[Measured]) -> bool {
    bare.iter()
        .any(|one| tokens.get(one.at + 1).is_some_and(Token::is_unknown))
}
