//! Reads the rigs of a fleet from what an owner types or pastes: names in a row,
//! a name a line, or lines "name, short name, kind, resin litres".

use super::super::setting::{self, Field};
use super::Kind;
use super::answers::kind;
use super::guide::plain;

/// A rig as it was listed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// As typed.
    pub name: String,
    /// Other names.
    pub short_names: Vec<String>,
    /// What it does to its water, if that was said.
    pub kind: Option<Kind>,
    /// The resin in its bed, if that was said.
    pub resin_litres: Option<f64>,
}

/// A list of rigs, and the lines of it that are none.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Roster {
    /// In the order of the list.
    pub rows: Vec<Row>,
    /// As typed.
    pub not_understood: Vec<String>,
}

/// Longer lists are no fleet that somebody types.
const MOST_ROWS: usize = 100;
const NAME_WORDS: usize = 3;

impl Roster {
    /// Reads a list; empty for a text that is none.
    pub fn read(text: &str) -> Self {
        let mut roster = Self::default();
        let mut headed = false;
        for line in text.lines().map(bare).filter(|line| !line.is_empty()).take(MOST_ROWS) {
            let fields = fields(line);
            if is_header(&fields) {
                headed = true;
                continue;
            }
            match row(&fields, headed) {
                Some(row) => roster.rows.push(row),
                None => roster.names(line, &fields),
            }
        }
        roster
    }

    /// A line of names alone: `heron, otter and mule`.
    fn names(&mut self, line: &str, fields: &[String]) {
        let mut names: Vec<String> = fields.to_vec();
        if let Some(last) = names.pop() {
            let halves = [" and ", " & ", " y ", " e "]
                .iter()
                .find_map(|and| last.split_once(and));
            match halves {
                Some((one, other)) => names.extend([one.trim().to_owned(), other.trim().to_owned()]),
                None => names.push(last.trim_start_matches("and ").to_owned()),
            }
        }
        names.retain(|name| !name.is_empty());
        if names.is_empty() || !names.iter().all(|name| is_name(name)) {
            self.not_understood.push(line.to_owned());
            return;
        }
        self.rows
            .extend(names.into_iter().map(|name| Row { name, ..Row::default() }));
    }
}

/// A line without what stands before a list or its entries.
fn bare(line: &str) -> &str {
    let line = line.trim().trim_start_matches(['-', '*', '•', '·']).trim();
    let behind_number = line
        .split_once(['.', ')'])
        .filter(|(number, rest)| number.parse::<u8>().is_ok() && rest.starts_with(' '));
    let line = behind_number.map_or(line, |(_, rest)| rest.trim());
    let small = line.to_lowercase();
    const AHEAD: [&str; 8] = [
        "add rigs ",
        "add rig ",
        "rigs:",
        "our rigs are ",
        "my rigs are ",
        "we have ",
        "tenemos ",
        "equipos:",
    ];
    let ahead = AHEAD
        .iter()
        .find(|ahead| small.starts_with(**ahead))
        .map_or(0, |ahead| ahead.len());
    line.get(ahead..).unwrap_or(line).trim().trim_end_matches('.')
}

/// A line between its tabs, semicolons or commas, without quotes.
fn fields(line: &str) -> Vec<String> {
    let mark = ['\t', ';', ',']
        .into_iter()
        .find(|mark| line.contains(*mark))
        .unwrap_or(',');
    let own = |field: &str| field.trim().trim_matches(['"', '\'', '“', '”']).trim().to_owned();
    line.split(mark).map(own).collect()
}

fn is_header(fields: &[String]) -> bool {
    let heads = |field: &String| matches!(plain(field).as_str(), "name" | "rig" | "rig name" | "nombre" | "equipo");
    fields.len() > 1 && fields.first().is_some_and(heads)
}

/// A line that tells more of one rig than its name; none if it is names alone.
fn row(fields: &[String], headed: bool) -> Option<Row> {
    let (name, others) = fields.split_first()?;
    let mut row = Row {
        name: name.clone(),
        ..Row::default()
    };
    let mut tells_more = headed;
    for field in others.iter().filter(|field| !field.is_empty()) {
        if let Some(kind) = kind(field) {
            row.kind = Some(kind);
            tells_more = true;
        } else if let Some(litres) =
            setting::answer(field, &[Field::ResinLitres], false).and_then(|setting| setting.get())
        {
            row.resin_litres = Some(litres);
            tells_more = true;
        } else if let Some(names) = also_called(field) {
            row.short_names.extend(names);
            tells_more = true;
        } else {
            row.short_names.push(field.clone());
        }
    }
    if let [short] = row.short_names.as_slice()
        && others.len() == 1
    {
        tells_more |= is_short_for(short, name);
    }
    let fits =
        tells_more && is_name(name) && row.short_names.len() <= 8 && row.short_names.iter().all(|name| is_name(name));
    fits.then_some(row)
}

