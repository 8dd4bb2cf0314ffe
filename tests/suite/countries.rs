//! The countries that the guide knows, by code and by both names.

use tapside::message::setting::{Country, Wish, read};
use tapside::replies::Words;

/// Codes: ISO 3166-1 alpha-2. Names: the territory names of Unicode CLDR,
/// `localeDisplayNames/territories` of `en` and `es`. Both written down from
/// memory and not compared with the published lists.
const COUNTRIES: &[(&str, &str, &str)] = &[
    ("US", "United States", "Estados Unidos"),
    ("GB", "United Kingdom", "Reino Unido"),
    ("IE", "Ireland", "Irlanda"),
    ("CA", "Canada", "Canadá"),
    ("AU", "Australia", "Australia"),
    ("NZ", "New Zealand", "Nueva Zelanda"),
    ("ZA", "South Africa", "Sudáfrica"),
    ("ES", "Spain", "España"),
    ("MX", "Mexico", "México"),
    ("PT", "Portugal", "Portugal"),
    ("FR", "France", "Francia"),
    ("DE", "Germany", "Alemania"),
    ("AT", "Austria", "Austria"),
    ("CH", "Switzerland", "Suiza"),
    ("IT", "Italy", "Italia"),
    ("NL", "Netherlands", "Países Bajos"),
    ("BE", "Belgium", "Bélgica"),
    ("LU", "Luxembourg", "Luxemburgo"),
    ("PL", "Poland", "Polonia"),
    ("CZ", "Czechia", "Chequia"),
    ("HU", "Hungary", "Hungría"),
    ("RO", "Romania", "Rumanía"),
    ("SE", "Sweden", "Suecia"),
    ("NO", "Norway", "Noruega"),
    ("DK", "Denmark", "Dinamarca"),
    ("FI", "Finland", "Finlandia"),
    ("IS", "Iceland", "Islandia"),
    ("GR", "Greece", "Grecia"),
    ("JP", "Japan", "Japón"),
    ("SG", "Singapore", "Singapur"),
    ("BR", "Brazil", "Brasil"),
    ("AR", "Argentina", "Argentina"),
    ("CL", "Chile", "Chile"),
    ("CO", "Colombia", "Colombia"),
    ("PE", "Peru", "Perú"),
    ("UY", "Uruguay", "Uruguay"),
    ("CR", "Costa Rica", "Costa Rica"),
    ("DO", "Dominican Republic", "República Dominicana"),
];

#[test]
fn each_country_has_its_name_in_both_languages_and_is_understood_by_it() {
    let known: Vec<&str> = Country::all().map(Country::code).collect();
    let listed: Vec<&str> = COUNTRIES.iter().map(|row| row.0).collect();
    assert_eq!(known, listed);
    for (code, english, spanish) in COUNTRIES {
        for (tag, name, asked) in [("en", english, "country"), ("es", spanish, "país")] {
            let said = Words::of(Some(tag)).say("country-name", [("code", (*code).into())]);
            assert_eq!(said, *name, "{tag}");
            let typed = format!("{asked} {name}");
            let country = match read(&typed).map(|wished| wished.wish) {
                Some(Wish::Set(setting)) => setting.get().map(Country::code),
                _ => None,
            };
            assert_eq!(country, Some(*code), "{typed}");
        }
    }
}
