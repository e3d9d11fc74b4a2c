#!/bin/sh
# What is repeated is what is written out: each source of tests/driver/repeats is
# built as it is, and with every `times` written out by write_out.awk. Booklet,
# data and tables have the same bytes, but for the places in messages. Prints `ok NAME` or `not ok NAME`.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=$(realpath "${SEAMWRIGHT:-$BUILD/seamwright}")
work=$BUILD/tests/repeats
failed=0
rm -rf -- "$work"

result() {
    if [ -z "$2" ]; then
        echo "ok repeats: $1"
    else
        echo "not ok repeats: $1: $2"
        failed=1
    fi
}

for source in tests/driver/repeats/*.xml; do
    name=$(basename "$source" .xml)
    mkdir -p "$work/$name/short" "$work/$name/long"
    cp "$source" "$work/$name/short/p.xml"
    awk -f tests/driver/write_out.awk "$source" >"$work/$name/long/p.xml"
    problem=
    for way in short long; do
        (cd "$work/$name/$way" && "$SEAMWRIGHT" build p.xml -o out >log 2>&1) ||
            problem="$way: $(grep -m 1 'error' "$work/$name/$way/log")"
        # One element is told once, so often as it may lie there.
        sed -i '/^  "diagnostics"/,$d' "$work/$name/$way/out/pattern.json"
    done
    grep -q 'times="' "$work/$name/long/p.xml" && problem="times is left"
    cmp -s "$work/$name/short/p.xml" "$work/$name/long/p.xml" &&
        problem="nothing is repeated"
    result "$name is built twice" "$problem"
    result "$name: the same bytes" \
        "$(diff -r "$work/$name/short/out" "$work/$name/long/out" 2>&1 | head -n 2)"
done
exit $failed
