#!/bin/bash
# The command: its exit status, what it refuses, data against sources, the sheet.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
case $SEAMWRIGHT in /*) ;; *) SEAMWRIGHT=$PWD/$SEAMWRIGHT ;; esac
export LC_ALL=C.UTF-8
samples=$PWD/samples
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 2
failed=0
LIMIT_SECONDS=$([ -n "${SANITIZED:-}" ] && echo 200 || echo 30)

result() { # CASE COMMAND...: succeeds, or the case failed
    if "${@:2}"; then
        echo "ok compare: $1"
    else
        echo "not ok compare: $1: $(head -c 300 err | tr '\n' ' ')"
        failed=1
    fi
}
status() { # STATUS WORDS...
    "$SEAMWRIGHT" "${@:2}" >out 2>err
    [ $? -eq "$1" ]
}

old=$samples/orchard-gate.xml
sed 's/ yards="[^"]*"//; s/revision="[^"]*"/revision="9"/' "$old" >other.xml
sed 's/color="#\(.\)/color="#0/' other.xml >color.xml
"$SEAMWRIGHT" build "$old" -o made >/dev/null 2>&1

nothing() { status 0 compare "$old" other.xml && grep -q 'nothing changed' out; }
itself_as_data() { status 0 compare made/pattern.json "$old" && [ ! -s err ]; }
words() { status 6 compare "$old" color.xml && grep -q 'Color of' out; }
# All but the page is said alike of a source and of its data.
alike() {
    status 6 compare --json "$old" color.xml && jq '.changes[] | del(.where)' out >a &&
        status 6 compare --json made/pattern.json color.xml &&
        jq '.changes[] | del(.where)' out >b && [ -s a ] && cmp a b
}
broken() {
    sed 's/<fabrics>/<fabricks>/' "$old" >broken.xml
    status 1 compare "$old" broken.xml -o x.pdf && [ ! -e x.pdf ] && grep -q 'error' err
}
stranger() {
    status 2 compare "$old" "$samples/vane-harbor.xml" -o x.pdf && [ ! -e x.pdf ] &&
        grep -q 'not the same pattern' err
}
no_json() {
    echo '{ "version": 2, ' >no.json
    status 1 compare no.json "$old" -o x.pdf && [ ! -e x.pdf ] &&
        grep -q 'no JSON: line 2' err
}
other_json() {
    echo '{ "name": "value" }' >no.json
    status 1 compare no.json "$old" && grep -q 'not the data of a pattern' err
}
newer() {
    jq '.version = 3' made/pattern.json >new.json
    status 1 compare new.json "$old" && grep -q 'version 3' err
}
hurt() { # wrong types, places that are not there
    for change in '.quilts[0].steps[0].parts[0].step = 999' '.quilts = [7]' \
        '.quilts[0].pieces[0].cut.width = "wide"' '.fabrics = {}' \
        '.quilts[0].pieces[0].count = -1' '.quilts[0].pieces[0].fabric = "none"' \
        '.quilts[0].steps[0].faces = ["x"]' '.quilts[0].steps[0].actions[0].seams = ["up 0/1,0/1"]' \
        '.quilts[0].steps[0].actions[0].seams = ["up 0/1,0/1 0/1"]' \
        '.quilts[0].quilting.lines = [{"points": [["1"], ["2", "2"]]}]' \
        '.quilts[0].quilting.lines = [{"points": [["1", "wide"], ["2", "2"]]}]' '.quilts[0].colorways[0].cloths = 1'; do
        jq "$change" made/pattern.json >hurt.json
        status 1 compare hurt.json "$old" || { echo "$change" >>err; return 1; }
    done
}
unplaced() { # parts of which nobody knows where they lie, pieces without a size
    for change in 'del(.quilts[].steps[].parts[].x)' 'del(.quilts[].steps[0].parts[0].y)' \
        'del(.quilts[].pieces[].cut.height)'; do
        jq "$change" made/pattern.json >unplaced.json
        "$SEAMWRIGHT" compare unplaced.json "$old" >out 2>err
        [ $? -ne 5 ] && ! grep -q 'runtime error' err || { echo "$change" >>err; return 1; }
        "$SEAMWRIGHT" compare "$old" unplaced.json >out 2>err
        [ $? -ne 5 ] && ! grep -q 'runtime error' err || { echo "$change" >>err; return 1; }
    done
}
twice() { # what is compared by its id has one
    for change in '.quilts += .quilts' '.fabrics += [.fabrics[0]]' \
        '.quilts[0].colorways += .quilts[0].colorways'; do
        jq "$change" made/pattern.json >twice.json
        status 1 compare twice.json "$old" && grep -q 'have the id' err ||
            { echo "$change" >>err; return 1; }
    done
}
endless() { # no pattern has so many
    jq -c '.quilts[0].pieces as [$piece] | .quilts[0].pieces = [range(40000) | $piece]' \
        made/pattern.json >endless.json
    status 1 compare endless.json "$old" && grep -q 'more than 30000 pieces' err
}
# rows COUNT FABRICS NAME HEIGHT: a quilt of that many rows, all of other sizes.
rows() {
    awk -v count="$1" -v fabrics="$2" -v name="$3" -v height="$4" 'BEGIN {
        print "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"rows\" title=\"Rows\"><fabrics>"
        for (i = 0; i < fabrics; i++) print "<fabric id=\"" name i "\"/>"
        print "</fabrics><colorway id=\"c\">"
        for (i = 0; i < fabrics; i++)
            printf "<cloth fabric=\"%s%d\" name=\"Cotton %s%d\" color=\"#%06x\"/>\n", name, i, name, i, i * 7919
        print "</colorway><quilt id=\"q\"><column>"
        for (i = 0; i < count; i++)
            printf "<row><patch fabric=\"%s%d\" width=\"%.3f\" height=\"%.3f\"/>" \
                "<patch fabric=\"%s%d\" width=\"%.3f\"/></row>\n", name, i % fabrics,
                1 + i % 160 / 8, height + int(i / 160) / 8, name, (i + 1) % fabrics,
                40 - i % 160 / 8
        print "</column></quilt></pattern>"
    }'
}
# Far more changes than anyone reads; what assigned each to its mate took minutes.
all_else() {
    rows 1500 3 r 1 >rows.xml && rows 1500 3 r 6 >else.xml
    timeout "$LIMIT_SECONDS" "$SEAMWRIGHT" compare rows.xml else.xml >out 2>err
    [ $? -eq 6 ]
}
all_renamed() {
    rows 300 80 r 1 >rows.xml && rows 300 80 s 1 >else.xml
    timeout "$LIMIT_SECONDS" "$SEAMWRIGHT" compare rows.xml else.xml >out 2>err
    [ $? -eq 6 ] && ! grep -q 'Cut fabric is wrong' out
}
roots() { # lengths with roots: data against their source, and one that is longer
    cat >root.xml <<'END'
<pattern xmlns="urn:seamwright:pattern:1" id="weir" title="Weir">
  <fabrics> <fabric id="moss"/> <fabric id="rush"/> </fabrics>
  <colorway id="noon"> <cloth fabric="moss" color="#4f5b36"/> <cloth fabric="rush" color="#a0905c"/> </colorway>
  <quilt id="mat"> <row press="open"> <patch fabric="moss" width="6r2" height="6"/> <patch fabric="rush" width="r3 - 1"/> </row> </quilt>
</pattern>
END
    sed 's/6r2/5r2/' root.xml >shorter.xml
    "$SEAMWRIGHT" build root.xml -o rooted >out 2>err &&
        grep -q '"width": "6√2"' rooted/pattern.json &&
        status 0 compare rooted/pattern.json root.xml && grep -q 'nothing changed' out &&
        status 6 compare rooted/pattern.json shorter.xml && grep -q '7 5/8 x 6 1/2 in' out &&
        sed 's/"6√2"/"6√7"/' rooted/pattern.json >hurt.json &&
        status 1 compare hurt.json root.xml && grep -q 'is no length: `6√7`' err
}
earlier() { # data as builds wrote them before there was a comparison
    jq 'del(.pattern.looks, .pattern.skill, .pattern.summary, .quilts[].result,
        .quilts[].steps[].result, .quilts[].steps[].faces, .quilts[].steps[].says,
        .quilts[].steps[].name, .quilts[].steps[].parts[].step,
        .quilts[].colorways[].pages)' made/pattern.json >earlier.json
    "$SEAMWRIGHT" compare earlier.json "$old" >out 2>err
    [ $? -ne 1 ] && grep -q 'as far as they go' err &&
        ! grep -q 'Cut fabric is wrong' out
}
first_version() {
    jq '.version = 1' made/pattern.json >first.json
    status 0 compare first.json "$old" && grep -q 'words alone' err
}
sheet() { # LANGUAGE PAPER WIDTH WORDS
    status 6 compare "$old" border.xml -o sheet.pdf --language "$1" --paper "$2" &&
        pdfinfo sheet.pdf | grep -q "Page size: *$3" &&
        pdftotext -layout sheet.pdf - >text && grep -q "$4" text &&
        qpdf --check sheet.pdf >/dev/null 2>&1 && [ "$(pdfinfo sheet.pdf | sed -n 's/^Pages: *//p')" -le 2 ]
}
sed 's/ yards="[^"]*"//; s/ finished="[0-9 /x]*">/>/; s/<binding \(.*\) width="[^"]*"/<binding \1/;
    s/<binding /<binding width="2" /; s/revision="[^"]*"/revision="9"/' "$old" >border.xml
