//! When a new membrane pays, in words.

use crate::history::Followed;
use crate::message::setting::Field;
use crate::replies::money::{self, Best, Verdict};
use crate::store::rigs::Rig;
use crate::water::renewal_verdict::{self, Renewal};

use super::examples::missing_for_resin;
use super::request::Request;
use super::setting_values::example_of;

/// The money's words on a rig's membrane; none while it cannot be judged.
pub(super) fn money_lines(on: &Request<'_>, rig: &Rig, assessed: &Followed<'_>) -> Option<Vec<String>> {
    let verdict = verdict(on, rig, assessed)?;
    Some(money::verdict(on.words, &verdict, on.rules.currency(), on.today()))
}

/// What could be typed so that the money can be judged, for those who can tell it.
pub(super) fn money_missing(on: &Request<'_>, rig: &Rig, assessed: &Followed<'_>) -> Vec<String> {
    let missing = missing_for_money(on, rig, assessed);
    if missing.is_empty() || !on.rules.has_bed(rig) || rig.di_only || !on.member.role.leads() {
        return Vec::new();
    }
    let mut lines = vec![on.words.plain("money-missing")];
    lines.extend(missing);
    lines
}

fn verdict(on: &Request<'_>, rig: &Rig, assessed: &Followed<'_>) -> Option<Verdict> {
    let renewal = assessed.assessment.renewal?;
    let own = on.rules.rig(rig.id);
    let line = assessed.settings.limits.spent;
    Some(Verdict {
        best: best(on, &renewal),
        waiting_per_month: renewal.waiting_per_month,
        running_per_year: renewal.resin_cost_per_year,
        mean_per_year: renewal.mean_cost_per_year,
        rule: renewal
            .rule_of_thumb
            .map(|rule| (line, on.date(rule.on), rule.extra_cost)),
        resin_moves: renewal
            .sensitivity
            .map(|moves| (on.date(moves.resin_dearer), on.date(moves.resin_cheaper))),
        prices: (own.resin_price()?, own.membrane_price()?),
        fault: assessed.assessment.fault.is_some(),
        is_asked: assessed.verdict.membrane_due().is_some(),
    })
}

pub(super) fn best(on: &Request<'_>, renewal: &Renewal) -> Best {
    match renewal.verdict {
        renewal_verdict::Verdict::Now => Best::Now,
        renewal_verdict::Verdict::NotInSight => Best::NotInSight,
        renewal_verdict::Verdict::NotYetKnown => Best::NotYetKnown,
        renewal_verdict::Verdict::Later(range) => Best::Within {
            early: on.date(range.early),
            likely: on.date(range.likely),
            late: range.late.map(|late| on.date(late)),
        },
    }
}

/// What could be typed so that the money can be judged.
fn missing_for_money(on: &Request<'_>, rig: &Rig, assessed: &Followed<'_>) -> Vec<String> {
    let own = on.rules.rig(rig.id);
    let mut missing = Vec::new();
    if own.resin_price().is_none() {
        missing.push(example_of(on, Field::ResinPrice));
    }
    if own.membrane_price().is_none() {
        missing.push(example_of(on, Field::MembranePrice));
    }
    missing.extend(missing_for_resin(on, rig, assessed));
    missing
}
