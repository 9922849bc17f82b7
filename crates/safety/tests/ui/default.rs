//! A permit out of nothing.
fn main() {
    let _permit = safety::Permit::default();
}
