#!/bin/bash
# Part of judge.sh: which lines of the sources each test comes to, and how long it
# takes, measured on a second library that counts (gcov), below the same programs.
# Should a line be told for its neighbour, a test is left out that would kill, and
# the mutant is among those to be read.
#
# $work/times has a line for each test, with tabs: milliseconds of the processor,
# the test, its key. $work/lines has a file for each, FILE:LINE one a line, or
# `all`. A test is measured when a mutant first comes to it, and what was measured
# stands until something that the test rests on is another.

# shellcheck disable=SC2154 # judge.sh knows them: work, turn
counting=$work/tree-0/build/counting

# In the copy where it is called. Counts of one thread are made without locks, in a
# third of the time.
build_counting() {
    make_here -j"$JOBS" BUILD=build/counting CC='gcc --coverage' WERROR= \
        LIBRARY=build/counting/libseamwright.so \
        OPTIONS='-O1 -fprofile-update=single -DSEAMWRIGHT_UNCONFINED' \
        build/counting/libseamwright.so build/counting/seamwright \
        >build.log 2>&1 || { tail -20 build.log; exit 1; }
    find "$counting" -name '*.gcda' -delete
    counted_lines "$counting" gcno >"$work/code"
}

# What all tests rest on but their own files: not the cases of tests/codes, nor
# the lists of pieces, nor the golden files.
list_rest() {
    find Makefile src include templates samples tests -type f \
        ! -path 'tests/*/test_*.c' ! -path 'tests/*/run_*.sh' \
        ! -path 'tests/code-mutants/*' ! -path 'tests/codes/*' \
        ! -path 'tests/plan/lists/*' ! -path 'tests/driver/golden/*' -exec cksum {} + | LC_ALL=C sort
}

# key_of TEST
key_of() {
    case $1 in
    */run_codes.sh\ *) set -- "$1" "tests/codes/${1##* }"*.{xml,err} ;;
    */run_lists.sh\ *) set -- "$1" "tests/plan/lists/${1##* }".{txt,plan} ;;
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

# Of what was measured, that which stands. In the copy where it is called.
keep_times() {
    touch "$work/times"
    list_rest >"$work/rest"
    while IFS=$'\t' read -r spent test key; do
        [ "$key" != "$(key_of "$test")" ] ||
            printf '%s\t%s\t%s\n' "$spent" "$test" "$key"
    done <"$work/times" >"$work/times.new"
    mv "$work/times.new" "$work/times"
}

# Where the copy is called keeps its counts: beside what the compiler said of the
# lines.
# shellcheck disable=SC2154
prepare_counts() {
    counts=$work/counts-$turn
    rm -rf "$counts"
    mkdir -p "$counts$counting" "$work/lines"
    (cd "$counting" && find . -name '*.gcno') | while read -r note; do
        mkdir -p "$counts$counting/${note%/*}"
        ln -s "$counting/$note" "$counts$counting/$note"
    done
}

# measure TEST: with nothing changed, in the copy where it is called. A test that
# fails where lines are counted, but not elsewhere, is taken to come to every line.
measure() {
    ! grep -qF "	$1	" "$work/times" || return 0
    TIMEFORMAT='%U %S'
    find "$counts" -name '*.gcda' -delete
    if spent=$(export GCOV_PREFIX="$counts"
        { time run_test 1000 "$1" "$counting"; } 2>&1); then
        counted_lines "$counts" >"$counts/lines"
    elif spent=$({ time run_test 1000 "$1" "$PWD/build/whole"; } 2>&1); then
        echo all >"$counts/lines"
    else
        cat build/test.log >&2
        echo "$1 fails without a change" >&2
        return 1
    fi
    mv "$counts/lines" "$work/lines/${1//[\/ ]/.}"
    echo "$spent" | awk -v test="$1" -v key="$(key_of "$1")" -v OFS='\t' '
        { print int(1000 * ($1 + $2)), test, key }' >>"$work/times"
}

# In seconds of the processor: four times what it takes with nothing changed.
limit_of() {
    awk -F '\t' -v test="$1" '$2 == test { limit = 5 + int($1 / 250) }
        END { print limit }' "$work/times"
}

passed_over() {
    [ -n "$QUICK" ] && [[ $1 != */run_goldens* ]] && awk -F '\t' -v test="$1" -v most="$QUICK" '
        $2 == test { long = $1 > 1000 * most }
        END { exit !long }' "$work/times"
}

# comes_to TEST PLACES
comes_to() {
    [ -z "$2" ] || grep -qxF -e "all
$2" "$work/lines/${1//[\/ ]/.}"
}

# places_of MUTANT: the lines of the statement that is changed, as a compiler may
# count a part of it to another line of it; nothing where none of them can run (a
# table), or where it says where to go.
places_of() {
    IFS=$'\t' read -r _ file line offset length _ _ before _ <<<"$1"
    [[ ! $before =~ ^(case|default)[^a-z] ]] || return
    places=$(head -c $((offset + length)) build/kept.c | wc -l |
        awk -v first="$line" -v name="$file" '
            NR == FNR { last = $1 + 1; next }
            FNR < first && /([;{}:]|\*\/|^#.*|^)$/ { start = FNR }
            { count = FNR }
            FNR >= last && /[;{}]$/ { exit }
            END { while (++start <= count) print name ":" start }' - build/kept.c)
    ! grep -qxF "$places" "$work/code" || echo "$places"
}
