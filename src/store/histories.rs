//! This device's histories of teardown and bench, as records that travel.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use uuid::Uuid;

use super::error::StoreError;
use super::ledger::LocalDevice;
use super::rows::{self, blob, from_json};
use crate::merge::Device;

/// The id of the record of a donor's teardown on a device.
pub(super) fn teardown_id(device: Device, donor: Uuid) -> Uuid {
    let digest = Sha256::digest(format!("teardown of {donor} on {device}"));
    let mut bytes = [0_u8; 16];
    bytes.copy_from_slice(&digest[..16]);
    uuid::Builder::from_custom_bytes(bytes).into_uuid()
}

/// What happened in a donor's teardown on this device, oldest first.
pub(super) fn teardown_lines(connection: &Connection, donor: Uuid) -> Result<Vec<String>, StoreError> {
    lines(
        connection,
        "SELECT line FROM teardown_entry WHERE donor_id = ?1 ORDER BY id",
        donor,
    )
}

/// What happened in a job's run on this device, oldest first.
pub(super) fn job_run_lines(connection: &Connection, run: Uuid) -> Result<Vec<String>, StoreError> {
    lines(
        connection,
        "SELECT line FROM job_run_entry WHERE run_id = ?1 ORDER BY id",
        run,
    )
}

fn lines(connection: &Connection, query: &str, owner: Uuid) -> Result<Vec<String>, StoreError> {
    Ok(connection
        .prepare_cached(query)?
        .query_map([blob(owner)], |row| row.get(0))?
        .collect::<Result<_, _>>()?)
}

/// What happened in a donor's teardown on this device, as the fields of a record; none for nothing.
pub(super) fn teardown(
    connection: &Connection,
    own: &LocalDevice,
    donor: Uuid,
) -> Result<Option<BTreeMap<String, Value>>, StoreError> {
    let lines = teardown_lines(connection, donor)?;
    if lines.is_empty() {
        return Ok(None);
    }
    let Value::Object(values) = json!({
        "donor": donor.to_string(), "device": own.device, "device_name": own.name, "lines": lines,
    }) else {
        return Ok(None);
    };
    Ok(Some(values.into_iter().collect()))
}

/// What happened in a job's run on this device, as the fields of a record.
pub(super) fn job_run(
    connection: &Connection,
    own: &LocalDevice,
    run: Uuid,
) -> Result<Option<BTreeMap<String, Value>>, StoreError> {
    let found = connection
        .prepare_cached("SELECT job_id, procedure, plan, created_ms FROM job_run WHERE id = ?1")?
        .query_row([blob(run)], |row| {
            Ok((
                rows::id(row, "job_id")?,
                row.get::<_, String>(1)?,
                row.get::<_, String>(2)?,
                row.get::<_, i64>(3)?,
            ))
        })
        .optional()?;
    let Some((job, procedure, plan, created_ms)) = found else {
        return Ok(None);
    };
    let plan: Value = from_json("plan", &plan)?;
    let lines = job_run_lines(connection, run)?;
    let Value::Object(values) = json!({
        "job": job.to_string(), "device": own.device, "device_name": own.name, "procedure": procedure, "plan": plan,
        "lines": lines, "created_ms": created_ms,
    }) else {
        return Ok(None);
    };
    Ok(Some(values.into_iter().collect()))
}
