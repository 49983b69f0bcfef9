#!/usr/bin/env bash
# Installs what is needed, builds, and runs all tests: once as released, once with address and undefined-behaviour
# sanitizers. Ends with CTest's summary.
#   tests/run.sh            everything
#   tests/run.sh release    one preset only (release, dev or sanitize)
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"
bash src/cmake/install-packages.sh build test

echo "== format"
git ls-files 'src/*.h' 'src/*.cpp' 'tests/*.h' 'tests/*.cpp' | xargs clang-format-14 --dry-run --Werror

presets=("$@")
if [ $# -eq 0 ]; then
    presets=(sanitize release)
fi
for preset in "${presets[@]}"; do
    echo "== build: build/$preset"
    cmake --preset "$preset" -DTICKLEAF_TESTS=ON >/dev/null
    cmake --build --preset "$preset"
    echo "== tests: $preset"
    ctest --preset "$preset" --parallel 2
done
