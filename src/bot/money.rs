//! Answers about money: when a new membrane pays, what another price would
//! change, what was spent.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::message::setting::{Amount, Currency, Field, Setting};
use crate::message::{Span, What};
use crate::replies::buying::{self, Costs, Spent};
use crate::replies::money::{self, Best, Part, Supposed, Verdict};
use crate::schedule;
use crate::store::rigs::Rig;
use crate::store::services::Service;
use crate::store::{self, StoreError};
use crate::water::assess::assess;
use crate::water::renewal_verdict::{self, Renewal};

use super::answer::Answer;
use super::following::Followed;
use super::past_settings::as_of;
use super::recording::service_of;
use super::rules::{Rules, RulesFor};
use super::turn::Turn;

/// So many rigs stand in one answer about prices.
const RIGS_SHOWN: usize = 12;

impl Turn<'_> {
    /// The money's words on a rig's membrane; none while it cannot be judged.
    pub(super) fn money_lines(&self, rig: &Rig, assessed: &Followed) -> Option<Vec<String>> {
        let verdict = self.verdict(rig, assessed)?;
        Some(money::verdict(
            self.words,
            &verdict,
            self.rules.currency(),
            self.today(),
        ))
    }

    /// What could be typed so that the money can be judged, for those who can tell it.
    pub(super) fn money_missing(&self, rig: &Rig, assessed: &Followed) -> Vec<String> {
        let missing = self.missing_for_money(rig, assessed);
        if missing.is_empty() || !self.rules.has_bed(rig) || rig.di_only || !self.member.role.leads() {
            return Vec::new();
        }
        let mut lines = vec![self.words.plain("money-missing")];
        lines.extend(missing);
        lines
    }

    fn verdict(&self, rig: &Rig, assessed: &Followed) -> Option<Verdict> {
        let renewal = assessed.assessment.renewal?;
        let own = self.rules.rig(rig.id);
        let line = assessed.settings.limits.spent;
        Some(Verdict {
            best: self.best(&renewal),
            waiting_per_month: renewal.waiting_per_month,
            running_per_year: renewal.resin_cost_per_year,
            mean_per_year: renewal.mean_cost_per_year,
            rule: renewal
                .rule_of_thumb
                .map(|rule| (line, self.date(rule.on), rule.extra_cost)),
            resin_moves: renewal
                .sensitivity
                .map(|moves| (self.date(moves.resin_dearer), self.date(moves.resin_cheaper))),
            prices: (own.resin_price()?, own.membrane_price()?),
            fault: assessed.assessment.fault.is_some(),
        })
    }

    fn best(&self, renewal: &Renewal) -> Best {
        match renewal.verdict {
            renewal_verdict::Verdict::Now => Best::Now,
            renewal_verdict::Verdict::NotInSight => Best::NotInSight,
            renewal_verdict::Verdict::NotYetKnown => Best::NotYetKnown,
            renewal_verdict::Verdict::Later(range) => Best::Within {
                early: self.date(range.early),
                likely: self.date(range.likely),
                late: range.late.map(|late| self.date(late)),
            },
        }
    }

    /// What could be typed so that the money can be judged.
    fn missing_for_money(&self, rig: &Rig, assessed: &Followed) -> Vec<String> {
        let own = self.rules.rig(rig.id);
        let mut missing = Vec::new();
        if own.resin_price().is_none() {
            missing.push(self.example_of(Field::ResinPrice));
        }
        if own.membrane_price().is_none() {
            missing.push(self.example_of(Field::MembranePrice));
        }
        missing.extend(self.missing_for_resin(rig, assessed));
        missing
    }

    /// "What if resin costs 12?": recomputed, not stored.
    pub(super) async fn what_if(
        &mut self,
        rig: Option<i64>,
        part: Option<What>,
        (amount, percent): (Option<f64>, Option<f64>),
    ) -> Result<Answer, StoreError> {
        let price = amount
            .or_else(|| self.changed_price(rig, part?, percent?))
            .and_then(Amount::of_main)
            .filter(|price| *price > Amount::default());
        let supposed = match (part, price) {
            (Some(What::Resin), Some(price)) => Some((Part::Resin, price, Setting::ResinPrice(price))),
            (Some(What::Membrane), Some(price)) => Some((Part::Membrane, price, Setting::MembranePrice(price))),
            _ => None,
        };
        let Some((part, price, setting)) = supposed else {
            return Ok(Answer::says(self.words.plain("what-if-how")));
        };
        let other = self.rules.supposing(rig, setting);
        let fleet = self.fleet.clone();
        if fleet.is_empty() {
            return Ok(Answer::says(self.words.plain("fleet-empty")));
        }
        // Prices decide nothing on a rig without a membrane or without resin: of one
        // that is named this is said.
        let decides = |one: &Rig| !one.di_only && self.rules.has_bed(one);
        if let Some(one) = fleet.iter().find(|one| rig == Some(one.id) && !decides(one)) {
            let key = if one.di_only { "what-if-di" } else { "what-if-glass" };
            return Ok(Answer::says(self.words.say(key, [("rig", (&one.name).into())])));
        }
        let asked: Vec<&Rig> = fleet
            .iter()
            .filter(|one| rig.is_none_or(|id| id == one.id) && decides(one))
            .collect();
        if asked.is_empty() {
            return Ok(Answer::says(self.words.plain("what-if-none")));
        }
        let mut rigs = Vec::new();
        for one in asked.into_iter().take(RIGS_SHOWN) {
            let assessed = self.follow(one).await?;
            let then = assess(
                &assessed.course.history,
                &other.water_settings(one),
                &assessed.lessons,
                self.now,
            );
            rigs.push(Supposed {
                rig: one.name.clone(),
                then: then.renewal.as_ref().map(|renewal| self.best(renewal)),
                now: assessed.assessment.renewal.as_ref().map(|renewal| self.best(renewal)),
            });
        }
        let currency = self.rules.currency();
        let text = money::supposed(self.words, (part, price), &rigs, currency, self.today());
        Ok(Answer::says(text))
    }

    /// The price that is set, changed by so many per cent, in main units.
    fn changed_price(&self, rig: Option<i64>, part: What, percent: f64) -> Option<f64> {
        let own = rig.map_or_else(|| self.rules.outfit(), |rig| self.rules.rig(rig));
        let price = match part {
            What::Resin => own.resin_price(),
            What::Membrane => own.membrane_price(),
            _ => None,
        };
        Some(price?.main() * (1.0 + percent / 100.0))
    }

    /// "What did otter cost last year?"
    pub(super) async fn cost(
        &mut self,
        rig: Option<i64>,
        part: Option<What>,
        span: Option<Span>,
    ) -> Result<Answer, StoreError> {
        let today = self.today();
        let (from, to) = days_of(span, today);
        let after = to.checked_add(1.day()).unwrap_or(to);
        let start = schedule::day_start(&self.zone, from).unwrap_or(0);
        let end = schedule::day_start(&self.zone, after).unwrap_or(self.now);
        let [mut resin, mut membranes, mut prefilters] = [Spent::default(); 3];
        let settings = store::settings::all(self.db, self.outfit.id).await?;
        let mut example = String::new();
        for one in self
            .fleet
            .clone()
            .iter()
            .filter(|one| rig.is_none_or(|id| id == one.id))
        {
            let services = store::services::of_rig(self.db, one.id).await?;
            for service in services
                .iter()
                .filter(|service| (start..end).contains(&service.done_at))
            {
                let what = service_of(&service.what).filter(|what| part.is_none_or(|part| part == *what));
                let spent = match what {
                    Some(What::Resin) => &mut resin,
                    Some(What::Membrane) => &mut membranes,
                    Some(What::Prefilter) => &mut prefilters,
                    _ => continue,
                };
                spent.count += 1;
                // A price or a size that came later changes nothing that was paid.
                let then = Rules::of(&self.outfit, &as_of(&settings, service.done_at));
                match price_of(service, what, then.rig(one.id), self.rules.currency()) {
                    Some(price) => spent.cost += price,
                    None => {
                        spent.unpriced += 1;
                        example = self.price_missing(one, what);
                    }
                }
            }
        }
        let name = rig.map(|id| self.rig_name(id));
        let costs = Costs {
            rig: name.as_deref(),
            days: (from, to),
            resin,
            membranes,
            prefilters,
            example: &example,
        };
        let text = buying::costs(self.words, &costs, self.rules.currency(), today);
        Ok(Answer::says(text))
    }

    /// What could be typed so that such a service of a rig has a price.
    fn price_missing(&self, rig: &Rig, what: Option<What>) -> String {
        match what {
            Some(What::Resin) if self.rules.rig(rig.id).resin_price().is_none() => self.example_of(Field::ResinPrice),
            Some(What::Resin) => format!("{} {}", rig.name.to_lowercase(), self.example_of(Field::ResinLitres)),
            Some(What::Membrane) => self.example_of(Field::MembranePrice),
            _ => self.example_of(Field::PrefilterPrice),
        }
    }
}

