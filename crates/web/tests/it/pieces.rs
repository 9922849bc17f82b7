//! Every piece and picture, drawn once with invented data, keeps the rules of a page.

use crate::html;
use std::path::PathBuf;

#[path = "../../examples/gallery.rs"]
#[allow(dead_code, reason = "the example's main is not run here")]
mod gallery;

#[test]
fn every_piece_is_well_formed_labelled_and_free_of_inline_styles() {
    let page = gallery::page_of_pieces(web::part::Section::Outside);
    assert_eq!(html::faults(&page), Vec::<String>::new());
}

#[test]
fn the_pieces_look_as_they_did() {
    // Addresses of static files change with their content; the golden file leaves them out.
    let page = gallery::page_of_pieces(web::part::Section::Day);
    let mut kept = page.replace('>', ">\n");
    for name in ["style.css", "stillroom.js", "mark.svg"] {
        kept = kept.replace(&web::assets::address(name), name);
    }
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/golden/pieces.html");
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&path, &kept).expect("the golden file can be written");
    }
    let golden = std::fs::read_to_string(&path)
        .expect("the golden file is there: run once with UPDATE_GOLDEN=1");
    let differs = golden
        .lines()
        .zip(kept.lines())
        .enumerate()
        .find(|(_, (a, b))| a != b);
    assert_eq!(
        differs, None,
        "refresh with UPDATE_GOLDEN=1 after looking at the page"
    );
    assert_eq!(golden.lines().count(), kept.lines().count());
}
