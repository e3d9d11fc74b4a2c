#!/bin/bash
# What a message of quilting says in words, done by hand: each row is a case of
# tests/codes, words of its message, and the change that they ask for. Behind
# that the source has no message left. Mends that a program can apply are tried
# by tests/codes/run_codes.sh; both together reach every case of quilting, which
# the end of this script asks.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$BUILD/tests/quilting-mends
failed=0
rm -rf -- "$work"
mkdir -p "$work"

# tell NAME PROBLEM: no problem is a success.
tell() {
    if [ -z "$2" ]; then
        echo "ok mend of $1"
    else
        echo "not ok mend of $1: $2"
        failed=1
    fi
}

# mend CASE WORDS SED...: the words stand in the message; behind the change there
# is none.
mend() {
    case_name=$1 words=$2
    shift 2
    echo "$case_name" >>"$work/tried"
    sed "$@" "tests/codes/$case_name.xml" >"$work/$case_name.xml"
    if ! grep -qF -- "$words" "tests/codes/$case_name.err"; then
        tell "$case_name" "the message does not say \"$words\""
    elif cmp -s "tests/codes/$case_name.xml" "$work/$case_name.xml"; then
        tell "$case_name" "nothing was changed"
    else
        tell "$case_name" "$("$SEAMWRIGHT" check --color never \
            "$work/$case_name.xml" 2>&1)"
    fi
}

# A gap: a line or a fill, where nothing is stitched.
mend quilt-gap 'an `area` of `night` with a `fill`' \
    's|</quilting>|<area> <fill with="swirls" spacing="1" thread="quiet"/> </area>&|'
mend quilt-gap.largest 'an `area` of `flame` with a `fill`' \
    's|</quilting>|<area> <fill with="swirls" spacing="1" thread="quiet"/> </area>&|'
# Places and lines that are not there.
mend no-shape 'without `of` the whole top' 's| of="wing"||'
mend no-seam.extend 'where it ends' 's|<extend.*||'
mend extend-open 'until="edge"' 's|into="night"|& until="edge"|'
mend no-area 'fits `fabric="flame"` without more' 's| row="1" column="1"||'
mend fill-unused 'words that fit fewer areas' \
    '0,/<area fabric="flame">/s||<area fabric="night">|'
mend area-twice 'words that fit one of the two alone' \
    's|<area row="1"|& fabric="flame"|'
# Statements and symmetry.
mend asymmetric 'without `symmetry`' 's| symmetry="left-right"||'
mend asymmetric.line 'and none lies' 's|along="rising"|along="across"|'
mend one-sided 'its quilting is not' 's|along="rising"|along="across"|'
mend asymmetric.fill 'not filled as the one' 's|with="pebbles"|with="swirls"|'
# What is looked at before stitching.
mend ruler-reach 'a ruler of 6 in' 's|ruler="5"|ruler="6"|'
mend lines-crowd.ends 'stop="1/4"' 's|pair="all"|& stop="1/4"|'
mend density 'a wider spacing in area a' 's|spacing="1/4"|spacing="1"|'
mend ditch-open 'pressed to one side' 's| press="open"||'
mend start-extra 'a seam pressed to one side' 's| press="open"||'
mend no-gap 'write max-gap' 's|<batting */>|<batting max-gap="4"/>|'
# Too fine, and too many.
mend limit.echoes 'a wider spacing' 's|"1/10000" times="1000"|"1/2" times="3"|'
mend limit.thousand 'times="all"' 's|times="1000"|times="all"|'
mend limit.fills 'a wider spacing' \
    's|spacing="1/1000"|spacing="1/2"|; s| press="open"||'

# Every case of a message of quilting has a mend of one kind or the other.
for file in tests/codes/*.xml; do
    case_name=$(basename "$file" .xml)
    grep -q '<quilting' "$file" || continue
    sed -n '/\* quilting \*/,/\* orders of kits \*/p' include/diag_catalogue.h |
        grep -qF "\"${case_name%%.*}\"" || continue
    if ! grep -qxF "$case_name" "$work/tried" &&
        ! "$SEAMWRIGHT" check --diagnostics=json "$file" 2>&1 |
            grep -q '"fix"'; then
        tell "$case_name" 'no mend was tried'
    fi
done
exit $failed
