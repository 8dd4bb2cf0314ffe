//! The documents: short enough to be read, and no link leads nowhere.

use std::path::Path;

use crate::house::{read, root, shown};

/// The most that a newcomer is asked to read, in bytes.
const README_BYTES: usize = 11_000;
const DEVELOPERS_BYTES: usize = 12_000;

#[test]
fn the_first_pages_are_short_and_their_lines_too() {
    for (page, most) in [("README.md", README_BYTES), ("DEVELOPERS.md", DEVELOPERS_BYTES)] {
        let text = read(&root().join(page));
        assert!(text.len() <= most, "{page} has {} bytes", text.len());
        for (line, number) in text.lines().zip(1..) {
            assert!(line.chars().count() <= 120, "{page}:{number} is too long");
        }
    }
}

#[test]
fn every_link_of_the_documents_leads_to_a_file() {
    let mut pages = vec![root().join("README.md"), root().join("DEVELOPERS.md")];
    pages.extend(crate::house::files("deploy", "md"));
    let mut seen = 0;
    for page in pages {
        let folder = page.parent().unwrap_or(Path::new("."));
        let text = read(&page);
        for link in text.split("](").skip(1).filter_map(|rest| rest.split_once(')')) {
            let target = link.0.split('#').next().unwrap_or_default();
            if !target.is_empty() && !target.contains("://") {
                seen += 1;
                assert!(folder.join(target).exists(), "{}: {target}", shown(&page));
            }
        }
    }
    assert!(seen >= 10, "the links were misread: {seen}");
}
