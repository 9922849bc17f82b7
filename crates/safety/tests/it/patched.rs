//! Tables changed in one place: what the gate then says.

use reference::{Files, Reference};

/// The embedded tables with `find` (met exactly once in `file`) replaced.
pub fn patched(file: &str, find: &str, replace: &str) -> Reference {
    let mut files: Files = reference::embedded::files();
    let text = String::from_utf8(files[file].clone()).expect("text");
    assert_eq!(text.matches(find).count(), 1, "`{find}` once in {file}");
    files.insert(file.to_owned(), text.replace(find, replace).into_bytes());
    Reference::read(&files).0
}

/// The embedded tables with several changes.
pub fn patched_all(changes: &[(&str, &str, &str)]) -> Reference {
    let mut files: Files = reference::embedded::files();
    for (file, find, replace) in changes {
        let text = String::from_utf8(files[*file].clone()).expect("text");
        assert!(text.contains(find), "`{find}` in {file}");
        files.insert((*file).to_owned(), text.replace(find, replace).into_bytes());
    }
    Reference::read(&files).0
}
