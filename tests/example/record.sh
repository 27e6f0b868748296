#!/bin/sh
# Records the example's weeks for the tests that look at them.
#   sh tests/example/record.sh EXAMPLE_RECORDER FOLDER     leaves FOLDER/site and FOLDER/record.txt
set -eu
recorder=$1
folder=$2
example=$(cd "$(dirname "$0")/../../example-site" && pwd)
rm -rf "$folder"
mkdir -p "$folder"
"$recorder" "$example/site" "$folder/site" "$example/week.txt" >"$folder/record.txt"
