#!/bin/sh
# All tests: builds, runs every test, runs the example, then the layers' tests once more under AddressSanitizer and
# UndefinedBehaviorSanitizer. All but those of cli, a hundred files that only pass options on: building them so would
# take as long as all others together.
#
#   sh tests/run.sh
set -eu
cd "$(dirname "$0")/.."
. .ci/setup.sh

# run_tests FOLDER LOG [ctest options]: keeps ctest's closing line in `closing`
run_tests() {
    folder=$1
    log=$2
    shift 2
    passed=yes
    ctest --test-dir "$folder" --output-on-failure -j "$(nproc)" "$@" >"$log" 2>&1 || passed=no
    closing=$(grep 'tests passed' "$log" || true)
    if [ "$passed" = no ] || [ -z "$closing" ]; then
        tail -n 100 "$log" >&2
        stop "tests failed in $folder; all of it stands in $log"
    fi
    say "$folder: $closing"
}

install_packages run test
configure build -DPEELBOOK_TESTS=ON
build build
run_tests build build/tests.log
plain=$closing

sh example-site/run.sh
python3 example-site/make_week.py | cmp - example-site/week.txt ||
    stop "example-site/week.txt is not what make_week.py writes"

configure build-sanitize -DPEELBOOK_TESTS=ON -DPEELBOOK_SANITIZE=ON
# shellcheck disable=SC2046  # one word a target
build build-sanitize $(ninja -C build-sanitize -t targets all | sed -n '/^test_cli:/d; s/^\(test_[a-z]*\): phony$/\1/p')
run_tests build-sanitize build-sanitize/tests.log -R '^[a-z]*:'

say "under the sanitizers: $closing"
say "$plain"
