//! What a household's own records teach: a factor that starts at the published value, moves with
//! each outcome, and says how sure it is.
//!
//! Pure: numbers in, numbers out. It knows no kitchen; the same arithmetic serves pounds a jar and
//! litres a pound. No figure of safety passes through here.

mod factor;

pub use factor::{Estimate, ForecastError, Foreseen, Seen, factor};
