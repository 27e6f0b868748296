#!/bin/sh
# The simulator: a random bakery on the real library, held against properties. What fails is kept as the fewest lines that still fail.
#
#   sh tests/simulate/run.sh --seed N --days N [--seeds N] [--cells] [--out FOLDER]
#   sh tests/simulate/run.sh --replay FILE
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh

install_packages run test
configure build -DPEELBOOK_TESTS=ON
build build simulate
exec build/bin/simulate "$@"
