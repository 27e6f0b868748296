#!/bin/sh
# Random books in which goods are recalled and what went where is corrected, written by the simulator and traced a second time.
#   sh tests/trace_peer/random_books.sh SIMULATE PEELBOOK WORK-FOLDER --seed N --seeds N --days N
set -eu
simulate=$1
program=$2
work=$3
shift 3
here=$(cd "$(dirname "$0")" && pwd)
rm -rf "$work"
mkdir -p "$work/compared"
failed=0
"$simulate" --recalls --books "$work/books" --out "$work/histories" "$@" || failed=1
for book in "$work"/books/*; do
    /usr/bin/python3 "$here/compare.py" "$program" "$book" "$work/compared/$(basename "$book")" || {
        echo "in $book"
        failed=1
    }
done
exit "$failed"
