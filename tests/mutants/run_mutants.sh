#!/bin/sh
# A fixed share of the mutants that `make mutants` judges: every 15th, and the
# pairs of the samples. And the proof that the judge can find an escape: a sample
# robbed of its picture lets wrong tops pass.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
judge=$BUILD/tests/mutants/mutants
work=$BUILD/tests/mutants/robbed
failed=0
mkdir -p "$work"

"$judge" --every 15 samples/*.xml tests/mutants/*.xml || failed=1
# All pairs of the samples, by the judge's own seed. 90 of 100 is what is asked,
# and what `make mutants` holds them to; four seeds named both in 688 of 751
# (91.6), the own one in 171 of 190, so that a share at that bound passes or fails
# by the draw. This is a floor that the suite must not fall through, not the goal.
floor=88
"$judge" --pairs samples/*.xml >"$work/pairs"
grep -v 'of two mistakes' "$work/pairs"
grep '^not ok' "$work/pairs" | grep -qv 'of two mistakes' && failed=1
if awk -v floor=$floor '/^# [0-9]+ pairs: both named in/ {
        found = 1; good = 100 * ($7 + 0) >= floor * $2 }
        END { exit !(found && good) }' "$work/pairs"; then
    echo "ok mutants: of two mistakes both are told in at least $floor of 100"
else
    echo "not ok mutants: of two mistakes both are told in at least $floor of 100"
    failed=1
fi

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
