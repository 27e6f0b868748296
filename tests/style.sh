#!/bin/sh
# Every file of code is laid out as .clang-format says. Names those that are not, and the command that mends them.
#
#   sh tests/style.sh
set -eu
cd "$(dirname "$0")/.."
odd=$(find src tests example-site \( -name '*.h' -o -name '*.cpp' \) -exec clang-format --dry-run {} + 2>&1 |
    sed -n 's/^\([^:]*\):[0-9]*:[0-9]*: .*-Wclang-format-violations.*/\1/p' | sort -u | tr '\n' ' ')
[ -z "$odd" ] || {
    printf 'stopped: not laid out as .clang-format says; mend it with: clang-format -i %s\n' "$odd" >&2
    exit 1
}
