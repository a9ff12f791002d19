//! Histories of teardown and bench that came from other devices. They are shown, and nothing
//! else: a gate counts only on the device and day that it was confirmed on.

use std::collections::{BTreeMap, HashSet};

use rusqlite::{Connection, OptionalExtension};
use serde_json::{Value, json};
use uuid::Uuid;

use super::columns::RowValues;
use super::error::StoreError;
use super::guided::JobProcedure;
use super::histories;
use super::open::Store;
use super::rows::{blob, from_json};
use crate::job::{DonorId, JobId};
use crate::merge::{Device, Kind};

/// What happened on another device.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RemoteHistory {
    /// What that device is called.
    pub device_name: String,
    /// The plan of a winding or of bench tests, as JSON.
    pub plan: Option<String>,
    /// What happened, oldest first.
    pub lines: Vec<String>,
}

/// Keeps such a history. One of this device is here already, unless its data were put back since: then it is
/// kept as another device's.
pub(super) fn write(
    connection: &Connection,
    own: Device,
    kind: Kind,
    id: Uuid,
    values: &RowValues<'_>,
) -> Result<(), StoreError> {
    let text = |key: &str| values.get(key).and_then(|v| v.as_str()).unwrap_or_default();
    if text("device").parse() == Ok(own) && is_here(connection, kind, id, values)? {
        return Ok(());
    }
    let owner = |key: &str| text(key).parse::<Uuid>().ok().map(blob);
    let (donor, job) = match kind {
        Kind::Teardown => (owner("donor"), None),
        _ => (None, owner("job")),
    };
    let json = |key: &str| values.get(key).map(ToString::to_string);
    connection
        .prepare_cached(
            "INSERT INTO remote_history (id, donor_id, job_id, device, device_name, procedure, plan, lines)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
             ON CONFLICT (id) DO UPDATE SET donor_id = excluded.donor_id, job_id = excluded.job_id,
                 device_name = excluded.device_name, procedure = excluded.procedure, plan = excluded.plan, lines = excluded.lines",
        )?
        .execute((
            blob(id),
            donor,
            job,
            text("device"),
            text("device_name"),
            values.get("procedure").and_then(|v| v.as_str()),
            json("plan"),
            json("lines").unwrap_or_else(|| "[]".to_owned()),
        ))?;
    Ok(())
}

/// Whether this device's own history of that record has every line of `values`.
fn is_here(connection: &Connection, kind: Kind, id: Uuid, values: &RowValues<'_>) -> Result<bool, StoreError> {
    let here = match kind {
        Kind::Teardown => match values.get("donor").and_then(Value::as_str).map(str::parse) {
            Some(Ok(donor)) => histories::teardown_lines(connection, donor)?,
            _ => Vec::new(),
        },
        _ => histories::job_run_lines(connection, id)?,
    };
    let here: HashSet<&str> = here.iter().map(String::as_str).collect();
    let lines = values.get("lines").and_then(Value::as_array);
    let mut lines = lines.into_iter().flatten().filter_map(Value::as_str);
    Ok(lines.all(|line| here.contains(line)))
}

/// The kind of a record, and its values by name.
type KindAndValues = (Kind, BTreeMap<String, Value>);

/// The fields of such a history as its row has them, and its kind. The row does not keep when it was made.
pub(super) fn values(connection: &Connection, id: Uuid) -> Result<Option<KindAndValues>, StoreError> {
    type Row = (
        Option<[u8; 16]>,
        Option<[u8; 16]>,
        String,
        String,
        Option<String>,
        Option<String>,
        String,
    );
    let found: Option<Row> = connection
        .prepare_cached(
            "SELECT donor_id, job_id, device, device_name, procedure, plan, lines FROM remote_history WHERE id = ?1",
        )?
        .query_row([blob(id)], |row| {
            Ok((
                row.get(0)?,
                row.get(1)?,
                row.get(2)?,
                row.get(3)?,
                row.get(4)?,
                row.get(5)?,
                row.get(6)?,
            ))
        })
        .optional()?;
    let Some((donor, job, device, device_name, procedure, plan, lines)) = found else {
        return Ok(None);
    };
    let mut values = BTreeMap::from([
        ("device".to_owned(), json!(device)),
        ("device_name".to_owned(), json!(device_name)),
        ("lines".to_owned(), from_json("lines", &lines)?),
    ]);
    if let Some(donor) = donor {
        values.insert("donor".to_owned(), json!(Uuid::from_bytes(donor).to_string()));
        return Ok(Some((Kind::Teardown, values)));
    }
    let job = Uuid::from_bytes(job.unwrap_or_default()).to_string();
    values.insert("job".to_owned(), json!(job));
    values.insert("procedure".to_owned(), json!(procedure));
    values.insert("created_ms".to_owned(), json!(0));
    let plan: Value = plan.map_or(Ok(Value::Null), |plan| from_json("plan", &plan))?;
    values.insert("plan".to_owned(), plan);
    Ok(Some((Kind::JobRun, values)))
}

impl Store {
    /// What happened in a donor's teardown on other devices.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn remote_teardowns(&self, donor: DonorId) -> Result<Vec<RemoteHistory>, StoreError> {
        self.remote_histories("donor_id", donor.0, None)
    }

    /// What happened in one of a job's procedures on other devices.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn remote_job_runs(&self, job: JobId, procedure: JobProcedure) -> Result<Vec<RemoteHistory>, StoreError> {
        self.remote_histories("job_id", job.0, Some(procedure))
    }

    fn remote_histories(
        &self,
        column: &str,
        owner: Uuid,
        procedure: Option<JobProcedure>,
    ) -> Result<Vec<RemoteHistory>, StoreError> {
        let rows: Vec<(String, Option<String>, String)> = self
            .connection
            .prepare_cached(&format!(
                "SELECT device_name, plan, lines FROM remote_history WHERE {column} = ?1 AND procedure IS ?2 ORDER BY id"
            ))?
            .query_map((blob(owner), procedure.map(JobProcedure::word)), |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
            .collect::<Result<_, _>>()?;
        rows.into_iter()
            .map(|(device_name, plan, lines)| {
                Ok(RemoteHistory {
                    device_name,
                    plan,
                    lines: from_json("lines", &lines)?,
                })
            })
            .collect()
    }
}
