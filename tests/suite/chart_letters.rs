//! The letters of the pictures: every one is in the typeface, stands out from its
//! ground, and no name breaks a sheet.

use resvg::usvg::roxmltree::Document;
use tapside::bot::pictures::{Seen, fleet, renewal_cost, resin_life, rig_history};
use tapside::chart::typeface::{drawable, has};
use tapside::chart::{Sheet, png};
use tapside::replies::Words;
use tapside::replies::words::LANGUAGES;
use tapside::water::settings::Limits;

use crate::chart::{faults, gallery};
use crate::chart_scenes::{Plot, Scene, played};

/// Names that people or robots may give a rig.
fn hostile() -> Vec<String> {
    let mut names: Vec<String> = [
        "Robert'); DROP TABLE rigs;--",
        "' OR 1=1 --",
        "<b>bold</b>",
        "<script>alert(1)</script>",
        "</text></svg>",
        "<!-- -->",
        "<![CDATA[ x ]]>",
        "&amp;&lt;&#0;",
        "&unknown;",
        "\"quoted\" and 'single'",
        "a > b < c & d",
        "{ $rig } { percent }",
        "%s %n {0} ${x}",
        "url(#x)",
        "\u{202E}retto\u{202C}",
        "\u{200F}\u{200E}\u{2066}x\u{2069}",
        "שלום עולם",
        "مرحبا",
        "Чайка",
        "Ωμέγα",
        "北京一号",
        "ひらがな",
        "한국어",
        "ไทย",
        "हिन्दी",
        "\u{1F699}",
        "\u{1F699} van \u{1F4A7}",
        "\u{1F469}\u{200D}\u{1F527}",
        "\u{1F1EA}\u{1F1F8}",
        "Z\u{0335}\u{0322}\u{0353}a\u{0334}l\u{0336}g\u{0337}o\u{0338}",
        "e\u{0301}toile",
        "\u{FB01}re \u{2460} \u{00BD}",
        "\u{0000}\u{0007}\u{001B}[31mred",
        "\u{FFFE}\u{FFFF}\u{FFFD}",
        "tab\there\nnew line\r\n",
        "   ",
        "",
        ".",
        "-",
        "\u{2026}",
        "𝕳𝖊𝖗𝖔𝖓",
        "Ｈｅｒｏｎ",
        "ﷺ",
        "\u{AD}soft\u{AD}hyphen",
        "iIlL1|0O",
    ]
    .map(str::to_owned)
    .into();
    names.push("W".repeat(300));
    names.push("i".repeat(3000));
    names.push("Trailer of the north yard with the green stripe and the long hose ".repeat(4));
    names.push("\u{0301}".repeat(500));
    names.push("\u{1F4A7}".repeat(200));
    names
}

fn sheets_of(scene: &Scene, name: &str) -> Vec<Sheet> {
    let words = Words::of(Some("es"));
    let seen = Seen {
        rig: name,
        ..scene.seen()
    };
    let mut sheets = vec![resin_life(words, &seen)];
    sheets.extend(rig_history(words, &seen));
    sheets.extend(renewal_cost(words, &seen, &|amount| format!("{amount:.0} €")));
    let other = scene.seen();
    sheets.extend(fleet(
        words,
        &[seen, other],
        Limits::default(),
        jiff::civil::date(2026, 11, 25),
    ));
    sheets
}

#[test]
fn fifty_hostile_names_harm_no_picture() {
    let plot = Plot {
        growth: 1.0,
        ..Plot::default()
    };
    let (scene, names) = (played("Otter", plot), hostile());
    assert_eq!(names.len(), 50);
    for name in &names {
        let sheets = sheets_of(&scene, name);
        assert_eq!(sheets.len(), 4, "{name:?}");
        for sheet in sheets {
            let svg = sheet.svg();
            let read = Document::parse(&svg).unwrap_or_else(|error| panic!("{name:?}: {error}"));
            // Names stay words: no element but those of our own.
            for node in read.descendants().filter(|node| node.is_element()) {
                let tag = node.tag_name().name();
                let own = ["svg", "rect", "path", "circle", "text"];
                assert!(own.contains(&tag), "{name:?} made a <{tag}>");
            }
            assert_eq!(faults(&sheet), [""; 0], "{name:?}");
            for placed in sheet.words() {
                assert!(placed.text.chars().all(has), "{name:?}: {:?}", placed.text);
                assert!(!placed.text.trim().is_empty());
            }
        }
    }
}

