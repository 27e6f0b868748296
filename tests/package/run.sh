#!/bin/sh
# Installs what was built into a folder of its own and builds two programs against it. One records a reading at the example site; the other
# writes the weekly workbook and the EPCIS document, which are to be those that the installed program writes.
#   sh tests/package/run.sh BUILD-FOLDER RECORDED-SITE
set -eu
here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "$1" && pwd)
site=$(cd "$2" && pwd)
work=$build/package
rm -rf "$work"
mkdir -p "$work"
cmake --install "$build" --prefix "$work/installed" >"$work/install.log"
cmake -S "$here" -B "$work/build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_PREFIX_PATH="$work/installed" >"$work/configure.log"
cmake --build "$work/build" >"$work/build.log" || { cat "$work/build.log" >&2; exit 1; }
cp -r "$site" "$work/site"

# One degree either side of the example plan's limit for the sheeter's air, 11C to 17C.
expect() {
    said=$("$work/build/reads_a_verdict" "$work/site" pastry-room pastry-air "$1" meter-air HB)
    [ "$said" = "pastry-air $1: $2" ] || { echo "expected pastry-air $1: $2, got: $said" >&2; exit 1; }
    echo "$said"
}
expect 16C within
expect 18C deviation

# The papers of both may be of different minutes: when a workbook was printed and a document made is not compared.
peelbook="$work/installed/bin/peelbook --site $work/site"
mkdir "$work/theirs" "$work/ours"
"$work/build/writes_papers" "$work/site" 202647 "$work/theirs"
$peelbook report weekly --week 2026-W47 --out "$work/ours/weekly.xlsx" >"$work/report.txt"
$peelbook export epcis --out "$work/ours/events.jsonld" >"$work/export.txt"
for whose in ours theirs; do
    /usr/bin/python3 "$here/../speed/dump_cells.py" "$work/$whose/weekly.xlsx" | sed '/\tPrinted$/,+1d' >"$work/$whose/weekly.txt"
    sed 's/"creationDate": *"[^"]*"//' "$work/$whose/events.jsonld" >"$work/$whose/events.txt"
done
for paper in weekly events; do
    [ -s "$work/ours/$paper.txt" ] && cmp "$work/ours/$paper.txt" "$work/theirs/$paper.txt"
    echo "$paper: the same"
done
