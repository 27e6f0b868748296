#!/bin/sh
# The main job, from an empty machine: builds peelbook, records the two weeks of an invented bakery, shows what broke in week 2026-W47,
# traces a flour lot and writes the workbooks. Leaves build/bin/peelbook, build/example/site and build/example/out.
#
#   sh example-site/run.sh
set -eu
cd "$(dirname "$0")/.."
. .ci/setup.sh

week=2026-W47
millers_lot=RF-261113-1
example=build/example
site=$example/site
out=$example/out

peelbook() { build/bin/peelbook --site "$site" "$@"; }

record() {
    rm -rf "$example"
    mkdir -p "$out"
    build/bin/example_recorder example-site/site "$site" example-site/week.txt >"$example/record.txt" 2>"$example/refused.txt" || {
        cat "$example/refused.txt" >&2
        stop "the week could not be recorded"
    }
    tail -n 2 "$example/record.txt" | head -n 1
}

# Every finding in the book that is not within: lot or place, point, verdict.
findings() {
    peelbook ask --csv "SELECT coalesce((SELECT code FROM lot WHERE id = finding.lot), place) || ' ' || point || ' ' ||
        CASE verdict WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END AS finding
        FROM finding WHERE verdict > 0" | tail -n +2 | tr -d '"\r' | LC_ALL=C sort
}

check_findings() {
    findings >"$example/findings.txt"
    diff -u example-site/expected.txt "$example/findings.txt" ||
        stop "the findings are not those that example-site/expected.txt expects"
    say "found, as expected:"
    sed 's/^/  /' "$example/findings.txt"
}

# Against a reckoning of its own from the command file.
check_custody() {
    peelbook export csv --out "$example/csv" >"$example/export.txt"
    python3 example-site/check_uses.py "$example/csv/use.csv" example-site/week.txt example-site/site
    peelbook trace forward "$millers_lot" --json >"$example/trace.json"
    python3 example-site/check_trace.py "$example/trace.json" example-site/week.txt example-site/site "$millers_lot"
}

what_happened() {
    peelbook ask "SELECT 'entries in the book' AS what, count(*) AS number FROM fact
        UNION ALL SELECT 'batches of the week', count(*) FROM lot WHERE kind = 'batch' AND week = 202647
        UNION ALL SELECT 'late entries', count(*) FROM fact WHERE written - happened > 15 * 60 * 1000
        UNION ALL SELECT 'amended entries', count(*) FROM correction WHERE kind = 'amended'
        UNION ALL SELECT 'deliveries that came back', count(*) FROM move WHERE way = 'returned'
        UNION ALL SELECT 'lots on hold at the end', count(DISTINCT lot) FROM hold WHERE released_seq IS NULL"
}

workbooks() {
    peelbook report weekly --week "$week" --out "$out/weekly.xlsx"
    peelbook trace forward "$millers_lot" --out "$out/trace.xlsx" >"$example/trace.txt"
    say "wrote $out/trace.xlsx: where the flour lot went that the miller called about ($millers_lot)"
}

# A drill over the lot that the miller calls about. It is recorded too: in a copy, so that the book of the week stays as it is.
drill() {
    cp -r "$site" "$example/drill"
    in_drill() { build/bin/peelbook --site "$example/drill" drill "$@"; }
    code=$(in_drill open "$millers_lot" --hazard 'pieces of sieve wire' --level C --why 'the example run' --by HB |
        sed -n 's/.* opened \(DRILL-[0-9-]*\) .*/\1/p')
    in_drill close "$code" --why 'no customer was called' --by HB >"$example/drill-closed.txt"
    in_drill status "$code" --out "$out/drill.xlsx" >"$example/drill.txt"
    fact() { sed -n "s/^$1  *//p" "$example/drill.txt"; }
    say "$code over $millers_lot: $(fact covers); a recall would hold $(fact 'a recall would hold'); in the records $(fact 'in the records')"
}

install_packages run
configure build
build build peelbook example_recorder
say "recording the weeks of Ternhavn Bakehouse"
record
peelbook verify
check_findings
what_happened
check_custody
workbooks
drill
say "the recorded site: $site    try: build/bin/peelbook --site $site status"
