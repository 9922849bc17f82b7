//! The page of errors lists every code of the gate, in step with the gate.

use safety::codes::CODES;

const BEGIN: &str = "<!-- codes of the gate, begin -->\n";
const END: &str = "<!-- codes of the gate, end -->";

#[test]
fn the_page_of_errors_lists_every_code() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/errors.md");
    let page = std::fs::read_to_string(path).unwrap();
    let (head, rest) = page
        .split_once(BEGIN)
        .expect("the page has the marker of its list");
    let (listed, tail) = rest
        .split_once(END)
        .expect("the page has the end of its list");
    let mut wanted = String::from("| code | when | what to do |\n|---|---|---|\n");
    for code in CODES {
        wanted.push_str(&format!(
            "| `{}` | {} | {} |\n",
            code.code, code.cause, code.action
        ));
    }
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(path, format!("{head}{BEGIN}{wanted}{END}{tail}")).unwrap();
        return;
    }
    assert_eq!(listed, wanted, "run it with UPDATE_GOLDEN=1");
}
