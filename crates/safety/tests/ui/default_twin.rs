//! A history out of nothing: all unknown.
fn main() {
    let _history = safety::ProduceHistory::default();
}
