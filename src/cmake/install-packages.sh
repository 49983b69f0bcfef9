#!/usr/bin/env bash
# Installs the Debian packages that are still missing. Arguments: the kinds of packages.txt to install.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)

missing=()
for kind in "$@"; do
    while read -r name; do
        dpkg-query -W -f '${db:Status-Status}\n' "$name" 2>/dev/null | grep -qx installed || missing+=("$name")
    done < <(awk -v kind="$kind" '$1 == kind { print $2 }' "$here/packages.txt")
done
if [ ${#missing[@]} -eq 0 ]; then
    echo "== packages: all installed"
    exit 0
fi
as_root=()
if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "these packages are missing, and neither root nor sudo is at hand: ${missing[*]}" >&2; exit 1; }
    as_root=(sudo)
fi
echo "== packages: installing ${missing[*]}"
export DEBIAN_FRONTEND=noninteractive
"${as_root[@]}" apt-get update -qq
"${as_root[@]}" apt-get install -y -qq --no-install-recommends "${missing[@]}"
