#!/bin/sh
# The long runs that not every change waits for: random histories, each derived step by step and afresh.
#
#   sh tests/long.sh [HISTORIES]        10,000 if not said otherwise
set -eu
cd "$(dirname "$0")/.."
. .ci/setup.sh

install_packages run test
configure build -DPEELBOOK_TESTS=ON
build build test_fold
PEELBOOK_HISTORIES=${1:-10000} build/bin/test_fold '[long]'
