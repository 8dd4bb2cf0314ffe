//! A rig without resin: what its RO water brings to the glass, in words.

use super::Words;
use super::figures;
use super::membrane::DueLine;

/// What reaches the glass of a rig without resin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glass {
    /// Dissolved solids now, ppm.
    pub ppm: f64,
    /// From which dissolved solids on it spots, ppm.
    pub spots_ppm: f64,
    /// Whether a new membrane would keep it from spotting.
    pub new_helps: bool,
    /// When it begins to spot, in local dates.
    pub spots: DueLine,
}

/// What the RO water does to the glass, and what a new membrane would change.
pub fn lines(words: Words, glass: &Glass) -> Vec<String> {
    let shown = match glass.spots {
        DueLine::Crossed => glass.ppm.round(),
        _ => glass.ppm.round().min(glass.spots_ppm - 1.0),
    };
    let ppm = figures::ppm(words, shown);
    let first = match glass.spots {
        DueLine::Within { early, likely, late } => {
            let [early, likely] = [early, likely].map(|date| figures::month(words, date));
            let [ppm, early, likely] = [
                ("ppm", (&ppm).into()),
                ("early", (&early).into()),
                ("likely", (&likely).into()),
            ];
            match late.map(|late| figures::month(words, late)) {
                Some(late) => words.say("glass-spots-within", [ppm, early, likely, ("late", (&late).into())]),
                None => words.say("glass-spots-from", [ppm, early, likely]),
            }
        }
        DueLine::Crossed | DueLine::NotInSight | DueLine::NotYetKnown => {
            words.say("glass-now", [("ppm", (&ppm).into())])
        }
    };
    let mut lines = vec![first];
    if glass.spots == DueLine::Crossed {
        let key = match glass.new_helps {
            true => "glass-new-helps",
            false => "glass-new-too",
        };
        lines.push(words.plain(key));
    }
    let by_glass = glass.spots != DueLine::Crossed || glass.new_helps;
    lines.push(words.plain(if by_glass {
        "glass-decides"
    } else {
        "glass-lines-decide"
    }));
    lines
}
