//! The demo conversations are replayed; `UPDATE=1` rewrites them, and the
//! difference is read as prose.

use std::path::Path;

use tapside::play;

use crate::database::fresh_url;

#[tokio::test]
async fn demo_conversations_read_as_they_stand() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-conversations");
    let files = play::conversations(&folder).unwrap();
    assert!(files.len() >= 3, "at least three conversations");
    for file in files {
        let (url, _guard) = fresh_url().await;
        let text = std::fs::read_to_string(&file).unwrap();
        let played = play::play(&text, &url, false).await.unwrap();
        if std::env::var_os("UPDATE").is_some() {
            std::fs::write(&file, &played.script).unwrap();
            continue;
        }
        assert!(
            played.differences.is_empty(),
            "{}: {:#?}",
            file.display(),
            played.differences
        );
    }
}
