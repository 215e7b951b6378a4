#!/usr/bin/env bash
# Fuzzes for so many seconds, all targets an equal share of them or those that are named:
#     tests/fuzz/fuzz.sh SECONDS [TARGET…]
# What is found stands in build/fuzz/found, what was learned in build/fuzz/corpus, counts (executed, answered, a second) in build/fuzz/counts.tsv.
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

cmake -S . -B $build -DCMAKE_CXX_COMPILER=clang++-14 -DHEAPWRIGHT_FUZZ=ON -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=16 >/dev/null
cmake --build $build -j "${JOBS:-$(nproc)}" >$build/build.log 2>&1 || { grep -A 5 "error" $build/build.log | tail -n 50; exit 1; }
python3 tests/fuzz/make_seeds.py $build/seeds 400

# A text takes a millisecond, a yard a tenth of a second, a forecast one or two under the sanitizers, where nothing else runs; tables,
# solver and sanitizers want some 300 MB. Where memory came from is told two calls deep: deeper ones took a third of the time.
export ASAN_OPTIONS=malloc_context_size=2:quarantine_size_mb=8:allocator_release_to_os_interval_ms=-1
status=0
for target in "$@"; do
  mkdir -p $build/corpus/"$target" $build/found/"$target" tests/fuzz/found/"$target"
  echo "$target"
  nice -n 15 $build/tests/fuzz/heapwright-fuzz --target="$target" -max_total_time=$((seconds / $#)) -timeout=10 -rss_limit_mb=1500 -malloc_limit_mb=500 \
    -max_len="$($build/tests/fuzz/heapwright-fuzz --target="$target" --longest)" -dict=$build/seeds/"$target".dict -entropic=0 -reload=0 \
    -print_final_stats=1 -artifact_prefix=$build/found/"$target"/ $build/corpus/"$target" $build/seeds/"$target" tests/fuzz/found/"$target" \
    >$build/"$target".log 2>&1 || { status=1; tail -n 40 $build/"$target".log; }
  awk -v target="$target" '/stat::number_of_executed_units/ { units = $2 } /stat::average_exec_per_sec/ { rate = $2 }
    /stat::answered/ { answered = $2 } END { print target "\t" units "\t" answered "\t" rate }' $build/"$target".log | tee -a $build/counts.tsv
done
exit $status
