#!/bin/sh
# The second tracer over many random books.
#
#   sh tests/trace_peer/run.sh [--seed N --seeds N --days N]      without them 200 books of two days
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh

install_packages run test
configure build -DPEELBOOK_TESTS=ON
build build simulate peelbook
[ $# -gt 0 ] || set -- --seed 1 --seeds 200 --days 2
exec sh tests/trace_peer/random_books.sh build/bin/simulate build/bin/peelbook build/trace-peer "$@"
