//! Which cell of a row could not be read: the row is read once more, cell by cell, only to find it.
//!
//! The csv crate names the column of a failed number, but not that of a word which a vocabulary
//! refused; "column ?" would send a person looking through a thousand cells.

use csv::StringRecord;
use serde::de::value::StringDeserializer;
use serde::de::{DeserializeOwned, DeserializeSeed, Deserializer, Error as _, IntoDeserializer};
use serde::de::{MapAccess, Visitor, value::Error};
use serde::forward_to_deserialize_any;

/// The first column whose cell `T` cannot be read from; none when no single cell is at fault.
pub fn at_fault<T: DeserializeOwned>(
    headers: &StringRecord,
    record: &StringRecord,
) -> Option<usize> {
    let mut cells = Cells {
        headers,
        record,
        at: 0,
        reading: None,
    };
    T::deserialize(Row(&mut cells)).err()?;
    cells.reading
}

struct Cells<'r> {
    headers: &'r StringRecord,
    record: &'r StringRecord,
    at: usize,
    /// The column being read: it stays set where reading ends in an error.
    reading: Option<usize>,
}

struct Row<'a, 'r>(&'a mut Cells<'r>);

impl<'de> Deserializer<'de> for Row<'_, '_> {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        visitor.visit_map(self.0)
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option
        unit unit_struct newtype_struct seq tuple tuple_struct map struct enum identifier ignored_any
    }
}

impl<'de> MapAccess<'de> for Cells<'_> {
    type Error = Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Error> {
        match self.headers.get(self.at) {
            None => Ok(None),
            Some(name) => seed
                .deserialize(name.to_owned().into_deserializer())
                .map(Some),
        }
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Error> {
        let column = self.at;
        self.at += 1;
        self.reading = Some(column);
        let cell = self.record.get(column).unwrap_or("").to_owned();
        let value = seed.deserialize(Cell(cell))?;
        self.reading = None;
        Ok(value)
    }
}

/// One cell: a word as it stands, a number where one is asked for, nothing where it may be empty.
struct Cell(String);

impl Cell {
    fn word(self) -> StringDeserializer<Error> {
        self.0.into_deserializer()
    }
}

macro_rules! numbers {
    ($($method:ident $visit:ident $kind:ty),+ $(,)?) => {
        $(fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
            let number: $kind = self.0.parse().map_err(Error::custom)?;
            visitor.$visit(number)
        })+
    };
}

impl<'de> Deserializer<'de> for Cell {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        self.word().deserialize_any(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        if self.0.is_empty() {
            visitor.visit_none()
        } else {
            visitor.visit_some(self)
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Error> {
        visitor.visit_newtype_struct(self)
    }

    numbers! {
        deserialize_bool visit_bool bool,
        deserialize_i8 visit_i8 i8,
        deserialize_i16 visit_i16 i16,
        deserialize_i32 visit_i32 i32,
        deserialize_i64 visit_i64 i64,
        deserialize_u8 visit_u8 u8,
        deserialize_u16 visit_u16 u16,
        deserialize_u32 visit_u32 u32,
        deserialize_u64 visit_u64 u64,
        deserialize_f32 visit_f32 f32,
        deserialize_f64 visit_f64 f64,
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        self.word().deserialize_enum(name, variants, visitor)
    }

    forward_to_deserialize_any! {
        i128 u128 char str string bytes byte_buf unit unit_struct seq tuple tuple_struct map struct
        identifier ignored_any
    }
}
