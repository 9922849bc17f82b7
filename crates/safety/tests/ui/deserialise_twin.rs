//! A permit record read back from stored text.
fn readable<T: serde::de::DeserializeOwned>() {}

fn main() {
    readable::<safety::PermitRecord>();
}
