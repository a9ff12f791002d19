//! Who changed something, and how far a history has been seen.

use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;
use std::str::FromStr;

use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A device: a random number that it gave itself, written as 16 hexadecimal digits. The first eight
/// name the device, the last eight a session of it: the time from opening its data to closing them.
/// Changes are stamped with the session, so that data put back from a copy, or a disk put back from a
/// snapshot, never give a stamp twice: whatever was done before, the next session has another number.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Device(pub u64);

impl Device {
    /// The device without its session.
    #[must_use]
    pub const fn machine(self) -> Self {
        Device(self.0 & !0xffff_ffff)
    }

    /// A session of this device.
    #[must_use]
    pub const fn session(self, number: u32) -> Self {
        Device(self.machine().0 | number as u64)
    }
}

/// One change: the count that the device had reached, and the device. The count is a Lamport
/// clock: it is above every count that the device had seen, so that a later change sorts later.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stamp {
    /// The count.
    pub count: u64,
    /// Who.
    pub device: Device,
}

/// The largest count that a stamp may have: more than one change a second makes in thirty thousand
/// years. A file with a larger one is refused.
pub const MAX_COUNT: u64 = 1 << 40;

/// The largest count of a foreign stamp that this device's own clock follows. The other half of the
/// counts is left for its own changes, so that no file can use them up.
pub const MAX_FOLLOWED: u64 = MAX_COUNT / 2;

impl fmt::Display for Device {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // By hand, since a million of them are written into a shelf file.
        let mut digits = [0_u8; 16];
        for (at, digit) in digits.iter_mut().enumerate() {
            let four = (self.0 >> (60 - 4 * at)) as u8 & 0xf;
            *digit = if four < 10 { b'0' + four } else { b'a' + four - 10 };
        }
        f.write_str(std::str::from_utf8(&digits).map_err(|_| fmt::Error)?)
    }
}

impl fmt::Debug for Device {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}@{}", self.count, self.device)
    }
}

impl fmt::Debug for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for Device {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let plain = text.len() == 16 && text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
        plain
            .then(|| u64::from_str_radix(text, 16).ok())
            .flatten()
            .map(Device)
            .ok_or("a device is written with 16 digits from 0 to 9 and a to f")
    }
}

impl FromStr for Stamp {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        const FORM: &str = "a stamp is written as count@device, the count from 1 to 1099511627776";
        let (count, device) = text.split_once('@').ok_or(FORM)?;
        let count = count
            .parse()
            .ok()
            .filter(|count| (1..=MAX_COUNT).contains(count))
            .ok_or(FORM)?;
        Ok(Stamp {
            count,
            device: device.parse()?,
        })
    }
}

/// Reads a value from a text in place: a shelf file has a million of them.
struct InPlace<T>(PhantomData<T>);

impl<T: FromStr<Err = &'static str>> Visitor<'_> for InPlace<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a text")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        text.parse().map_err(E::custom)
    }
}

macro_rules! as_text {
    ($($name:ident),*) => { $(
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                deserializer.deserialize_str(InPlace(PhantomData))
            }
        }
    )* };
}

as_text!(Device, Stamp);

/// How far a history knows each device's changes: all up to a count.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct VersionVector(BTreeMap<Device, u64>);

impl VersionVector {
    /// Whether a change is known.
    #[must_use]
    pub fn covers(&self, stamp: Stamp) -> bool {
        self.0.get(&stamp.device).is_some_and(|count| stamp.count <= *count)
    }

    /// Now this change and all before it on its device are known.
    pub fn add(&mut self, stamp: Stamp) {
        let count = self.0.entry(stamp.device).or_insert(0);
        *count = stamp.count.max(*count);
    }

    /// Now everything is known that another history knows.
    pub fn join(&mut self, other: &VersionVector) {
        for (device, count) in &other.0 {
            self.add(Stamp {
                count: *count,
                device: *device,
            });
        }
    }

    /// The newest change of each device.
    pub fn stamps(&self) -> impl Iterator<Item = Stamp> {
        self.0.iter().map(|(device, count)| Stamp {
            count: *count,
            device: *device,
        })
    }

    /// The highest count of all.
    #[must_use]
    pub fn highest(&self) -> u64 {
        self.0.values().copied().max().unwrap_or(0)
    }

    /// Whether this is what a history knows that consists of one change.
    #[must_use]
    pub fn is_only(&self, stamp: Stamp) -> bool {
        self.0.len() == 1 && self.0.get(&stamp.device) == Some(&stamp.count)
    }
}

impl From<Stamp> for VersionVector {
    fn from(stamp: Stamp) -> Self {
        VersionVector(BTreeMap::from([(stamp.device, stamp.count)]))
    }
}
