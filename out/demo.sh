#!/usr/bin/env bash
# Installs what is needed, builds Tickleaf and makes the demo booklet in this folder, in English and Spanish.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
bash src/cmake/install-packages.sh build
echo "== build: build/release"
cmake --preset release -DTICKLEAF_TESTS=OFF >/dev/null
cmake --build --preset release --target tickleaf
echo "== booklet: the demo prescription in English and Spanish"
build/release/tickleaf make templates/starters/ankle-sprain.yaml --language en,es --output out
