//! A text into a box: shrunk to a floor, then wrapped, then cut with an ellipsis. Never beyond it.

use crate::font::{LINE, Ruler, one_line};

/// Steps in which a text is shrunk, in points.
const STEP: f64 = 0.25;

/// How a text is set.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// Size in points.
    pub size: f64,
    /// The lines, from the top.
    pub lines: Vec<String>,
    /// Was something left away?
    pub cut: bool,
}

/// A box for a text, in points, and the sizes allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Frame {
    pub width: f64,
    pub height: f64,
    /// The size wished for.
    pub size: f64,
    /// The smallest that is still read.
    pub floor: f64,
    /// Running text: it is wrapped before it is shrunk.
    pub running: bool,
}

/// Fits a text. A frame too low for one line at the floor takes no line at all.
pub(crate) fn fit(ruler: &Ruler, text: &str, frame: Frame) -> Fitted {
    let text = one_line(text);
    if text.is_empty() {
        return Fitted {
            size: frame.size,
            lines: Vec::new(),
            cut: false,
        };
    }
    let rows = |size: f64| (frame.height / (size * LINE) + 1e-9).floor().max(0.0) as usize;
    let sizes = || {
        let steps = ((frame.size - frame.floor) / STEP).ceil().max(0.0) as usize;
        (0..=steps).map(move |step| (frame.size - STEP * step as f64).max(frame.floor))
    };
    // One line, the largest that goes in.
    let wide = ruler.width(&text, 1.0);
    let one = |size: &f64| !frame.running && rows(*size) >= 1 && wide * size <= frame.width;
    if let Some(size) = sizes().find(one) {
        return Fitted {
            size,
            lines: vec![text],
            cut: false,
        };
    }
    // Several lines, the largest that go in.
    for size in sizes() {
        let lines = wrap(ruler, &text, size, frame.width);
        if lines.len() <= rows(size) {
            return Fitted {
                size,
                lines,
                cut: false,
            };
        }
    }
    let size = frame.floor;
    let mut lines = wrap(ruler, &text, size, frame.width);
    lines.truncate(rows(size));
    if let Some(last) = lines.pop() {
        lines.push(ended(ruler, &last, size, frame.width));
    }
    Fitted {
        size,
        lines,
        cut: true,
    }
}

/// Breaks a text between words; a word wider than the line is broken where it must be. A line too
/// narrow for a single sign still takes one, so that the work ends; [`ended`] has the last word on
/// what is drawn.
pub(crate) fn wrap(ruler: &Ruler, text: &str, size: f64, width: f64) -> Vec<String> {
    // Widths are reckoned in sizes, with a hair of play for the sums of many signs.
    let room = width / size + 1e-9;
    let space = ruler.width(" ", 1.0);
    let mut lines = Vec::new();
    let (mut line, mut used) = (String::new(), 0.0);
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let wide = ruler.width(word, 1.0);
        if !line.is_empty() && used + space + wide <= room {
            line.push(' ');
            line.push_str(word);
            used += space + wide;
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
            used = 0.0;
        }
        let mut letter = [0; 4];
        for sign in word.chars() {
            let wide = ruler.width(sign.encode_utf8(&mut letter), 1.0);
            if !line.is_empty() && used + wide > room {
                lines.push(std::mem::take(&mut line));
                used = 0.0;
            }
            line.push(sign);
            used += wide;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// A line with an ellipsis at its end, shortened until both go in.
fn ended(ruler: &Ruler, line: &str, size: f64, width: f64) -> String {
    let mut kept = line.to_owned();
    loop {
        let ended = format!("{}…", kept.trim_end());
        if kept.is_empty() || ruler.width(&ended, size) <= width {
            return ended;
        }
        kept.pop();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::font::Face;
    use proptest::prelude::*;

    fn frame(width: f64, height: f64) -> Frame {
        Frame {
            width,
            height,
            size: 11.0,
            floor: 6.0,
            running: false,
        }
    }

    #[test]
    fn a_text_is_shrunk_before_it_is_wrapped_and_wrapped_before_it_is_cut() {
        let ruler = Ruler::new(Face::Bold).unwrap();
        let short = fit(&ruler, "Plum jam", frame(120.0, 26.0));
        assert_eq!((short.size, short.lines.len(), short.cut), (11.0, 1, false));
        let longer = fit(&ruler, "Crushed tomatoes with basil", frame(120.0, 26.0));
        assert_eq!((longer.lines.len(), longer.cut), (1, false));
        assert!(longer.size < 11.0);
        let text = "Tomato and vegetable juice blend with celery and carrots";
        let wrapped = fit(&ruler, text, frame(120.0, 26.0));
        assert_eq!((wrapped.lines.len(), wrapped.cut), (2, false));
        assert_eq!(wrapped.lines.join(" "), text);
        let cut = fit(&ruler, &text.repeat(4), frame(120.0, 26.0));
        assert!(cut.cut && cut.size == 6.0);
        assert!(cut.lines.last().unwrap().ends_with('…'));
    }

    #[test]
    fn running_text_is_wrapped_before_it_is_shrunk() {
        let ruler = Ruler::new(Face::Plain).unwrap();
        let text = "Contains tomatoes and salt.";
        let name = fit(&ruler, text, frame(90.0, 40.0));
        let running = Frame {
            running: true,
            ..frame(90.0, 40.0)
        };
        let set = fit(&ruler, text, running);
        assert_eq!(name.lines.len(), 1);
        assert!(
            set.lines.len() > 1 && set.size > name.size,
            "{set:?} {name:?}"
        );
    }

    proptest! {
        #[test]
        fn nothing_reaches_beyond_its_box(
            text in "\\PC{0,120}", width in 12.0..300.0f64, height in 0.0..60.0f64
        ) {
            let ruler = Ruler::new(Face::Plain).unwrap();
            let fitted = fit(&ruler, &text, frame(width, height));
            prop_assert!(fitted.lines.len() as f64 * fitted.size * LINE <= height + 1e-6);
            for line in &fitted.lines {
                prop_assert!(ruler.width(line, fitted.size) <= width + 1e-6, "{line}");
            }
            let whole = fitted.lines.join("").replace(' ', "");
            if !fitted.cut {
                prop_assert_eq!(whole, one_line(&text).replace(' ', ""));
            }
        }
    }
}
