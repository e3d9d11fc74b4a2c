#!/bin/bash
# Every number and every direction that a booklet prints lies in a claim, in
# English and in German: pages are read back with pdftotext, and each number,
# label and fraction of them is looked for in claims.csv; of each line that tells
# a direction, all its words in their order. Of "seams 1 to 29" and "lines 1 to
# 46" each is one. What a page says of itself ("3 / 12") is no claim. And how
# claims are shared, and what the command refuses.
set -u
about=""
. "$(dirname "$0")/packets.sh"

# numbers: those of standard input, each once.
numbers() {
    grep -oP '[A-Z]*[0-9¼½¾⅐-⅞][0-9¼½¾⅐-⅞.,⁄]*' | sed 's/[.,]*$//' | sort -u
}

# ranges: the numbers of "seams 1 to 29".
ranges() {
    grep -oP '(seams 1 to|lines 1 to|Nähte 1 bis|Linien 1 bis) \K[0-9]+' | sort -n | tail -1 |
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
    last=$(pdfinfo "$1" | sed -n 's/^Pages: *//p')
    # Numbers of pages, below them and in the list of the back cover, the inches
    # along the ruler that is printed, and its length.
    { pdftotext -layout -l $((last - 1)) "$1" -
        pdftotext -layout -f "$last" "$1" - | sed 's/   *[0-9]* *$//'; } |
        sed -E 's|[0-9]* / [0-9]* *$||; s/^ *1 +2 +3 [0-9 ]*$//
            s/(The whole line measures|Die ganze Linie misst) .*//' | numbers |
        comm -23 - "$work/told" | tr '\n' ' '
}

# Words that tell a direction, by what they begin with: the test's own, not those
# that the program goes by.
# Gulls sit down and a sewer gets up: both are directions of seams alone, as are
# above and below of a line or a seam.
directions_en='rising|falling|left|right|bottom|upright|sideways|upward'
directions_en+='|downward|clockwise|toward|open|mirror|across'
directions_en+='|seams?[ 0-9,to]* (up|down)|(above|below) the (line|seam)'
directions_en+='|outward|inward|crosswise|lengthwise|diagonally'
directions_de='steigend|fallend|links|rechts|linke|rechte|oben|unten|obere|untere'
directions_de+='|aufwärts|abwärts|aufrecht|quer|uhrzeigersinn|auseinander'
directions_de+='|gespiegelt|spiegelbild|senkrecht|waagerecht|außen|innen'

# plain: words alone. A hyphen at the end of a line is not read back.
plain() {
    tr -d '\r' | sed -E 's/([[:alpha:]])-([[:alpha:]])/\1\2/g
        s/[^[:alnum:]¼½¾⅓⅔⅛⅜⅝⅞╱╲]+/ /g; s/^ //; s/ $//'
}

# directed LANGUAGE: the lines of standard input that tell a direction, without
# the letter of a frame before them.
directed() {
    local words=directions_$1
    grep -iE "(^|[^[:alpha:]])(${!words})" | plain | sed -E 's/^[a-z] //' | sort -u
}

# undirected LANGUAGE PDF: the lines with a direction that are in no claim of
# $work/claims.
undirected() {
    plain <"$work/claims" >"$work/plain"
    pdftotext "$2" - | directed "$1" >"$work/directed"
    awk 'NR == FNR { all = all "\n " $0 " "; next }
        !index(all, " " $0 " ")' "$work/plain" "$work/directed" | tr '\n' ';'
}

lines=0
for language in en de; do
    for sample in samples/*.xml tests/driver/pages/*.xml; do
        pattern=$(basename "$sample" .xml)
        "$SEAMWRIGHT" build "$sample" --language $language -o "$work/built" \
            >"$work/out" 2>&1 &&
            "$SEAMWRIGHT" proof "$sample" --language $language \
                -o "$work/proof" >"$work/out" 2>&1 ||
            result "claims of $pattern" "$(cat "$work/out")"
        while IFS=, read -r quilt colorway; do
            name=$pattern-$quilt-$colorway.pdf
            [ -s "$work/proof/proof-$name" ] ||
                result "packet $name" "is not there"
            result "claims of $name, $language" "$(unclaimed \
                "$work/built/$name" "$work/proof/claims.csv" "$quilt" "$colorway")"
            result "directions of $name, $language" \
                "$(undirected $language "$work/built/$name")"
            lines=$((lines + $(wc -l <"$work/directed")))
        done < <(tail -n +2 "$work/proof/claims.csv" | tr -d '\r' |
            cut -d, -f4,5 | sort -u)
    done
done
result "there are directions to look at: $lines" \
    "$([ "$lines" -ge 1000 ] || echo "only $lines lines")"

# The test sees what it is to see: with no claims of steps, their directions lack.
grep -v rising "$work/claims" >"$work/fewer"
mv "$work/fewer" "$work/claims"
"$SEAMWRIGHT" build samples/vane-harbor.xml --quilt bed --colorway pine \
    --language en -o "$work/built" >"$work/out" 2>&1
result "a direction without a claim is found" \
    "$(undirected en "$work"/built/vane-harbor-bed-pine.pdf | grep -q rising ||
        echo "it is not")"

# ---- sharing ----

one=samples/lantern-walk.xml
for tester in 1 2 3 4 5; do
    "$SEAMWRIGHT" proof "$one" --colorway dusk --testers 5 --tester $tester \
        -o "$work/of$tester" >"$work/out" 2>&1
    tail -n +2 "$work/of$tester/claims.csv" | cut -d, -f7
done | sort -n | uniq -c | awk '{ print $1 }' | sort | uniq -c >"$work/times"
"$SEAMWRIGHT" proof "$one" --colorway dusk -o "$work/all" >"$work/out" 2>&1
of_kind() { # KINDS: how many claims there are of them
    tail -n +2 "$work/all/claims.csv" | cut -d, -f8 | grep -cE "^($1)$"
}
result "each claim goes to two of five, what is measured to all" \
    "$(printf '%s 2\n%s 5\n' "$(of_kind 'shown|asked')" \
        "$(of_kind 'strips|size')" | diff - <(awk '{ print $1, $2 }' "$work/times"))"

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
