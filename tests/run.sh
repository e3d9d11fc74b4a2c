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
# JOBS of them (as many as there are processors) run at a time; each keeps to a
# folder of its own.
set -u
cd "$(dirname "$0")/.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
CMOCKA_MESSAGE_OUTPUT=TAP
JOBS=${JOBS:-$(nproc)}
LIMIT=${TEST_SECONDS:-600}
logs=$BUILD/tests/logs
export BUILD SEAMWRIGHT CMOCKA_MESSAGE_OUTPUT LIMIT

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

# run_one PATH: ends with one `cat`, so that tests side by side do not mix their
# lines. Leaves "PASSED FAILED" for the sum.
run_one() {
    name=$1
    log=$logs/$(echo "$name" | tr / .)
    case $name in
    *.sh) set -- bash "$name" ;;
    *) set -- "$BUILD/${name%.c}" ;;
    esac
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
    echo "$good $bad" >"$log.sum"
    note=
    [ "$skipped" -eq 0 ] || note=", $skipped skipped"
    if [ "$bad" -eq 0 ]; then
        echo "$name: $good$note" >"$log"
    else
        echo "$name: $good, $bad FAILED$note${reason:+ ($reason)}" >>"$log"
    fi
    cat "$log"
}

if [ "${1:-}" = --one ]; then
    run_one "$2"
    exit 0
fi

# Scripts first: the longest tests are among them.
list_tests() {
    for test in tests/*/run_*.sh tests/*/test_*.c; do
        [ -e "$test" ] && wanted "$test" "$@" && echo "$test"
    done
}

rm -rf -- "$logs"
mkdir -p "$logs"
list_tests "$@" | xargs -P "$JOBS" -n 1 sh tests/run.sh --one
sums=$(cat "$logs"/*.sum 2>/dev/null |
    awk '{ passed += $1; failed += $2 } END { print passed + 0, failed + 0 }')
wanted_tests=$(list_tests "$@" | wc -l)
ended_tests=$(find "$logs" -name '*.sum' | wc -l)
passed=${sums% *}
failed=$((${sums#* } + wanted_tests - ended_tests))
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
