//! The pictures and files of a conversation, written into a folder.

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use anyhow::Context;

use crate::desk::Heard;

/// A folder for pictures and files, or none if nobody wants them.
pub struct Files {
    folder: Option<PathBuf>,
    /// How often each name came.
    seen: HashMap<String, usize>,
}

impl Files {
    /// Where to write; the folder is made when the first file comes.
    pub fn new(folder: Option<PathBuf>) -> Self {
        Self {
            folder,
            seen: HashMap::new(),
        }
    }

    /// Whether there is a folder to write to.
    pub fn is_wanted(&self) -> bool {
        self.folder.is_some()
    }

    /// Writes what came with these. The second file of a name becomes
    /// `name-2.png`, so that a picture that changed can be compared.
    ///
    /// # Errors
    /// When a file cannot be written.
    pub fn keep(&mut self, heard: &[Heard]) -> anyhow::Result<()> {
        let Some(folder) = &self.folder else {
            return Ok(());
        };
        for file in heard.iter().flat_map(|heard| &heard.files) {
            std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
            let count = self.seen.entry(file.name.clone()).or_insert(0);
            *count += 1;
            let path = folder.join(name_of(&file.name, *count));
            std::fs::write(&path, file.bytes.as_slice()).with_context(|| format!("cannot write {}", path.display()))?;
        }
        Ok(())
    }
}

/// The last part of a name only, so that nothing is written outside the folder.
fn name_of(name: &str, count: usize) -> String {
    let path = Path::new(name);
    let part = |part: Option<&std::ffi::OsStr>| part.map(|part| part.to_string_lossy().into_owned());
    let stem = part(path.file_stem()).unwrap_or_else(|| "file".to_owned());
    let ending = part(path.extension()).map_or_else(String::new, |ending| format!(".{ending}"));
    match count {
        0 | 1 => format!("{stem}{ending}"),
        _ => format!("{stem}-{count}{ending}"),
    }
}

#[cfg(test)]
mod tests {
    use super::name_of;

    #[test]
    fn a_name_stays_in_its_folder_and_comes_once() {
        assert_eq!(name_of("heron-history.png", 1), "heron-history.png");
        assert_eq!(name_of("heron-history.png", 2), "heron-history-2.png");
        assert_eq!(name_of("../../etc/passwd", 1), "passwd");
        assert_eq!(name_of("..", 1), "file");
    }
}
