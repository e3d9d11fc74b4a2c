#!/bin/sh
# A fixed share of the mutants that `make mutants` judges: every 15th, and every
# second of the pairs. And the proof that the judge can find an escape: a sample
# robbed of its picture lets wrong tops pass.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
judge=$BUILD/tests/mutants/mutants
work=$BUILD/tests/mutants/robbed
failed=0
mkdir -p "$work"

"$judge" --every 15 samples/*.xml tests/mutants/*.xml || failed=1
# Two mistakes in one block hide each other: sources that are one small block of
# many pieces are left to single ones.
"$judge" --pairs --seed 2 --every 2 samples/*.xml tests/mutants/casts.xml \
    tests/mutants/repeats.xml tests/mutants/triangles.xml || failed=1

sed '/<picture>/,/<\/picture>/d' samples/lantern-walk.xml >"$work/robbed.xml"
"$judge" --every 2 "$work/robbed.xml" >"$work/said"
# shellcheck disable=SC2016 # the grave accents are printed ones
if grep -q '^# escaped: .*the top of `throw` differs' "$work/said" &&
    grep -q '^not ok mutants: none escaped' "$work/said"; then
    echo "ok mutants: without its picture, a sample lets mistakes escape"
else
    cat "$work/said"
    echo "not ok mutants: without its picture, a sample lets mistakes escape"
    failed=1
fi
exit $failed
