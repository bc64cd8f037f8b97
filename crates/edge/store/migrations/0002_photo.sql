-- Pictures by their content: `hash` is the SHA-256 of `picture`, in small hexadecimal digits. A
-- picture is written before the entry that names it, so that an entry never names one that was not
-- written; when the program dies in between, a picture stays that no entry names, and does no harm.
--
-- The small picture stands before the large one, because SQLite reads a row from its beginning.
-- The type is the one word that differs: PostgreSQL calls it BYTEA.
CREATE TABLE photo (
    hash TEXT NOT NULL PRIMARY KEY,
    thumb_hash TEXT NOT NULL,
    thumb BLOB NOT NULL,
    picture BLOB NOT NULL
);
