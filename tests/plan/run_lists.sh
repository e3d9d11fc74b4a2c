#!/bin/sh
# What `seamwright plan` makes of the lists in lists/, byte for byte as it is kept
# beside them: work is counted, so that a list has one plan on every machine. A
# plan that is kept is not the best there is; that all are sound is shown in
# tests/cut/test_plans.c. The word behind a name (NAME.trimmed.txt) is an option.
# UPDATE=1 writes the plans anew; the difference is the review: no length above
# the one before without a reason. Words choose lists by their names.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
lists=tests/plan/lists
work=$BUILD/tests/plan-lists
failed=0
mkdir -p "$work" || exit 2

for list in "$lists"/*.txt; do
    name=$(basename "$list" .txt)
    case " ${*:-$name} " in *" $name "*) ;; *) continue ;; esac
    option=
    case $name in *.*) option=--${name#*.} ;; esac
    # shellcheck disable=SC2086 # none, or one
    "$SEAMWRIGHT" plan $option "$list" >"$work/$name.plan" 2>&1 ||
        echo "status $?" >>"$work/$name.plan"
    [ "${UPDATE:-}" != 1 ] || cp "$work/$name.plan" "$lists"
    if cmp -s "$lists/$name.plan" "$work/$name.plan"; then
        echo "ok planned: $name"
    else
        diff "$lists/$name.plan" "$work/$name.plan" | head -20
        echo "not ok planned: $name"
        failed=1
    fi
done
exit $failed
