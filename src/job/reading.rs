//! A number as it was read off the part, with its ± and how it was got.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::quantity::{Measured, Origin, Quantity};

/// A value, its half-width at about 95 % (k = 2) and its origin. The unit is in the key.
///
/// In a job file it may be a bare number (`"tongue_mm": 31.8`), or an object in which
/// `plus_minus` and `origin` may be left out; what is left out is taken from the field's row
/// in [`super::fields::ALL`], the ± of another tool from what is usual for it. Outside a job file only the complete object is read, because
/// there nothing says which row would apply.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Best value.
    pub value: f64,
    /// Half-width that holds the truth about 95 times in 100; zero means exact.
    pub plus_minus: f64,
    /// How it was got.
    pub origin: Origin,
}

impl Reading {
    /// A value with its half-width at about 95 %.
    #[must_use]
    pub const fn new(value: f64, plus_minus: f64, origin: Origin) -> Self {
        Self {
            value,
            plus_minus,
            origin,
        }
    }

    /// A reading from its parts as text files and tables hold them; none for a word that is not
    /// an origin.
    #[must_use]
    pub fn from_parts(value: f64, plus_minus: f64, origin: &str) -> Option<Self> {
        Some(Self::new(value, plus_minus, Origin::from_word(origin)?))
    }

    /// The same as a quantity of the physics, by the maker of the unit in the key.
    ///
    /// ```
    /// use curbcore::job::Reading;
    /// use curbcore::quantity::{Length, Origin};
    /// let tongue = Reading::new(31.8, 0.1, Origin::Calipers).measured(Length::from_mm);
    /// assert!((tongue.value.mm() - 31.8).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn measured<Q: Quantity>(&self, unit: impl Fn(f64) -> Q) -> Measured<Q> {
        Measured::new(unit(self.value), unit(self.plus_minus), self.origin)
    }
}

const EXPECTED: &str = "a number or {value, plus_minus, origin}";

impl Serialize for Reading {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        #[derive(Serialize)]
        struct Wire {
            value: f64,
            plus_minus: f64,
            origin: &'static str,
        }
        Wire {
            value: self.value,
            plus_minus: self.plus_minus,
            origin: self.origin.word(),
        }
        .serialize(serializer)
    }
}

/// An origin read from its word.
struct OriginWord(Origin);

impl<'de> Deserialize<'de> for OriginWord {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let word = String::deserialize(deserializer)?;
        Origin::from_word(&word).map(OriginWord).ok_or_else(|| {
            let words: Vec<String> = Origin::ALL.iter().map(|o| format!("`{}`", o.word())).collect();
            D::Error::custom(format!(
                "unknown variant `{word}`, expected one of {}",
                words.join(", ")
            ))
        })
    }
}

impl<'de> Deserialize<'de> for Reading {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(ReadingVisitor)
    }
}

struct ReadingVisitor;

impl<'de> Visitor<'de> for ReadingVisitor {
    type Value = Reading;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(EXPECTED)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Reading, A::Error> {
        let (mut value, mut plus_minus, mut origin) = (None, None, None);
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "value" => value = Some(map.next_value::<f64>()?),
                "plus_minus" => plus_minus = Some(map.next_value::<f64>()?),
                "origin" => origin = Some(map.next_value::<OriginWord>()?.0),
                _ => {
                    return Err(A::Error::unknown_field(&key, &["value", "plus_minus", "origin"]));
                }
            }
        }
        Ok(Reading {
            value: value.ok_or_else(|| A::Error::missing_field("value"))?,
            plus_minus: plus_minus.ok_or_else(|| A::Error::missing_field("plus_minus"))?,
            origin: origin.ok_or_else(|| A::Error::missing_field("origin"))?,
        })
    }
}

impl JsonSchema for Reading {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Reading".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let words: Vec<&str> = Origin::ALL.iter().map(|origin| origin.word()).collect();
        json_schema!({
            "anyOf": [
                { "type": "number" },
                {
                    "type": "object",
                    "properties": {
                        "value": { "type": "number" },
                        "plus_minus": { "type": "number", "minimum": 0.0 },
                        "origin": { "type": "string", "enum": words },
                    },
                    "required": ["value"],
                    "additionalProperties": false,
                },
            ],
        })
    }
}
