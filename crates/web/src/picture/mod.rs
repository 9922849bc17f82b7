//! Pen drawings: outline and hatching, as inline SVG coloured only through classes.
//!
//! Each picture takes plain input of its own, is `role="img"` with a sentence that gives its
//! numbers, and places by per cent (text keeps its size) or by a view box (curves).

pub mod canner;
pub mod chest;
pub mod flow;
pub mod flow_layout;
pub mod flow_order;
pub mod flow_rows;
pub mod hatching;
pub mod jar;
pub mod lanes;
pub mod shelf;
pub mod strip;

/// A length in the drawing: one decimal at most, none where it is whole.
pub fn n(value: f64) -> String {
    if !value.is_finite() {
        return "0".into();
    }
    let tenths = (value * 10.0).round() / 10.0;
    let text = format!("{tenths}");
    if text == "-0" { "0".into() } else { text }
}

/// A place across the drawing, `share` from 0 at the left to 1 at the right.
pub fn across(share: f64) -> String {
    if !share.is_finite() {
        return "0%".into();
    }
    let hundredths = (share * 10_000.0).round() / 100.0;
    format!("{hundredths}%")
}

#[cfg(test)]
mod tests {
    use super::{across, n};

    #[test]
    fn lengths_are_short_and_never_broken() {
        assert_eq!(n(12.0), "12");
        assert_eq!(n(12.345), "12.3");
        assert_eq!(n(-0.01), "0");
        assert_eq!(n(f64::NAN), "0");
        assert_eq!(across(0.125), "12.5%");
        assert_eq!(across(1.0), "100%");
        assert_eq!(across(f64::INFINITY), "0%");
    }
}
