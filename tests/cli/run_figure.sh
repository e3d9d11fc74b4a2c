#!/bin/bash
# `seamwright figure` and `build --folding` from outside: names, both forms,
# errors, the same bytes twice. Prints `ok NAME` or `not ok NAME` for each case.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
root=$PWD
case $SEAMWRIGHT in
/*) program=$SEAMWRIGHT ;;
*) program=$root/$SEAMWRIGHT ;;
esac
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
unset NO_COLOR SOURCE_DATE_EPOCH
sample=$root/samples/lantern-walk.xml
vane=$root/samples/vane-harbor.xml
cd "$work" || exit 2

# result NAME COMMAND...: the case holds where the command succeeds.
result() {
    name=$1
    shift
    if "$@" >said 2>&1; then
        echo "ok figure: $name"
    else
        cut -c1-300 said | head -5
        echo "not ok figure: $name"
        failed=1
    fi
}

# status WANTED ARGUMENT...: runs the program, keeps its streams in out and err.
status() {
    wanted=$1
    shift
    "$program" "$@" >out 2>err </dev/null
    found=$?
    [ $found -eq "$wanted" ] || { echo "status $found, not $wanted"; return 1; }
}
empty() {
    [ ! -s "$1" ] || { echo "$1 is not empty:"; head -3 "$1"; return 1; }
}
holds() {
    grep -qF -e "$2" "$1" || { echo "$1 lacks: $2"; head -3 "$1"; return 1; }
}

# ---- names ----

lists_names() {
    status 0 figure "$sample" && cp out names &&
        [ "$(cut -d' ' -f1 names | sort | uniq -d | wc -l)" -eq 0 ] &&
        ! grep -vE '^[a-z]+(-[A-Za-z0-9._-]+)*  +[^ ]' names || return 1
    for name in quilt block-lantern unit-wing step-1 cutting-A cutting-A-1; do
        grep -q "^$name  " names || { echo "no $name"; return 1; }
    done
    grep -q '^block-lantern  *Lantern, the finished block$' names &&
        grep -q '^step-4  *Step 4, Wing$' names &&
        status 0 list --json "$sample" || return 1
    [ "$(grep -c '^step-' names)" -eq "$(jq '[.quilts[0].steps[].number] | unique | length' out)" ]
}
every_name_draws() {
    while read -r name title; do
        status 0 figure "$sample" "$name" -o "each.svg" && empty out &&
            xmllint --noout each.svg && holds each.svg "$title" || return 1
    done <names
}
near_name() {
    status 2 figure "$sample" block-lantrn && empty out &&
        holds err 'did you mean `block-lantern`?'
}
far_name() {
    status 2 figure "$sample" kettle -o no.svg && empty out &&
        holds err "lists all names" && [ ! -e no.svg ]
}

result "lists names with titles" lists_names
result "every name draws a figure with its title" every_name_draws
result "a name that is nearly right" near_name
result "a name that is near to nothing" far_name

# ---- forms ----

svg_out() {
    status 0 figure "$sample" step-1 && cp out stdout.svg &&
        status 0 figure "$sample" step-1 -o step.svg && cmp stdout.svg step.svg &&
        [ "$(xmllint --xpath 'name(/*)' step.svg)" = svg ]
}
# The words of the step's captions are text, and so are its labels.
svg_words() {
    text=$(xmllint --xpath "string(//*[local-name()='svg'])" step.svg)
    for word in A1 B2 rising unfinished; do
        case $text in *"$word"*) ;; *) echo "no $word"; return 1 ;; esac
    done
}
png_out() {
    status 0 figure "$sample" quilt -o quilt.png && empty out &&
        status 0 figure "$sample" quilt -o fine.png --resolution 300 &&
        status 0 figure "$sample" quilt -o quilt.svg || return 1
    # Width of the picture in pixels: bytes 17 to 20 of the file.
    for form in quilt:150 fine:300; do
        wide=$(od -An -tu1 -j16 -N4 "${form%:*}.png" |
            awk '{ print (($1 * 256 + $2) * 256 + $3) * 256 + $4 }')
        xmllint --xpath 'string(/*/@width)' quilt.svg | awk -v wide="$wide" \
            -v dpi="${form#*:}" '{ off = wide - $1 / 25.4 * dpi
                exit !(off > -1 && off < 1.01) }' || { echo "$form"; return 1; }
    done
}
same_twice() {
    for form in svg png; do
        status 0 figure "$vane" step-4 -o "one.$form" &&
            (cd / && LC_ALL=C.UTF-8 TZ=Asia/Tokyo "$program" figure "$vane" \
                step-4 -o "$work/two.$form" 2>"$work/err") &&
            cmp "one.$form" "two.$form" || return 1
    done
}
choices() {
    status 0 figure "$vane" quilt --quilt bed --colorway pine -o pine.svg &&
        status 0 figure "$vane" quilt --quilt bed --colorway heather -o heather.svg &&
        ! cmp -s pine.svg heather.svg && holds pine.svg 'id="quilt-bed-pine"' &&
        status 2 figure "$vane" quilt --quilt king && holds err '`bed`'
}
# Two colorways of one figure in one page.
ids_meet() {
    cat pine.svg heather.svg | grep -o ' id="[^"]*"' | sort | uniq -d >double
    empty double
}

