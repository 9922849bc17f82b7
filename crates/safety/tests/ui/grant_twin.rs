//! A stored record judged again.
fn main() {
    let reference = reference::Reference::embedded();
    let record: Option<safety::PermitRecord> = None;
    let _again = record.map(|record| safety::ask_again(reference, &record));
}
