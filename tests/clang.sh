#!/usr/bin/env bash
# Whether clang 14 compiles files of the library with libc++ and without a warning. All of them, each alone, where none is named:
# what a file uses and does not include shows here.
set -euo pipefail
cd "$(dirname "$0")/.."

clang=(clang++-14 -std=c++20 -stdlib=libc++ -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wno-overlength-strings -Werror -Ilib)
[ $# -gt 0 ] || set -- lib/heapwright/*/*.cpp
printf '%s\0' "$@" | xargs -0 -P "$(nproc)" -n 1 "${clang[@]}" -fsyntax-only
