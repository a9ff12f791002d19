-- Version 2: what was seen of a donor, its photos, and the histories of teardown and bench.
-- A history line is never changed: what happened stays what happened.

ALTER TABLE donor ADD COLUMN look TEXT CHECK (look IS NULL OR json_valid(look));

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

CREATE TABLE bench_run (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    job_id BLOB NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    plan TEXT NOT NULL CHECK (json_valid(plan)),
    created_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX bench_run_by_job ON bench_run (job_id, created_ms);

CREATE TABLE bench_entry (
    id INTEGER PRIMARY KEY NOT NULL,
    run_id BLOB NOT NULL REFERENCES bench_run (id) ON DELETE CASCADE,
    line TEXT NOT NULL
) STRICT;
CREATE INDEX bench_entry_by_run ON bench_entry (run_id, id);
