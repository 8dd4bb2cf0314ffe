//! Cautions behind an answer: each kind once a person, not again within the year.

use crate::replies::Words;
use crate::replies::caution::{self, AGAIN_AFTER, Occasion};
use crate::store::{self, Db, StoreError};

use super::effects::Effects;
use super::request::Request;

/// The cautions that go with these occasions and that this person was not told lately, a line each.
pub(super) async fn lines(
    db: &mut Db,
    words: Words,
    person_id: i64,
    occasions: &[Occasion],
    now: i64,
) -> Result<Vec<String>, StoreError> {
    let mut lines = Vec::new();
    for caution in occasions.iter().flat_map(|occasion| caution::cautions(*occasion)) {
        if store::cautions::note(db, person_id, caution.key(), now - AGAIN_AFTER, now).await? {
            lines.push(caution.text(words));
        }
    }
    Ok(lines)
}

/// The same from memory: what is told is noted among the effects.
pub(super) fn lines_from_memory(on: &mut Request<'_>, effects: &mut Effects, occasions: &[Occasion]) -> Vec<String> {
    let (now, words, person) = (on.now, on.words, on.member.id);
    let Some(recent) = on.known.person_mut(person).and_then(|person| person.recent.as_mut()) else {
        return Vec::new();
    };
    let mut lines = Vec::new();
    for caution in occasions.iter().flat_map(|occasion| caution::cautions(*occasion)) {
        let told = recent.cautions.get(caution.key()).copied();
        if told.is_none_or(|at| at < now - AGAIN_AFTER) {
            recent.cautions.insert(caution.key().to_owned(), now);
            effects.told(person, caution.key());
            lines.push(caution.text(words));
        }
    }
    lines
}
