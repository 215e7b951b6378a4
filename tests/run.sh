#!/usr/bin/env bash
# Installs, builds and passes all tests, with warnings as errors; then the input tests once more under the
# address and undefined-behaviour sanitizers; and that the library compiles with clang and libc++.
set -euo pipefail
cd "$(dirname "$0")/.."
jobs=$(nproc)

examples/install-packages.sh

echo "The library with clang 14 and libc++"
printf '%s\0' lib/heapwright/*/*.cpp |
  xargs -0 -P "$jobs" -n 1 clang++-14 -std=c++20 -stdlib=libc++ -fsyntax-only -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -Ilib

echo "The tests under the sanitizers"
cmake -S . -B build/sanitize -DHEAPWRIGHT_DEV=ON -DHEAPWRIGHT_SANITIZE=ON >/dev/null
cmake --build build/sanitize -j "$jobs" >build/sanitize/build.log || { tail -n 50 build/sanitize/build.log; exit 1; }
ctest --test-dir build/sanitize -j "$jobs" --output-on-failure -E '^oracle|cli.(measurements|cautions|slips|sessions|forecast|working|whole|help)' >build/sanitize/ctest.log || { tail -n 200 build/sanitize/ctest.log; exit 1; }
tail -n 5 build/sanitize/ctest.log

echo "The tests"
cmake -S . -B build/dev -DHEAPWRIGHT_DEV=ON >/dev/null
cmake --build build/dev -j "$jobs" >build/dev/build.log || { tail -n 50 build/dev/build.log; exit 1; }
ctest --test-dir build/dev -j "$jobs" --output-on-failure
