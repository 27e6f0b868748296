#!/bin/sh
# Whether the tests see what the gate, the count of what is owed and recalls could forget: each line of mutants.txt is tried on a copy of the
# tree, which is built anew and tested. Tells of each by what it was killed; one that lives is an error. Takes about a minute each.
#
#   sh tests/simulate/mutants.sh [FIRST [LAST]]      by their number in mutants.txt
set -eu
cd "$(dirname "$0")/../.."
. .ci/setup.sh
install_packages run test

list=$PWD/tests/simulate/mutants.txt
folder=$PWD/build-mutants
tree=$folder/tree
bin=$folder/build/bin
programs="test_judge test_trace test_fold test_site simulate"

mkdir -p "$tree"
cp -r --update CMakeLists.txt .ci src tests schema reports example-site README.md "$tree"
for file in $(sed -n 's/^\(src[^ ]*\) .*/\1/p' "$list" | sort -u); do  # a run that was broken off left one changed
    cmp -s "$file" "$tree/$file" || cp "$file" "$tree/$file"
done
# A file that is changed is compiled by itself, all others with their layer.
{
    cat src/CMakeLists.txt
    sed -n 's|^src/\([^ ]*\.cpp\) .*|set_source_files_properties(\1 PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)|p' "$list" | sort -u
} >"$tree/src/CMakeLists.txt"
cmake -S "$tree" -B "$folder/build" -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-O0 -DPEELBOOK_TESTS=ON -DPEELBOOK_TOGETHER=ON \
    ${MUTANTS_CMAKE:-} >"$folder/configure.log"

build_all() {
    # shellcheck disable=SC2086  # a list of words
    ${MUTANTS_NINJA:-ninja} -C "$folder/build" $programs >"$folder/build.log" 2>&1
}

# Long, or of time, and about neither the gate nor what is owed.
besides='~[timed] ~"*processes x*" ~"*least over every order*"'

# What fails first, in words; empty: nothing.
killed_by() {
    for program in test_judge test_trace test_site test_fold; do
        "$bin/$program" --abort "$besides" >"$folder/$program.log" 2>&1 && continue
        echo "$program: $(sed -n '/^---/{n;p;q}' "$folder/$program.log")"
        return
    done
    for recalling in "" --recalls; do
        # shellcheck disable=SC2086  # none, or a word
        "$bin/simulate" $recalling --seed 1 --seeds 4 --days 4 --first --out "$folder/histories" >"$folder/simulate.log" 2>&1 && continue
        echo "simulate $recalling: $(sed -n '/^seed/{s/^seed [0-9]*: //;p;q}' "$folder/simulate.log")"
        return
    done
}

build_all || stop "the tree does not build: $folder/build.log"
already=$(killed_by)
[ -z "$already" ] || stop "fails before anything is forgotten: $already"

number=0
living=0
while read -r line; do
    case $line in "#"* | "") continue ;; esac
    number=$((number + 1))
    [ "$number" -ge "${1:-1}" ] && [ "$number" -le "${2:-$number}" ] || continue
    changed=$tree/${line%% |*}
    cp "$changed" "$folder/unchanged"
    told=$(python3 tests/simulate/mutate.py "$tree" "$line") || stop "mutant $number: $told"
    if ! build_all; then
        by="does not compile: $folder/build.log"
        living=$((living + 1))
    else
        by=$(killed_by)
    fi
    cp "$folder/unchanged" "$changed"
    [ -n "$by" ] || living=$((living + 1))
    say "$number $told: ${by:-ALIVE}"
done <"$list"
say "mutants: $living of $number live"
[ "$living" -eq 0 ]
