//! How the person likes the program.

use rusqlite::OptionalExtension;

use super::error::StoreError;
use super::open::Store;
use crate::job::check_text;

/// A setting; its value is a word that the screens know.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    /// Millimetres or inches.
    LengthUnit,
    /// AWG or mm².
    WireUnit,
    /// The outlet that a new job starts with.
    MainsDefault,
    /// Light or dark.
    Theme,
    /// Where the person was: a screen's word and a job's id.
    Place,
    /// Uses that the person wants a core for: words with a space between.
    Wants,
    /// What a new transformer costs, for each 100 VA.
    PriceNew,
    /// What copper wire costs, for each kilogram.
    PriceCopper,
    /// Panels that stand open: words with a space between.
    Panels,
    /// The demo on the shelf: its job's and its donor's id.
    Demo,
}

impl Setting {
    /// Every setting.
    pub const ALL: [Setting; 10] = [
        Setting::LengthUnit,
        Setting::WireUnit,
        Setting::MainsDefault,
        Setting::Theme,
        Setting::Place,
        Setting::Wants,
        Setting::PriceNew,
        Setting::PriceCopper,
        Setting::Panels,
        Setting::Demo,
    ];

    const fn key(self) -> &'static str {
        match self {
            Setting::LengthUnit => "length_unit",
            Setting::WireUnit => "wire_unit",
            Setting::MainsDefault => "mains_default",
            Setting::Theme => "theme",
            Setting::Place => "place",
            Setting::Wants => "wants",
            Setting::PriceNew => "price_new_per_100_va",
            Setting::PriceCopper => "price_copper_per_kg",
            Setting::Panels => "panels",
            Setting::Demo => "demo",
        }
    }

    /// The most characters that its value may have.
    #[must_use]
    pub const fn most(self) -> usize {
        match self {
            // Every panel and every number may stand open at once.
            Setting::Panels => 8000,
            _ => 200,
        }
    }
}

impl Store {
    /// Sets a setting. Settings are no part of the person's work: undo leaves them alone.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a value with a control character or of more characters than it may have
    /// (see [`Setting::most`]); [`StoreError::Disk`] and the like if the data file fails.
    pub fn set(&mut self, setting: Setting, value: &str) -> Result<(), StoreError> {
        check_text(setting.key(), value, setting.most(), false)?;
        self.connection.execute(
            "INSERT INTO setting (key, value) VALUES (?1, ?2)
             ON CONFLICT (key) DO UPDATE SET value = excluded.value",
            (setting.key(), value),
        )?;
        Ok(())
    }

    /// A setting's value, if the person has set it.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn setting(&self, setting: Setting) -> Result<Option<String>, StoreError> {
        Ok(self
            .connection
            .prepare_cached("SELECT value FROM setting WHERE key = ?1")?
            .query_row([setting.key()], |row| row.get(0))
            .optional()?)
    }
}
