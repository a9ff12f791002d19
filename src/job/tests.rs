//! The job file, field by field.

mod documents;
mod every_field;
mod refusals;
mod schema;
