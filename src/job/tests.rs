//! The job file, field by field.

pub(crate) mod documents;
mod every_field;
mod refusals;
mod schema;
