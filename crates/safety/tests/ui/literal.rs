//! A permit written as a literal.
fn main() {
    let record: Option<safety::PermitRecord> = None;
    if let Some(record) = record {
        let _permit = safety::Permit { record };
    }
}
