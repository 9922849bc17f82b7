//! The square that a phone reads, as rectangles.

use crate::canvas::Canvas;
use crate::error::PrintError;
use crate::sheet::Area;
use qrcode::{Color, EcLevel, QrCode};

/// Dots a side beyond which the dots on a label become too small for a phone in a dim cellar
/// (version 6; our decision).
const MOST_DOTS: usize = 41;

/// White dots that must stay around the square (ISO/IEC 18004, from memory).
pub(crate) const QUIET: f64 = 4.0;

/// An address as a grid of dark and light dots.
pub(crate) struct Square {
    dots: Vec<bool>,
    side: usize,
}

impl Square {
    /// Encodes an address so that about a seventh of the square may be smudged.
    ///
    /// # Errors
    /// An address too long to be read at the size of a label.
    pub fn of(address: &str) -> Result<Self, PrintError> {
        let too_long = || PrintError::AddressTooLong(address.to_owned());
        let code =
            QrCode::with_error_correction_level(address, EcLevel::M).map_err(|_| too_long())?;
        if code.width() > MOST_DOTS {
            return Err(too_long());
        }
        Ok(Self {
            side: code.width(),
            dots: code
                .into_colors()
                .into_iter()
                .map(|color| color == Color::Dark)
                .collect(),
        })
    }

    /// Draws the square into an area; the white around it is the drawer's to keep. Dark dots that
    /// touch in a row are one rectangle.
    pub fn draw(&self, canvas: &mut Canvas, area: Area) {
        let dot = area.width.min(area.height) / self.side as f64;
        let mut runs = Vec::new();
        for row in 0..self.side {
            let mut column = 0;
            while column < self.side {
                let from = column;
                while column < self.side && self.dots[row * self.side + column] {
                    column += 1;
                }
                if column > from {
                    runs.push(Area {
                        left: area.left + dot * from as f64,
                        top: area.top + dot * row as f64,
                        width: dot * (column - from) as f64,
                        height: dot,
                    });
                }
                column += 1;
            }
        }
        canvas.fill(&runs);
    }

    /// How wide the white around the square must be when its side is this long.
    pub fn quiet(&self, side: f64) -> f64 {
        QUIET * side / self.side as f64
    }
}
