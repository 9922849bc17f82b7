//! The test page: the edges of every label and two rulers, to be held against the sheet in hand.

use crate::canvas::{Canvas, Side, Wish};
use crate::error::PrintError;
use crate::font::Face;
use crate::labels::HAIR;
use crate::paper::INCH;
use crate::sheet::{Area, Laying};

/// Length of the metric ruler, in millimetres.
const MILLIMETRES: usize = 100;

/// Length of the other ruler, in inches.
const INCHES: usize = 4;

/// One page with the edges of the labels, a ruler of 100 mm and one of 4 inches.
///
/// # Errors
/// An offset no printer needs.
pub fn outline_page(laying: &Laying) -> Result<Vec<u8>, PrintError> {
    let whole = Laying { from: 1, ..*laying };
    whole.check()?;
    let sheet = whole.sheet;
    let mut canvas = Canvas::new(sheet.paper, "Test page for labels")?;
    for nth in 0..sheet.labels() {
        let (_, cell) = whole.place(nth);
        canvas.edges(cell, HAIR);
        let number = Area {
            left: cell.left + 5.0,
            top: cell.top + 5.0,
            width: 10.0,
            height: 5.0,
        };
        let text = (nth + 1).to_string();
        canvas.text(number, &text, Wish::new(Face::Plain, 7.0, 7.0));
    }
    // The rulers lie in the row of labels next to the middle, where every printer reaches.
    let (_, cell) = whole.place(sheet.columns * (sheet.rows / 2));
    let left = (sheet.paper.width() - INCH * INCHES as f64) / 2.0;
    let top = cell.top;
    ruler(&mut canvas, left, top + 9.0, 1.0, MILLIMETRES, (5, 10));
    ruler(
        &mut canvas,
        left,
        top + cell.height * 0.75,
        INCH / 8.0,
        INCHES * 8,
        (4, 8),
    );
    let words = format!(
        "{} · print at 100 %, «actual size» · this line is {MILLIMETRES} mm, that below {INCHES} inches",
        sheet.title
    );
    let area = Area {
        left: left - 20.0,
        top: top + 1.0,
        width: INCH * INCHES as f64 + 40.0,
        height: 4.0,
    };
    let wish = Wish::new(Face::Plain, 7.0, 5.0).to(Side::Middle);
    canvas.text(area, &words, wish);
    canvas.finish()
}

/// A ruler from `left` with `steps` steps; every `long.0`-th tick is longer, every `long.1`-th
/// longest.
fn ruler(canvas: &mut Canvas, left: f64, top: f64, step: f64, steps: usize, long: (usize, usize)) {
    canvas.line((left, top), (left + step * steps as f64, top), HAIR, None);
    for tick in 0..=steps {
        let at = left + step * tick as f64;
        let length = match (tick % long.1, tick % long.0) {
            (0, _) => 4.0,
            (_, 0) => 2.5,
            _ => 1.5,
        };
        canvas.line((at, top), (at, top + length), 0.1, None);
    }
}
