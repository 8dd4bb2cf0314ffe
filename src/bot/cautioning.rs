//! Cautions behind an answer: each kind once a person, not again within the year.

use crate::replies::Words;
use crate::replies::caution::{self, AGAIN_AFTER, Occasion};
use crate::store::{self, Db, StoreError};

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
