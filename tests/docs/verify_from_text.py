#!/usr/bin/env python3
"""The book's format, read again from DEVELOPERS.md alone: checks its worked example, then chain, canonical bytes and attachments of a
recorded book. Shares no code with the program; kinds and fields come from the table on that page.

    python3 verify_from_text.py DEVELOPERS.md BOOK.DB
"""
import hashlib
import json
import re
import sqlite3
import sys
from pathlib import Path

FRAME = {"at", "by", "format", "kind", "says", "seq", "written"}


class Wrong(Exception):
    pass


def chained(before, body):
    return hashlib.sha256(before + body).digest()


def check_worked_example(page):
    bodies = re.findall(r"^```json\n(.*?)\n```$", page, re.M | re.S)
    hashes = re.findall(r"^hash \d+ is `([0-9a-f]{64})`$", page, re.M)
    if len(bodies) != 2 or len(hashes) != 2:
        raise Wrong("DEVELOPERS.md: two bodies and their two hashes are wanted")
    before = bytes(32)
    for body, wanted in zip(bodies, hashes):
        check_canonical(body.encode())
        before = chained(before, body.encode())
        if before.hex() != wanted:
            raise Wrong(f"DEVELOPERS.md: the hash of {body[:40]}... is {before.hex()}")


def fields_by_kind(page):
    """Of the table "Kinds and their fields": names at the top level; `?` and `[]` mark what may be left out."""
    kinds = {}
    for kind, says in re.findall(r"^\| `([a-z-]+)` \| (.*) \|$", page.split("Kinds and their fields", 1)[1].split("### Hash", 1)[0], re.M):
        plain = re.sub(r"\([^)]*\)", "", says).split(":")[0]
        fields = [field.strip() for field in plain.split(",")]
        kinds[kind] = ({field.rstrip("?[]") for field in fields}, {field for field in fields if not field.endswith(("?", "[]"))})
    return kinds


def refuse_constant(text):
    raise Wrong(f"no number of the canonical form: {text}")


def whole_number(text):
    number = int(text)
    if abs(number) >= 2**53:
        raise Wrong(f"a number of 2^53 or more: {text}")
    return number


def ordered(pairs):
    keys = [key for key, _ in pairs]
    if keys != sorted(set(keys), key=lambda key: key.encode()) or "" in keys:
        raise Wrong(f"keys out of order, twice or empty: {keys}")
    return dict(pairs)


def check_something(value, where):
    if value is None or value is False or value == 0 or value == "" or value == [] or value == {}:
        raise Wrong(f"'{where}' holds nothing and is written")
    if isinstance(value, dict) and set(value) != {"typed", "value"}:
        for key, inner in value.items():
            check_something(inner, f"{where}.{key}")


def check_canonical(body):
    entry = json.loads(body.decode("utf-8", "strict"), object_pairs_hook=ordered, parse_int=whole_number,
                       parse_float=refuse_constant, parse_constant=refuse_constant)
    again = json.dumps(entry, ensure_ascii=False, separators=(",", ":")).encode()
    if again != body:
        raise Wrong("written in another way than the canonical one")
    if not FRAME <= set(entry) <= FRAME | {"token"} or entry["format"] != 1:
        raise Wrong(f"keys {sorted(entry)}, format {entry.get('format')}")
    return entry


def check_says(kinds, kind, says):
    if kind not in kinds:
        raise Wrong(f"kind '{kind}' is not in the table")
    known, needed = kinds[kind]
    if not needed <= set(says) <= known:
        raise Wrong(f"'{kind}' says {sorted(says)}; known {sorted(known)}, needed {sorted(needed)}")
    for key, value in says.items():
        if key != "statement" and (kind, key) != ("counted", "pieces"):
            check_something(value, key)
    if kind == "amended":
        check_says(kinds, says["statement"]["kind"], says["statement"]["says"])


def statement_of(entry):
    if entry["kind"] == "amended":
        return entry["says"]["statement"]["kind"], entry["says"]["statement"]["says"]
    return entry["kind"], entry["says"]


def check_chain(book, kinds):
    before, place, files = bytes(32), 0, set()
    for place, (seq, body, stored) in enumerate(book.execute("SELECT seq, body, hash FROM entry ORDER BY seq"), 1):
        try:
            if seq != place:
                raise Wrong(f"entry {place} is not there")
            if chained(before, body) != stored:
                raise Wrong("its hash does not fit")
            entry = check_canonical(body)
            if entry["seq"] != seq:
                raise Wrong(f"says that it is entry {entry['seq']}")
            check_says(kinds, entry["kind"], entry["says"])
            kind, says = statement_of(entry)
            if kind == "sealed" and says["head"] != before.hex():
                raise Wrong("seals another head")
            if kind == "series":
                files.add(says["sha256"])
        except (Wrong, ValueError, KeyError) as what:
            raise Wrong(f"entry {place}: {what}") from what
        before = stored
    return place, before, files


def check_files(book, files):
    kept = dict(book.execute("SELECT sha256, bytes FROM attachment"))
    for name, content in kept.items():
        if hashlib.sha256(content).hexdigest() != name:
            raise Wrong(f"attachment {name} has another hash")
    if set(kept) != files:
        raise Wrong(f"attachments named and kept differ: {sorted(set(kept) ^ files)}")


def main(page_file, book_file):
    page = Path(page_file).read_text(encoding="utf-8")
    try:
        check_worked_example(page)
        book = sqlite3.connect(f"file:{book_file}?mode=ro", uri=True)
        identity = book.execute("PRAGMA application_id").fetchone()[0]
        if f"`0x{identity:08x}`" not in page:
            raise Wrong(f"application_id {identity:#x} is not that of DEVELOPERS.md")
        entries, head, files = check_chain(book, fields_by_kind(page))
        check_files(book, files)
    except Wrong as what:
        print(f"wrong: {what}")
        return 1
    print(f"{entries} entries, head {head.hex()}: as DEVELOPERS.md says")
    return 0 if entries else 1


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:3]))
