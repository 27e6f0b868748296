#!/bin/sh
# Three figures, one line each, ours and the other measured turn by turn in the same run:
#   reading   one reading as a whole process, durable, against the sqlite3 shell inserting one bare row with the same pragmas
#   replay    the example's weeks, each line durable by itself, in entries a second, against one fdatasync an entry
#   weekly    the weekly workbook, queries and all, against libxlsxwriter writing the same cells
# What is built and recorded stands in build/. It is a measurement, not a test: a noisy machine fails nobody.
#
#   sh tests/speed/run.sh
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh

work=build/speed
site=$work/site1
week=2026-W47

recorder() {
    build/bin/example_recorder example-site/site "$1" example-site/week.txt >"$work/record.txt" 2>&1 ||
        stop "the week could not be recorded; $work/record.txt says why"
}

{
    install_packages run test
    configure build -DPEELBOOK_TESTS=ON
    build build peelbook example_recorder speed_race speed_append_pages speed_write_cells
} >&2
rm -rf "$work"
mkdir -p "$work"

# --- reading: the row is as long as the entry of a reading
recorder "$site"
body=$(printf '%0230d' 0)
sqlite3 "$work/bare.db" "PRAGMA journal_mode = WAL; CREATE TABLE entry (seq INTEGER PRIMARY KEY, body TEXT NOT NULL)" >/dev/null
build/bin/speed_race reading times 41 2 \
    -- build/bin/peelbook --site "$site" reading cold-store cold-air 3.1C --with probe-bread --by HB \
    -- sqlite3 "$work/bare.db" "PRAGMA synchronous = FULL; INSERT INTO entry (body) VALUES ('$body')"

# --- replay
rm -rf "$site"
recorder "$site"
entries=$(build/bin/peelbook --site "$site" ask --csv "SELECT count(*) AS entries FROM fact" | tail -n +2 | tr -dc '0-9')
build/bin/speed_race replay rate 3 0.6 "$entries" \
    -- build/bin/example_recorder example-site/site "$work/replay{run}" example-site/week.txt \
    -- build/bin/speed_append_pages "$work/pages" "$entries"

# --- weekly
build/bin/peelbook --site "$site" report weekly --week "$week" --out "$work/weekly.xlsx" >/dev/null
/usr/bin/python3 tests/speed/dump_cells.py "$work/weekly.xlsx" >"$work/cells.txt"
build/bin/speed_race weekly times 21 1.5 \
    -- build/bin/peelbook --site "$site" report weekly --week "$week" --out "$work/weekly.xlsx" \
    -- build/bin/speed_write_cells "$work/cells.txt" "$work/bare.xlsx"
