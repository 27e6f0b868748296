#!/bin/sh
# All tests. Those of the layers are compiled once, under AddressSanitizer and UndefinedBehaviorSanitizer, and README's commands go
# through a program compiled so. The plain build has what wants the program as it is used: its command line, the example, these two
# pages, the installed library, and limits of time. A warning of the compiler fails either build.
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
sh tests/style.sh
configure build -DPEELBOOK_TESTS=ON
build build program_tests
run_tests build build/tests.log -L program
plain=$closing

sh example-site/run.sh
python3 example-site/make_week.py | cmp - example-site/week.txt ||
    stop "example-site/week.txt is not what make_week.py writes"

configure build-sanitize -DPEELBOOK_TESTS=ON -DPEELBOOK_SANITIZE=ON
build build-sanitize
run_tests build-sanitize build-sanitize/tests.log

say "under the sanitizers: $closing"
say "$plain"
