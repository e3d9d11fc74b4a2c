#!/bin/sh
# Every booklet of the samples, on both papers, against the machine rules for
# accessible PDFs (ISO 14289-1), by programs that are not ours: qpdf for
# objects and operators, poppler for text and fonts, libxml2 for metadata. Each
# rule is shown to fail on a file with one fault.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
here=tests/render
work=$BUILD/tests/pdf-structure
LIMIT=400000
FACTS="title=Title creator=Author description=Subject"
failed=0
rm -rf -- "$work"
mkdir -p "$work"

result() {
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

build() { "$SEAMWRIGHT" build "$1" --paper "$2" -o "$3" >"$work/log" 2>&1; }
rules() { jq -rf "$here/pdf_structure.jq" "$1" 2>&1; }
operators() { qpdf --qdf --normalize-content=y --object-streams=disable "$1" -; }
marks() { LC_ALL=C awk -f "$here/pdf_marks.awk" "$1" 2>&1; }

# The packet of metadata says what the file's other facts say.
metadata() {
    number=$(jq -r '.qpdf[1] | .["obj:" + .trailer.value["/Root"]].value["/Metadata"]
                    | split(" ")[0]' "$2")
    qpdf --show-object="$number" --filtered-stream-data "$1" >"$work/xmp" ||
        echo "no stream"
    pdfinfo -enc UTF-8 "$1" >"$work/info"
    for pair in $FACTS; do
        told=$(xmllint --xpath "string(//*[local-name()='${pair%=*}']//*[local-name()='li'])" \
            "$work/xmp" 2>&1)
        wanted=$(sed -n "s/^${pair#*=}: *//p" "$work/info")
        [ -n "$told" ] && [ "$told" = "$wanted" ] ||
            echo "${pair%=*} is \`$told', not \`$wanted'"
    done
    grep -q '<dc:language><rdf:Bag><rdf:li>en<' "$work/xmp" || echo "no language"
}

fonts() {
    pdffonts "$1" | tail -n +3 | awk '
        $(NF-4) != "yes" || $(NF-3) != "yes" || $(NF-2) != "yes" { print }
        END { if (NR < 2) print NR " fonts" }'
}

# Words in the column, and words in the structure: the same ones. The line at the
# foot of a page is an artifact.
column_words() {
    pdftotext -bbox "$1" - | awk -F'"' '
        /<page /  { height = $4 }
        /<word /  { word = $0; sub(/^[^>]*>/, "", word); sub(/<.*/, "", word)
                    if ($8 < height - 37) print word }' |
        sed 's/&lt;/</g; s/&gt;/>/g; s/&quot;/"/g; s/\&\(apos\|#39\);/'"'"'/g; s/&amp;/\&/g' |
        tr -d '\n ' | fold_signs
}
structure_words() {
    pdfinfo -enc UTF-8 -struct-text "$1" | sed -n 's/^ *"\(.*\)"$/\1/p' |
        tr -d '\n ' | fold_signs
}
# Characters in their order count for nothing here: figures are read in the
# order in which they were drawn. H8 is about order.
fold_signs() {
    sed 's/\xc2\xa0//g' | LC_ALL=C fold -b -w1 | LC_ALL=C sort | LC_ALL=C uniq -c
}
words() {
    column_words "$1" >"$work/column"
    structure_words "$1" >"$work/tree"
    [ "$(wc -l <"$work/column")" -gt 20 ] || echo "hardly a word"
    cmp -s "$work/column" "$work/tree" ||
        diff "$work/column" "$work/tree" | head -n 5
}

check_booklet() {
    qpdf --json=2 "$1" >"$work/json" || { result "$2: qpdf" "cannot read"; return; }
    operators "$1" >"$work/qdf"
    result "$2: sound" "$(qpdf --check "$1" 2>&1 | grep -v -e '^checking' \
        -e '^PDF Version' -e 'not encrypted' -e 'not linearized' \
        -e '^No syntax' -e '^errors that')"
    result "$2: structure" "$(rules "$work/json")"
    result "$2: marks" "$(marks "$work/qdf")"
    result "$2: metadata" "$(metadata "$1" "$work/json")"
    result "$2: fonts" "$(fonts "$1")"
    result "$2: words" "$(words "$1")"
    size=$(wc -c <"$1")
    result "$2: $size bytes" "$([ "$size" -lt $LIMIT ] || echo "too large")"
}

for sample in samples/*.xml; do
    name=$(basename "$sample" .xml)
    for paper in letter a4; do
        build "$sample" $paper "$work/$name-$paper"
        result "$name $paper: built" "$([ $? -eq 0 ] || cat "$work/log")"
        for pdf in "$work/$name-$paper"/*.pdf; do
            check_booklet "$pdf" "$(basename "$pdf" .pdf) $paper"
        done
    done
done

# ---- papers of an order ----

# Nobody is told as their author.
orders() { "$SEAMWRIGHT" kit "$1" --paper "$2" -o "$3" >"$work/log" 2>&1; }
FACTS="title=Title description=Subject"
PAPER=1
export PAPER
for order in samples/*.kits; do
    name=$(basename "$order" .kits)
    for paper in letter a4; do
        orders "$order" $paper "$work/$name-$paper"
        result "$name $paper: built" "$([ $? -eq 0 ] || cat "$work/log")"
        for pdf in "$work/$name-$paper"/*.pdf; do
            check_booklet "$pdf" "$name $(basename "$pdf" .pdf) $paper"
        done
    done
    orders "$order" a4 "$work/$name-again"
    result "$name: the same bytes" \
        "$(diff -r "$work/$name-a4" "$work/$name-again" 2>&1)"
done
# The rules for papers still find what is wrong with one.
sheet=$(ls "$work"/*-letter/slips.pdf | head -n 1)
qpdf --json=2 "$sheet" >"$work/json"
jq '(.qpdf[1] | to_entries | map(select(.value.value? | objects
     | .["/S"]? == "/TR"))) [0].key as $k
    | .qpdf[1][$k].value["/K"] |= .[:-1]' "$work/json" >"$work/mutant"
result "papers: a cell dropped is told" \
    "$(rules "$work/mutant" | grep -q '^H6' || echo nothing)"
unset PAPER

# ---- the same bytes ----

SOURCE_DATE_EPOCH=1000000000
export SOURCE_DATE_EPOCH
for run in 1 2; do
    TZ=Asia/Tokyo build samples/lantern-walk.xml letter "$work/epoch-$run"
done
result "epoch: the same bytes" "$(diff -r "$work/epoch-1" "$work/epoch-2" 2>&1)"
# 1000000000 s after 1970 is 2001-09-09 01:46:40 (POSIX.1-2017, 4.16).
result "epoch: both dates" "$(TZ=UTC pdfinfo -isodates "$work/epoch-1"/*.pdf |
    awk '/^(Creation|Mod)Date: *2001-09-09T01:46:40Z$/ { n++ }
         END { if (n != 2) print n + 0 }')"
unset SOURCE_DATE_EPOCH
build samples/lantern-walk.xml letter "$work/again"
result "no epoch: the same bytes" \
    "$(diff -r "$work/lantern-walk-letter" "$work/again" 2>&1)"

# ---- every rule can fail ----

pdf=$(echo "$work"/lantern-walk-letter/*.pdf)
qpdf --json=2 "$pdf" >"$work/json"
operators "$pdf" >"$work/qdf"

# mutant RULE NAME FILTER: the rule tells of a file with that fault. `first` is
# the first object of a type.
mutant() {
    jq 'def of($key; $name): .qpdf[1] | to_entries
            | map(select(.value.value? | objects | .[$key]? == $name)) | .[0].key;
        def first($name): of("/S"; $name);
        def root: .qpdf[1] | "obj:" + .trailer.value["/Root"];
        def at($key): .qpdf[1][$key].value;
        '"$3" "$work/json" >"$work/mutant" 2>"$work/log" || cat "$work/log"
    told=$(rules "$work/mutant")
    case $told in
    "$1 "*) result "mutant: $2" "" ;;
    *) result "mutant: $2" "the rules say \`$told'" ;;
    esac
}
mutant H1 "not marked" 'root as $k | at($k)["/MarkInfo"]["/Marked"] = false'
mutant H3 "scaled when printed" \
    'root as $k | at($k)["/ViewerPreferences"]["/PrintScaling"] = "/AppDefault"'
mutant H3 "no language" 'root as $k | del(at($k)["/Lang"])'
mutant H3 "no metadata" 'root as $k | del(at($k)["/Metadata"])'
mutant H4 "a figure without words" 'first("/Figure") as $k | del(at($k)["/Alt"])'
mutant H5 "a level skipped" 'first("/H2") as $k | at($k)["/S"] = "/H3"'
mutant H5 "the first heading" 'first("/H1") as $k | at($k)["/S"] = "/H2"'
mutant H6 "a cell dropped" 'first("/TR") as $k | at($k)["/K"] |= .[:-1]'
mutant H6 "a cell that is none" 'first("/TD") as $k | at($k)["/S"] = "/P"'
mutant H6 "a head without scope" 'first("/TH") as $k | del(at($k)["/A"])'
mutant H7 "an item without label" 'first("/LI") as $k | at($k)["/K"] |= .[1:]'
mutant H7 "a list of paragraphs" 'first("/LI") as $k | at($k)["/S"] = "/P"'
mutant H8 "two elements swapped" \
    'first("/Document") as $k | at($k)["/K"] |= [.[1], .[0]] + .[2:]'
mutant H8 "an element left out" \
    'first("/Document") as $k | at($k)["/K"] |= .[1:]'
mutant H9 "glyphs without a map" \
    'of("/Subtype"; "/CIDFontType2") as $k | del(at($k)["/CIDToGIDMap"])'
mutant H10 "bookmarks counted below zero" \
    'of("/Type"; "/Outlines") as $k | at($k)["/Count"] = -5'
mutant H10 "a link without words" \
    'of("/Subtype"; "/Link") as $k | del(at($k)["/Contents"])'
mutant H10 "a link to nowhere" \
    'of("/Subtype"; "/Link") as $k | at($k)["/Dest"] = "u:step-99"'
mutant H10 "no order of tabs" \
    '(.qpdf[1] | to_entries | map(select(.value.value? | objects
        | has("/Annots"))) | .[0].key) as $k | del(at($k)["/Tabs"])'

# mark_mutant NAME COMMAND...: the same for operators.
mark_mutant() {
    name=$1
    shift
    LC_ALL=C "$@" "$work/qdf" >"$work/mutant"
    case $(marks "$work/mutant") in
    *H2*) result "mutant: $name" "" ;;
    *) result "mutant: $name" "the rule says nothing" ;;
    esac
}
mark_mutant "an artifact that does not begin" \
    awk '/^\/Artifact BMC$/ && !n++ { next } { print }'
mark_mutant "an element that does not end" \
    awk '/^EMC$/ && !n++ { next } { print }'
mark_mutant "an artifact inside an element" \
    awk '{ print } /MCID 3 / && !n++ { print "/Artifact BMC\nEMC" }'

exit $failed
