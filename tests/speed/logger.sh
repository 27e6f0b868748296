#!/bin/sh
# A logger's file of a million rows into the book, as a whole process (read, hashed, kept, checked, judged day by day, durable),
# against SQLite inserting as many bare rows in one transaction, turn by turn; and the memory it takes. By hand only:
#   speed: logger ours=... other=... ratio=... target>=0.4
#   memory: ... MB, target<=100
#
#   sh tests/speed/logger.sh
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh

work=build/speed-logger
rows=1000000
runs=3
peelbook=build/bin/peelbook

{
    install_packages run test
    configure build -DPEELBOOK_TESTS=ON
    build build peelbook speed_race speed_raw_rows
} >&2
rm -rf "$work"
mkdir -p "$work"

# The starter plan has a logger for its chill room; here it writes every minute.
"$peelbook" new "$work/site" --by AB --person "Ada Berg" --name "Speed" --zone Europe/Berlin >/dev/null
sed -i 's/^every = "5min" .*/every = "1min"/' "$work/site/"*.toml
"$peelbook" --site "$work/site" plan adopt --by AB >/dev/null
python3 - "$work/log.csv" "$rows" <<'END'
import sys
from datetime import datetime, timedelta
at, minute = datetime(2024, 1, 1), timedelta(minutes=1)
with open(sys.argv[1], "w") as out:
    out.write("Date;Time;Air\n")
    for i in range(int(sys.argv[2])):
        value = f"{3 + i % 1500 / 1000:.1f}".replace(".", ",")
        out.write(f"{at:%d.%m.%Y};{at:%H:%M:%S};{value}\n")
        at += minute
END
for run in 0 $(seq "$runs"); do cp -r "$work/site" "$work/site$run"; done

build/bin/speed_race logger rate "$runs" 0.4 "$rows" \
    -- "$peelbook" --site "$work/site{run}" series chill-room chill-air "$work/log.csv" --logger chill-export --by AB \
    -- build/bin/speed_raw_rows "$work/bare.db" "$rows"
/usr/bin/time -f "%M" -o "$work/memory.txt" "$peelbook" --site "$work/site0" series chill-room chill-air "$work/log.csv" \
    --logger chill-export --by AB >/dev/null || [ $? -eq 1 ]
awk '{ printf "memory: %.0f MB, target<=100\n", $1 / 1024 }' "$work/memory.txt" | tail -n 1
