//! How the person likes the program.

use rusqlite::OptionalExtension;

use super::edit::Edit;
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
}

impl Setting {
    /// Every setting.
    pub const ALL: [Setting; 4] = [
        Setting::LengthUnit,
        Setting::WireUnit,
        Setting::MainsDefault,
        Setting::Theme,
    ];

    const fn key(self) -> &'static str {
        match self {
            Setting::LengthUnit => "length_unit",
            Setting::WireUnit => "wire_unit",
            Setting::MainsDefault => "mains_default",
            Setting::Theme => "theme",
        }
    }
}

impl Edit<'_> {
    /// Sets a setting.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a value with a control character or of more than 200 characters.
    pub fn set(&self, setting: Setting, value: &str) -> Result<(), StoreError> {
        check_text(setting.key(), value, 200, false)?;
        self.transaction.execute(
            "INSERT INTO setting (key, value) VALUES (?1, ?2)
             ON CONFLICT (key) DO UPDATE SET value = excluded.value",
            (setting.key(), value),
        )?;
        Ok(())
    }

    /// Forgets a setting.
    ///
    /// # Errors
    /// What the disk says.
    pub fn unset(&self, setting: Setting) -> Result<(), StoreError> {
        self.transaction
            .execute("DELETE FROM setting WHERE key = ?1", [setting.key()])?;
        Ok(())
    }
}

impl Store {
    /// A setting's value, if the person has set it.
    ///
    /// # Errors
    /// What the disk says.
    pub fn setting(&self, setting: Setting) -> Result<Option<String>, StoreError> {
        Ok(self
            .connection
            .prepare_cached("SELECT value FROM setting WHERE key = ?1")?
            .query_row([setting.key()], |row| row.get(0))
            .optional()?)
    }
}
