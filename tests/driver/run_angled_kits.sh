#!/bin/sh
# Kits of quilts with other angles: an order of triangles at 60 degrees, as
# lengths and cut, and of blocks on point, as lengths and in strips. All papers
# come out, what bolts give adds up (by awk, from the tables alone), and shapes
# that a ruler cuts from strips go into the bag as whole strips.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$BUILD/tests/angled-kits
failed=0
rm -rf "$work"
mkdir -p "$work"

judge() { # WORDS STATUS
    if [ "$2" -eq 0 ]; then
        echo "ok $1"
    else
        echo "not ok $1"
        failed=1
    fi
}

"$SEAMWRIGHT" kit samples/winter-class.kits -o "$work/kit" >"$work/said" 2>&1
judge "an order of quilts with other angles is planned" $?

for paper in purchase costs picking bolts count slips labels cards; do
    pdftotext -layout "$work/kit/$paper.pdf" "$work/$paper.txt" &&
        [ -s "$work/$paper.txt" ]
    judge "its paper: $paper" $?
done

# Of each bolt the cuts follow each other to its end: what is cut, lost and left
# is what it is long.
awk -F, -f tests/driver/bolt_sums.awk "$work/kit/bolts.csv" >"$work/sums"
judge "what each bolt gives adds up to its length" $?
cat "$work/sums"

grep -q 'whole strip' "$work/slips.txt" && grep -q '60' samples/ebb-pools.xml
judge "shapes that a ruler cuts go out as whole strips" $?

# 12 mats, each with one strip for triangles of every fabric but the one of the
# half hexagons, which has one too: 4 kinds, and the spare ones are not in bags.
[ "$(grep -c 'Table mat' "$work/labels.txt")" -ge 12 ]
judge "each of the 12 mats has its label" $?
exit $failed
