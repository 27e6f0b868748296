#!/bin/sh
# A use of a leaven that was fed from itself for 500 days, against one of a leaven of two days: whole processes, durable, turn by turn.
# Both books end on the same day, with the example's plan and the same last lines. By hand only:
#   speed: leaven ours=... other=... ratio=..., processor ... target<=1.1
#
#   sh tests/speed/leaven.sh
#   PEELBOOK_BIN=DIR sh tests/speed/leaven.sh   measures the programs of DIR
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh

work=build/speed-leaven
bin=${PEELBOOK_BIN:-build/bin}

if [ -z "${PEELBOOK_BIN:-}" ]; then
    {
        install_packages run test
        configure build -DPEELBOOK_TESTS=ON
        build build peelbook example_recorder speed_race
    } >&2
fi
rm -rf "$work"
mkdir -p "$work"

# lines DAYS: what was typed from the opening of the book on, one feeding a day
lines() {
    python3 - "$1" <<'END_OF_LINES'
import sys
from datetime import date, timedelta
days, last = int(sys.argv[1]), date(2026, 11, 1)
first = last - timedelta(days=days - 1)
say = lambda day, time, words: print(f"{day}T{time}Z {words} --by HB")
say(first, "06:00", "plan adopt")
say(first, "06:01", "partner MILL --name Mill --role supplier")
say(first, "06:02", "receive rye-flour --from MILL --lot M-1 --mass 25000kg --best-before 2028-01-01 --contains rye --code RYE")
say(first, "06:03", "receive water --from MILL --lot W-1 --mass 25000kg --code WATER")
before = None
for n in range(days):
    day, lot = first + timedelta(days=n), f"LV-{n}"
    if n % 3 == 0:
        say(day, "09:00", "calibrate meter-ph passed --method reference --read 4.02pH --reference 4.01pH")
        say(day, "09:01", "calibrate probe-bread passed --method ice --read 0C")
    say(day, "09:30", f"start rye-leaven --flour 16kg --code {lot}")
    if before:
        say(day, "09:31", f"use {before} 3.52kg --into {lot}")
    say(day, "09:32", f"use RYE 16kg --into {lot}")
    say(day, "09:33", f"use WATER 15.2kg --into {lot}")
    say(day, "09:36", f"reading {lot} leaven-warmth 27.5C --with probe-bread")
    say(day, "09:37", f"step {lot} feed")
    say(day, "16:55", f"reading {lot} leaven-acid 4.02pH --with meter-ph")
    say(day, "17:00", f"finish {lot} --mass 30kg")
    before = lot
say(last, "18:00", "start rye-dough --flour 52kg --code RD")
END_OF_LINES
}

for days in 2 500; do
    lines "$days" >"$work/$days.txt"
    "$bin/example_recorder" example-site/site "$work/$days" "$work/$days.txt" >"$work/$days.out" 2>&1 ||
        stop "the leaven could not be recorded; $work/$days.out says why"
done
use() { echo "$bin/peelbook --site $work/$1 use LV-$(($1 - 1)) 10g --into RD --by HB"; }
# shellcheck disable=SC2046
"$bin/speed_race" leaven times 41 1.1 -- $(use 500) -- $(use 2)
