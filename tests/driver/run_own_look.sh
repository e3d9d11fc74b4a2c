#!/bin/sh
# A booklet with a designer's own face and logo, built by the confined program
# from files beside the source: which fonts lie in the PDF (poppler), whose the
# logo is, and that the same files give the same bytes. Prints `ok NAME` or
# `not ok NAME`.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$BUILD/tests/own-look
failed=0
rm -rf -- "$work"
mkdir -p "$work/fonts"

result() {
    if [ -z "$2" ]; then
        echo "ok own look: $1"
    else
        echo "not ok own look: $1: $2"
        failed=1
    fi
}

# built NAME: builds the source into a folder of that name, on A4.
built() {
    "$SEAMWRIGHT" build "$work/$1.xml" --paper a4 -o "$work/$2" >"$work/log" 2>&1 ||
        tail -n 3 "$work/log"
}
fonts() { pdffonts "$work/$1"/*.pdf | awk 'NR > 2 { sub(/^[A-Z]*\+/, ""); print $1 }'; }

# No page of the sample has words in italics.
cp templates/fonts/NotoSans-Italic.ttf "$work/fonts/harbor.ttf"
cp samples/lantern-walk.xml "$work/plain.xml"
"$SEAMWRIGHT" figure samples/lantern-walk.xml quilt -o "$work/mark.png" \
    >"$work/log" 2>&1
sed 's|<about |<about logo="mark.png" display-face="fonts/harbor.ttf" |' \
    "$work/plain.xml" >"$work/own.xml"

result "plain is built" "$(built plain plain)"
result "with face and logo" "$(built own own)"
problem=
fonts plain | grep -q Vollkorn || problem="no Vollkorn in the plain one"
fonts plain | grep -q Italic && problem="italics in the plain one"
fonts own | grep -q NotoSans-Italic || problem="the face is not embedded"
fonts own | grep -q Vollkorn && problem="Vollkorn is left"
result "its fonts" "$problem"
problem=
[ "$(pdfimages -list "$work"/own/*.pdf | grep -c image)" -eq 2 ] ||
    problem="$(pdfimages -list "$work"/own/*.pdf | wc -l) lines of images"
result "the logo stands twice" "$problem"
result "again" "$(built own again)"
problem=
cmp -s "$work"/own/*.pdf "$work"/again/*.pdf || problem="other bytes"
result "the same bytes" "$problem"

# What is cut short is told, and the last output stays.
head -c 20000 templates/fonts/NotoSans-Italic.ttf >"$work/fonts/harbor.ttf"
"$SEAMWRIGHT" build "$work/own.xml" --paper a4 -o "$work/own" >"$work/log" 2>&1
status=$?
problem=
[ $status -eq 1 ] || problem="status $status"
grep -q 'damaged or cut short \[font\]' "$work/log" || problem="not told"
cmp -s "$work"/own/*.pdf "$work"/again/*.pdf || problem="the output changed"
result "a damaged font" "$problem"
exit $failed
