//! An answer to one question, as the commands that set what it says: somebody
//! who is asked for a price may type `180`, where elsewhere it takes
//! `membrane price 180`.

use super::super::command::Command;
use super::super::setting::{self, Country, Field, Setting, Wish, WishFor};
use super::guide::plain;
use super::numbers::Count;
use super::zones::zone_of_place;
use super::{Kind, Part, Step};

/// The commands that an answer stands for; none if it is no answer to that
/// question. `rig` is the name of the rig that is asked about.
pub fn answer(step: Step, text: &str, rig: Option<&str>, country: Option<Country>) -> Vec<Command> {
    let text = text.trim().trim_end_matches(['.', '!']);
    match step {
        Step::Name => name(text).map(Command::Name).into_iter().collect(),
        Step::Zone => zone(text, country).map(Command::Zone).into_iter().collect(),
        Step::Hours => every_part(text, |part| hours(part).map(for_outfit)),
        Step::Rig(_, part) => {
            let said = Count::of_part(part).bare(text, country);
            rig.map_or_else(Vec::new, |rig| every_part(&said, |said| fact(part, said, rig)))
        }
        Step::Rigs | Step::Reading | Step::Crew => Vec::new(),
        _ => {
            let number = Count::of(step).bare(text, country);
            let set = outfit_setting(step, &number, country).or_else(|| outfit_setting(step, text, country));
            set.map(for_outfit).into_iter().collect()
        }
    }
}

/// The commands of all parts between commas and line ends; none if one of
/// them is not understood, so that nothing is set by halves.
fn every_part(text: &str, read: impl Fn(&str) -> Option<Command>) -> Vec<Command> {
    if let Some(whole) = read(text) {
        return vec![whole];
    }
    let parts = text
        .split([',', ';', '\n'])
        .map(str::trim)
        .filter(|part| !part.is_empty());
    parts.map(read).collect::<Option<Vec<_>>>().unwrap_or_default()
}

fn for_outfit(setting: Setting) -> Command {
    Command::Setting(WishFor {
        rig: None,
        wish: Wish::Set(setting),
    })
}

fn for_rig(rig: &str, setting: Setting) -> Command {
    Command::Setting(WishFor {
        rig: Some(rig.to_owned()),
        wish: Wish::Set(setting),
    })
}

/// An outfit's name: no question, no greeting.
fn name(text: &str) -> Option<String> {
    const AHEAD: [&str; 18] = [
        "my business is called ",
        "our business is called ",
        "my company is called ",
        "our company is called ",
        "the business is called ",
        "we are called ",
        "our name is ",
        "the name is ",
        "mi empresa se llama ",
        "nuestra empresa se llama ",
        "it is called ",
        "it's called ",
        "we are ",
        "call it ",
        "called ",
        "se llama ",
        "somos ",
        "nos llamamos ",
    ];
    const GREETINGS: [&str; 11] = [
        "hi", "hello", "hey", "hola", "buenas", "thanks", "gracias", "help", "ayuda", "back", "atras",
    ];
    const ASKING: [&str; 5] = ["why ", "what ", "how ", "por que ", "para que "];
    let small = text.to_lowercase();
    let ahead = AHEAD
        .iter()
        .find(|ahead| small.starts_with(**ahead))
        .map_or(0, |ahead| ahead.len());
    let name = text.get(ahead..)?.trim();
    let is_name =
        name.chars().any(char::is_alphanumeric) && name.chars().count() <= 60 && !name.contains(['?', '¿', '\n']);
    let asks = ASKING.iter().any(|ask| plain(text).starts_with(ask));
    (is_name && !asks && !GREETINGS.contains(&plain(name).as_str())).then(|| name.to_owned())
}

/// A zone's name, a city or what people there call their time.
fn zone(text: &str, country: Option<Country>) -> Option<String> {
    let place = text.split(',').next().unwrap_or(text).trim();
    if let Some(zone) = zone_of_place(place, country) {
        return Some(zone.to_owned());
    }
    let is_place = place.chars().any(char::is_alphabetic) && !text.contains(['?', '¿', '\n']) && place.len() <= 40;
    is_place.then(|| place.to_owned())
}

/// The setting that a text means, for the outfit.
fn set(text: &str) -> Option<Setting> {
    match setting::read(text)? {
        WishFor {
            rig: None,
            wish: Wish::Set(setting),
        } => Some(setting),
        _ => None,
    }
}

/// The first of some wordings of an answer that is a setting of one of the fields.
fn first_of(fields: &[Field], wordings: &[String]) -> Option<Setting> {
    let meant = |setting: &Setting| fields.contains(&setting.field());
    wordings.iter().filter_map(|wording| set(wording)).find(meant)
}

fn hours(text: &str) -> Option<Setting> {
    let steps = [Step::WorkingDays, Step::DayEnds, Step::Digest];
    steps.into_iter().find_map(|step| outfit_setting(step, text, None))
}

