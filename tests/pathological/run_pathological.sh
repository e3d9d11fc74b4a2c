#!/bin/bash
# Sources that are large, deep or absurd: each ends with the status that it
# deserves, with words, and before a generous limit (a guard against running
# for ever, not a measure). Prints `ok NAME` or `not ok NAME` for each case.
#
# The limit is PATHOLOGICAL_SECONDS, by default 15, and 90 with the
# sanitizers, which slow everything down.
set -u
here=$(cd "$(dirname "$0")" && pwd)
cd "$here/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
LIMIT=${PATHOLOGICAL_SECONDS:-$([ -n "${SANITIZED:-}" ] && echo 90 || echo 15)}
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

# run COMMAND NAME WANTED FILE: WANTED is a status, or several with | between.
run() {
    if [ "$1" = build ]; then
        timeout -k 5 "$LIMIT" "$SEAMWRIGHT" build "$4" -o "$work/built" \
            >"$work/out" 2>"$work/err" </dev/null
    else
        timeout -k 5 "$LIMIT" "$SEAMWRIGHT" "$1" "$4" \
            >"$work/out" 2>"$work/err" </dev/null
    fi
    found=$?
    problem=
    case "|$3|" in
    *"|$found|"*) ;;
    *) problem="status $found, not $3" ;;
    esac
    [ "$found" -ne 124 ] || problem="not done in $LIMIT s"
    # What fails says why, in lines that a terminal can show.
    [ "$found" -eq 0 ] || [ -s "$work/err" ] || problem="${problem:-no words}"
    [ -z "$(LC_ALL=C awk 'length($0) > 4096 { print "long"; exit }' \
        "$work/err")" ] || problem="${problem:-a message of over 4096 bytes}"
    if [ -z "$problem" ]; then
        echo "ok pathological: $2"
    else
        cut -c1-200 "$work/err" | head -3
        echo "not ok pathological: $2: $problem"
        failed=1
    fi
}

# make KIND N [WRONG]: the source in $work/x.xml.
make() {
    awk -v kind="$1" -v n="$2" -v wrong="${3:-}" -f "$here/generate.awk" \
        >"$work/x.xml" || exit 2
}

# case KIND N STATUS [COMMAND]
try() {
    make "$1" "$2"
    run "${4:-check}" "$1 $2${4:+, $4}" "$3" "$work/x.xml"
}

# The limit of elements inside each other is 64: pattern, quilt, 61, patch.
try nested 61 0
try nested 61 0 build
try nested 62 1
try nested 100000 1

try patches 20000 0
try patches 2000 0 build
try grid 200 0
try grid 201 1
try grid 100 0 build
try map 100 0
try chain 99 0 build
# Pieces inside each other through uses, at most 200: told on both sides.
try depth 200 0 build
try depth 201 1
try depth 10000 1
try deepest 2 0
try deepest 5 1
try cycle 30000 1
try unknown 3000 1
try wrong-cell 10000 1
try wrong-blocks 40 1
try shapes 5000 0
try shapes 5001 1
# A few lines that ask for 2 to the power of so many patches.
try doubling 12 0 build
try doubling 40 "1|3"
try doubling 3000 "1|3"
# Each in casts that multiply like permutations.
try casts 7 0 build
try casts 12 0
try casts 60 1
make casts 10 yes
run check "casts with a wrong step" 1 "$work/x.xml"

try open-sums 4000 1
try wide-sum 4000 1
try errors 20000 1
try borders 40 0 build
try borders 41 1
try borders 1000 1

try picture 2000 0
try picture 10001 1
make picture 500 yes
run check "a wide picture with one wrong square" 1 "$work/x.xml"
# What lies wrong is found: the words of the map are not asked two by two.
for wrong in 1 2 3; do
    make quilt-picture 200 $wrong
    run check "a quilt of 40000 squares, $wrong wrong" 1 "$work/x.xml"
done

try huge 60 1
try huge 60 1 list
try comment 16000000 0
try comment 16800000 3
try name 200 0 build
try name 201 1
try name 9000000 1
try name 15000000 "1|3"
try prose 500 0 build
try prose 1000000 1

# ---- not even a pattern ----

printf '' >"$work/empty.xml"
run check "an empty file" 1 "$work/empty.xml"
head -c 1000000 /dev/zero >"$work/zero.xml"
run check "zero bytes" 1 "$work/zero.xml"
awk 'BEGIN { for (i = 0; i < 500000; i++) printf "<a>" }' >"$work/open.xml"
run check "half a million open elements" 1 "$work/open.xml"
awk 'BEGIN { printf "<pattern "; for (i = 0; i < 200000; i++) printf "a%d=\"\" ", i
             print "/>" }' >"$work/wide.xml"
run check "two hundred thousand attributes" 1 "$work/wide.xml"
awk 'BEGIN { print "<!DOCTYPE p [<!ENTITY a \"aaaaaaaaaa\">"
             for (i = 0; i < 30; i++)
                 printf "<!ENTITY a%d \"&a%s;&a%s;\">\n", i, i ? i - 1 : "",
                        i ? i - 1 : ""
             print "]><pattern>&a29;</pattern>" }' >"$work/laughs.xml"
run check "entities that grow" 1 "$work/laughs.xml"
awk 'BEGIN { for (i = 0; i < 1000000; i++) print "&" }' >"$work/amps.xml"
run check "a million stray ampersands" 1 "$work/amps.xml"

exit $failed
