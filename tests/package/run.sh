#!/bin/sh
# Installs the built library into a folder of its own, builds a program against it and lets it record a reading at the example site.
#   sh tests/package/run.sh BUILD-FOLDER RECORDED-SITE
set -eu
here=$(cd "$(dirname "$0")" && pwd)
build=$(cd "$1" && pwd)
site=$(cd "$2" && pwd)
work=$build/package
rm -rf "$work"
mkdir -p "$work"
cmake --install "$build" --prefix "$work/installed" >"$work/install.log"
cmake -S "$here" -B "$work/build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_PREFIX_PATH="$work/installed" >"$work/configure.log"
cmake --build "$work/build" >"$work/build.log" || { cat "$work/build.log" >&2; exit 1; }
cp -r "$site" "$work/site"

# One degree either side of the example plan's limit for the sheeter's air, 11C to 17C.
expect() {
    said=$("$work/build/reads_a_verdict" "$work/site" pastry-room pastry-air "$1" meter-air HB)
    [ "$said" = "pastry-air $1: $2" ] || { echo "expected pastry-air $1: $2, got: $said" >&2; exit 1; }
    echo "$said"
}
expect 16C within
expect 18C deviation