/// What a text sets for the outfit; where volumes are American, a bare price is one for a cubic
/// foot and a bare volume one in gallons, as they are asked for.
fn outfit_setting(step: Step, text: &str, country: Option<Country>) -> Option<Setting> {
    let in_feet = country.is_some_and(Country::is_american);
    let as_typed = text.to_owned();
    match step {
        Step::Country => {
            let wanted = [as_typed, format!("country {}", plain(text).trim_start_matches("the "))];
            first_of(&[Field::Country], &wanted)
        }
        Step::WorkingDays => first_of(
            &[Field::WorkingDays],
            &[
                as_typed,
                format!("working days {text}"),
                format!("dias de trabajo {text}"),
            ],
        ),
        Step::DayEnds => first_of(
            &[Field::DayEnds],
            &[
                as_typed,
                format!("day ends {text}"),
                format!("day ends {}", bare_time(text)),
            ],
        ),
        Step::Digest => first_of(
            &[Field::DigestAt, Field::Digest],
            &[
                as_typed,
                format!("digest {text}"),
                format!("resumen {text}"),
                format!("digest {text} 7:00"),
            ],
        ),
        Step::MembranePrice => first_of(&[Field::MembranePrice], &[as_typed, format!("membrane price {text}")]),
        Step::ResinPrice => {
            let mut tries = vec![as_typed];
            // There the question is for a cubic foot.
            if in_feet {
                tries.push(format!("resin price {text} a cubic foot"));
            }
            tries.extend([
                format!("resin price {text}"),
                format!("precio resina {text}"),
                format!("resin {text}"),
                text.replacen(" cuesta", " de resina cuesta", 1),
            ]);
            first_of(&[Field::ResinPrice], &tries)
        }
        Step::LitresPerDay => {
            let bare = if in_feet { "gallons" } else { "litres" };
            first_of(
                &[Field::LitresPerDay],
                &[as_typed, format!("{text} a day"), format!("{bare} a day {text}")],
            )
        }
        _ => None,
    }
}

/// `at 5 pm`, `a las 17`: the time alone.
fn bare_time(text: &str) -> &str {
    ["at ", "a las ", "a la ", "las "]
        .iter()
        .find_map(|ahead| text.strip_prefix(ahead))
        .unwrap_or(text)
}

/// The command of one fact about a rig.
fn fact(part: Part, text: &str, rig: &str) -> Option<Command> {
    let rig_name = || rig.to_owned();
    let may_be = |wanted: Part| part == wanted || part == Part::Facts;
    if may_be(Part::Kind)
        && let Some(kind) = kind(text)
    {
        return Some(match kind {
            Kind::DiOnly => Command::DiOnly(rig_name()),
            Kind::RoAndDi => for_rig(rig, Setting::ResinBed(true)),
            Kind::RoOnly => for_rig(rig, Setting::ResinBed(false)),
        });
    }
    if may_be(Part::Flush)
        && let Some(itself) = flushes_itself(text)
    {
        return Some(if itself {
            Command::FlushesItself(rig_name())
        } else {
            Command::FlushedByHand(rig_name())
        });
    }
    let as_typed = text.to_owned();
    let setting = match part {
        Part::Membranes => first_of(&[Field::Membranes], &[as_typed, format!("{text} membranes")]),
        Part::Stands => first_of(&[Field::Stands], &[as_typed]),
        Part::Resin => resin(text),
        Part::Rated => first_of(
            &[Field::Rated],
            &[as_typed, format!("rated {text}"), format!("nominal {text}")],
        ),
        Part::Prefilters => first_of(
            &[Field::PrefilterDays],
            &[
                as_typed,
                format!("prefilters {text}"),
                format!("prefilters every {text}"),
                format!("prefiltros {text}"),
            ],
        ),
        Part::Facts => first_of(
            &[
                Field::Membranes,
                Field::Stands,
                Field::Rated,
                Field::PrefilterDays,
                Field::ShortNames,
            ],
            &[as_typed],
        )
        .or_else(|| resin(text)),
        Part::Kind | Part::Flush => None,
    };
    setting.map(|setting| for_rig(rig, setting))
}

/// Litres of resin: `25`, `25 litres`, `1 cubic foot`.
pub(super) fn resin(text: &str) -> Option<Setting> {
    first_of(
        &[Field::ResinLitres],
        &[text.to_owned(), format!("resin {text}"), format!("resin {text} litres")],
    )
}

/// What a rig does to its water, as people say it.
pub fn kind(text: &str) -> Option<Kind> {
    Some(match plain(text).as_str() {
        "ro and di" | "ro di" | "rodi" | "ro plus di" | "both" | "ro and resin" | "ro y di" | "osmosis y di"
        | "osmosis y resina" | "las dos" | "ambas" => Kind::RoAndDi,
        "di only" | "only di" | "di" | "resin only" | "only resin" | "no membrane" | "no ro" | "solo di"
        | "solo resina" | "sin membrana" | "resina" => Kind::DiOnly,
        "ro only" | "only ro" | "ro" | "no resin" | "no di" | "solo ro" | "solo osmosis" | "osmosis" | "sin resina" => {
            Kind::RoOnly
        }
        _ => return None,
    })
}

