#!/usr/bin/env bash
# Installs, builds and passes all tests, with warnings as errors, those from within under the address and
# undefined-behaviour sanitizers; and that the library compiles with clang and libc++.
#     tests/run.sh --fuzz SECONDS     fuzzes for so long, and nothing else
set -euo pipefail
cd "$(dirname "$0")/.."
jobs=$(nproc)

examples/install-packages.sh
if [ "${1:-}" = --fuzz ]; then exec tests/fuzz/fuzz.sh "${2:?how many seconds?}"; fi

phase() { echo "$1 (after $SECONDS s)"; }

build_tests() {  # FOLDER, options of cmake
  cmake -S . -B "$@" -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16 >/dev/null
  cmake --build "$1" -j "$jobs" >"$1/build.log" 2>&1 || { tail -n 50 "$1/build.log"; exit 1; }
  if grep -A 5 "warning:" "$1/build.log"; then exit 1; fi
}

phase "The program as its users build it"
build_tests build/release -DHEAPWRIGHT_TESTS=ON -DHEAPWRIGHT_EXAMPLES=ON -DHEAPWRIGHT_UNIT_TESTS=OFF

phase "The same batches of the library with clang 14 and libc++"
tests/clang.sh build/release/lib/CMakeFiles/heapwright.dir/Unity/*.cxx

phase "The tests from outside"
ctest --test-dir build/release -j "$jobs" --output-on-failure

# Compiled once: what the sanitizers pass, passes without them.
phase "The tests from within, what fuzzing begins with and found, and some from outside once more, under the sanitizers"
build_tests build/sanitize -DHEAPWRIGHT_DEV=ON -DHEAPWRIGHT_SANITIZE=ON -DHEAPWRIGHT_EXAMPLES=OFF
ctest --test-dir build/sanitize -j "$jobs" --output-on-failure -R '^unit|^fuzz|cli.(published|json|sources)$'
