#!/usr/bin/env bash
# From a fresh clone to the plan of an invented quarter-acre yard: installs, builds, runs.
set -euo pipefail
cd "$(dirname "$0")/.."

examples/install-packages.sh
cmake -S . -B build/release -DHEAPWRIGHT_TESTS=OFF -DHEAPWRIGHT_EXAMPLES=OFF -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16 >build-release.log || { cat build-release.log; exit 1; }
cmake --build build/release -j "$(nproc)" >>build-release.log || { cat build-release.log; exit 1; }
rm build-release.log

build/release/heapwright plan examples/quarter-acre.toml --today 2026-10-24