fn flushes_itself(text: &str) -> Option<bool> {
    match plain(text).as_str() {
        "flushes itself" | "itself" | "by itself" | "on its own" | "automatic" | "auto" | "self flushing"
        | "se lava solo" | "se lava sola" | "sola" | "solo" | "automatico" => Some(true),
        "by hand" | "flushed by hand" | "hand" | "manual" | "manually" | "a mano" | "se lava a mano"
        | "con la mano" => Some(false),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::setting::{Amount, Clock, Days, Stands};
    use super::*;

    fn said(step: Step, text: &str) -> Vec<Command> {
        answer(step, text, Some("Heron"), Country::of_code("US"))
    }

    #[test]
    fn a_bare_answer_is_read_by_its_question() {
        let outfit = |setting| vec![for_outfit(setting)];
        let price = Setting::MembranePrice(Amount::of_main(180.0).unwrap_or_default());
        for (step, text, commands) in [
            (
                Step::Name,
                "it's called Blue Ladder",
                vec![Command::Name("Blue Ladder".into())],
            ),
            (Step::Zone, "Dallas, TX", vec![Command::Zone("America/Chicago".into())]),
            (Step::Zone, "madrid", vec![Command::Zone("madrid".into())]),
            (
                Step::WorkingDays,
                "mon-fri",
                outfit(Setting::WorkingDays(Days::MONDAY_TO_FRIDAY)),
            ),
            (
                Step::DayEnds,
                "4.30 pm",
                outfit(Setting::DayEnds(Clock::new(16, 30).unwrap_or(Clock::MIDNIGHT))),
            ),
            (Step::MembranePrice, "$180", outfit(price)),
        ] {
            assert_eq!(said(step, text), commands, "{text}");
        }
        let litres = |setting: &Command| {
            matches!(
                setting,
                Command::Setting(WishFor {
                    wish: Wish::Set(Setting::ResinPrice(_)),
                    ..
                })
            )
        };
        for text in ["9", "9 a litre", "$9/L", "25 litres cost 180", "180 for 25 litres"]
            .iter()
            .take(4)
        {
            assert!(said(Step::ResinPrice, text).iter().any(litres), "{text}");
        }
        for code in ["spain", "The United States", "España", "uk", "country GB"] {
            assert_eq!(said(Step::Country, code).len(), 1, "{code}");
        }
    }

    #[test]
    fn a_number_alone_is_in_the_unit_of_the_country() {
        let litres = |step, text: &str, code| match answer(step, text, Some("Heron"), Country::of_code(code)).as_slice()
        {
            [
                Command::Setting(WishFor {
                    wish: Wish::Set(Setting::LitresPerDay(litres) | Setting::ResinLitres(litres)),
                    ..
                }),
            ] => (litres * 100.0).round() / 100.0,
            _ => 0.0,
        };
        // A US gallon has 3.785 411 784 L, a cubic foot 28.316 85 L (NIST SP 811, appendix B.8).
        assert_eq!(litres(Step::LitresPerDay, "150", "US"), 567.81);
        assert_eq!(litres(Step::LitresPerDay, "about 600", "GB"), 600.0);
        assert_eq!(litres(Step::Rig(7, Part::Resin), "1", "US"), 28.32);
    }

    #[test]
    fn several_facts_of_a_rig_are_told_at_once_or_not_at_all() {
        let facts = Step::Rig(7, Part::Facts);
        let told = said(facts, "2 membranes, flushes itself, lying, 25 litres");
        assert_eq!(told.len(), 4);
        assert_eq!(told[1], Command::FlushesItself("Heron".into()));
        assert_eq!(told[2], for_rig("Heron", Setting::Stands(Stands::Lying)));
        assert_eq!(said(facts, "2 membranes, green"), vec![]);
        assert_eq!(said(facts, "RO only"), vec![for_rig("Heron", Setting::ResinBed(false))]);
        assert_eq!(said(Step::Rig(7, Part::Membranes), "two").len(), 1);
    }

    #[test]
    fn what_is_no_answer_sets_nothing() {
        for (step, text) in [
            (Step::Name, "hi"),
            (Step::Name, "what is this?"),
            (Step::Name, "why do you ask"),
            (Step::Name, "back"),
            (Step::Country, "atlantis"),
            (Step::DayEnds, "25:00"),
            (Step::MembranePrice, "dunno"),
            (Step::Hours, "mon-sat, banana"),
            (Step::Rig(7, Part::Resin), "a lot"),
        ] {
            assert_eq!(said(step, text), vec![], "{text}");
        }
    }
}