usage() {
    status 2 compare "$old" && status 2 compare "$old" "$old" "$old" &&
        status 2 compare "$old" "$old" -o x.png && status 2 compare - - &&
        status 2 compare "$old" "$old" --paper a4 && status 4 compare "$old" nowhere.xml
}
# Two rows change places: neither their parts nor their size tell it.
lamp=$samples/turning-lamp.xml
sed 's/<map> a a.m a a.m a a.m </<map> TOP </; s/<map> a.m a a.m a a.m a </<map> a a.m a a.m a a.m </
    s/TOP/a.m a a.m a a.m a/' "$lamp" >places.xml
exchanged() {
    status 6 compare "$lamp" places.xml && grep -q 'parts in their old places' out &&
        ! grep -A1 'old: 62 x 62' out | grep -q 'new: 62 x 62' &&
        grep -q 'Quilt center, comes out otherwise' out && ! grep -q Border out
}
exchanged_sheet() { # laid out of its blocks, as data tell no faces of so large a cloth
    status 6 compare "$lamp" places.xml -o sheet.pdf && pdftotext sheet.pdf text &&
        grep -q 'old: Quilt center' text && grep -q 'what differs is outlined' text
}
# Some earlier builds made digests that did not tell all cloths apart.
blunt() {
    jq '(.. | objects | select(has("result")).result) |= ltrimstr("m")' \
        made/pattern.json >blunt.json
    status 0 compare blunt.json "$old" && grep -q 'as far as they go' err
}
# Two quilts in three colorways: each line says for which booklet it is.
two_quilts() {
    sed 's/ yards="[^"]*"//; s/\(left="deep" right="tide"\) method="two"/\1 method="one"/' \
        "$samples/vane-harbor.xml" >two.xml
    status 6 compare "$samples/vane-harbor.xml" two.xml -o sheet.pdf && pdftotext sheet.pdf text &&
        grep -q 'Throw, Heather: Bramble cotton: buy' text && grep -q 'Bed quilt: Of pieces' text
}
# Pieces serve, their numbers differ: the block that takes others is shown.
counts() {
    sed '/<picture cells="8"/,/<.picture>/d' "$samples/eight-sails.xml" >sails.xml
    sed 's/2\*( B P M T/B P M T N W R S B P M T/; s/N W R S )/N W R N/; s/ yards="[^"]*"//' \
        sails.xml >counts.xml
    status 6 compare sails.xml counts.xml -o sheet.pdf && pdftotext sheet.pdf text &&
        grep -q 'their numbers differ' text && grep -q 'what differs is outlined' text &&
        ! grep -q 'Cut fabric is wrong' text
}
# One seam of several goes another way: what goes on alike is told once, but each
# seam stands by itself in the data.
one_seam() {
    seam='.quilts[0].steps[] | select([.actions[].seams[]?] | length > 2) | .actions[].seams'
    jq "(first($seam)[1]) |= sub(\"^[a-z-]+\"; \"up-left\")" made/pattern.json >seam.json
    status 6 compare made/pattern.json seam.json -o sheet.pdf && grep -q 'sewn another way' out &&
        pdftotext sheet.pdf text && tr '\n' ' ' <text | grep -q 'arrows on the seams that differ'
}
# Another way to press, from data that do not tell seams by themselves: told, not
# drawn.
seamless() {
    "$SEAMWRIGHT" list --json "$samples/vane-harbor.xml" 2>err |
        jq 'del(.. | objects | .seams?)' >seamless.json
    sed 's/<row press="left">/<row press="right">/' "$samples/vane-harbor.xml" >pressed.xml
    status 6 compare seamless.json pressed.xml -o sheet.pdf && grep -q 'sewn another way' out &&
        pdftotext sheet.pdf text && ! grep -q arrows text &&
        status 6 compare "$samples/vane-harbor.xml" pressed.xml -o sheet.pdf &&
        pdftotext sheet.pdf text && tr '\n' ' ' <text | grep -q 'arrows on the seams that differ' &&
        tr '\n' ' ' <text | grep -q 'Throw, page [0-9]* of the old booklet; Bed quilt'
}
# Lines of quilting: both tops, and who has not quilted is concerned.
quilting() {
    sed 's/spacing="1\/2" corners="rounded"/spacing="3\/4" corners="rounded"/' \
        "$samples/reed-lights.xml" >echoes.xml
    status 6 compare "$samples/reed-lights.xml" echoes.xml -o sheet.pdf && pdftotext sheet.pdf text &&
        [ "$(grep -c 'old: quilting' text)" -eq 2 ] && grep -q 'have not quilted yet' text &&
        grep -q 'Quilt by the new booklet' text && grep -q 'Both booklets say Revision' text &&
        ! grep -q 'Compare the steps below' text
    sed 's/with="pebbles" spacing="2"/with="swirls" spacing="2"/' "$samples/reed-lights.xml" >swirls.xml
    status 6 compare "$samples/reed-lights.xml" swirls.xml -o sheet.pdf && pdftotext sheet.pdf text &&
        tr '\n' ' ' <text | grep -q 'filled otherwise have a dashed outline'
}
# A wider border makes the quilt larger: all that is bought more of comes of it, the
# cloth of the binding, too.
round_about() {
    sed 's/\(<border.*\) finished="[^"]*"/\1/; s/\(<quilt .*\) finished="[^"]*"/\1/' \
        "$samples/../tests/driver/pages/slack-water.xml" >slack.xml
    sed 's/border fabric="buoy" width="1"/border fabric="buoy" width="3"/' slack.xml >wider.xml
    status 6 compare --json slack.xml wider.xml &&
        [ "$(jq '[.changes[] | select(.harm == "cloth")] | length' out)" -gt 3 ] &&
        [ "$(jq '[.changes[] | select(.harm == "cloth" and (.follows | not))] | length' out)" -eq 0 ]
}
# Another backing in two colorways: told once for each quilt with the page of its
# layers, sizes as a ruler has them, the gap of lines only where it is another.
backing() {
    sed 's/<backing fabric="shed"\/> <batting max-gap="10"\/>/<backing fabric="tar" overage="6"\/> <batting max-gap="10"\/>/
        s/ yards="[^"]*"//' "$samples/net-racks.xml" >backing.xml
    status 6 compare "$samples/net-racks.xml" backing.xml -o sheet.pdf &&
        [ "$(grep -c '  Backing' out)" -eq 2 ] && [ "$(grep -c '  Batting' out)" -eq 2 ] &&
        ! grep -q 'r2\|apart' out && grep -q 'about 50 7/8 x about 61 3/8 in' out || return 1
    page=$(sed -n 's/.*Backing (Lap quilt, page \([0-9]*\) of.*/\1/p' out)
    "$SEAMWRIGHT" build "$samples/net-racks.xml" -o racks >/dev/null 2>&1
    pdftotext -f "$page" -l "$page" racks/net-racks-lap-north-light.pdf - | grep -q 'Backing and layers' &&
        pdftotext sheet.pdf text && [ "$(pdfinfo sheet.pdf | sed -n 's/^Pages: *//p')" -eq 1 ] &&
        tr '\n' ' ' <text | grep -q 'Lap quilt: Backing: now Tar' && ! grep -q 'Lamp hour:' text &&
        tr '\n' ' ' <text | grep -q 'Buy backing and batting as is told above'
}
# One step makes a block in eight casts: its pressing is told once, without a cast.
casts() {
    # Without its quilting, whose paths go where seams are pressed.
    sed '/<quilting>/,/<\/quilting>/d' "$samples/eight-sails.xml" >sails.xml
    sed 's/<grid across="2" down="2" press="open">/<grid across="2" down="2">/' \
        sails.xml >casts.xml
    status 6 compare sails.xml casts.xml -o sheet.pdf &&
        [ "$(grep -c 'is sewn another way' out)" -eq 1 ] && grep -q 'Step 2, Pinwheel, is' out &&
        [ "$(pdfinfo sheet.pdf | sed -n 's/^Pages: *//p')" -eq 1 ] &&
        [ "$("$SEAMWRIGHT" compare --json sails.xml casts.xml 2>err |
            jq '.changes | length')" -eq 8 ]
}
no_sheet() { status 0 compare "$old" other.xml -o none.pdf && [ ! -e none.pdf ]; }
stdin_side() { "$SEAMWRIGHT" compare - "$old" <made/pattern.json >out 2>err; }

