-- ENDURING. The book itself: what people stated, for ever. These tables are only added to; their shape is frozen.
-- Everything in 02_derived.sql can be thrown away and made again from here.
--
-- The guards below speak to whoever tries to change the past with any SQL tool. Someone who drops them first leaves a trace
-- that `peelbook verify` names: each entry carries the SHA-256 over the hash before it and its own bytes.

CREATE TABLE entry (
    seq  INTEGER PRIMARY KEY,  -- place in the book: 1, 2, 3 ... without a gap
    body BLOB NOT NULL,        -- canonical JSON of the entry, UTF-8
    hash BLOB NOT NULL         -- SHA-256 (hash of the entry before || body); 32 zero bytes stand before entry 1
        CONSTRAINT hash_is_a_sha256 CHECK (length(hash) = 32)
) STRICT;

CREATE TRIGGER entry_never_changed BEFORE UPDATE ON entry BEGIN
    SELECT RAISE(ABORT, 'An entry of the book is never changed. Record an amendment: it names the entry and says why.');
END;

CREATE TRIGGER entry_never_deleted BEFORE DELETE ON entry BEGIN
    SELECT RAISE(ABORT, 'An entry of the book is never deleted. Record a void: it names the entry and says why.');
END;

-- Also refuses INSERT OR REPLACE of an entry that stands, which the two guards above let pass.
CREATE TRIGGER entry_only_at_the_end BEFORE INSERT ON entry
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entry) BEGIN
    SELECT RAISE(ABORT, 'An entry is added only at the end of the book, under the next number.');
END;

CREATE TABLE attachment (
    sha256 TEXT PRIMARY KEY   -- of the bytes, lower-case hex; an entry names it
        CONSTRAINT sha256_in_hex CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
    bytes  BLOB NOT NULL      -- a logger's file, unchanged
) STRICT;

CREATE TRIGGER attachment_never_changed BEFORE UPDATE ON attachment BEGIN
    SELECT RAISE(ABORT, 'A file kept in the book is never changed. Record the right file as a new series.');
END;

CREATE TRIGGER attachment_never_deleted BEFORE DELETE ON attachment BEGIN
    SELECT RAISE(ABORT, 'A file kept in the book is never deleted.');
END;

CREATE TRIGGER attachment_kept_once BEFORE INSERT ON attachment
WHEN EXISTS (SELECT 1 FROM attachment WHERE sha256 = NEW.sha256) BEGIN
    SELECT RAISE(ABORT, 'This file is in the book already.');
END;
