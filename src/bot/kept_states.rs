//! The states of rigs on disk: built where they are missing, and compared with the rows they stand for.

use crate::history::known_rig::SHAPE;
use crate::history::load::{load, load_anew};
use crate::store::{self, StoreError, states, versions};

use super::Bot;

/// Outfits that are compared in a night.
const COMPARED: usize = 25;

/// What came of comparing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Compared {
    /// Rigs.
    pub rigs: u64,
    /// Rigs whose kept state was not what their rows come to.
    pub wrong: u64,
}

impl Bot {
    /// Builds the states that are missing, such as after an update, outfit by outfit; answers come meanwhile. Returns
    /// for how many outfits.
    ///
    /// # Errors
    /// Whatever the database says; what was built so far stays.
    pub async fn keep_states(&self) -> Result<u64, StoreError> {
        let (mut after, mut built) = (0, 0);
        loop {
            // One by one, since those that speak meanwhile are built by their answer.
            let next = states::outfits_without(&mut *self.store.read().await?, SHAPE, after, 1).await?;
            let Some(id) = next.first().copied() else {
                return Ok(built);
            };
            after = id;
            let mut look = self.store.look().await?;
            let loaded = load(&mut look, &[id]).await?.pop();
            look.rollback().await?;
            let Some(mut outfit) = loaded else { continue };
            let written = outfit.states_to_keep();
            let mut tx = self.store.begin().await?;
            // What was changed meanwhile is built when it is asked for.
            if versions::lock_if(&mut tx, id, outfit.version).await? {
                states::keep(&mut tx, &written).await?;
                tx.commit().await?;
                built += 1;
            } else {
                tx.rollback().await?;
            }
        }
    }

    /// Compares the kept states of some outfits, others each day, with what their rows come to. Those of an outfit where
    /// they differ are forgotten, so that they are built anew.
    ///
    /// # Errors
    /// Whatever the database says.
    pub async fn compare_states(&self, now: i64) -> Result<Compared, StoreError> {
        let mut all: Vec<i64> = store::outfits::all(&mut *self.store.read().await?)
            .await?
            .into_iter()
            .map(|outfit| outfit.id)
            .collect();
        let days = usize::try_from(now.div_euclid(86_400)).unwrap_or_default();
        let first = (days * COMPARED) % all.len().max(1);
        all.rotate_left(first);
        let mut compared = Compared::default();
        for id in all.into_iter().take(COMPARED) {
            let mut look = self.store.look().await?;
            let (kept, anew) = (
                load(&mut look, &[id]).await?.pop(),
                load_anew(&mut look, &[id]).await?.pop(),
            );
            look.rollback().await?;
            let (Some(kept), Some(anew)) = (kept, anew) else {
                continue;
            };
            let pairs = kept.rigs.iter().zip(&anew.rigs);
            let wrong = pairs
                .filter(|(kept, anew)| !kept.state.agrees_with(&anew.state))
                .count();
            compared.rigs += kept.rigs.len() as u64;
            compared.wrong += wrong as u64;
            if wrong > 0 {
                tracing::error!(
                    outfit_id = id,
                    rigs = wrong,
                    "Kept states are not what their rows come to."
                );
                let mut tx = self.store.begin().await?;
                states::forget_outfit(&mut tx, id).await?;
                versions::touch(&mut tx, &[id]).await?;
                tx.commit().await?;
            }
        }
        Ok(compared)
    }
}