/// What a service cost, main units: as it was said with it, else as it was set,
/// labour included.
fn price_of(service: &Service, what: Option<What>, own: RulesFor<'_>, currency: Option<Currency>) -> Option<f64> {
    let digits = currency.map_or(2, Currency::digits);
    if let Some(minor) = service.price_minor {
        return Amount::of_minor(minor, digits).map(Amount::main);
    }
    let main = |amount: Option<Amount>| amount.map(Amount::main);
    let labour = |amount: Option<Amount>| main(amount).unwrap_or(0.0);
    match what? {
        What::Resin => Some(main(own.resin_price())? * own.resin_litres()? + labour(own.resin_labour())),
        What::Membrane => {
            Some(main(own.membrane_price())? * f64::from(own.membranes()) + labour(own.membrane_labour()))
        }
        What::Prefilter => main(own.prefilter_price()),
        What::Repack | What::Flush | What::ORing => None,
    }
}

/// First and last day of a stretch of time; the last twelve months if none is said.
pub(super) fn days_of(span: Option<Span>, today: Date) -> (Date, Date) {
    let back = |days: i64| today.checked_sub(days.days()).unwrap_or(today);
    let monday = back(i64::from(today.weekday().to_monday_zero_offset()));
    let first = today.first_of_month();
    let before = |date: Date| date.yesterday().unwrap_or(date);
    match span {
        None => (
            today.checked_sub(1.year()).and_then(Date::tomorrow).unwrap_or(today),
            today,
        ),
        Some(Span::Today) => (today, today),
        Some(Span::Yesterday) => (back(1), back(1)),
        Some(Span::ThisWeek) => (monday, today),
        Some(Span::LastWeek) => (monday.checked_sub(7.days()).unwrap_or(monday), before(monday)),
        Some(Span::ThisMonth) => (first, today),
        Some(Span::LastMonth) => (before(first).first_of_month(), before(first)),
        Some(Span::ThisQuarter) => (quarter(today), today),
        Some(Span::LastQuarter) => (quarter(before(quarter(today))), before(quarter(today))),
        Some(Span::Months { year, from, to }) => months(year, from, to, today),
        Some(Span::ThisYear) => (today.first_of_year(), today),
        Some(Span::LastYear) => {
            let last = before(today.first_of_year());
            (last.first_of_year(), last)
        }
    }
}