result "another revision number is no change" nothing
result "a source and its own data" itself_as_data
result "a color is words" words
result "data and source are told alike" alike
result "a broken source" broken
result "two patterns" stranger
result "no JSON" no_json
result "JSON of something else" other_json
result "data of a later version" newer
result "hurt data" hurt
result "data without places or sizes" unplaced
result "an id that stands twice" twice
result "data without end" endless
result "a quilt of other sizes throughout" all_else
result "all fabrics renamed" all_renamed
result "data of an earlier build" earlier
result "lengths with roots" roots
result "data of version 1" first_version
result "the sheet, letter" sheet en letter 612 'Where are you?'
result "the sheet, A4 in German" sheet de a4 595 'Wie weit sind Sie?'
result "rows that changed places" exchanged
result "a sheet of rows that changed places" exchanged_sheet
result "a sheet of other numbers" counts
result "a sheet of two quilts in several colorways" two_quilts
result "one seam of several is pressed otherwise" one_seam
result "pressing in both figures, or in words from older data" seamless
result "lines of quilting in both figures" quilting
result "a binding that gets longer with its quilt" round_about
result "another backing, told once for all colorways" backing
result "a block in several casts is told once" casts
result "data of a build with blunt digests" blunt
result "wrong usage" usage
result "no sheet where nothing changed" no_sheet
result "data on standard input" stdin_side
exit $failed
