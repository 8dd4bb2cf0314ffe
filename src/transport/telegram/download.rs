//! Fetching a small file that somebody sent.

use std::time::Duration;

use reqwest::Url;
use secrecy::ExposeSecret;
use serde::{Deserialize, Serialize};
use teloxide::requests::Payload;

use super::{CALL_TIMEOUT, Telegram, Trouble, outcome, unreachable};

/// How long a megabyte may take over a poor line.
const DOWNLOAD_TIMEOUT: Duration = Duration::from_secs(30);

impl Telegram {
    /// What is in a file, if it has at most so many bytes.
    ///
    /// # Errors
    /// Any [`Trouble`]; [`Trouble::Refused`] for a larger file.
    pub async fn file(&self, remote: &str, most_bytes: usize) -> Result<Vec<u8>, Trouble> {
        let ask = GetFile { file_id: remote };
        let found = self.call(&ask, CALL_TIMEOUT).await?;
        let Some(path) = found.file_path else {
            return Err(refused("the API gave no place to fetch it from"));
        };
        let request = self.client.get(self.file_url(&path)).timeout(DOWNLOAD_TIMEOUT);
        let mut response = request.send().await.map_err(unreachable)?;
        let status = response.status();
        if !status.is_success() {
            let body = response.bytes().await.map_err(unreachable)?;
            let said = outcome::<serde_json::Value>(status, &body).err();
            return Err(said.unwrap_or_else(|| refused("the API gave no file")));
        }
        let mut bytes = Vec::new();
        while let Some(chunk) = response.chunk().await.map_err(unreachable)? {
            if bytes.len() + chunk.len() > most_bytes {
                return Err(refused("it is too large"));
            }
            bytes.extend_from_slice(&chunk);
        }
        Ok(bytes)
    }

    fn file_url(&self, file_path: &str) -> Url {
        let mut url = self.api_url.clone();
        // An address that cannot have a path was refused with the settings.
        if let Ok(mut path) = url.path_segments_mut() {
            path.pop_if_empty()
                .push("file")
                .push(&format!("bot{}", self.token.expose_secret()))
                .extend(file_path.split('/'));
        }
        url
    }
}

fn refused(why: &str) -> Trouble {
    Trouble::Refused {
        code: 0,
        description: format!("not fetched: {why}"),
    }
}

#[derive(Serialize)]
struct GetFile<'a> {
    file_id: &'a str,
}

#[derive(Deserialize)]
struct Found {
    file_path: Option<String>,
}

impl Payload for GetFile<'_> {
    type Output = Found;
    const NAME: &'static str = "getFile";
}
