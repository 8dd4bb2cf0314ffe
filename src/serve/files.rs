//! Files that people sent, fetched before their message is heard: all of a batch at once, and for no longer than a
//! stated time, so that a slow one holds nobody up. By polling and by webhook alike.

use std::time::Duration;

use futures_util::future::join_all;
use tracing::warn;

use crate::bot::MOST_FILE_BYTES;
use crate::domain::envelope::{Arrived, Happening};
use crate::store::StoreError;

use super::Shared;

/// Others wait so long at most, and the lease of whoever receives lasts longer.
const WITHIN: Duration = Duration::from_secs(8);

/// Fetches the files of a batch whose rows are wanted. One that cannot be fetched in time goes on without its bytes, so
/// that it blocks nobody and its sender is told.
pub async fn fetch(shared: &Shared, batch: &mut [Arrived]) -> Result<(), StoreError> {
    let mut wanted = Vec::new();
    for arrived in batch {
        let Arrived::Incoming(incoming) = arrived else { continue };
        if shared.bot.reads_file(incoming).await?
            && let Happening::Document { remote, bytes, .. } = &mut incoming.what
        {
            wanted.push(async move {
                match tokio::time::timeout(WITHIN, shared.telegram.file(remote, MOST_FILE_BYTES)).await {
                    Ok(Ok(fetched)) => *bytes = Some(fetched.into()),
                    Ok(Err(trouble)) => warn!(%trouble, "A file could not be fetched; its sender is told."),
                    Err(_) => warn!("A file did not come in time; its sender is told."),
                }
            });
        }
    }
    join_all(wanted).await;
    Ok(())
}
