#!/bin/bash
# Every number that a booklet prints lies in a claim: pages are read back with
# pdftotext, and each number, label and fraction of them is looked for in
# claims.csv. Of "seams 1 to 29" and "lines 1 to 46" each is one. What a page
# says of itself ("3 / 12") is no claim. And how claims are shared, and what the
# command refuses.
set -u
cd "$(dirname "$0")/../.." || exit 2
root=$PWD
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
case $SEAMWRIGHT in
/*) ;;
*) SEAMWRIGHT=$root/$SEAMWRIGHT ;;
esac
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
export LC_ALL=C.UTF-8

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

# numbers: those of standard input, each once.
numbers() {
    grep -oP '[A-Z]*[0-9¼½¾⅐-⅞][0-9¼½¾⅐-⅞.,⁄]*' | sed 's/[.,]*$//' | sort -u
}

# ranges: the numbers of "seams 1 to 29".
ranges() {
    grep -oP '(seams|lines) 1 to \K[0-9]+' | sort -n | tail -1 |
        while read -r last; do seq 1 "$last"; done
}

# told_in: section and text of the rows on standard input, without what stands
# behind them: the answer, which is empty, the measure, and 9 cells more.
told_in() {
    cut -d, -f9- | tr -d '\r' | sed -E 's/,,(,[a-z0-9]*){9}$//'
}

# unclaimed PDF CSV QUILT COLORWAY: the numbers without a claim.
unclaimed() {
    grep ",$3,$4," "$2" | told_in >"$work/claims"
    { numbers <"$work/claims"; ranges <"$work/claims"; } | sort -u >"$work/told"
    pdftotext -layout "$1" - | sed 's|[0-9]* / [0-9]* *$||' | numbers |
        comm -23 - "$work/told" | tr '\n' ' '
}

for pattern in eight-sails gull-rock lantern-walk lone-beacon orchard-gate \
    reed-lights turning-lamp vane-harbor; do
    sample=samples/$pattern.xml
    "$SEAMWRIGHT" build "$sample" --language en -o "$work/built" \
        >"$work/out" 2>&1 &&
        "$SEAMWRIGHT" proof "$sample" --language en -o "$work/proof" \
            >"$work/out" 2>&1 || result "claims of $pattern" "$(cat "$work/out")"
    while IFS=, read -r quilt colorway; do
        name=$pattern-$quilt-$colorway.pdf
        [ -s "$work/proof/proof-$name" ] || result "packet $name" "is not there"
        result "claims of $name" "$(unclaimed "$work/built/$name" \
            "$work/proof/claims.csv" "$quilt" "$colorway")"
    done < <(tail -n +2 "$work/proof/claims.csv" | tr -d '\r' |
        cut -d, -f4,5 | sort -u)
done

# ---- sharing ----

one=samples/lantern-walk.xml
for tester in 1 2 3 4 5; do
    "$SEAMWRIGHT" proof "$one" --colorway dusk --testers 5 --tester $tester \
        -o "$work/of$tester" >"$work/out" 2>&1
    tail -n +2 "$work/of$tester/claims.csv" | cut -d, -f7
done | sort -n | uniq -c | awk '{ print $1 }' | sort | uniq -c >"$work/times"
"$SEAMWRIGHT" proof "$one" --colorway dusk -o "$work/all" >"$work/out" 2>&1
count=$(tail -n +2 "$work/all/claims.csv" | wc -l)
[ "$(awk '{ print $1, $2 }' "$work/times")" = "$count 2" ]
result "each claim goes to two of five" \
    "$([ $? -eq 0 ] || tr '\n' ';' <"$work/times")"

# ---- what is refused ----

refuses() { # CASE WORDS ARGUMENT...: status 2, the words, nothing written.
    local name=$1 words=$2 status
    shift 2
    "$SEAMWRIGHT" proof "$one" -o "$work/none" "$@" >"$work/out" 2>&1
    status=$?
    if [ $status -ne 2 ] || [ -e "$work/none" ] || ! grep -qF -- "$words" "$work/out"; then
        result "$name" "status $status: $(cat "$work/out")"
    else
        result "$name" ""
    fi
}
refuses "a tester too many" "--tester is from 1 to 3" --testers 3 --tester 4
refuses "testers alone" "go together" --testers 3
refuses "tester alone" "go together" --tester 1
refuses "no number" "--testers is from 1 to 99, not" --testers some --tester 1
refuses "no tester 0" "--tester is from 1 to 99, not" --testers 3 --tester 0
exit $failed
