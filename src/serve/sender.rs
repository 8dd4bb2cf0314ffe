//! Delivering on Telegram: what is drawn on its way out is drawn, what carries files gets them, and each ending is
//! counted and logged.

use tracing::{debug, error, warn};

use crate::domain::envelope::{Send, Sent};
use crate::outbox::delivery::Carrier;
use crate::store::sends;

use super::Shared;

impl Carrier for Shared {
    async fn carry(&self, send: &Send) -> Sent {
        let sent = if send.body.is_uploaded() {
            match self.with_files(send).await {
                Ok(send) => self.telegram.deliver(&send).await,
                Err(sent) => sent,
            }
        } else {
            self.telegram.deliver(send).await
        };
        self.tally.sent(&sent);
        match &sent {
            Sent::Delivered(_) => debug!(send = send.id, "Delivered."),
            Sent::NotBefore(wait_s) => warn!(send = send.id, tries = send.tries, wait_s, "To be sent again."),
            Sent::TooFast { wait_s, everywhere } => {
                warn!(send = send.id, wait_s, everywhere, "Telegram asks for a pause.")
            }
            Sent::Blocked => warn!(
                send = send.id,
                "The chat has shut the bot out; nothing more goes there."
            ),
            Sent::Moved(_) => debug!(send = send.id, "The group has moved; to be sent there."),
            Sent::Refused(why) => error!(send = send.id, why, "Telegram will never take this message."),
        }
        sent
    }
}

impl Shared {
    async fn with_files(&self, send: &Send) -> Result<Send, Sent> {
        let mut drawn = self.bot.make_file(self.bot.draw(send.clone()).await).await;
        if drawn.body.attachments().is_empty() || !drawn.files.is_empty() {
            return Ok(drawn);
        }
        let read = async { sends::files(&mut *self.bot.store().read().await?, &drawn.body).await };
        match read.await {
            Ok(files) => drawn.files = files,
            Err(trouble) => {
                error!(%trouble, send = send.id, "The files of a message could not be read yet.");
                return Err(Sent::NotBefore(5));
            }
        }
        Ok(drawn)
    }
}

/// The name of this process as the holder of its leases.
pub fn holder(copy: &str, started_at: i64) -> String {
    format!("{copy}/{}/{started_at}", std::process::id())
}
