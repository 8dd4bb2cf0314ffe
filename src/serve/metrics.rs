//! The numbers for the host's monitoring, as OpenMetrics 1.0 text.

use std::sync::atomic::{AtomicU64, Ordering::Relaxed};

use prometheus_client::encoding::text::encode;
use prometheus_client::metrics::counter::ConstCounter;
use prometheus_client::metrics::gauge::ConstGauge;
use prometheus_client::registry::{Registry, Unit};

use crate::store::tallies::Tallies;

use super::tally::Tally;

/// What the text is, to whoever asks.
pub const CONTENT_TYPE: &str = "application/openmetrics-text; version=1.0.0; charset=utf-8";

/// Writes the numbers; without those of the database if it does not answer.
///
/// # Errors
/// Never in practice: writing into a text does not fail.
pub fn write(tally: &Tally, tallies: Option<&Tallies>, now: i64) -> Result<String, std::fmt::Error> {
    let mut registry = Registry::with_prefix("tapside");
    let mut counter = |name: &str, help: &str, count: &AtomicU64| {
        registry.register(name, help, ConstCounter::new(count.load(Relaxed)));
    };
    counter("heard", "Updates heard and committed since the start", &tally.heard);
    counter(
        "sends_delivered",
        "Messages delivered since the start",
        &tally.delivered,
    );
    counter(
        "sends_failed",
        "Messages that can never be delivered, since the start",
        &tally.failed,
    );
    counter(
        "sends_postponed",
        "Deliveries to be tried again, since the start",
        &tally.postponed,
    );
    counter(
        "states_compared",
        "Kept states of rigs compared with their rows since the start",
        &tally.states_compared,
    );
    counter(
        "states_wrong",
        "Kept states of rigs that were not what their rows come to, since the start",
        &tally.states_wrong,
    );
    gauge(
        &mut registry,
        "database_up",
        "1 if the database answers",
        i64::from(tallies.is_some()),
    );
    let last_word_at = tally.last_word_at.load(Relaxed);
    if last_word_at > 0 {
        age(
            &mut registry,
            "poll_age",
            "Since Telegram last answered this copy",
            now - last_word_at,
        );
    }
    if let Some(tallies) = tallies {
        for (name, help, count) in [
            ("outfits", "Outfits", tallies.outfits),
            ("rigs", "Rigs in use", tallies.rigs),
            ("readings", "Readings in the record", tallies.readings),
            ("services", "Services in the record", tallies.services),
            ("sends_waiting", "Messages that wait to be sent", tallies.waiting),
            (
                "dead_messages",
                "Messages kept aside because they could not be processed",
                tallies.dead,
            ),
        ] {
            gauge(&mut registry, name, help, count);
        }
        let oldest = tallies.oldest_waiting_at.map_or(0, |queued_at| now - queued_at);
        age(
            &mut registry,
            "oldest_send_age",
            "How long the oldest message has waited to be sent",
            oldest,
        );
    }
    let mut text = String::new();
    encode(&mut text, &registry)?;
    Ok(text)
}

fn gauge(registry: &mut Registry, name: &str, help: &str, value: i64) {
    registry.register(name, help, ConstGauge::new(value));
}

fn age(registry: &mut Registry, name: &str, help: &str, seconds: i64) {
    registry.register_with_unit(name, help, Unit::Seconds, ConstGauge::new(seconds.max(0)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_numbers_are_told_with_their_kind_and_unit() -> Result<(), std::fmt::Error> {
        let tally = Tally::default();
        tally.heard(3, 1_772_000_000);
        let tallies = Tallies {
            outfits: 1,
            rigs: 2,
            readings: 30,
            services: 4,
            waiting: 5,
            oldest_waiting_at: Some(1_772_000_000),
            dead: 6,
        };
        let text = write(&tally, Some(&tallies), 1_772_000_007)?;
        for line in [
            "# TYPE tapside_heard counter",
            "tapside_heard_total 3",
            "tapside_database_up 1",
            "tapside_readings 30",
            "# UNIT tapside_oldest_send_age_seconds seconds",
            "tapside_oldest_send_age_seconds 7",
            "tapside_poll_age_seconds 7",
            "tapside_dead_messages 6",
            "# EOF",
        ] {
            assert!(text.lines().any(|told| told == line), "{line} in\n{text}");
        }
        assert!(text.ends_with("# EOF\n"), "OpenMetrics 1.0: the text ends so");
        Ok(())
    }

    #[test]
    fn without_the_database_its_numbers_are_left_out() -> Result<(), std::fmt::Error> {
        let text = write(&Tally::default(), None, 7)?;
        assert!(
            text.contains("tapside_database_up 0") && !text.contains("readings"),
            "{text}"
        );
        assert!(!text.contains("poll_age"), "before the first poll it has no age");
        Ok(())
    }
}
