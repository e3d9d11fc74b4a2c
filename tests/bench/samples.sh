#!/bin/bash
# How long check and build take, for each sample and for two generated large
# patterns, beside two floors: starting a process that does nothing (`true`),
# and reading the same file with xmllint. The best of RUNS runs (default 7),
# as the rest of the machine can only make a run slower.
#
#     ms      best time
#     x start times the start of an empty process
#     x parse times xmllint on the same file, where it is there
set -eu
BUILD=${BUILD:-build}
RUNS=${RUNS:-7}
program=$BUILD/seamwright
[ -x "$program" ] || { echo "bench: there is no $program" >&2; exit 1; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# best COMMAND...: microseconds of its fastest run. A failed run ends it all.
best() {
    least=
    for _ in $(seq "$RUNS"); do
        start=$(date +%s%N)
        "$@" >"$work/out" 2>"$work/err" || { cat "$work/err" >&2; exit 1; }
        took=$((($(date +%s%N) - start) / 1000))
        if [ -z "$least" ] || [ "$took" -lt "$least" ]; then least=$took; fi
    done
    echo "$least"
}

# row NAME MICROSECONDS PARSE
row() {
    awk -v name="$1" -v took="$2" -v start="$start_floor" -v parse="$3" 'BEGIN {
        printf "%-34s %8.1f ms %8.1f x start", name, took / 1000, took / start
        if (parse > 0) printf " %8.1f x parse", took / parse
        print "" }'
}

# measure NAME FILE
measure() {
    parse=0
    if command -v xmllint >/dev/null; then
        parse=$(best xmllint --huge --noout "$2")
        row "$1, xmllint" "$parse" "$parse"
    fi
    row "$1, check" "$(best "$program" check "$2")" "$parse"
    row "$1, build" "$(best "$program" build "$2" -o "$work/built")" "$parse"
    rm -rf "$work/built"
}

start_floor=$(best true)
row "an empty process" "$start_floor" 0
for sample in samples/*.xml; do
    measure "$(basename "$sample" .xml)" "$sample"
done
for size in 25 50; do
    awk -v kind=map -v n=$size -f tests/pathological/generate.awk \
        >"$work/large.xml"
    measure "$((size * size)) blocks of 4" "$work/large.xml"
done