# Blocks in several casts; the name of one cast is that of another block.
casts() {
    cat >casts.xml <<'END'
<pattern xmlns="urn:seamwright:pattern:1" id="moor" title="Moor">
  <fabrics> <fabric id="peat"/> <fabric id="heath"/> <fabric id="bog"/> </fabrics>
  <colorway id="dawn"> <cloth fabric="peat" color="#402f26"/>
    <cloth fabric="heath" color="#86577e"/> <cloth fabric="bog" color="#6f7f45"/> </colorway>
  <block id="cairn" name="Cairn" grid="3"> <role id="top" fabric="peat"/> <role id="foot" fabric="bog"/>
    <column press="open"> <patch fabric="top" height="1"/> <patch fabric="foot" height="2"/> </column> </block>
  <block id="cairn-heath" grid="3"> <row press="open"> <patch fabric="peat" width="1"/> <patch fabric="bog" width="2"/> </row> </block>
  <quilt id="mat"> <row press="open">
    <use block="cairn" finished="6"/> <use block="cairn" finished="6" with="top=heath"/>
    <use block="cairn-heath" finished="6"/>
    <use block="cairn" finished="6" with="top=heath"/> </row> </quilt>
</pattern>
END
    status 0 figure casts.xml || return 1
    grep -o '^block[^ ]*' out | LC_ALL=C sort | tr '\n' ' ' >names.casts
    [ "$(cat names.casts)" = 'block-cairn block-cairn-heath block-cairn-heath-2 ' ] ||
        { cat names.casts; return 1; }
    grep -q '^block-cairn-heath  *cairn-heath, the finished block$' out &&
        grep -q '^block-cairn-heath-2  *Cairn (heath), the finished block$' out &&
        status 0 figure casts.xml block-cairn-heath-2 -o other.svg &&
        status 0 figure casts.xml block-cairn -o first.svg &&
        grep -q '#86577e' other.svg && ! grep -q '#86577e' first.svg
}

result "each cast of a block has a figure" casts
result "SVG on standard output and in a file" svg_out
result "words of an SVG are text" svg_words
result "PNG in two resolutions, as large as the SVG" png_out
result "the same bytes twice" same_twice
result "--quilt and --colorway choose" choices
result "ids of two colorways do not meet" ids_meet

# ---- wrong usage, files that fail ----

wrong_usage() {
    status 2 figure "$@" && empty out && grep -qE "^Try 'seamwright( [a-z]+)? --help'\.$" err
}
full_output() {
    "$program" figure "$sample" quilt >/dev/full 2>err
    [ $? -eq 4 ]
}
keeps_old() {
    echo mine >kept.svg && sed 's/"rising"/"sideways"/' "$sample" >broken.xml &&
        status 1 figure broken.xml quilt -o kept.svg &&
        [ "$(cat kept.svg)" = mine ]
}
no_leftovers() {
    status 4 figure "$sample" quilt -o missing/x.svg && holds err missing/x.svg &&
        mkdir dir.svg && status 4 figure "$sample" quilt -o dir.svg &&
        [ -z "$(find . -name '.seamwright-*')" ]
}
result "an ending that is neither" wrong_usage "$sample" quilt -o x.gif
result "no ending" wrong_usage "$sample" quilt -o svg
result "-o without a name" wrong_usage "$sample" -o x.svg
result "three words" wrong_usage "$sample" quilt step-1
result "no file" wrong_usage
result "resolution of an SVG" wrong_usage "$sample" quilt -o x.svg --resolution 300
for number in 0 35 601 -5 150dpi 99999999999999999999 ''; do
    result "resolution '$number'" wrong_usage "$sample" quilt -o x.png \
        "--resolution=$number"
done
result "standard output is full" full_output
result "a source with mistakes keeps the old file" keeps_old
result "a file that cannot be written leaves nothing" no_leftovers

# ---- sheets for folding ----

folding() {
    status 0 build "$sample" -o plain && status 0 build --folding "$sample" -o both &&
        [ "$(ls both | wc -l)" -eq $(($(ls plain | wc -l) + 1)) ] &&
        cmp plain/lantern-walk-throw-dusk.pdf both/lantern-walk-throw-dusk.pdf
}
folding_pages() {
    pages=$(pdfinfo both/lantern-walk-throw-dusk.pdf | awk '/^Pages:/ { print $2 }')
    sheets=both/lantern-walk-throw-dusk-folding.pdf
    qpdf --check $sheets >checked 2>&1 || return 1
    pdfinfo $sheets >info && grep -q 'Page size: *792 x 612 pts' info &&
        [ "$(awk '/^Pages:/ { print $2 }' info)" -eq $(((pages + 3) / 4 * 2)) ] &&
        pdftotext -f 1 -l 1 $sheets - | grep -q "$pages / $pages"
}
folding_a4() {
    status 0 build --folding --paper a4 "$vane" -o a4 &&
        [ "$(ls a4/*-folding.pdf | wc -l)" -eq 6 ] &&
        pdfinfo a4/vane-harbor-bed-pine-folding.pdf |
        grep -qE 'Page size: *841\.(8|9)[0-9]* x 595\.2[0-9]* pts'
}
folding_twice() {
    status 0 build --folding "$sample" -o again && diff -r both again
}
result "build --folding adds a file" folding
result "sheets: paper, sides, words" folding_pages
result "sheets of A4, one set a booklet" folding_a4
result "sheets: the same bytes twice" folding_twice

help_tells() {
    status 0 --help && for word in 'figure FILE [NAME]' --folding --resolution; do
        holds out "$word" || return 1
    done
}
result "all of it stands in the help" help_tells
exit $failed
