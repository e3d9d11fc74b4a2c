#!/bin/sh
# `check` plans no more than its messages ask for, `list` plans all: what the two
# say of a source is the same, for each sample and for each case of tests/codes,
# and for samples with one stated amount changed.
set -u
cd "$(dirname "$0")/../.." || exit 2
SEAMWRIGHT=${SEAMWRIGHT:-${BUILD:-build}/seamwright}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

# compare FILE NAME
compare() {
    "$SEAMWRIGHT" check "$1" >/dev/null 2>"$work/check"
    "$SEAMWRIGHT" list "$1" >/dev/null 2>"$work/list"
    if cmp -s "$work/check" "$work/list"; then
        echo "ok check is build: $2"
    else
        diff "$work/check" "$work/list" | head -5
        echo "not ok check is build: $2"
        failed=1
    fi
}

for source in samples/*.xml tests/codes/*.xml; do
    ! grep -q "^<order" "$source" || continue # that no other command reads
    compare "$source" "$source"
done
for source in samples/*.xml; do
    amounts=$(grep -cE ' (yards|fat-quarters|sheets)="' "$source")
    n=1
    while [ "$n" -le "$amounts" ]; do
        awk -v n="$n" '/ (yards|fat-quarters|sheets)="/ && ++seen == n {
                sub(/(yards|fat-quarters|sheets)="/, "&1") }
            { print }' "$source" >"$work/source.xml"
        compare "$work/source.xml" "$source, amount $n"
        grep -q '\[yardage\]' "$work/check" || {
            echo "not ok check is build: $source, amount $n is not told"
            failed=1
        }
        n=$((n + 1))
    done
done
exit $failed
