//! A permit made from a stored record.
fn main() {
    let record: Option<safety::PermitRecord> = None;
    let _permit = record.map(safety::Permit::grant);
}
