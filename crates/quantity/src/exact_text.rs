//! Fractions as "n/d" text in stored records: `#[serde(with = "quantity::exact_text")]`.

use serde::{Deserialize, Deserializer, Serializer, de::Error as _};

use crate::{Exact, QuantityError, exact};

/// "9/4", or "2" for a whole number.
pub fn to_text(value: &Exact) -> String {
    value.to_string()
}

/// Reads what `to_text` writes; anything else is an error.
pub fn from_text(text: &str) -> Result<Exact, QuantityError> {
    let bad = || QuantityError::NotANumber {
        text: text.to_owned(),
        example: "9/4",
    };
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    let numerator = above.trim().parse::<i128>().map_err(|_| bad())?;
    let denominator = below.trim().parse::<i128>().map_err(|_| bad())?;
    exact(numerator, denominator)
}

/// For serde.
pub fn serialize<S: Serializer>(value: &Exact, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&to_text(value))
}

/// For serde.
pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Exact, D::Error> {
    let text = String::deserialize(deserializer)?;
    from_text(&text).map_err(D::Error::custom)
}

/// The same for a fraction that may be missing: `#[serde(with = "quantity::exact_text::option")]`.
pub mod option {
    use serde::{Deserialize, Deserializer, Serializer, de::Error as _};

    use crate::Exact;

    /// For serde.
    pub fn serialize<S: Serializer>(
        value: &Option<Exact>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match value {
            Some(value) => serializer.serialize_some(&super::to_text(value)),
            None => serializer.serialize_none(),
        }
    }

    /// For serde.
    pub fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<Exact>, D::Error> {
        Option::<String>::deserialize(deserializer)?
            .map(|text| super::from_text(&text).map_err(D::Error::custom))
            .transpose()
    }
}
