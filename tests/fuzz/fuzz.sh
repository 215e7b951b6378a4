#!/usr/bin/env bash
# Fuzzes for so many seconds, all targets an equal share of them or those that are named:
#     tests/fuzz/fuzz.sh SECONDS [TARGET…]
# A fast build learns; then a build under the sanitizers runs all that was learned once. What is found stands in build/fuzz/found, what was
# learned in build/fuzz/corpus, counts (target, build, executed, answered, a second) in build/fuzz/counts.tsv.
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=$1
shift
[ $# -gt 0 ] || set -- amounts typed yard forecast materials readings maturity climate interview roster map
build=build/fuzz

if ! echo "int main(){}" | clang++-14 -fsanitize=address -x c++ -o /dev/null - 2>/dev/null; then
  echo "The fuzzer wants clang 14 with its run-time: apt-get install clang-14 libclang-rt-14-dev" >&2
  exit 1
fi

build_targets() {  # NAME, options of cmake
  cmake -S . -B $build/"$1" -DCMAKE_CXX_COMPILER=clang++-14 -DHEAPWRIGHT_FUZZ=ON "${@:2}" -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16 >/dev/null
  cmake --build $build/"$1" -j "${JOBS:-$(nproc)}" >$build/"$1"-build.log 2>&1 || { grep -A 5 "error" $build/"$1"-build.log | tail -n 50; exit 1; }
}
mkdir -p $build
build_targets fast
build_targets sanitized -DHEAPWRIGHT_SANITIZE=ON
python3 tests/fuzz/make_seeds.py $build/seeds 10

# No input took a second of the processor, or four under the sanitizers; but a limit is of the clock, and others run before what is nice.
# Tables, solver and sanitizers want some 300 MB. Where memory came from is told two calls deep: deeper ones took a third of the time.
export ASAN_OPTIONS=malloc_context_size=2:quarantine_size_mb=8:allocator_release_to_os_interval_ms=-1
status=0

run() {  # BUILD TARGET, options of the fuzzer
  local fuzzer=$build/$1/tests/fuzz/heapwright-fuzz log=$build/$2-$1.log
  nice -n 15 "$fuzzer" --target="$2" "${@:3}" -timeout=60 -rss_limit_mb=1500 -malloc_limit_mb=500 -max_len="$("$fuzzer" --target="$2" --longest)" \
    -dict=$build/seeds/"$2".dict -entropic=0 -reload=0 -print_final_stats=1 -artifact_prefix=$build/found/"$2"/ \
    $build/corpus/"$2" $build/seeds/"$2" tests/fuzz/found/"$2" >"$log" 2>&1 || { status=1; tail -n 40 "$log"; }
  awk -v target="$2" -v build="$1" '/stat::number_of_executed_units/ { units = $2 } /stat::average_exec_per_sec/ { rate = $2 }
    /stat::answered/ { answered = $2 } END { print target "\t" build "\t" units "\t" answered "\t" rate }' "$log" | tee -a $build/counts.tsv
}

for target in "$@"; do
  mkdir -p $build/corpus/"$target" $build/found/"$target" tests/fuzz/found/"$target"
  run fast "$target" -max_total_time=$((seconds / $#))
  run sanitized "$target" -runs=0
done
exit $status
