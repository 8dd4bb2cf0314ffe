//! How a plain text looks on the platform: the verdict in bold, and never
//! longer than the platform takes.

use crate::domain::envelope::{fitting, units};

/// Marks the end of a text that was cut.
const MORE: &str = "\n...";

/// The text as HTML; the first line is bold when more lines follow.
pub fn html(text: &str) -> String {
    match text.split_once('\n') {
        Some((verdict, rest)) if !verdict.trim().is_empty() && !rest.trim().is_empty() => {
            format!("<b>{}</b>\n{}", escape(verdict), escape(rest))
        }
        _ => escape(text),
    }
}

/// The text, cut at the end of a line if it is longer than the platform takes
/// in UTF-16 units without its markup; within a line only if there is no other
/// way. What is queued was cut into pieces before, so this cuts nothing but
/// what an older release queued.
pub fn cut(text: &str, most_units: usize) -> String {
    if units(text) <= most_units {
        return text.to_owned();
    }
    let kept = fitting(text, most_units - units(MORE));
    let whole_lines = kept
        .rfind('\n')
        .filter(|at| *at > kept.len() / 2)
        .and_then(|at| kept.get(..at));
    format!("{}{MORE}", whole_lines.unwrap_or(kept))
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn the_verdict_is_bold_when_something_follows() {
        let rows = [
            ("Heron 93.3 % - sound\ntap 180", "<b>Heron 93.3 % - sound</b>\ntap 180"),
            ("Noted.", "Noted."),
            ("Noted.\n", "Noted.\n"),
            ("\nx", "\nx"),
            ("a < b & c > d", "a &lt; b &amp; c &gt; d"),
            ("<b>\n</b>", "<b>&lt;b&gt;</b>\n&lt;/b&gt;"),
        ];
        for (text, expected) in rows {
            assert_eq!(html(text), expected, "{text:?}");
        }
    }

    #[test]
    fn a_text_of_just_the_longest_length_is_left_alone() {
        for drop in ["x", "\u{1f4a7}"] {
            let longest = drop.repeat(4096 / drop.chars().map(char::len_utf16).sum::<usize>());
            assert_eq!(cut(&longest, 4096), longest);
            let cut_one = cut(&format!("{longest}x"), 4096);
            assert!(
                cut_one.ends_with(MORE) && units(&cut_one) <= 4096,
                "{}",
                units(&cut_one)
            );
        }
    }

    #[test]
    fn a_long_list_ends_with_a_whole_line() {
        let line = "tap 180 -> RO 12 ppm";
        let list = vec![line; 400].join("\n");
        let cut = cut(&list, 4096);
        assert!(cut.strip_suffix(MORE).is_some_and(|kept| kept.ends_with(line)), "{cut}");
        assert!(units(&cut) > 4050);
    }

    proptest! {
        #[test]
        fn no_text_is_longer_than_the_platform_takes(text in "(\\PC|\n){0,300}", times in 1_usize..40) {
            prop_assert!(units(&cut(&text.repeat(times), 4096)) <= 4096);
        }
    }
}
