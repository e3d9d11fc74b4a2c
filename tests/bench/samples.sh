#!/bin/sh
# How long each sample takes to build, the median of five runs.
set -eu
BUILD=${BUILD:-build}
program=$BUILD/seamwright
[ -x "$program" ] || exit 0
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT

for sample in samples/*.xml; do
    [ -e "$sample" ] || continue
    for run in 1 2 3 4 5; do
        start=$(date +%s%N)
        "$program" build "$sample" -o "$out/run$run" >/dev/null
        echo $((($(date +%s%N) - start) / 1000000))
    done | sort -n | sed -n "3s|\$| ms   $sample|p"
done
