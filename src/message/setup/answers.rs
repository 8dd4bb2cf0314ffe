//! An answer to one question, as the commands that set what it says: somebody
//! who is asked for a price may type `180`, where elsewhere it takes
//! `membrane price 180`.

use super::super::command::Command;
use super::super::setting::{self, Bed, Country, Field, Setting, WishFor};
use super::guide::plain;
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
            let american = country.is_some_and(Country::is_american);
            rig.map_or_else(Vec::new, |rig| every_part(text, |said| fact(part, said, rig, american)))
        }
        Step::Rigs | Step::Reading | Step::Crew => Vec::new(),
        _ => outfit_setting(step, text, country)
            .map(for_outfit)
            .into_iter()
            .collect(),
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
    Command::Setting(WishFor::set(None, setting))
}

fn for_rig(rig: &str, setting: Setting) -> Command {
    Command::Setting(WishFor::set(Some(rig), setting))
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

fn hours(text: &str) -> Option<Setting> {
    let steps = [Step::WorkingDays, Step::DayEnds, Step::Digest];
    steps.into_iter().find_map(|step| outfit_setting(step, text, None))
}

/// What a text sets for the outfit; where volumes are American, a bare price is one for a cubic
/// foot and a bare volume one in gallons, as they are asked for.
fn outfit_setting(step: Step, text: &str, country: Option<Country>) -> Option<Setting> {
    let fields: &[Field] = match step {
        Step::Country => &[Field::Country],
        Step::WorkingDays => &[Field::WorkingDays],
        Step::DayEnds => &[Field::DayEnds],
        Step::Digest => &[Field::DigestAt, Field::Digest],
        Step::MembranePrice => &[Field::MembranePrice],
        Step::ResinPrice => &[Field::ResinPrice],
        Step::LitresPerDay => &[Field::LitresPerDay],
        _ => &[],
    };
    setting::answer(text, fields, country.is_some_and(Country::is_american))
}

/// The command of one fact about a rig.
fn fact(part: Part, text: &str, rig: &str, american: bool) -> Option<Command> {
    let rig_name = || rig.to_owned();
    let may_be = |wanted: Part| part == wanted || part == Part::Facts;
    if may_be(Part::Kind)
        && let Some(kind) = kind(text)
    {
        return Some(match kind {
            Kind::DiOnly => Command::DiOnly(rig_name()),
            Kind::RoAndDi => for_rig(rig, Field::ResinBed.to(Bed::There)),
            Kind::RoOnly => for_rig(rig, Field::ResinBed.to(Bed::Absent)),
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
    let answered = |field| setting::answer(text, &[field], american);
    let setting = match part {
        Part::Membranes => answered(Field::Membranes),
        Part::Stands => answered(Field::Stands),
        Part::Resin => answered(Field::ResinLitres),
        Part::Rated => answered(Field::Rated),
        Part::Prefilters => answered(Field::PrefilterDays),
        Part::Facts => of_a_rig(text).or_else(|| answered(Field::ResinLitres)),
        Part::Kind | Part::Flush => None,
    };
    setting.map(|setting| for_rig(rig, setting))
}

/// What somebody says of a rig without being asked for one thing: not of the outfit.
fn of_a_rig(text: &str) -> Option<Setting> {
    const FIELDS: [Field; 5] = [
        Field::Membranes,
        Field::Stands,
        Field::Rated,
        Field::PrefilterDays,
        Field::ShortNames,
    ];
    let set = setting::read(text)?.of_outfit();
    set.filter(|setting| FIELDS.contains(&setting.field()))
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
    use super::super::super::setting::Wish;
    use super::super::super::setting::{Amount, Clock, Days, Stands};
    use super::*;

    fn said(step: Step, text: &str) -> Vec<Command> {
        answer(step, text, Some("Heron"), Country::of_code("US"))
    }

    #[test]
    fn a_bare_answer_is_read_by_its_question() {
        let outfit = |setting| vec![for_outfit(setting)];
        let price = Field::MembranePrice.to(Amount::of_main(180.0).unwrap_or_default());
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
                outfit(Field::WorkingDays.to(Days::MONDAY_TO_FRIDAY)),
            ),
            (
                Step::DayEnds,
                "4.30 pm",
                outfit(Field::DayEnds.to(Clock::new(16, 30).unwrap_or(Clock::MIDNIGHT))),
            ),
            (Step::MembranePrice, "$180", outfit(price)),
        ] {
            assert_eq!(said(step, text), commands, "{text}");
        }
        let litres = |setting: &Command| {
            matches!(
                setting,
                Command::Setting(WishFor { wish: Wish::Set(setting), .. }) if setting.field() == Field::ResinPrice
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
                    wish: Wish::Set(setting),
                    ..
                }),
            ] => setting.get().map(|litres: f64| (litres * 100.0).round() / 100.0),
            _ => None,
        };
        // A US gallon has 3.785 411 784 L, a cubic foot 28.316 85 L (NIST SP 811, appendix B.8).
        assert_eq!(litres(Step::LitresPerDay, "150", "US"), Some(567.81));
        assert_eq!(litres(Step::LitresPerDay, "about 600", "GB"), Some(600.0));
        assert_eq!(litres(Step::Rig(7, Part::Resin), "1", "US"), Some(28.32));
    }

    #[test]
    fn a_number_is_taken_out_of_what_is_said_around_it() {
        let value = |field, text: &str, american| setting::answer(text, &[field], american).map(|set| set.text());
        for (text, price) in [
            ("a membrane is 180", Some("180")),
            ("membranes are 180", Some("180")),
            ("about 9", Some("9")),
            ("1 200", Some("1200")),
            ("1 200 zl", Some("1200")),
            ("unos 200", Some("200")),
            ("$420 + GST", Some("420")),
            ("no idea", None),
        ] {
            assert_eq!(value(Field::MembranePrice, text, false).as_deref(), price, "{text}");
        }
        // 180 for 25 litres are 7.20 a litre.
        assert_eq!(
            value(Field::ResinPrice, "25 litres cost 180", false).as_deref(),
            Some("7.2")
        );
        assert_eq!(
            value(Field::ResinLitres, "about 25 litres", true).as_deref(),
            Some("25")
        );
        assert_eq!(value(Field::PrefilterDays, "180", false).as_deref(), Some("180"));
    }

    #[test]
    fn several_facts_of_a_rig_are_told_at_once_or_not_at_all() {
        let facts = Step::Rig(7, Part::Facts);
        let told = said(facts, "2 membranes, flushes itself, lying, 25 litres");
        assert_eq!(told.len(), 4);
        assert_eq!(told[1], Command::FlushesItself("Heron".into()));
        assert_eq!(told[2], for_rig("Heron", Field::Stands.to(Stands::Lying)));
        assert_eq!(said(facts, "2 membranes, green"), vec![]);
        assert_eq!(
            said(facts, "RO only"),
            vec![for_rig("Heron", Field::ResinBed.to(Bed::Absent))]
        );
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
