-- Devices that were let in. `token_hash` is the SHA-256 of the token in a device's cookie, in small
-- hexadecimal digits: a copy of this table lets nobody in. `seen_at` is coarse. A removed device keeps
-- its row, so that it can be told so; its name is free again.
CREATE TABLE device (
    id TEXT NOT NULL PRIMARY KEY,
    token_hash TEXT NOT NULL,
    name TEXT NOT NULL,
    paired_at TEXT NOT NULL,
    seen_at TEXT NOT NULL,
    removed_at TEXT,
    CONSTRAINT device_token_once UNIQUE (token_hash)
);

CREATE UNIQUE INDEX device_name_once ON device (name) WHERE removed_at IS NULL;
