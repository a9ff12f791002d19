-- Version 1. Never edited once released: the next change is 0002.
-- NULL stands only for "no donor", "not this kind of owner", "not on the label",
-- "no winding chosen", "nothing is marked" and "no price".

CREATE TABLE donor (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    name TEXT NOT NULL,
    hertz INTEGER,
    look TEXT NOT NULL CHECK (json_valid(look)),
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
    conditions TEXT NOT NULL CHECK (json_valid(conditions)),
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

-- What the person did; its steps take it back (or, once undone, do it again).
CREATE TABLE operation (
    id INTEGER PRIMARY KEY NOT NULL,
    name TEXT NOT NULL,
    undone INTEGER NOT NULL CHECK (undone IN (0, 1)),
    -- An operation that settled a field with two values: undo brings both back.
    with_ledger INTEGER NOT NULL DEFAULT 0 CHECK (with_ledger IN (0, 1)),
    -- An operation that took a file in: to undo it forgets what it brought, and it is not done again
    -- but by taking the file in again. `arrival_stamps` is how far this device had counted at its end.
    arrival INTEGER,
    arrival_stamps INTEGER
) STRICT;

-- A row that an operation added, changed or removed. `kind` is the other half of a ledger row's key.
CREATE TABLE operation_step (
    id INTEGER PRIMARY KEY NOT NULL,
    operation_id INTEGER NOT NULL REFERENCES operation (id) ON DELETE CASCADE,
    "table" TEXT NOT NULL,
    action TEXT NOT NULL CHECK (action IN ('added', 'changed', 'removed')),
    kind INTEGER,
    row_id ANY NOT NULL
) STRICT;
CREATE INDEX operation_step_by_operation ON operation_step (operation_id, id);

-- The values that the row had before: of a changed one those that differed, of a removed one all.
CREATE TABLE operation_value (
    step_id INTEGER NOT NULL REFERENCES operation_step (id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    value ANY,
    PRIMARY KEY (step_id, name)
) STRICT, WITHOUT ROWID;

-- Photos, and the histories of teardown and bench. A history line is never changed: what happened stays
-- what happened.

CREATE TABLE photo (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    donor_id BLOB NOT NULL REFERENCES donor (id) ON DELETE CASCADE,
    what TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('image/jpeg', 'image/png')),
    bytes BLOB NOT NULL,
    created_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX photo_by_donor ON photo (donor_id, created_ms);

CREATE TABLE teardown_entry (
    id INTEGER PRIMARY KEY NOT NULL,
    donor_id BLOB NOT NULL REFERENCES donor (id) ON DELETE CASCADE,
    line TEXT NOT NULL
) STRICT;
CREATE INDEX teardown_entry_by_donor ON teardown_entry (donor_id, id);

CREATE TABLE job_run (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    job_id BLOB NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    procedure TEXT NOT NULL CHECK (procedure IN ('wind', 'wind-second', 'bench')),
    plan TEXT NOT NULL CHECK (json_valid(plan)),
    created_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX job_run_by_job ON job_run (job_id, procedure, created_ms);

CREATE TABLE job_run_entry (
    id INTEGER PRIMARY KEY NOT NULL,
    run_id BLOB NOT NULL REFERENCES job_run (id) ON DELETE CASCADE,
    line TEXT NOT NULL
) STRICT;
CREATE INDEX job_run_entry_by_run ON job_run_entry (run_id, id);

CREATE TABLE core_photo (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    core_id BLOB NOT NULL REFERENCES core (id) ON DELETE CASCADE,
    what TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('image/jpeg', 'image/png')),
    bytes BLOB NOT NULL,
    marks TEXT CHECK (marks IS NULL OR json_valid(marks)),
    created_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX core_photo_by_core ON core_photo (core_id, created_ms);

-- What is known of each record, field by field, with the changes that wrote it. `kind` is the
-- place of the kind in the file's order; a place is never given to another kind. `change` counts
-- the changes of this table. `conflicts` counts fields that have two values. `held` marks a record
-- whose owner is not here. `arrived` is the import that first brought it.
CREATE TABLE ledger (
    kind INTEGER NOT NULL,
    id BLOB NOT NULL CHECK (length(id) = 16),
    history TEXT NOT NULL,
    change INTEGER NOT NULL,
    conflicts INTEGER NOT NULL,
    held INTEGER NOT NULL CHECK (held IN (0, 1)),
    arrived INTEGER,
    PRIMARY KEY (kind, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX ledger_conflicting ON ledger (kind, id) WHERE conflicts > 0;
CREATE INDEX ledger_held ON ledger (kind, id) WHERE held = 1;

-- This device. `stamps` is the highest count that it gave or saw.
CREATE TABLE own (
    one INTEGER PRIMARY KEY NOT NULL CHECK (one = 1),
    device TEXT NOT NULL,
    name TEXT NOT NULL,
    stamps INTEGER NOT NULL,
    changes INTEGER NOT NULL,
    -- The place that this file was last written at. A copy of it elsewhere has another one, and what
    -- was confirmed by hand at the first place does not count there.
    home TEXT NOT NULL
) STRICT;

-- The sessions of this device, under this and former numbers, that stamped something.
CREATE TABLE own_session (
    session TEXT PRIMARY KEY NOT NULL
) STRICT, WITHOUT ROWID;

-- Other devices: up to which of our changes they were sent ours, and by which file.
CREATE TABLE peer (
    device TEXT PRIMARY KEY NOT NULL,
    name TEXT NOT NULL,
    sent INTEGER NOT NULL,
    sent_file TEXT
) STRICT;

-- The files that were taken in from them, but for those of chosen jobs: a file of changes says which
-- one it builds on.
CREATE TABLE received (
    id INTEGER PRIMARY KEY NOT NULL,
    device TEXT NOT NULL REFERENCES peer (device) ON DELETE CASCADE,
    file TEXT NOT NULL,
    UNIQUE (device, file)
) STRICT;

-- Histories that came from other devices. Nothing reads a gate out of them.
CREATE TABLE remote_history (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    donor_id BLOB REFERENCES donor (id) ON DELETE CASCADE,
    job_id BLOB REFERENCES job (id) ON DELETE CASCADE,
    device TEXT NOT NULL,
    device_name TEXT NOT NULL,
    procedure TEXT,
    plan TEXT CHECK (plan IS NULL OR json_valid(plan)),
    lines TEXT NOT NULL CHECK (json_valid(lines)),
    CHECK ((donor_id IS NOT NULL) + (job_id IS NOT NULL) = 1)
) STRICT;
CREATE INDEX remote_history_by_donor ON remote_history (donor_id) WHERE donor_id IS NOT NULL;
CREATE INDEX remote_history_by_job ON remote_history (job_id) WHERE job_id IS NOT NULL;

-- Job's rowid holds still: this file is never vacuumed.
CREATE VIRTUAL TABLE job_words USING fts5 (
    name, note, content = 'job', content_rowid = 'rowid', tokenize = 'unicode61 remove_diacritics 2'
);
INSERT INTO job_words (job_words) VALUES ('rebuild');
CREATE TRIGGER job_words_insert AFTER INSERT ON job BEGIN
    INSERT INTO job_words (rowid, name, note) VALUES (NEW.rowid, NEW.name, NEW.note);
END;
CREATE TRIGGER job_words_delete AFTER DELETE ON job BEGIN
    INSERT INTO job_words (job_words, rowid, name, note) VALUES ('delete', OLD.rowid, OLD.name, OLD.note);
END;
CREATE TRIGGER job_words_update AFTER UPDATE OF name, note ON job BEGIN
    INSERT INTO job_words (job_words, rowid, name, note) VALUES ('delete', OLD.rowid, OLD.name, OLD.note);
    INSERT INTO job_words (rowid, name, note) VALUES (NEW.rowid, NEW.name, NEW.note);
END;
