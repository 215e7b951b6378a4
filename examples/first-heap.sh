#!/usr/bin/env bash
# From a fresh clone to the plan of an invented quarter-acre yard: installs, builds, runs.
set -euo pipefail
cd "$(dirname "$0")/.."

examples/install-packages.sh
cmake -S . -B build/first-heap -DHEAPWRIGHT_TESTS=OFF -DHEAPWRIGHT_EXAMPLES=OFF >build-first-heap.log || { cat build-first-heap.log; exit 1; }
cmake --build build/first-heap -j "$(nproc)" >>build-first-heap.log || { cat build-first-heap.log; exit 1; }
rm build-first-heap.log

build/first-heap/heapwright plan examples/quarter-acre.toml
