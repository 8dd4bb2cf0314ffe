//! A calendar file of days (RFC 5545): all-day events that a phone takes in.
//!
//! Own writer, about what is needed and no more: lines end in CRLF and fold at
//! 75 octets (section 3.1), text is escaped (3.3.11), an all-day event has
//! `VALUE=DATE` and ends on the day after (3.6.1, non-inclusive DTEND), UID and
//! DTSTAMP are required (3.8.4.7, 3.8.7.2). The same event keeps its UID, so that
//! a later file moves it instead of doubling it.

use jiff::civil::{Date, DateTime};

/// Octets in a line before it is folded, its end not counted (RFC 5545, 3.1).
const LINE_OCTETS: usize = 75;

/// One day in the calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayEvent {
    /// What makes it the same event next week: letters, digits and hyphens
    /// (`membrane-12`). Unique within the file.
    pub key: String,
    /// The day.
    pub on: Date,
    /// The title, one line.
    pub title: String,
    /// More about it; may have several lines, may be empty.
    pub about: String,
}

/// The file. `name` is shown as the calendar's, `host` completes the UIDs
/// (`key@host`), `stamp_utc` is when the file is made, in UTC.
#[must_use]
pub fn calendar(name: &str, host: &str, stamp_utc: DateTime, events: &[DayEvent]) -> String {
    let mut file = String::new();
    let mut line = |text: String| fold_into(&mut file, &text);
    line("BEGIN:VCALENDAR".to_owned());
    line("VERSION:2.0".to_owned());
    line("PRODID:-//Tapside//due dates//EN".to_owned());
    line("CALSCALE:GREGORIAN".to_owned());
    line("METHOD:PUBLISH".to_owned());
    line(format!("X-WR-CALNAME:{}", escaped(name)));
    for event in events {
        line("BEGIN:VEVENT".to_owned());
        line(format!("UID:{}@{}", escaped(&event.key), escaped(host)));
        line(format!("DTSTAMP:{}", utc(stamp_utc)));
        line(format!("DTSTART;VALUE=DATE:{}", basic(event.on)));
        let day_after = event.on.tomorrow().unwrap_or(event.on);
        line(format!("DTEND;VALUE=DATE:{}", basic(day_after)));
        line(format!("SUMMARY:{}", escaped(&event.title)));
        if !event.about.is_empty() {
            line(format!("DESCRIPTION:{}", escaped(&event.about)));
        }
        // Nobody is busy on that day because of it (3.8.2.7).
        line("TRANSP:TRANSPARENT".to_owned());
        line("END:VEVENT".to_owned());
    }
    line("END:VCALENDAR".to_owned());
    file
}

fn basic(date: Date) -> String {
    format!("{:04}{:02}{:02}", date.year().max(0), date.month(), date.day())
}

fn utc(at: DateTime) -> String {
    let (date, time) = (basic(at.date()), at.time());
    format!("{date}T{:02}{:02}{:02}Z", time.hour(), time.minute(), time.second())
}

/// Text with backslash, semicolon, comma and line ends escaped (3.3.11), and
/// without the control characters that 3.1 forbids.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    for letter in text.chars() {
        match letter {
            '\\' | ';' | ',' => escaped.extend(['\\', letter]),
            '\n' => escaped.push_str("\\n"),
            letter if letter.is_control() && letter != '\t' => {}
            letter => escaped.push(letter),
        }
    }
    escaped
}

/// Appends a content line, folded between characters: each further line begins
/// with a space, which counts (3.1).
fn fold_into(file: &mut String, line: &str) {
    let mut octets = 0;
    for letter in line.chars() {
        if octets + letter.len_utf8() > LINE_OCTETS {
            file.push_str("\r\n ");
            octets = 1;
        }
        file.push(letter);
        octets += letter.len_utf8();
    }
    file.push_str("\r\n");
}

#[cfg(test)]
#[allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test says by panicking what is wrong"
)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn event(title: &str, about: &str) -> DayEvent {
        DayEvent {
            key: "prefilters-7".to_owned(),
            on: date(2026, 12, 31),
            title: title.to_owned(),
            about: about.to_owned(),
        }
    }

    fn file(events: &[DayEvent]) -> String {
        calendar("Blue Ladder", "tapside", date(2026, 3, 2).at(7, 0, 5, 0), events)
    }

    #[test]
    fn a_day_ends_on_the_next_one() {
        let file = file(&[event("Heron: prefilters", "")]);
        let expected = "BEGIN:VEVENT\r\nUID:prefilters-7@tapside\r\nDTSTAMP:20260302T070005Z\r\n\
            DTSTART;VALUE=DATE:20261231\r\nDTEND;VALUE=DATE:20270101\r\nSUMMARY:Heron: prefilters\r\n\
            TRANSP:TRANSPARENT\r\nEND:VEVENT\r\n";
        assert!(file.contains(expected), "{file}");
    }

    #[test]
    fn lines_fold_at_75_octets_between_characters() {
        let title = "ñandú ".repeat(40);
        let file = file(&[event(&title, "")]);
        for line in file.split("\r\n") {
            assert!(line.len() <= 75, "{line}");
            assert!(!line.contains('\n'));
        }
        let unfolded = file.replace("\r\n ", "");
        assert!(unfolded.contains(&format!("SUMMARY:{title}\r\n")));
    }

    #[test]
    fn text_is_escaped() {
        let file = file(&[event("a, b; c\\d", "one\ntwo\r\nthree\u{7}")]);
        assert!(file.contains("SUMMARY:a\\, b\\; c\\\\d\r\n"));
        assert!(file.contains("DESCRIPTION:one\\ntwo\\nthree\r\n"));
    }

    #[test]
    fn another_reader_finds_the_same_days() {
        use icalendar::{CalendarComponent, Component, DatePerhapsTime};
        let title = "Heron, Otter; \\ membrana: ".repeat(6);
        let written = [event(&title, "first\nsecond"), event("Mule", "")];
        let read: icalendar::Calendar = file(&written).parse().unwrap();
        let events: Vec<_> = (read.components.iter())
            .filter_map(|component| match component {
                CalendarComponent::Event(event) => Some(event),
                _ => None,
            })
            .collect();
        assert_eq!(events.len(), 2);
        let [first, second] = events[..] else { panic!() };
        assert_eq!(first.get_summary(), Some(title.as_str()));
        assert_eq!(first.get_description(), Some("first\nsecond"));
        assert_eq!(second.get_summary(), Some("Mule"));
        let day = |at: Option<DatePerhapsTime>| match at {
            Some(DatePerhapsTime::Date(day)) => day.to_string(),
            other => panic!("{other:?}"),
        };
        assert_eq!(day(first.get_start()), "2026-12-31");
        assert_eq!(day(first.get_end()), "2027-01-01");
    }
}
