//! The person's jobs on this device: one method for each thing they can do.

use std::path::Path;

use serde_json::Value;

use super::now::now;
use super::start;
use crate::job::{
    Choice, Conditions, Core, Design, DesignId, FieldError, Goal, Job, JobFile, JobFileError, JobId, Reading, Record,
    ShelfCore, StockId, StockWire, fields,
};
use crate::magnetics::mains::{OUTLETS, Outlet};
use crate::quantity::{LengthUnit, NumberError, Origin, parse_length, parse_number};
use crate::store::{Cursor, JobSummary, Setting, Store, StoreError};
use crate::wire::{Catalogue, Metal, UnknownConductor};
use crate::{bench, teardown};

/// Why something could not be done; the message is for the person at the bench.
#[derive(Debug, thiserror::Error)]
pub enum ShopError {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A number outside its range.
    #[error("{0}")]
    Field(#[from] FieldError),
    /// A job file.
    #[error("{0}")]
    File(#[from] JobFileError),
    /// A conductor that is not in the catalogue.
    #[error(transparent)]
    Exchange(#[from] crate::exchange::ExchangeError),
    /// A conductor that the catalogue does not have.
    #[error(transparent)]
    Wire(#[from] UnknownConductor),
    /// Text that is not a number.
    #[error("{label}: {reason}")]
    Number {
        /// The field's label.
        label: &'static str,
        /// What is wrong.
        reason: NumberError,
    },
    /// A value outside its range, named by its label.
    #[error("{label} {shown} is out of range: {range}")]
    Range {
        /// The field's label.
        label: &'static str,
        /// What was entered.
        shown: String,
        /// The accepted range.
        range: String,
    },
    /// A stored history that cannot have happened.
    #[error("{0}")]
    History(String),
    /// Something that the teardown does not allow now.
    #[error(transparent)]
    Teardown(#[from] crate::teardown::Refusal),
    /// Something that the bench does not allow now.
    #[error(transparent)]
    Bench(#[from] crate::bench::Refusal),
    /// A number of a find that can't be right.
    #[error("{0}")]
    Sighting(String),
    /// A field that is not in the table.
    #[error("there is no field \"{0}\"")]
    UnknownField(String),
}

/// A number as it was typed, for one field of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<'a> {
    /// The field's path in a job file, such as `core.tongue_mm`.
    pub path: &'a str,
    /// What was typed; blank takes an optional value away.
    pub text: &'a str,
    /// The ± that was typed; blank for the field's usual one.
    pub plus_minus: &'a str,
    /// How it was got; `None` for the field's usual way.
    pub origin: Option<Origin>,
}

/// The person's jobs on this device.
#[derive(Debug)]
pub struct Shop {
    pub(super) store: Store,
}

impl Shop {
    /// Opens the jobs kept in a folder.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn open(folder: &Path) -> Result<Self, ShopError> {
        let mut store = Store::open(folder)?;
        if !store.is_at_home()? {
            // A gate counts only where and when it was confirmed.
            let at = now();
            let teardown = teardown::Entry {
                at,
                event: teardown::Event::Brought,
            };
            let bench = bench::Entry {
                at,
                event: bench::Event::Brought,
            };
            store.settle_here(&teardown.to_line(), &bench.to_line())?;
        }
        Ok(Self { store })
    }

    /// Opens the jobs kept in a folder for reading, beside a program that writes them.
    ///
    /// # Errors
    /// As [`Store::open_read_only`].
    pub fn open_read_only(folder: &Path) -> Result<Self, ShopError> {
        Ok(Self {
            store: Store::open_read_only(folder)?,
        })
    }

    /// A page of the list of jobs, the last edited first.
    ///
    /// # Errors
    /// What the disk says.
    pub fn jobs(&self, limit: u32, after: Option<Cursor>) -> Result<Vec<JobSummary>, ShopError> {
        Ok(self.store.job_summaries(limit, after)?)
    }

    /// How many jobs there are.
    ///
    /// # Errors
    /// What the disk says.
    pub fn job_count(&self) -> Result<u32, ShopError> {
        Ok(self.store.job_count()?)
    }

    /// One job as a document.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn job(&self, id: JobId) -> Result<JobFile, ShopError> {
        Ok(self.store.load_job_file(id)?)
    }

    /// Starts a job with typical values for the outlet that the person has.
    ///
    /// # Errors
    /// A blank or overlong name; what the disk says.
    pub fn start_job(&mut self, name: &str, outlet: &Outlet) -> Result<JobId, ShopError> {
        let file = start::new_job(name, outlet);
        let id = self.store.edit("Start a job", |edit| edit.insert_job_file(&file))?;
        self.store.set(Setting::MainsDefault, outlet.word)?;
        Ok(id)
    }

    /// Takes a job file in.
    ///
    /// # Errors
    /// [`JobFileError`] names the field that is wrong.
    pub fn take_in(&mut self, text: &str) -> Result<JobId, ShopError> {
        let file = JobFile::parse(text)?;
        Ok(self.store.import_job_file(&file)?)
    }

    /// Takes a job off the shelf, and its core where no other job uses it.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn remove_job(&mut self, id: JobId) -> Result<(), ShopError> {
        let core = self.store.job(id)?.body.core;
        let shared = self
            .store
            .job_summaries(u32::MAX, None)?
            .into_iter()
            .filter(|job| job.id != id)
            .any(|other| self.store.job(other.id).is_ok_and(|record| record.body.core == core));
        self.store.edit("Remove a job", |edit| {
            edit.delete_job(id)?;
            if shared { Ok(()) } else { edit.delete_core(core) }
        })?;
        Ok(())
    }

    /// Sets one number of a job from what was typed.
    ///
    /// # Errors
    /// Names the field and its range; nothing is changed then.
    pub fn set_number(&mut self, id: JobId, entry: &Entry, unit: LengthUnit) -> Result<(), ShopError> {
        self.set_numbers(id, std::slice::from_ref(entry), unit)
    }

    /// Sets several numbers of a job at once, as one step of undo.
    ///
    /// # Errors
    /// As [`Shop::set_number`].
    pub fn set_numbers(&mut self, id: JobId, entries: &[Entry], unit: LengthUnit) -> Result<(), ShopError> {
        let mut label = "values";
        let mut values = Vec::new();
        for entry in entries {
            let field = find_field(&self.store.job(id)?.body.goal, entry.path)?;
            label = field.label;
            values.push((entry.path, read_entry(field, entry, unit)?));
        }
        self.change(id, &format!("Change {label}"), |file| {
            let mut document = serde_json::to_value(&*file).map_err(|_| ShopError::UnknownField(String::new()))?;
            for (path, value) in values {
                put(&mut document, path, value);
            }
            *file = JobFile::parse(&document.to_string())?;
            Ok(())
        })
    }

    /// Takes a group of readings away (a test turn, the old secondary).
    ///
    /// # Errors
    /// What the disk says.
    pub fn clear_group(&mut self, id: JobId, path: &str) -> Result<(), ShopError> {
        self.change(id, "Take a test away", |file| {
            let mut document = serde_json::to_value(&*file).map_err(|_| ShopError::UnknownField(path.to_owned()))?;
            put(&mut document, path, None);
            *file = JobFile::parse(&document.to_string())?;
            Ok(())
        })
    }

    /// Chooses another use, with its usual targets.
    ///
    /// # Errors
    /// What the disk says.
    pub fn set_use(&mut self, id: JobId, word: &str) -> Result<(), ShopError> {
        self.change(id, "Change the use", |file| {
            file.goal = start::goal_of(word);
            file.choice = None;
            Ok(())
        })
    }

    /// Changes the goal in a way that is not one number (who uses it, a warning confirmed).
    ///
    /// # Errors
    /// What the disk says.
    pub fn set_goal(&mut self, id: JobId, what: &str, goal: Goal) -> Result<(), ShopError> {
        self.change(id, what, |file| {
            file.goal = goal;
            Ok(())
        })
    }

    /// Changes the core in a way that is not one number (metal, shunts).
    ///
    /// # Errors
    /// What the disk says.
    pub fn set_core(&mut self, id: JobId, what: &str, with: impl FnOnce(&mut Core)) -> Result<(), ShopError> {
        self.change(id, what, |file| {
            with(&mut file.core);
            Ok(())
        })
    }

    /// Changes how it is run in a way that is not one number (steel, breaker, rectifier).
    ///
    /// # Errors
    /// What the disk says.
    pub fn set_conditions(
        &mut self,
        id: JobId,
        what: &str,
        with: impl FnOnce(&mut Conditions),
    ) -> Result<(), ShopError> {
        self.change(id, what, |file| {
            with(&mut file.conditions);
            Ok(())
        })
    }

    /// Plugs the job into another outlet.
    ///
    /// # Errors
    /// What the disk says.
    pub fn set_outlet(&mut self, id: JobId, outlet: &Outlet) -> Result<(), ShopError> {
        self.change(id, "Change the outlet", |file| {
            file.mains = start::mains_of(outlet);
            Ok(())
        })
    }

    /// Chooses a winding, or goes back to the best that is found.
    ///
    /// # Errors
    /// A number out of range.
    pub fn choose(&mut self, id: JobId, choice: Option<Choice>) -> Result<(), ShopError> {
        self.change(
            id,
            if choice.is_some() {
                "Choose a winding"
            } else {
                "Back to the best"
            },
            |file| {
                file.choice = choice;
                Ok(())
            },
        )
    }

    /// The wires on the person's shelf.
    ///
    /// # Errors
    /// What the disk says.
    pub fn stock(&self) -> Result<Vec<Record<StockId, StockWire>>, ShopError> {
        Ok(self.store.stock()?)
    }

    /// Puts a wire on the shelf. `conductor` is a name of the catalogue, or `own-BARE-OVER` in
    /// millimetres for a wire of the person's own; `length` is in metres, as typed.
    ///
    /// # Errors
    /// An unknown conductor (the nearest is named), or a length that is no number or out of range.
    pub fn add_stock(&mut self, conductor: &str, length: &str) -> Result<(), ShopError> {
        let mut catalogue = Catalogue::standard();
        let conductor = conductor.trim();
        Metal::ALL
            .iter()
            .find_map(|metal| catalogue.find(conductor, *metal).ok())
            .map_or_else(|| catalogue.find(conductor, Metal::Copper), Ok)?;
        let label = "Length on the shelf";
        let length_m = parse_number(length).map_err(|reason| ShopError::Number { label, reason })?;
        let wire = StockWire {
            conductor: conductor.to_owned(),
            length_m,
            price_per_m: None,
        };
        self.store
            .edit("Put a wire on the shelf", |edit| edit.insert_stock(&wire))?;
        Ok(())
    }

    /// Takes a wire off the shelf.
    ///
    /// # Errors
    /// What the disk says.
    pub fn remove_stock(&mut self, id: StockId) -> Result<(), ShopError> {
        Ok(self
            .store
            .edit("Take a wire off the shelf", |edit| edit.delete_stock(id))?)
    }

    /// Keeps the chosen winding beside the job, to compare it with others.
    ///
    /// # Errors
    /// A blank or overlong name; what the disk says.
    pub fn keep_design(&mut self, id: JobId, name: &str, choice: &Choice) -> Result<(), ShopError> {
        let design = Design {
            job: id,
            name: name.to_owned(),
            choice: choice.clone(),
            note: String::new(),
        };
        self.store.edit("Keep a winding", |edit| edit.insert_design(&design))?;
        Ok(())
    }

    /// The windings kept beside a job.
    ///
    /// # Errors
    /// What the disk says.
    pub fn designs(&self, id: JobId) -> Result<Vec<Record<DesignId, Design>>, ShopError> {
        Ok(self.store.designs_of(id)?)
    }

    /// Lets go of a winding that was kept.
    ///
    /// # Errors
    /// What the disk says.
    pub fn drop_design(&mut self, id: DesignId) -> Result<(), ShopError> {
        Ok(self.store.edit("Let go of a winding", |edit| edit.delete_design(id))?)
    }

    /// Writes a job's note.
    ///
    /// # Errors
    /// An overlong note.
    pub fn set_note(&mut self, id: JobId, note: &str) -> Result<(), ShopError> {
        self.change(id, "Change the note", |file| {
            note.clone_into(&mut file.note);
            Ok(())
        })
    }

    /// Renames a job.
    ///
    /// # Errors
    /// A blank or overlong name.
    pub fn rename(&mut self, id: JobId, name: &str) -> Result<(), ShopError> {
        self.change(id, "Rename the job", |file| {
            name.clone_into(&mut file.name);
            Ok(())
        })
    }

    /// Takes the last change back; gives its name.
    ///
    /// # Errors
    /// What the disk says.
    pub fn undo(&mut self) -> Result<Option<String>, ShopError> {
        Ok(self.store.undo()?)
    }

    /// Does a change again that was taken back.
    ///
    /// # Errors
    /// What the disk says.
    pub fn redo(&mut self) -> Result<Option<String>, ShopError> {
        Ok(self.store.redo()?)
    }

    /// The name of the change that undo would take back.
    #[must_use]
    pub fn undo_name(&self) -> Option<String> {
        self.store.undo_name().ok().flatten()
    }

    /// The name of the change that redo would do again.
    #[must_use]
    pub fn redo_name(&self) -> Option<String> {
        self.store.redo_name().ok().flatten()
    }

    /// A setting's value.
    #[must_use]
    pub fn setting(&self, setting: Setting) -> Option<String> {
        self.store.setting(setting).ok().flatten()
    }

    /// Sets a setting.
    ///
    /// # Errors
    /// What the disk says.
    pub fn set_setting(&mut self, setting: Setting, value: &str) -> Result<(), ShopError> {
        Ok(self.store.set(setting, value)?)
    }

    /// Applies a change to a job's document and saves the records that it touched, as one step of
    /// undo with a name.
    pub(super) fn change(
        &mut self,
        id: JobId,
        what: &str,
        with: impl FnOnce(&mut JobFile) -> Result<(), ShopError>,
    ) -> Result<(), ShopError> {
        let job = self.store.job(id)?;
        let shelf = self.store.core(job.body.core)?;
        let before = self.store.load_job_file(id)?;
        let mut after = before.clone();
        with(&mut after)?;
        let new_job = Job {
            name: after.name.clone(),
            core: job.body.core,
            mains: after.mains.clone(),
            goal: after.goal,
            conditions: after.conditions,
            choice: after.choice.clone(),
            note: after.note.clone(),
        };
        self.store.edit(what, |edit| {
            if after.core != before.core {
                let core = ShelfCore {
                    donor: shelf.body.donor,
                    core: after.core.clone(),
                };
                edit.update_core(shelf.meta.id, shelf.meta.revision, &core)?;
            }
            if new_job != job.body {
                edit.update_job(id, job.meta.revision, &new_job)?;
            }
            Ok(())
        })?;
        Ok(())
    }
}

/// The field of a path, seen from a job's use.
///
/// # Errors
/// [`ShopError::UnknownField`].
pub fn find_field(goal: &Goal, path: &str) -> Result<&'static fields::Field, ShopError> {
    let found = match path.strip_prefix("goal.") {
        Some(key) => fields::find_for(goal.word(), key),
        None => fields::find(path),
    };
    found.ok_or_else(|| ShopError::UnknownField(path.to_owned()))
}

/// The accepted range of a field in the person's unit, as text.
#[must_use]
pub fn range_text(field: &fields::Field, unit: LengthUnit) -> String {
    if let fields::Shape::OneOf(accepted) = field.shape {
        let values: Vec<String> = accepted.iter().map(ToString::to_string).collect();
        return format!("{} {}", values.join(" or "), field.kind.symbol())
            .trim_end()
            .to_owned();
    }
    let shown = |value: f64| shown_number(field, value, unit);
    format!(
        "{} to {} {}",
        shown(field.min),
        shown(field.max),
        unit_symbol(field, unit)
    )
    .trim_end()
    .to_owned()
}

/// A value of a field as the person reads it, without its unit.
#[must_use]
pub fn shown_number(field: &fields::Field, value: f64, unit: LengthUnit) -> String {
    let inches = is_length(field) && unit == LengthUnit::Inch;
    let value = if inches { value / 25.4 } else { value };
    let text = format!("{value:.*}", if inches { 4 } else { 3 });
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text.is_empty() || text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// The symbol behind a field's number, in the person's unit.
#[must_use]
pub fn unit_symbol(field: &fields::Field, unit: LengthUnit) -> &'static str {
    if is_length(field) {
        unit.symbol()
    } else {
        field.kind.symbol()
    }
}

fn is_length(field: &fields::Field) -> bool {
    field.kind == fields::UnitKind::Length
}

/// Reads what was typed for a field: `None` where it is to be taken away.
pub(super) fn read_entry(field: &fields::Field, entry: &Entry, unit: LengthUnit) -> Result<Option<Value>, ShopError> {
    let number = |text: &str| -> Result<f64, ShopError> {
        let value = if is_length(field) {
            parse_length(text, unit).map(|l| l.mm())
        } else {
            parse_number(text)
        };
        value.map_err(|reason| ShopError::Number {
            label: field.label,
            reason,
        })
    };
    if entry.text.trim().is_empty() && !field.required {
        return Ok(None);
    }
    let value = number(entry.text)?;
    let spread = match entry.plus_minus.trim() {
        "" => field.default_plus_minus(value),
        text => number(text)?,
    };
    if field.check(field.path, value, spread).is_err() {
        return Err(ShopError::Range {
            label: field.label,
            shown: entry.text.trim().chars().take(40).collect(),
            range: range_text(field, unit),
        });
    }
    Ok(Some(match field.shape {
        fields::Shape::Reading => {
            let reading = Reading::new(value, spread, entry.origin.unwrap_or(field.origin));
            serde_json::to_value(reading).unwrap_or(Value::Null)
        }
        _ => Value::from(value),
    }))
}

/// Puts a value at a dotted path, making the objects on the way; takes it away for `None`.
pub(super) fn put(document: &mut Value, path: &str, value: Option<Value>) {
    let mut place = document;
    let mut keys = path.split('.').peekable();
    while let Some(key) = keys.next() {
        let Value::Object(object) = place else { return };
        if keys.peek().is_none() {
            match value {
                Some(value) => object.insert(key.to_owned(), value),
                None => object.remove(key),
            };
            return;
        }
        place = object
            .entry(key)
            .or_insert_with(|| Value::Object(serde_json::Map::new()));
    }
}

/// The outlet that a word names, else the first.
#[must_use]
pub fn outlet_of(word: &str) -> &'static Outlet {
    OUTLETS.iter().find(|outlet| outlet.word == word).unwrap_or(&OUTLETS[0])
}
