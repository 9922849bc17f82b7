//! A refusal written as a literal: plain data may be.
fn main() {
    let _refusal = safety::Refusal {
        code: safety::codes::NO_ELEVATION,
        reason: String::new(),
        instead: String::new(),
        source: String::new(),
        offers: Vec::new(),
    };
}
