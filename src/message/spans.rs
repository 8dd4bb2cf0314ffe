//! The stretch of time that a question is about: "in 2025", "since january", "from january to march".

use super::days::month_of;
use super::languages::TABLES;
use super::query::Span;
use super::senses::Sense;
use super::tokens::Token;

/// What the words of a question tell; `None` when they tell no time.
pub(super) fn find(part: &[Token]) -> Option<Span> {
    let value = |token: &Token| TABLES.value(Sense::Period, token.word()?);
    if let Some(span) = part.iter().find_map(value).and_then(span_of) {
        return Some(span);
    }
    let year = part.iter().filter_map(year_of).next();
    let months: Vec<usize> = (0..part.len()).filter(|&at| month_at(part, at).is_some()).collect();
    let month = |at: usize| month_at(part, at);
    let opens = |at: usize| at > 0 && part[at - 1].has(Sense::From);
    match months[..] {
        [first, second, ..] => Some(Span::Months {
            year,
            from: month(first)?,
            to: Some(month(second)?),
        }),
        [only] if opens(only) => Some(Span::Months {
            year,
            from: month(only)?,
            to: None,
        }),
        [only] => Some(Span::Months {
            year,
            from: month(only)?,
            to: Some(month(only)?),
        }),
        [] => {
            let at = part.iter().position(|token| year_of(token).is_some())?;
            Some(Span::Months {
                year,
                from: 1,
                to: (!opens(at)).then_some(12),
            })
        }
    }
}

fn year_of(token: &Token) -> Option<i16> {
    let number = token.number()?;
    let year = number.decimals == 0 && !number.in_words && (2000.0..2100.0).contains(&number.value);
    year.then_some(number.value as i16)
}

/// A month's name; "may" only where no verb can stand.
fn month_at(part: &[Token], at: usize) -> Option<u8> {
    let behind_small = at > 0 && part[at - 1].has_any(&[Sense::From, Sense::To, Sense::FeedWeak, Sense::DateBefore]);
    let may = part[at].word() == Some("may") && behind_small;
    month_of(&part[at]).or(may.then_some(5))
}

fn span_of(value: &str) -> Option<Span> {
    Some(match value {
        "today" => Span::Today,
        "yesterday" => Span::Yesterday,
        "this week" => Span::ThisWeek,
        "last week" => Span::LastWeek,
        "this month" => Span::ThisMonth,
        "last month" => Span::LastMonth,
        "this quarter" => Span::ThisQuarter,
        "last quarter" => Span::LastQuarter,
        "this year" => Span::ThisYear,
        "last year" => Span::LastYear,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_of_the_tables_is_known() {
        for value in TABLES.values_of(Sense::Period) {
            assert!(span_of(value).is_some(), "{value}");
        }
    }
}
