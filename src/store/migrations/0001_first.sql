-- Version 1. Never edited once released: the next change is 0002.
-- NULL stands only for "no donor", "not this kind of owner", "not on the label",
-- "no winding chosen" and "no price".

CREATE TABLE donor (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    name TEXT NOT NULL,
    hertz INTEGER,
    notes TEXT NOT NULL,
    created_ms INTEGER NOT NULL,
    edited_ms INTEGER NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;

CREATE TABLE core (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    donor_id BLOB REFERENCES donor (id) ON DELETE SET NULL,
    shunts_kept INTEGER NOT NULL CHECK (shunts_kept IN (0, 1)),
    primary_metal TEXT NOT NULL,
    rated_volts REAL NOT NULL,
    rated_hertz INTEGER NOT NULL,
    created_ms INTEGER NOT NULL,
    edited_ms INTEGER NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;
CREATE INDEX core_by_donor ON core (donor_id);

CREATE TABLE job (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    name TEXT NOT NULL,
    core_id BLOB NOT NULL REFERENCES core (id),
    mains_hertz INTEGER NOT NULL,
    breaker_a REAL NOT NULL,
    plug TEXT NOT NULL,
    goal_use TEXT NOT NULL,
    goal TEXT NOT NULL CHECK (json_valid(goal)),
    choice TEXT CHECK (choice IS NULL OR json_valid(choice)),
    note TEXT NOT NULL,
    created_ms INTEGER NOT NULL,
    edited_ms INTEGER NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;
CREATE INDEX job_by_core ON job (core_id);
-- Holds all that a list of jobs shows, newest first.
CREATE INDEX job_newest ON job (edited_ms DESC, id DESC, name, goal_use);

CREATE TABLE design (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    job_id BLOB NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    choice TEXT NOT NULL CHECK (json_valid(choice)),
    note TEXT NOT NULL,
    created_ms INTEGER NOT NULL,
    edited_ms INTEGER NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;
CREATE INDEX design_by_job ON design (job_id);

-- One owner of the four.
CREATE TABLE note (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    donor_id BLOB REFERENCES donor (id) ON DELETE CASCADE,
    core_id BLOB REFERENCES core (id) ON DELETE CASCADE,
    job_id BLOB REFERENCES job (id) ON DELETE CASCADE,
    design_id BLOB REFERENCES design (id) ON DELETE CASCADE,
    text TEXT NOT NULL,
    created_ms INTEGER NOT NULL,
    edited_ms INTEGER NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1),
    CHECK ((donor_id IS NOT NULL) + (core_id IS NOT NULL) + (job_id IS NOT NULL) + (design_id IS NOT NULL) = 1)
) STRICT;
CREATE INDEX note_by_donor ON note (donor_id) WHERE donor_id IS NOT NULL;
CREATE INDEX note_by_core ON note (core_id) WHERE core_id IS NOT NULL;
CREATE INDEX note_by_job ON note (job_id) WHERE job_id IS NOT NULL;
CREATE INDEX note_by_design ON note (design_id) WHERE design_id IS NOT NULL;

-- Every value read. The row with is_current = 1 holds now; the others are the history.
CREATE TABLE measurement (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    donor_id BLOB REFERENCES donor (id) ON DELETE CASCADE,
    core_id BLOB REFERENCES core (id) ON DELETE CASCADE,
    job_id BLOB REFERENCES job (id) ON DELETE CASCADE,
    design_id BLOB REFERENCES design (id) ON DELETE CASCADE,
    field TEXT NOT NULL,
    value REAL NOT NULL,
    plus_minus REAL NOT NULL CHECK (plus_minus >= 0),
    origin TEXT NOT NULL,
    is_current INTEGER NOT NULL CHECK (is_current IN (0, 1)),
    created_ms INTEGER NOT NULL,
    CHECK ((donor_id IS NOT NULL) + (core_id IS NOT NULL) + (job_id IS NOT NULL) + (design_id IS NOT NULL) = 1)
) STRICT;
CREATE INDEX measurement_by_donor ON measurement (donor_id, field) WHERE donor_id IS NOT NULL;
CREATE INDEX measurement_by_core ON measurement (core_id, field) WHERE core_id IS NOT NULL;
CREATE INDEX measurement_by_job ON measurement (job_id, field) WHERE job_id IS NOT NULL;
CREATE INDEX measurement_by_design ON measurement (design_id, field) WHERE design_id IS NOT NULL;

CREATE TABLE stock (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    conductor TEXT NOT NULL,
    length_m REAL NOT NULL,
    price_per_m REAL,
    created_ms INTEGER NOT NULL,
    edited_ms INTEGER NOT NULL,
    revision INTEGER NOT NULL CHECK (revision >= 1)
) STRICT;

CREATE TABLE setting (
    key TEXT PRIMARY KEY NOT NULL,
    value TEXT NOT NULL
) STRICT;

-- What the person did, and the statements that take it back (or, once undone, do it again).
CREATE TABLE operation (
    id INTEGER PRIMARY KEY NOT NULL,
    name TEXT NOT NULL,
    undone INTEGER NOT NULL CHECK (undone IN (0, 1))
) STRICT;

CREATE TABLE operation_step (
    id INTEGER PRIMARY KEY NOT NULL,
    operation_id INTEGER NOT NULL REFERENCES operation (id) ON DELETE CASCADE,
    statement TEXT NOT NULL
) STRICT;
CREATE INDEX operation_step_by_operation ON operation_step (operation_id, id);
