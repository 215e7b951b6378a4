#!/usr/bin/env bash
# Installs, builds and passes all tests, with warnings as errors, those from within under the address and
# undefined-behaviour sanitizers; and that the library compiles with clang and libc++.
set -euo pipefail
cd "$(dirname "$0")/.."
jobs=$(nproc)

examples/install-packages.sh

build_tests() {  # FOLDER, options of cmake
  cmake -S . -B "$@" -DCMAKE_UNITY_BUILD=ON >/dev/null
  cmake --build "$1" -j "$jobs" >"$1/build.log" 2>&1 || { tail -n 50 "$1/build.log"; exit 1; }
  if grep -A 5 "warning:" "$1/build.log"; then exit 1; fi
}

echo "The program as its users build it"
build_tests build/release -DHEAPWRIGHT_TESTS=ON -DHEAPWRIGHT_EXAMPLES=ON -DHEAPWRIGHT_UNIT_TESTS=OFF

echo "The same batches of the library with clang 14 and libc++"
tests/clang.sh build/release/lib/CMakeFiles/heapwright.dir/Unity/*.cxx

echo "The tests from outside"
ctest --test-dir build/release -j "$jobs" --output-on-failure

# Compiled once: what the sanitizers pass, passes without them.
echo "The tests from within, and some from outside once more, under the sanitizers"
build_tests build/sanitize -DHEAPWRIGHT_DEV=ON -DHEAPWRIGHT_SANITIZE=ON -DHEAPWRIGHT_EXAMPLES=OFF
ctest --test-dir build/sanitize -j "$jobs" --output-on-failure -E '^oracle|cli.(measurements|cautions|slips|sessions|forecast|working|whole|seasons|help|readings|golden|pages|advice|calendar|year|nutrients|orders|areas|sheets|handout|loads|charts|compare|catchers|heat|schemas)'