/// The first day of a date's quarter.
fn quarter(date: Date) -> Date {
    let month = (date.month() - 1) / 3 * 3 + 1;
    Date::new(date.year(), month, 1).unwrap_or(date)
}

/// The days of some months; without a year, the latest that have begun.
fn months(year: Option<i16>, from: u8, to: Option<u8>, today: Date) -> (Date, Date) {
    let first = |year: i16, month: u8| Date::new(year, month as i8, 1).unwrap_or(today);
    let last_year = year.unwrap_or(
        match to.unwrap_or(from) as i8 > today.month() && from as i8 > today.month() {
            true => today.year() - 1,
            false => today.year(),
        },
    );
    let Some(to) = to else {
        return (first(last_year, from), today);
    };
    let end = first(last_year, to).last_of_month();
    // "From november to february" begins in the year before.
    let begin = first(last_year - i16::from(from > to), from);
    (begin, end.min(today.max(begin)))
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    #[test]
    fn stretches_of_time_are_calendar_ones() {
        // A Wednesday.
        let today = date(2026, 3, 4);
        let of = |year, from, to| Some(Span::Months { year, from, to });
        for (span, from, to) in [
            (None, date(2025, 3, 5), today),
            (Some(Span::ThisWeek), date(2026, 3, 2), today),
            (Some(Span::LastWeek), date(2026, 2, 23), date(2026, 3, 1)),
            (Some(Span::LastMonth), date(2026, 2, 1), date(2026, 2, 28)),
            (Some(Span::ThisYear), date(2026, 1, 1), today),
            (Some(Span::LastYear), date(2025, 1, 1), date(2025, 12, 31)),
            (Some(Span::ThisQuarter), date(2026, 1, 1), today),
            (Some(Span::LastQuarter), date(2025, 10, 1), date(2025, 12, 31)),
            (of(Some(2025), 1, Some(12)), date(2025, 1, 1), date(2025, 12, 31)),
            (of(None, 2, Some(2)), date(2026, 2, 1), date(2026, 2, 28)),
            (of(None, 6, Some(6)), date(2025, 6, 1), date(2025, 6, 30)),
            (of(None, 1, None), date(2026, 1, 1), today),
            (of(None, 11, None), date(2025, 11, 1), today),
            (of(Some(2025), 1, Some(3)), date(2025, 1, 1), date(2025, 3, 31)),
            (of(None, 11, Some(2)), date(2025, 11, 1), date(2026, 2, 28)),
        ] {
            assert_eq!(days_of(span, today), (from, to), "{span:?}");
        }
    }
}
