#!/bin/bash
# Part of judge.sh: which lines of the sources each test comes to, and how long it
# takes, measured on a second library that counts (gcov), below the same programs.
# It is made without optimizing, so that no line is told for another.
#
# $work/times has a line for each test, with tabs: milliseconds of the processor,
# the test, its key. $work/lines has a file for each, FILE:LINE one a line, or
# `all`. What was measured stands until something that the test rests on is
# another.

counting=$work/tree-0/build/counting

# In the copy where it is called.
build_counting() {
    make_here -j"$JOBS" BUILD=build/counting CC='gcc --coverage' WERROR= \
        LIBRARY=build/counting/libseamwright.so \
        OPTIONS='-O0 -DSEAMWRIGHT_UNCONFINED' \
        build/counting/libseamwright.so build/counting/seamwright \
        >build.log 2>&1 || { tail -20 build.log; exit 1; }
    find "$counting" -name '*.gcda' -delete
    counted_lines "$counting" gcno >"$work/code"
}

# What all tests rest on but their own files: not the cases of tests/codes, nor
# the golden files.
list_rest() {
    find Makefile src include templates samples tests -type f \
        ! -path 'tests/*/test_*.c' ! -path 'tests/*/run_*.sh' \
        ! -path 'tests/code-mutants/*' ! -path 'tests/codes/*' \
        ! -path 'tests/driver/golden/*' -exec cksum {} + | LC_ALL=C sort
}

# key_of TEST
key_of() {
    case $1 in
    */run_codes.sh\ *) set -- "$1" "tests/codes/${1##* }".{xml,err} ;;
    */run_goldens.sh\ *) set -- "$1" tests/driver/golden/"${1##* }"/* ;;
    */run_check_is_build.sh | */test_sound.c) set -- "$1" tests/codes/*.xml ;;
    esac
    test=${1%% *}
    shift
    cat "$work/rest" "$test" "$@" | cksum | tr ' ' '-'
}

# counted_lines FOLDER: FILE:LINE of what ran, by the counts in the folder; with
# the word gcno, of all that can run.
counted_lines() {
    find "$1" -name "*.${2:-gcda}" -size +0 -exec gcov -t {} + 2>/dev/null |
        awk -v ran="$([ -n "${2:-}" ] && echo '[0-9#=]' || echo '[0-9]')" '
            /^ *-: *0:Source:/ { sub(/.*Source:/, ""); file = $0; next }
            file ~ /^src\/.*\.c$/ {
                split($0, part, ":")
                if (part[1] ~ ran)
                    print file ":" part[2] + 0
            }'
}

# measure TEST COUNTS: in the copy where it is called. A test that fails where
# lines are counted, but not elsewhere, is taken to come to every line.
measure() {
    key=$(key_of "$1")
    grep -qF "	$1	$key" "$work/times" && return
    lines=$work/lines/${1//[\/ ]/.}
    TIMEFORMAT='%U %S'
    find "$2" -name '*.gcda' -delete
    if spent=$(export GCOV_PREFIX="$2"
        { time run_test 1000 "$1" "$counting"; } 2>&1); then
        counted_lines "$2" >"$lines"
    elif spent=$({ time run_test 1000 "$1"; } 2>&1); then
        echo all >"$lines"
    else
        cat build/test.log >&2
        echo "$1 fails without a change" >&2
        return 1
    fi
    echo "$spent" | awk -v test="$1" -v key="$key" -v OFS='\t' '
        { print int(1000 * ($1 + $2)), test, key }' >>"$work/times"
}

# The counts of a worker need what the compiler said of the lines beside them.
measure_share() (
    trap 'exit 130' INT TERM
    cd "$work/tree-$1" || exit 2
    counts=$work/counts-$1
    rm -rf "$counts"
    mkdir -p "$counts$counting"
    (cd "$counting" && find . -name '*.gcno') | while read -r note; do
        mkdir -p "$counts$counting/${note%/*}"
        ln -s "$counting/$note" "$counts$counting/$note"
    done
    awk -v turn="$1" -v jobs="$JOBS" 'NR % jobs == turn' "$work/tests" |
        while read -r test; do measure "$test" "$counts" || exit 1; done
)

# measure_all FOLDER...: all tests must pass before anything is changed.
measure_all() {
    mkdir -p "$work/lines"
    touch "$work/times"
    (
        cd "$work/tree-0" || exit 2
        build_counting
        list_rest >"$work/rest"
        for folder; do list_tests "$folder"; done | LC_ALL=C sort -u >"$work/tests"
    ) || return
    [ "$JOBS" -eq 1 ] || measure_share 1 &
    measure_share 0 && wait $!
}

# places_of MUTANT: the lines of the change, and the one above, to which a compiler
# may count some of it; nothing where it is in no line that can run (a table), or
# in what says where to go.
places_of() {
    IFS=$'\t' read -r _ file line offset length _ _ before _ <<<"$1"
    [[ ! $before =~ ^(case|default)[^a-z] ]] || return
    behind=$((line + $(tail -c +$((offset + 1)) build/kept.c | head -c "$length" |
        tr -cd '\n' | wc -c)))
    places=
    for ((n = line; n <= behind; n++)); do places="$places
$file:$n"; done
    ! grep -qxF "${places#?}" "$work/code" || echo "$file:$((line - 1))$places"
}

# tests_at FOLDER PLACES: those tests of order_tests that come to one of the
# places.
tests_at() {
    (cd "$work/lines" &&
        if [ -n "$2" ]; then grep -lxF -e "all
$2" -- *; else ls; fi) >"build/there"
    order_tests "$1" | awk '
        FILENAME == ARGV[1] { there[$0] = 1; next }
        { name = $0; sub(/^[^ ]* [^ ]* /, "", name); gsub(/[\/ ]/, ".", name) }
        name in there' build/there -
}
