//! Numbers that say a value a second time or leave it open, and a name of no known rig before bare numbers.

use super::groups::{self, Group};
use super::labels::{Measured, Role};
use super::senses::Sense;
use super::tokens::Token;

/// "180 12 rinsed cup 11": words before the third number, or a second go, may give the second anew.
pub(super) fn is_reworded(tokens: &[Token], group: &Group, second: usize, third: usize) -> bool {
    let plain = [
        Sense::And,
        Sense::Over,
        Sense::To,
        Sense::Ppm,
        Sense::MicroSiemens,
        Sense::MilliSiemens,
    ];
    let worded = tokens[second + 1..third]
        .iter()
        .any(|token| token.word().is_some() && !token.has_any(&plain));
    worded || group.indices.iter().any(|&at| tokens[at].has(Sense::Again))
}

/// "12 or 21", "was 40 now 6": one value twice, so that it is not clear which values are meant.
pub(super) fn is_either(tokens: &[Token], measured: &[Measured]) -> bool {
    measured
        .windows(2)
        .filter(|two| two[0].role.is_none() || two[1].role.is_none())
        .any(|two| {
            tokens[two[0].at..usize::max(two[0].at, two[1].at)]
                .iter()
                .any(|token| token.has(Sense::Either))
        })
}

/// "Heron probably 180/12, havent checked", "say heron hits 180/40", "we want heron at 180/9 by friday": said, but not
/// read from a meter.
pub(super) fn is_guessed(tokens: &[Token], group: &Group, measured: &[Measured]) -> bool {
    let has = |sense: Sense| group.indices.iter().any(|&at| tokens[at].has(sense));
    let Some(first) = measured.first() else { return false };
    let small = |token: &&Token| token.has(Sense::Filler) && !token.has(Sense::Bound);
    let before = tokens[..first.at].iter().rev().find(|token| !small(token));
    let bound = before.is_some_and(|token| token.has(Sense::Bound));
    let mention = group.indices.iter().position(|&at| tokens[at].mention().is_some());
    let wanted = mention.is_some_and(|slot| {
        group.indices[slot] < first.at
            && tokens[..group.indices[slot]]
                .iter()
                .any(|token| token.has(Sense::Intent) && !token.has_any(&[Sense::Filler, Sense::Cost]))
    });
    let ahead = group
        .indices
        .iter()
        .any(|&at| tokens[at].has(Sense::Later) && !tokens[at].has(Sense::FeedWeak));
    // "ignore lynx 143/7 was a test"
    let ignored = tokens[..first.at]
        .windows(2)
        .any(|two| two[0].has(Sense::Undo) && two[1].mention().is_some());
    ignored || has(Sense::Guessed) || bound || wanted && ahead
}

/// "Never seen heron at 180/12", "heron didn't read 180/12": the denial goes on to the numbers.
pub(super) fn is_denied(tokens: &[Token], measured: &[Measured]) -> bool {
    let Some(first) = measured.first() else { return false };
    let light = |token: &&Token| {
        token.mention().is_some()
            || token.has_any(&[
                Sense::Filler,
                Sense::At,
                Sense::Was,
                Sense::ItRead,
                Sense::Current,
                Sense::Past,
            ]) && !token.has_any(&[Sense::Not, Sense::Bound])
            || token.has_any(&[Sense::Feed, Sense::FeedWeak])
    };
    let before = tokens[..first.at].iter().rev().find(|token| !light(token));
    // "No, 190/21" denies nothing; "no dio 214/11" does.
    let verb = tokens[..first.at]
        .last()
        .is_some_and(|token| token.has_any(&[Sense::Past, Sense::ItRead, Sense::Was, Sense::Current]));
    before.is_some_and(|token| token.has(Sense::Not) && (!token.has(Sense::No) || verb) && !token.has(Sense::Yet))
}

/// "falcon 180 12": a strange word and falling numbers, nothing else. Membranes pass less than a third.
pub(super) fn is_lone_name(tokens: &[Token], bare: &[Measured]) -> bool {
    let [name, rest @ ..] = tokens else { return false };
    let named = name.is_unknown() && name.word().is_some_and(|word| word.len() > 3);
    let numbers = rest.iter().filter(|token| token.number().is_some()).count();
    let only_numbers = rest
        .iter()
        .all(|token| token.number().is_some_and(|number| !number.in_words) || token.is_any_mark(":,-"));
    let falling = bare.windows(2).all(|two| two[0].value > 3.0 * two[1].value);
    let likely = bare.first().is_some_and(|first| (40.0..2_000.0).contains(&first.value));
    named && only_numbers && falling && likely && (2..=3).contains(&numbers) && bare.len() == numbers
}

/// "Lynx 180 12 low pressure", "lynx 180 12 tap is slow": said in words, so that no number is meant.
pub(super) fn is_remark(tokens: &[Token], at: usize, role: Role) -> bool {
    let unit = [
        Sense::Psi,
        Sense::Bar,
        Sense::Kpa,
        Sense::Celsius,
        Sense::Fahrenheit,
        Sense::Degrees,
    ];
    if tokens[at + 1..].iter().take(3).any(|token| token.number().is_some()) {
        return false;
    }
    let Some(last) = at.checked_sub(1) else { return false };
    let article = usize::from(tokens[last].has(Sense::Article));
    let behind_pair = last
        .checked_sub(article)
        .is_some_and(|last| groups::is_pair_of_name(tokens, last));
    if matches!(role, Role::Pressure | Role::Temperature) {
        let word = &tokens[last];
        let judged = word.word().is_some() && !word.has_any(&unit) && !word.has(Sense::And);
        return judged || behind_pair;
    }
    // "Lynx 180 12 weak flow"
    if matches!(role, Role::PermeateFlow | Role::WasteFlow) {
        let word = tokens[last].word().is_some() && last > 0;
        return behind_pair || word && groups::is_pair_of_name(tokens, last - 1);
    }
    let said = |token: &Token| token.is_unknown() || token.has(Sense::Judges);
    behind_pair && tokens[at + 1..].iter().take(2).any(said)
}