/// `also called trailer`: other names of the rig before it.
fn also_called(field: &str) -> Option<Vec<String>> {
    setting::read(field)?.of_outfit()?.get()
}

/// Whether a word of at most three letters has its letters from a name, in order.
fn is_short_for(short: &str, name: &str) -> bool {
    let (short, name) = (plain(short), plain(name));
    let mut letters = name.chars();
    (1..=3).contains(&short.len())
        && short.len() < name.len()
        && short.chars().all(|letter| letters.any(|other| other == letter))
}

/// A name has a letter, few words, and no two numbers: those would be a reading.
fn is_name(name: &str) -> bool {
    let plain = plain(name);
    let words: Vec<&str> = plain.split(' ').collect();
    let numbers = name
        .split(|letter: char| !letter.is_ascii_digit())
        .filter(|run| !run.is_empty())
        .count();
    plain.chars().any(|letter| letter.is_ascii_lowercase())
        && words.len() <= NAME_WORDS
        && numbers <= 1
        && name.chars().count() <= 30
        && !name.contains(['?', '¿', ':'])
        && !is_measure(&words)
        && !matches!(
            words[0],
            "i" | "we"
                | "my"
                | "what"
                | "how"
                | "hi"
                | "hello"
                | "hola"
                | "que"
                | "no"
                | "yes"
                | "ok"
                | "si"
                | "help"
                | "ayuda"
                | "eso"
        )
}

/// "5 pm", "25 l", "2 vans": a number and what it counts.
fn is_measure(words: &[&str]) -> bool {
    const COUNTED: [&str; 22] = [
        "am",
        "pm",
        "l",
        "litre",
        "litres",
        "liters",
        "litros",
        "gal",
        "gallons",
        "galones",
        "vans",
        "rigs",
        "trailers",
        "trucks",
        "carts",
        "equipos",
        "furgonetas",
        "ppm",
        "psi",
        "bar",
        "days",
        "dias",
    ];
    let [number, counted] = words else {
        return false;
    };
    number.bytes().all(|byte| byte.is_ascii_digit()) && COUNTED.contains(counted)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(text: &str) -> Vec<String> {
        Roster::read(text).rows.into_iter().map(|row| row.name).collect()
    }

    #[test]
    fn names_are_taken_from_one_line_or_many() {
        for (text, wanted) in [
            ("heron, otter, mule", &["heron", "otter", "mule"][..]),
            ("Heron, Otter and Mule.", &["Heron", "Otter", "Mule"]),
            ("heron y otter", &["heron", "otter"]),
            ("we have heron & otter", &["heron", "otter"]),
            ("- Heron\n- Big Blue\n\n2) Mule", &["Heron", "Big Blue", "Mule"]),
            ("van 3, van 4", &["van 3", "van 4"]),
            ("heron", &["heron"]),
            ("5 pm", &[]),
            ("2 vans", &[]),
        ] {
            assert_eq!(names(text), wanted, "{text}");
        }
    }

    #[test]
    fn lines_of_a_table_tell_more() {
        let roster = Roster::read(
            "name,short name,kind,resin litres\nHeron,H,RO and DI,25\n\"Big Blue\";BB;DI only;7 gal\nMule,,RO only,\nOtter\n",
        );
        assert_eq!(roster.not_understood, Vec::<String>::new());
        assert_eq!(roster.rows.len(), 4);
        assert_eq!(
            roster.rows[0],
            Row {
                name: "Heron".into(),
                short_names: vec!["H".into()],
                kind: Some(Kind::RoAndDi),
                resin_litres: Some(25.0)
            }
        );
        assert_eq!(roster.rows[1].name, "Big Blue");
        // 7 US gallons of 3.785 411 784 L (NIST SP 811, appendix B.8).
        assert!(
            roster.rows[1]
                .resin_litres
                .is_some_and(|litres| (litres - 26.497_882).abs() < 1e-6)
        );
        assert_eq!(roster.rows[2].kind, Some(Kind::RoOnly));
        assert_eq!(
            Roster::read("Heron, HRN\nOtter, O").rows.len(),
            2,
            "short names without a heading"
        );
        assert_eq!(names("Heron, Otter\nMule, Hare"), ["Heron", "Otter", "Mule", "Hare"]);
    }

    #[test]
    fn a_line_that_is_no_rig_is_named() {
        let roster = Roster::read("heron\nplease add the others tomorrow morning\notter");
        assert_eq!(roster.rows.len(), 2);
        assert_eq!(roster.not_understood, ["please add the others tomorrow morning"]);
        for text in ["heron 180 12", "what do you mean?", "no", "12", "hello"] {
            assert_eq!(Roster::read(text).rows, vec![], "{text}");
        }
    }
}
