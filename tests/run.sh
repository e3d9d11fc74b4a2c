#!/bin/sh
# Runs every test of the project and closes with `N passed, N failed`.
#
# tests/STAGE/test_NAME.c is a cmocka program, built by the Makefile as
# $BUILD/tests/STAGE/test_NAME; tests/STAGE/run_NAME.sh prints `ok NAME` or
# `not ok NAME` for each of its cases. All run from the project's root, with
# BUILD, SEAMWRIGHT (the program) and CC in the environment.
#
# A program that dies, leaves tests of its plan unrun, or runs none at all
# counts as failed. Words behind run.sh choose tests whose path has one.
set -u
cd "$(dirname "$0")/.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
CMOCKA_MESSAGE_OUTPUT=TAP
export BUILD SEAMWRIGHT CMOCKA_MESSAGE_OUTPUT
LIMIT=${TEST_SECONDS:-600}

mkdir -p "$BUILD/tests"
log=$BUILD/tests/log
passed=0
failed=0

# wanted PATH WORD...: true without words, or where the path holds one.
wanted() {
    path=$1
    shift
    [ $# -gt 0 ] || return 0
    for word; do
        case $path in *"$word"*) return 0 ;; esac
    done
    return 1
}

# Counts the results in the log: "PASSED FAILED SKIPPED". Each plan 1..N opens
# a group of cmocka's, and what it promises must come. A skipped test is
# marked `ok` or `not ok` by different versions of cmocka.
count_results() {
    awk '/^1\.\.[0-9]+$/     { planned += substr($0, 4) }
         /^(not )?ok .*# SKIP/ { skipped++; next }
         /^ok /              { passed++ }
         /^not ok /          { failed++ }
         END {
             unrun = planned - passed - failed - skipped
             if (unrun > 0)
                 failed += unrun
             print passed + 0, failed + 0, skipped + 0
         }' "$log"
}

# run_one PATH COMMAND...
run_one() {
    name=$1
    shift
    timeout -k 10 "$LIMIT" "$@" >"$log" 2>&1 </dev/null
    status=$?
    # shellcheck disable=SC2046 # three numbers
    set -- $(count_results)
    good=$1 bad=$2 skipped=$3
    reason=
    if [ "$status" -ne 0 ] && [ "$bad" -eq 0 ]; then
        bad=1 reason="ended with status $status"
    elif [ $((good + bad + skipped)) -eq 0 ]; then
        bad=1 reason="ran no test"
    fi
    passed=$((passed + good))
    failed=$((failed + bad))
    note=
    [ "$skipped" -eq 0 ] || note=", $skipped skipped"
    if [ "$bad" -eq 0 ]; then
        echo "$name: $good$note"
    else
        cat "$log"
        echo "$name: $good, $bad FAILED$note${reason:+ ($reason)}"
    fi
}

for source in tests/*/test_*.c; do
    [ -e "$source" ] && wanted "$source" "$@" || continue
    run_one "$source" "$BUILD/${source%.c}"
done
for script in tests/*/run_*.sh; do
    [ -e "$script" ] && wanted "$script" "$@" || continue
    run_one "$script" bash "$script"
done
rm -f "$log"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
