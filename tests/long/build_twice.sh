#!/usr/bin/env bash
# Whether the program, the library and the packages come out the same, byte for byte, from two folders, at two times and in two time
# zones. Builds what is committed twice, without a compiler cache: by hand. The umask is one, which cpack writes into its archive.
# usage: build_twice.sh [FOLDER]
set -euo pipefail
cd "$(dirname "$0")/../.."
place=${1:-$(mktemp -d)}
jobs=${JOBS:-$(nproc)}
export CCACHE_DISABLE=1
unset SOURCE_DATE_EPOCH
umask 022
commit=$(git rev-parse HEAD)

build() {  # FOLDER
  mkdir -p "$1"
  git archive "$commit" | tar -x -C "$1"
  cmake -S "$1" -B "$1/build" -DHEAPWRIGHT_TESTS=OFF -DHEAPWRIGHT_EXAMPLES=OFF -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16 >/dev/null
  cmake --build "$1/build" -j "$jobs" >/dev/null
  (cd "$1/build" && cpack -G DEB >/dev/null)
}

(TZ=UTC build "$place/one")
(TZ=Asia/Tokyo LC_ALL=C build "$place/another/somewhat/deeper")

different=0
for file in heapwright lib/libheapwright.a heapwright_*.deb heapwright-dev_*.deb; do
  for made in "$place"/one/build/$file; do
    name=${made#"$place/one/build/"}
    if cmp "$made" "$place/another/somewhat/deeper/build/$name"; then
      echo "the same: $name $(sha256sum <"$made" | cut -c1-16)"
    else
      different=1
    fi
  done
done
exit "$different"
