//! Reading a declaration through serde: names to numbers, numbers to places.

use super::Asked;
use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, MapAccess, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// Reads a declaration.
pub fn read<'de, T: Asked, D: Deserializer<'de>>(deserializer: D) -> Result<T, D::Error> {
    deserializer.deserialize_struct(T::DECLARATION.name, T::NAMES, Whole(PhantomData))
}

struct Whole<T>(PhantomData<T>);

impl<'de, T: Asked> Visitor<'de> for Whole<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "struct {}", T::DECLARATION.name)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<T, A::Error> {
        let mut places = T::Places::default();
        while let Some(at) = map.next_key_seed(Number(T::NAMES))? {
            T::put(&mut places, at, &mut map)?;
        }
        T::end(places)
    }
}

/// Which of the names a key is.
struct Number(&'static [&'static str]);

impl<'de> DeserializeSeed<'de> for Number {
    type Value = usize;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<usize, D::Error> {
        deserializer.deserialize_identifier(self)
    }
}

impl Visitor<'_> for Number {
    type Value = usize;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a field's name")
    }

    fn visit_str<E: Error>(self, name: &str) -> Result<usize, E> {
        self.0.iter().position(|known| *known == name).ok_or_else(|| E::unknown_field(name, self.0))
    }
}

/// Reads the next value into the place of the field `name`, which must be empty.
pub fn put<'de, T: Deserialize<'de>, A: MapAccess<'de>>(
    place: &mut Option<T>,
    name: &'static str,
    map: &mut A,
) -> Result<(), A::Error> {
    if place.is_some() {
        return Err(A::Error::duplicate_field(name));
    }
    *place = Some(map.next_value()?);
    Ok(())
}

/// What stands in the place of a field that is needed.
pub fn needed<T, E: Error>(place: Option<T>, name: &'static str) -> Result<T, E> {
    place.ok_or_else(|| E::missing_field(name))
}
