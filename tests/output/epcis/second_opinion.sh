#!/bin/sh
# The example's EPCIS document, and copies of it broken in one way each, before the validator of the npm package epcis2.js.
#   sh second_opinion.sh PEELBOOK SITE WORK-FOLDER          exit status 77: no node, or the package is not to be had
set -eu
here=$(cd "$(dirname "$0")" && pwd)
program=$1
site=$2
work=$3
rm -rf "$work"
mkdir -p "$work/site" "$work/broken"
cp "$site/book.db" "$site"/*.toml "$work/site"
"$program" --site "$work/site" export epcis --out "$work/events.jsonld"
/usr/bin/python3 "$here/validate.py" "$work/events.jsonld" "$work/broken"

cd "$work"
command -v node >/dev/null && command -v npm >/dev/null || exit 77
npm pack epcis2.js@2.7.3 >npm.txt 2>&1 || exit 77
tar -xzf epcis2.js-2.7.3.tgz
cat >ask.js <<'JS'
const { validateEpcisDocument } = require('./package/dist/epcis2.node.js');
const fs = require('fs');
const accepts = (file) => validateEpcisDocument(JSON.parse(fs.readFileSync(file)), false).success;
const broken = fs.readdirSync('broken');
const wrong = broken.filter((file) => accepts(`broken/${file}`));
const whole = accepts('events.jsonld');
console.log(`whole document ${whole ? 'accepted' : 'rejected'}, ${broken.length - wrong.length} of ${broken.length} broken ones rejected`);
process.exit(whole && broken.length >= 10 && wrong.length === 0 ? 0 : 1);
JS
node ask.js
