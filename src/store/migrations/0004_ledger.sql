-- Version 4: the ledger of who changed what, for files that travel between devices; words to
-- search jobs by.

-- What is known of each record, field by field, with the changes that wrote it. `kind` is the
-- place of the kind in the file's order; a place is never given to another kind. `change` counts
-- the changes of this table. `forks` counts fields that have two values. `held` marks a record
-- whose owner is not here. `arrived` is the import that first brought it.
CREATE TABLE ledger (
    kind INTEGER NOT NULL,
    id BLOB NOT NULL CHECK (length(id) = 16),
    history TEXT NOT NULL,
    change INTEGER NOT NULL,
    forks INTEGER NOT NULL,
    held INTEGER NOT NULL CHECK (held IN (0, 1)),
    arrived INTEGER,
    PRIMARY KEY (kind, id)
) STRICT, WITHOUT ROWID;
CREATE INDEX ledger_forked ON ledger (kind, id) WHERE forks > 0;
CREATE INDEX ledger_held ON ledger (kind, id) WHERE held = 1;

-- This device. `stamps` is the highest count that it gave or saw.
CREATE TABLE own (
    one INTEGER PRIMARY KEY NOT NULL CHECK (one = 1),
    device TEXT NOT NULL,
    name TEXT NOT NULL,
    stamps INTEGER NOT NULL,
    changes INTEGER NOT NULL
) STRICT;

-- Other devices: up to which change they were sent ours, and we have theirs.
CREATE TABLE peer (
    device TEXT PRIMARY KEY NOT NULL,
    name TEXT NOT NULL,
    sent INTEGER NOT NULL,
    received INTEGER NOT NULL
) STRICT;

-- Histories that came from other devices. Nothing reads a gate out of them.
CREATE TABLE carried (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    donor_id BLOB REFERENCES donor (id) ON DELETE CASCADE,
    job_id BLOB REFERENCES job (id) ON DELETE CASCADE,
    device TEXT NOT NULL,
    device_name TEXT NOT NULL,
    plan TEXT CHECK (plan IS NULL OR json_valid(plan)),
    lines TEXT NOT NULL CHECK (json_valid(lines)),
    CHECK ((donor_id IS NOT NULL) + (job_id IS NOT NULL) = 1)
) STRICT;
CREATE INDEX carried_by_donor ON carried (donor_id) WHERE donor_id IS NOT NULL;
CREATE INDEX carried_by_job ON carried (job_id) WHERE job_id IS NOT NULL;

-- An operation that took a file in: to undo it forgets what it brought, and it is not done again
-- but by taking the file in again.
ALTER TABLE operation ADD COLUMN arrival INTEGER;
-- An operation that settled a field with two values: undo brings both back.
ALTER TABLE operation ADD COLUMN with_ledger INTEGER NOT NULL DEFAULT 0 CHECK (with_ledger IN (0, 1));

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
