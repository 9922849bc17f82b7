//! The two faces that are inside the program, and how wide a text is in them.
//!
//! One glyph a sign, no kerning: what is measured is exactly what is drawn.

use crate::error::PrintError;
use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, MetadataProvider};
use std::collections::BTreeMap;

const PLAIN: &[u8] = include_bytes!("../fonts/DejaVuSansCondensed.ttf");
const BOLD: &[u8] = include_bytes!("../fonts/DejaVuSansCondensed-Bold.ttf");

/// A line's height, in sizes: ascent and descent of the face.
pub const LINE: f64 = 1.17;

/// From the top of a line to its base, in sizes.
pub const ASCENT: f64 = 0.93;

/// Which of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Face {
    /// For what is read.
    Plain,
    /// For what is looked for.
    Bold,
}

impl Face {
    pub(crate) const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Plain => PLAIN,
            Self::Bold => BOLD,
        }
    }
}

/// One sign set: its glyph, its width in sizes, and where it stands in the text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Set {
    pub glyph: u32,
    pub advance: f64,
    pub at: usize,
    pub bytes: usize,
}

/// A face opened for measuring: glyph and width in sizes of every sign it has.
pub(crate) struct Ruler {
    signs: BTreeMap<char, (u32, f64)>,
    /// What is shown for a sign the face lacks: the box that fonts keep for it.
    lacking: (u32, f64),
}

impl Ruler {
    /// Opens a face.
    ///
    /// # Errors
    /// A font file inside the program that cannot be read.
    pub fn new(face: Face) -> Result<Self, PrintError> {
        let font = FontRef::new(face.bytes())
            .map_err(|error| PrintError::Failed(format!("a font cannot be read: {error}")))?;
        let (size, place) = (Size::unscaled(), LocationRef::default());
        let em = f64::from(font.metrics(size, place).units_per_em);
        let metrics = font.glyph_metrics(size, place);
        let measured = |glyph: skrifa::GlyphId| {
            let advance = f64::from(metrics.advance_width(glyph).unwrap_or(0.0));
            (glyph.to_u32(), advance / em)
        };
        Ok(Self {
            signs: font
                .charmap()
                .mappings()
                .filter_map(|(sign, glyph)| Some((char::from_u32(sign)?, measured(glyph))))
                .collect(),
            lacking: measured(skrifa::GlyphId::NOTDEF),
        })
    }

    fn sign(&self, sign: char) -> (u32, f64) {
        self.signs.get(&sign).copied().unwrap_or(self.lacking)
    }

    /// The glyphs of a text, in order.
    pub fn set(&self, text: &str) -> Vec<Set> {
        text.char_indices()
            .map(|(at, sign)| {
                let (glyph, advance) = self.sign(sign);
                Set {
                    glyph,
                    advance,
                    at,
                    bytes: sign.len_utf8(),
                }
            })
            .collect()
    }

    /// Width of a text at a size, in the unit of the size.
    pub fn width(&self, text: &str, size: f64) -> f64 {
        text.chars().map(|sign| self.sign(sign).1).sum::<f64>() * size
    }
}

/// A text on one line: breaks, tabs and other control signs become spaces, and no two spaces
/// follow each other.
pub(crate) fn one_line(text: &str) -> String {
    let plain: String = text
        .chars()
        .map(|sign| if sign.is_control() { ' ' } else { sign })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}
