#!/bin/sh
# A year of a plant: 1,000 batches a day, 2.7 million uses, 1.46 million shipping lines (tests/speed/make_year.cpp says how honest that
# is). Each line whole processes, ours and the other turn by turn in the same run:
#   forward    `trace forward` of a flour lot that reached 10,000 batches, with shares, customers and balances, against one recursive
#              statement joined to the shipping lines (bare_trace.cpp)
#   peer       the same against Python with sqlite3 and networkx (peer_trace.py)
#   back       `trace back` of a shipped pack; bare is an empty statement's process
#   leaven     `trace forward` through five years of daily feeding
#   growth     forward and back in a book of a tenth of a year, of one and of three
#   now        what is owed and what is open now, in the same books: is to take no longer in the one of three years
# What is built stands in build/. It is a measurement, not a test: a noisy machine fails nobody.
#
#   sh tests/speed/year.sh              builds, and needs 3 GB of disk
#   PEELBOOK_BIN=DIR sh tests/speed/year.sh   measures the programs of DIR
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh

work=build/speed-year
bin=${PEELBOOK_BIN:-build/bin}
seed=20261125

if [ -z "${PEELBOOK_BIN:-}" ]; then
    {
        install_packages run test
        configure build -DPEELBOOK_TESTS=ON
        build build peelbook speed_race speed_make_year speed_bare_trace
    } >&2
fi
mkdir -p "$work"

# site YEARS: an empty site with the starter plan, filled with rows; what to trace stands beside it.
site() {
    [ ! -f "$work/$1.txt" ] || return 0
    rm -rf "$work/$1"
    "$bin/peelbook" new "$work/$1" --by AB --name "Example Plant" >/dev/null
    "$bin/peelbook" --site "$work/$1" plan adopt --by AB >/dev/null
    "$bin/speed_make_year" "$work/$1/book.db" "$1" "$seed" "$(($(date +%s) / 86400))" >"$work/$1.txt"
}
of() { sed -n "s/^$2=//p" "$work/$1.txt"; }

# median RUNS WORDS...: of whole processes, elapsed and processor time
median() {
    runs=$1
    shift
    "$bin/speed_race" line times "$runs" 1000 -- "$@" -- true |
        sed -n 's/.* ours=\([0-9.]*\)ms .*processor ours=\([0-9.]*\)ms.*/\1 ms (processor \2)/p'
}

for years in 0.1 1 3; do
    say "building $years of a year" >&2
    site "$years"
done

"$bin/speed_race" forward times 21 3 \
    -- "$bin/peelbook" --site "$work/1" trace forward "$(of 1 flour)" \
    -- "$bin/speed_bare_trace" "$work/1/book.db" "$(of 1 flour)"
if /usr/bin/python3 -c 'import networkx' 2>/dev/null; then
    "$bin/speed_race" peer times 5 1 \
        -- "$bin/peelbook" --site "$work/1" trace forward "$(of 1 flour)" \
        -- /usr/bin/python3 tests/speed/peer_trace.py "$work/1/book.db" "$(of 1 flour)"
else
    say "speed: peer not measured: python3-networkx is not installed"
fi
say "speed: back      $(median 21 "$bin/peelbook" --site "$work/1" trace back "$(of 1 pack)"), target < 50"
say "speed: leaven    $(median 21 "$bin/peelbook" --site "$work/1" trace forward "$(of 1 leaven)"), target < 1000"
for years in 0.1 1 3; do
    say "speed: growth    $years years: forward $(median 11 "$bin/peelbook" --site "$work/$years" trace forward "$(of "$years" flour)")," \
        "back $(median 11 "$bin/peelbook" --site "$work/$years" trace back "$(of "$years" pack)")," \
        "leaven $(median 11 "$bin/peelbook" --site "$work/$years" trace forward "$(of "$years" leaven)")"
done
for years in 0.1 1 3; do
    say "speed: now       $years years: due $(median 21 "$bin/peelbook" --site "$work/$years" due)," \
        "status $(median 21 "$bin/peelbook" --site "$work/$years" status), target < 100"
done