#[test]
fn the_worst_names_become_pixels() {
    let scene = played("Otter", Plot::default());
    for name in ["</text><script>&", "\u{202E}Чайка \u{1F699}"] {
        for sheet in sheets_of(&scene, name).into_iter().skip(1).take(1) {
            let bytes = png(&sheet).unwrap();
            assert!(bytes.starts_with(b"\x89PNG\r\n\x1a\n"), "{name:?}");
        }
    }
}

#[test]
fn every_letter_of_every_language_is_in_the_typeface() {
    for (tag, texts) in LANGUAGES {
        let pictured = texts.iter().find(|text| text.contains("picture-fleet-wants")).unwrap();
        let lines = pictured.lines().filter(|line| !line.starts_with('#'));
        for letter in lines.flat_map(str::chars) {
            assert!(has(letter), "{tag}: {letter:?}");
        }
        for (name, sheet) in gallery(tag) {
            for placed in sheet.words() {
                assert!(placed.text.chars().all(has), "{name}: {:?}", placed.text);
            }
        }
    }
    // Signs of money, as figures write them.
    for sign in ["$1100", "1100 €", "£90", "¥900", "9 zł", "90 kr", "CHF 90"] {
        assert_eq!(drawable(sign), sign);
    }
}

/// Counts that choose their words, as a picture says them.
#[test]
fn one_is_not_said_as_many() {
    let said = |key: &str, name: &'static str, tag: &str| Words::of(Some(tag)).say(key, [(name, 1.into())]);
    assert_eq!(said("picture-days", "days", "en"), "1 day");
    assert_eq!(said("picture-days", "days", "es"), "1 día");
    assert_eq!(said("picture-over", "days", "en"), "+1 day");
    assert_eq!(said("picture-over", "days", "es"), "+1 día");
    assert_eq!(
        Words::of(Some("en")).say("picture-over", [("days", 5.into())]),
        "+5 days"
    );
    assert_eq!(
        Words::of(Some("es")).say("picture-over", [("days", 5.into())]),
        "+5 días"
    );
    assert_eq!(
        Words::of(Some("es")).say("picture-each", [("litres", "25".into())]),
        "de 25 L"
    );
    assert_eq!(said("picture-lost", "points", "en"), "1 point lost");
    assert_eq!(said("picture-lost", "points", "es"), "1 punto menos");
}

/// What is to be done, as the fleet's picture says it.
#[test]
fn each_job_has_its_deed() {
    let jobs = [
        ("change", "new resin today", "resina nueva hoy"),
        ("repack_resin", "repack the resin", "compactar la resina"),
        ("find_leak", "look for a leak", "buscar una fuga"),
        ("read_again", "read it again", "medir otra vez"),
        ("renew", "new membrane now", "membrana nueva ya"),
        ("order", "order a membrane", "pedir una membrana"),
        ("plan", "plan a membrane", "planear el cambio"),
        ("look", "check the glass", "mirar el vidrio"),
        ("buy", "buy resin", "comprar resina"),
        ("prefilters", "new prefilters", "prefiltros nuevos"),
        ("ask_membrane", "say what changed", "di qué cambió"),
    ];
    for (job, english, spanish) in jobs {
        for (tag, deed) in [("en", english), ("es", spanish)] {
            assert_eq!(Words::of(Some(tag)).say("picture-job", [("job", job.into())]), deed);
        }
    }
}
