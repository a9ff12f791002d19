-- Version 3: how a job's part is run, and photos of a core with the marks that were set on them.

ALTER TABLE job ADD COLUMN conditions TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(conditions));

CREATE TABLE core_photo (
    id BLOB PRIMARY KEY NOT NULL CHECK (length(id) = 16),
    core_id BLOB NOT NULL REFERENCES core (id) ON DELETE CASCADE,
    kind TEXT NOT NULL CHECK (kind IN ('image/jpeg', 'image/png')),
    bytes BLOB NOT NULL,
    marks TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(marks)),
    created_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX core_photo_by_core ON core_photo (core_id, created_ms);
