//! The two papers, in millimetres.

use crate::error::PrintError;
use std::str::FromStr;

/// Millimetres in an inch, exactly.
pub const INCH: f64 = 25.4;

/// A sheet of paper, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm (ISO 216).
    A4,
    /// 8 1/2 by 11 inches (ANSI A).
    Letter,
}

impl Paper {
    /// Both papers.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Name, such as `a4`.
    pub const fn key(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// As it is said.
    pub const fn title(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "US letter",
        }
    }

    /// Width in millimetres.
    pub const fn width(self) -> f64 {
        match self {
            Self::A4 => 210.0,
            Self::Letter => 8.5 * INCH,
        }
    }

    /// Height in millimetres.
    pub const fn height(self) -> f64 {
        match self {
            Self::A4 => 297.0,
            Self::Letter => 11.0 * INCH,
        }
    }
}

impl FromStr for Paper {
    type Err = PrintError;

    fn from_str(text: &str) -> Result<Self, PrintError> {
        Self::ALL
            .into_iter()
            .find(|paper| paper.key() == text.trim().to_ascii_lowercase())
            .ok_or_else(|| PrintError::UnknownPaper(text.trim().to_owned()))
    }
}
