//! The command menus: each minute, what has changed is told to the platform.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::watch;
use tracing::{debug, warn};

use crate::transport::telegram::Trouble;

use super::{Shared, told_within};

const EVERY: Duration = Duration::from_secs(60);

/// Menus told in one look: a slow trickle, since nobody waits for a menu.
const MOST: usize = 30;

/// Keeps the menus until told to stop.
pub async fn run(shared: Arc<Shared>, mut told: watch::Receiver<bool>) {
    loop {
        tokio::select! {
            _ = told.wait_for(|stop| *stop) => return,
            () = keep(&shared) => {}
        }
        if told_within(&mut told, EVERY).await {
            return;
        }
    }
}

async fn keep(shared: &Shared) {
    let menus = match shared.bot.menus_to_tell(MOST).await {
        Ok(menus) => menus,
        Err(trouble) => return warn!(%trouble, "The menus could not be looked up; the next minute tries again."),
    };
    for menu in menus {
        match shared.telegram.offer(&menu).await {
            Ok(()) => {}
            // Somebody whom the bot cannot reach any more: as good as told.
            Err(Trouble::Refused { code, description }) => debug!(code, description, "A menu was refused."),
            Err(trouble) => return debug!(%trouble, "The menus wait for the next minute."),
        }
        if let Err(trouble) = shared.bot.menu_told(&menu).await {
            return warn!(%trouble, "A menu that was told could not be written down.");
        }
    }
}
