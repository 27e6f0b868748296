#!/bin/sh
# The example's own checks of uses and of the miller's trace, on a copy of a recorded site.
#   sh tests/example/custody.sh uses|trace|epcis PEELBOOK SITE WORK-FOLDER
set -eu
what=$1
program=$2
site=$3
work=$4
example=$(cd "$(dirname "$0")/../../example-site" && pwd)
rm -rf "$work"
mkdir -p "$work/site"
cp "$site/book.db" "$site"/*.toml "$work/site"
case $what in
uses)
    "$program" --site "$work/site" export csv --out "$work/csv" >"$work/export.txt"
    python3 "$example/check_uses.py" "$work/csv/use.csv" "$example/week.txt" "$example/site"
    ;;
trace)
    lot=$(sed -n 's/^millers_lot=//p' "$example/run.sh")
    "$program" --site "$work/site" trace forward "$lot" --json >"$work/trace.json"
    python3 "$example/check_trace.py" "$work/trace.json" "$example/week.txt" "$example/site" "$lot"
    ;;
epcis)
    "$program" --site "$work/site" export epcis --out "$work/events.jsonld"
    /usr/bin/python3 "$(dirname "$0")/../output/epcis/validate.py" "$work/events.jsonld"
    ;;
esac
