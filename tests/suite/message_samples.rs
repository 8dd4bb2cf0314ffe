//! The sample messages of the project's neighbour folder, when it is there: counts only, none of their text is kept.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::path::Path;

use tapside::grammar::{Rig, Scene, read};

fn fleet(names: &[&str]) -> Vec<Rig> {
    names
        .iter()
        .zip(1..)
        .map(|(name, id)| Rig {
            id,
            name: (*name).to_string(),
            ..Rig::default()
        })
        .collect()
}

#[test]
fn talk_about_other_things_yields_no_reading() {
    let path = Path::new("../shared/messages/chatter.txt");
    let Ok(file) = File::open(path) else { return };
    let lines: Vec<String> = BufReader::new(file).lines().collect::<Result<_, _>>().expect("text");
    let fleets = [
        &["Lynx", "Badger", "Trailer B"][..],
        &["Backup", "The Beast", "Blue Cart", "Van 3"][..],
    ];
    for names in fleets {
        for own_rig in [None, Some(1)] {
            let scene = Scene {
                fleet: fleet(names),
                own_rig,
                ..Scene::default()
            };
            let meanings = lines.iter().map(|line| read(line, &scene));
            let mut recorded = 0;
            let mut asked = 0;
            for meaning in meanings {
                recorded += usize::from(!meaning.readings.is_empty() || !meaning.services.is_empty());
                asked += usize::from(meaning.ask.is_some());
            }
            assert_eq!(recorded, 0, "{names:?} {own_rig:?}");
            assert!(
                asked * 1000 <= 2 * lines.len(),
                "{asked} needless questions, {names:?} {own_rig:?}"
            );
        }
    }
}
