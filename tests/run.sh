#!/usr/bin/env bash
# Installs, builds and passes all tests, with warnings as errors, those from within under the address and
# undefined-behaviour sanitizers; and that the library compiles with clang and libc++.
set -euo pipefail
cd "$(dirname "$0")/.."
jobs=$(nproc)

examples/install-packages.sh

echo "The library with clang 14 and libc++, each file alone"
clang=(clang++-14 -std=c++20 -stdlib=libc++ -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -Ilib)
mkdir -p build/clang
printf '#include <%s>\n' chrono functional optional string variant vector nlohmann/json.hpp heapwright/units/quantities.hpp >build/clang/common.hpp
"${clang[@]}" -x c++-header build/clang/common.hpp -o build/clang/common.pch
printf '%s\0' lib/heapwright/*/*.cpp | xargs -0 -P "$jobs" -n 1 "${clang[@]}" -include-pch build/clang/common.pch -fsyntax-only

build_tests() {  # FOLDER, options of cmake
  cmake -S . -B "$@" -DCMAKE_UNITY_BUILD=ON >/dev/null
  cmake --build "$1" -j "$jobs" >"$1/build.log" 2>&1 || { tail -n 50 "$1/build.log"; exit 1; }
  if grep -A 5 "warning:" "$1/build.log"; then exit 1; fi
}

echo "The tests from outside, of the program as its users build it"
build_tests build/release -DHEAPWRIGHT_TESTS=ON -DHEAPWRIGHT_EXAMPLES=ON -DHEAPWRIGHT_UNIT_TESTS=OFF
ctest --test-dir build/release -j "$jobs" --output-on-failure

# Compiled once: what the sanitizers pass, passes without them.
echo "The tests from within, and some from outside once more, under the sanitizers"
build_tests build/sanitize -DHEAPWRIGHT_DEV=ON -DHEAPWRIGHT_SANITIZE=ON -DHEAPWRIGHT_EXAMPLES=OFF
ctest --test-dir build/sanitize -j "$jobs" --output-on-failure -E '^oracle|cli.(measurements|cautions|slips|sessions|forecast|working|whole|seasons|help|readings|golden|pages)'
