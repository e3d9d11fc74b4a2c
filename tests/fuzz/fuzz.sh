#!/bin/sh
# Runs each target FUZZ_SECONDS (60), from the inputs kept in tests/fuzz/kept.
# What is new stays in BUILD; an input that breaks a target is made small there,
# and belongs into tests/fuzz/kept with the mend. Prints `ok` or `not ok` for
# each. With KEEP=1 the kept inputs (but seed-* and broken-*) become the fewest that
# reach all code that was reached.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build/fuzz}
SECONDS_EACH=${FUZZ_SECONDS:-60}
export ASAN_OPTIONS=allocator_may_return_null=1:detect_leaks=0
work=$BUILD/tests/fuzz
failed=0
tests/fuzz/dictionary.sh >"$work/words"

for source in tests/fuzz/fuzz_*.c; do
    name=$(basename "$source" .c) target=$work/$(basename "$source" .c)
    kept=tests/fuzz/kept/${name#fuzz_} found=$work/found/${name#fuzz_}
    mkdir -p "$found" "$work/broken"
    "$target" -max_total_time="$SECONDS_EACH" -timeout=10 -rss_limit_mb=1500 \
        -dict="$work/words" -seed="${SEED:-1}" -max_len=4000 -print_final_stats=1 \
        -artifact_prefix="$work/broken/${name#fuzz_}-" "$found" "$kept" \
        >"$work/$name.log" 2>&1
    status=$?
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$work/$name.log")
    if [ $status -eq 0 ]; then
        echo "ok fuzz: ${name#fuzz_}: $runs runs"
    else
        grep -E 'ERROR|not so|runtime error|Test unit written|SUMMARY' "$work/$name.log" | head -5
        echo "not ok fuzz: ${name#fuzz_}: $runs runs"
        failed=1
    fi
    if [ -n "${KEEP:-}" ] && [ $status -eq 0 ]; then
        fewest=$work/fewest/${name#fuzz_}
        rm -rf "$fewest" && mkdir -p "$fewest"
        "$target" -set_cover_merge=1 -use_counters=0 -timeout=10 -max_len=1500 \
            "$fewest" "$found" "$kept" >"$work/$name.log" 2>&1 &&
            find "$kept" -type f ! -name 'seed-*' ! -name 'broken-*' -delete &&
            for input in "$fewest"/*; do
                cp "$input" "$kept/$(basename "$input" | cut -c1-10)"
            done
    fi
done
exit $failed
