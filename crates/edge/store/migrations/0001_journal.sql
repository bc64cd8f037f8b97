-- TEXT and BIGINT only, so that the same statements serve every database the store can use.

CREATE TABLE job (
    id TEXT NOT NULL PRIMARY KEY
);

-- Rows are appended and never changed. `position` counts 1, 2, 3 ... in each job without gaps.
-- Times are RFC 3339 text; `happened_at` carries the person's zone. `body` is JSON of the shape
-- named by `kind` and `body_version`.
CREATE TABLE entry (
    id TEXT NOT NULL PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    position BIGINT NOT NULL,
    seen BIGINT NOT NULL,
    recorded_at TEXT NOT NULL,
    happened_at TEXT NOT NULL,
    device TEXT NOT NULL,
    who TEXT NOT NULL,
    program TEXT NOT NULL,
    kind TEXT NOT NULL,
    body_version BIGINT NOT NULL,
    body TEXT NOT NULL,
    CONSTRAINT entry_position_once UNIQUE (job, position)
);
