#!/bin/bash
# The page of limits and the program say the same: for each line of the page, a
# pattern at the limit passes, and one just over it is told with the name in
# brackets. The numbers are read from the page. Prints `ok NAME` or `not ok NAME`
# for each case; a line of the page that no case is for is a failure.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
generate=tests/pathological/generate.awk
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

# A line each, without its dash: what belongs to it is put behind it.
awk '/^- / { if (line) print line; line = substr($0, 3); next }
     /^  [^ ]/ && line { sub(/^ */, ""); line = line " " $0; next }
     { if (line) print line; line = "" }' templates/manual/limits.md >"$work/lines"

# number WORDS [K]: the Kth number of the line that begins with WORDS. Commas in
# it are left out.
number() {
    line=$(grep -F "$1" "$work/lines" | head -1)
    echo "$1" >>"$work/used"
    echo "$line" | grep -oE '[0-9][0-9,]*' | tr -d , | sed -n "${2:-1}p"
}

say() { # NAME PROBLEM
    if [ -z "$2" ]; then
        echo "ok limits: $1"
    else
        echo "not ok limits: $1: $2"
        failed=1
    fi
}

# both NAME MESSAGE: $work/at.xml has no such message, $work/over.xml has. Others
# do not count, but at the limit none may be of this name.
both() {
    problem=
    for side in at over; do
        [ -s "$work/$side.xml" ] || problem="no pattern $side it"
        timeout -k 5 120 "$SEAMWRIGHT" check "$work/$side.xml" \
            >"$work/out" 2>"$work/err.$side" </dev/null
        [ $? -lt 3 ] || problem="$side it: the check did not end"
    done
    grep -q "\[$2\]\$" "$work/err.over" || problem="over it: not told"
    ! grep -q "\[$2\]\$" "$work/err.at" || problem="at it: told"
    say "$1" "$problem"
    rm -f "$work"/*.xml
}

# What is more than the limit on this side of it.
extra() { [ "$1" = over ] && echo 1 || echo 0; }

# made KIND AT OVER: of tests/pathological.
made() {
    awk -v kind="$1" -v n="$2" -f $generate >"$work/at.xml"
    awk -v kind="$1" -v n="$3" -f $generate >"$work/over.xml"
}

# pattern SIDE [COLORWAYS]: standard input between head and end of a pattern.
pattern() {
    {
        echo '<pattern xmlns="urn:seamwright:pattern:1" id="reef" title="Reef"><fabrics>'
        echo '<fabric id="kelp" key="k"/><fabric id="sand" key="s"/></fabrics>'
        for i in $(seq "${2:-1}"); do
            echo "<colorway id=\"c$i\"><cloth fabric=\"kelp\" color=\"#224433\"/>"
            echo '<cloth fabric="sand" color="#ccbb88"/></colorway>'
        done
        cat
        echo '</pattern>'
    } >"$work/$1.xml"
}

small='<quilt id="mat"><patch fabric="kelp" width="4" height="4"/></quilt>'

# times TEXT N
times() { awk -v t="$1" -v n="$2" 'BEGIN { for (i = 0; i < n; i++) printf "%s", t }'; }

# pieces ELEMENT ID N: a unit, block or quilt of N pieces of cloth, N above 30. A
# grid of patches with four corners each, which are five, and patches below it.
pieces() {
    awk -v element="$1" -v id="$2" -v n="$3" 'BEGIN {
        cells = int((n - 2) / 5); if (cells > 39000) cells = 39000
        across = int(sqrt(cells)); down = int(cells / across)
        print "<" element " id=\"" id "\"><column><grid across=\"" across \
              "\" down=\"" down "\"><patch fabric=\"kelp\" width=\"2\" height=\"2\">"
        split("top-left top-right bottom-right bottom-left", at, " ")
        for (i = 1; i <= 4; i++)
            print "<corner at=\"" at[i] "\" fabric=\"sand\" size=\"1/2\"/>"
        print "</patch></grid>"
        rest = n - 2 - 5 * across * down
        # Rows of patches: each row is one, too.
        while (rest > 0) {
            row = rest - 1 > 400 ? 400 : rest - 1
            if (rest - 1 - row == 1) row--
            if (row < 1) { print "<patch fabric=\"sand\" height=\"1\"/>"; rest--; continue }
            printf "<row>"
            for (i = 0; i < row; i++)
                printf "<patch fabric=\"sand\" width=\"%d/%d\" height=\"1\"/>", \
                       2 * across, row
            print "</row>"
            rest -= row + 1
        }
        print "</column></" element ">" }'
}

# ---- the file ----

bytes=$(($(number "source: 16 MiB") * 1024 * 1024))
pattern at <<<"$small"
for more in 0 1; do
    cp "$work/at.xml" "$work/big.xml"
    head -c $((bytes - $(wc -c <"$work/at.xml") + more)) /dev/zero |
        tr '\0' ' ' >>"$work/big.xml"
    "$SEAMWRIGHT" check "$work/big.xml" >"$work/out" 2>"$work/err" </dev/null
    found=$?
    problem=
    [ $found -eq $((3 * more)) ] || problem="status $found"
    say "a source $([ $more = 0 ] && echo at || echo over) it" "$problem"
done
rm -f "$work"/*.xml

shared='<shared xmlns="urn:seamwright:pattern:1">'
most=$(number "shared files: 100")
mkdir "$work/many" "$work/deep"
for i in $(seq $((most + 1))); do
    echo "$shared</shared>" >"$work/many/$i.xml"
done
for side in at over; do
    {
        echo "$small"
        for i in $(seq $((most + $(extra $side)))); do
            echo "<include href=\"many/$i.xml\"/>"
        done
    } | pattern $side
done
both "shared files" limit

# Each includes the one with a lower number.
most=$(number "shared files inside each other")
echo "$shared</shared>" >"$work/deep/0.xml"
for i in $(seq "$most"); do
    echo "$shared<include href=\"$((i - 1)).xml\"/></shared>" >"$work/deep/$i.xml"
done
for side in at over; do
    inner=$((most - 1 + $(extra $side)))
    echo "$small <include href=\"deep/$inner.xml\"/>" | pattern $side
done
both "shared files inside each other" limit

bytes=$(($(number "a source and its shared files together") * 1024 * 1024))
for side in at over; do
    echo "$small <include href=\"many/1.xml\"/><include href=\"$side.blank\"/>" |
        pattern $side
    rest=$((bytes - $(wc -c <"$work/$side.xml") - $(wc -c <"$work/many/1.xml")))
    {
        echo "$shared</shared>"
        head -c $((rest - ${#shared} - 10 + $(extra $side))) /dev/zero |
            tr '\0' ' '
    } >"$work/$side.blank"
done
both "a source and its shared files" include
rm -rf "$work"/*.blank "$work/many" "$work/deep"

# Of these elements three are none of the generator's rows and columns.
most=$(number "elements inside each other")
made nested $((most - 3)) $((most - 2))
both "elements inside each other" limit

most=$(number "rows, columns, grids and uses inside each other")
made depth "$most" $((most + 1))
both "pieces inside each other" limit

most=$(number "attributes in one tag")
for side in at over; do
    n=$((most + $(extra $side)))
    pattern $side <<<"<quilt $(for i in $(seq "$n"); do printf 'a%d="" ' "$i"; done)/>"
done
both "attributes in one tag" limit

most=$(number "cells in a grid")
pattern at <<<"<quilt id=\"mat\"><grid across=\"200\" down=\"$((most / 200))\"><patch fabric=\"kelp\" width=\"1\" height=\"1\"/></grid></quilt>"
over=$(awk -v n=$((most + 1)) 'BEGIN { for (a = 2; n % a || n / a > 10000; a++) ; print a }')
pattern over <<<"<quilt id=\"mat\"><grid across=\"$over\" down=\"$(((most + 1) / over))\"><patch fabric=\"kelp\" width=\"1\" height=\"1\"/></grid></quilt>"
both "cells in a grid" limit

most=$(number "cells of a map with counts")
mapped() { # ACROSS DOWN MAP
    echo "<quilt id=\"mat\"><grid across=\"$1\" down=\"$2\"><patch key=\"k\" fabric=\"kelp\" width=\"1\" height=\"1\"/><map>$3</map></grid></quilt>"
}
mapped 200 $((most / 200)) "200*($((most / 200))*k)" | pattern at
mapped 200 $((most / 200)) "200*($((most / 200))*k) 1*k" | pattern over
both "cells of a map with counts" map

most=$(number "groups of a map or a picture inside each other")
nested() { # DEPTH
    awk -v n="$1" 'BEGIN { for (i = 0; i < n; i++) printf "1*("; printf "k"
                           for (i = 0; i < n; i++) printf ")" }'
}
mapped 1 1 "$(nested "$most")" | pattern at
mapped 1 1 "$(nested $((most + 1)))" | pattern over
both "groups inside each other" map

# Half of them in a quilt and half in a unit, as pieces have limits of their own.
most=$(number "cells that \`times\` and counts repeat, all together")
repeated() { # CELLS
    row='<row><patch fabric="kelp" width="1" height="1" times="10000"/></row>'
    rows=$(awk -v row="$row" 'BEGIN { for (i = 0; i < 10; i++) print row }')
    echo "<unit id=\"pod\"><column>$rows</column></unit><quilt id=\"mat\"><column>$rows"
    echo "<row width=\"10000\"><patch fabric=\"kelp\" height=\"1\" times=\"$(($1 - 20 * 9999 + 1))\"/></row>"
    echo "</column></quilt>"
}
repeated "$most" | pattern at
repeated $((most + 1)) | pattern over
both "repeats all together" limit

most=$(number "borders around a quilt")
made borders "$most" $((most + 1))
both "borders around a quilt" limit

# ---- roles ----

# A unit of N roles, named ID; one has a piece.
roles() {
    awk -v id="$1" -v n="$2" 'BEGIN {
        print "<unit id=\"" id "\">"
        for (i = 0; i < n; i++)
            print "<role id=\"r" i "\" fabric=\"kelp\"/>"
        print "<patch fabric=\"r0\" width=\"4\" height=\"4\"/></unit>" }'
}
most=$(number "roles in a unit or block")
{ roles pod "$most"; echo "$small"; } | pattern at
{ roles pod $((most + 1)); echo "$small"; } | pattern over
both "roles in a unit" limit

all=$(number "roles in all units and blocks")
for side in at over; do
    {
        for i in $(seq $((all / most))); do roles "u$i" "$most"; done
        [ $side = at ] || roles more 1
        echo "$small"
    } | pattern $side
done
both "roles in all units" limit

# A row of uses, each in a cast of its own: its number, told in two fabrics. The
# first is the default.
most=$(number "casts in which units and blocks are sewn")
casts() {
    awk -v n="$1" 'BEGIN {
        print "<unit id=\"pod\">"
        for (i = 0; i < 12; i++) print "<role id=\"r" i "\" fabric=\"kelp\"/>"
        print "<column press=\"open\">"
        for (i = 0; i < 12; i++)
            print "<patch fabric=\"r" i "\" width=\"1\" height=\"1\"/>"
        print "</column></unit><quilt id=\"mat\"><row press=\"open\">"
        for (k = 0; k < n; k++) {
            printf "<use unit=\"pod\" with=\"r0=%s", k % 2 ? "sand" : "kelp"
            for (i = 1; i < 12; i++)
                if (int(k / 2 ^ i) % 2) printf " r%d=sand", i
            print "\"/>"
        }
        print "</row></quilt>" }'
}
casts "$most" | pattern at
casts $((most + 1)) | pattern over
both "casts" limit

# ---- pieces ----

most=$(number "pieces of cloth in a unit, block or quilt")
pieces quilt mat "$most" | pattern at
pieces quilt mat $((most + 1)) | pattern over
both "pieces of cloth in a quilt" limit

most=$(number "pieces of cloth in all quilts, and in all units and blocks")
half=$((most / 2))
for kind in quilt block; do
    for side in at over; do
        {
            pieces $kind one $half
            pieces $kind two $((most - half + $(extra $side)))
            [ $kind = quilt ] || echo "$small"
        } | pattern $side
    done
    both "pieces of cloth in all ${kind}s" limit
done

most=$(number "pieces that all booklets draw")
pieces quilt mat $((most / 5)) | pattern at 5
pieces quilt mat $((most / 5 + 1)) | pattern over 5
both "pieces that all booklets draw" limit

# Columns of patches of which no two are alike: with the row that joins them,
# COLUMNS * (PATCHES + 1) + 1. One patch more beside it is a step more, too.
most=$(number "cut sizes and steps that all booklets tell")
told() {
    awk -v most="$most" -v more="$1" 'BEGIN {
        for (a = 30; (most - 1) % a; a++) ;
        print "<quilt id=\"mat\"><column><row>"
        for (i = 0; i < a; i++) {
            printf "<column>"
            for (k = 0; k < (most - 1) / a - 1; k++)
                printf "<patch fabric=\"kelp\" width=\"%d/8\" height=\"%d/8\"/>", \
                       8 + i, 800 + k
            print "</column>"
        }
        print "</row>" (more ? "<patch fabric=\"sand\" height=\"3\"/>" : "") \
              "</column></quilt>" }'
}
told 0 | pattern at
told 1 | pattern over
both "cut sizes and steps that booklets tell" limit

# Twice the same step is another message.
most=$(number "assemblies and their steps")
for side in at over; do
    n=$((most - 1 + $(extra $side)))
    pattern $side <<<"$small<assembly of=\"mat\">$(times '<step make="mat"/>' $n)</assembly>"
done
both "assemblies and steps" limit

# A thread, and lines that are all one and the same.
most=$(number 'elements in a `quilting`')
for side in at over; do
    n=$((most - 1 + $(extra $side)))
    pattern $side <<<"<quilt id=\"mat\"><row>$(times '<patch fabric="kelp" width="4" height="4"/>' 2)</row><quilting><thread id=\"t\" match=\"kelp\"/>$(times '<ditch thread="t"/>' $n)</quilting></quilt>"
done
both "elements in a quilting" limit

# Ten areas with 9,999 lines each, as one alone may not have many more, and one
# with what is left or one line more.
most=$(number "straight stretches of all lines of a quilt's quilting")
for side in at over; do
    spacing=$([ $side = at ] && echo 1.1 || echo 1)
    pattern $side <<<"<quilt id=\"mat\"><column>$(times '<patch fabric="kelp" width="4" height="10"/><patch fabric="sand" height="10"/>' $((most / 20000)))<patch fabric=\"kelp\" height=\"11\"/></column><quilting><thread id=\"t\" match=\"kelp\"/><area row=\"11\"><fill with=\"lines\" spacing=\"$spacing\" thread=\"t\"/></area><area><fill with=\"lines\" spacing=\"1/1000\" thread=\"t\"/></area></quilting></quilt>"
done
both "stretches of quilting" limit

# ---- texts ----

most=$(number "a name, a title or another text")
made name "$most" $((most + 1))
both "a name" value

most=$(number "an id, and each name of a fabric, unit or block")
pattern at <<<"${small/mat/$(times m "$most")}"
pattern over <<<"${small/mat/$(times m $((most + 1)))}"
both "an id" value

most=$(number "the text of a \`summary\` or a \`say\`")
pattern at <<<"<about><summary>$(times w "$most")</summary></about>$small"
pattern over <<<"<about><summary>$(times w $((most + 1)))</summary></about>$small"
both "a summary" limit

# ---- pictures ----

most=$(number "shapes in a picture" 1)
made shapes "$most" $((most + 1))
both "shapes in a picture" limit

# A comb: its teeth are corners, three more close it.
comb() {
    awk -v n="$1" 'BEGIN { print "<block id=\"b\" grid=\"200 x 2\"><patch fabric=\"kelp\"/><picture>"
        print "<shape fabric=\"kelp\" points=\"0,0 200,0 200,2 0,2\"/>"
        printf "<shape fabric=\"kelp\" points=\"0,0 %d,0", n
        for (i = n - 2; i > 0; i--) printf " %d,%d", i, 1 + i % 2
        print "\"/></picture></block><quilt id=\"mat\"><use block=\"b\" finished=\"200 x 2\"/></quilt>" }'
}
most=$(number "shapes in a picture" 2)
comb "$most" | pattern at
comb $((most + 1)) | pattern over
both "corners of a shape" limit

# Blocks of squares, told in one picture each; those over it have one with three
# corners more.
most=$(number "shapes in a picture" 3)
squares() {
    awk -v n="$1" 'BEGIN { for (b = 0; n > 0; b++) {
        m = n > 1000 ? 1000 : n; n -= m
        print "<block id=\"b" b "\" grid=\"" m " x 1\"><grid across=\"" m \
              "\" down=\"1\"><patch fabric=\"kelp\" width=\"1\" height=\"1\"/></grid><picture>"
        for (i = 0; i < m; i++)
            print "<shape fabric=\"kelp\" points=\"" i ",0 " i + 1 ",0 " i + 1 ",1 " i ",1\"/>"
        print "</picture></block>" } }'
}
{ squares $((most / 4)); echo "$small"; } | pattern at
{ squares $((most / 4)); echo "$small<block id=\"t\" grid=\"1\"><patch fabric=\"kelp\"/><picture><shape fabric=\"kelp\" points=\"0,0 1,0 1,1\"/></picture></block>"; } | pattern over
both "corners of all shapes" limit

# Patches of a row, so many of which the picture shows in another fabric.
wrong() {
    awk -v n="$1" 'BEGIN {
        print "<block id=\"b\" grid=\"24 x 1\"><row>"
        for (i = 0; i < 24; i++)
            print "<patch fabric=\"kelp\" width=\"1\"/>"
        printf "</row><picture>"
        for (i = 0; i < 24; i++)
            printf "%s ", i % 2 == 0 && i / 2 < n ? "s" : "k"
        print "</picture></block><quilt id=\"mat\"><use block=\"b\" finished=\"24 x 1\"/></quilt>" }'
}
most=$(number "mistakes found apart in one block")
wrong "$most" | pattern at
wrong $((most + 1)) | pattern over
both "mistakes found apart" picture

# ---- booklets ----

most=$(number "booklets of a pattern")
pattern at "$most" <<<"$small"
pattern over $((most + 1)) <<<"$small"
both "booklets" limit

# PATTERN-QUILT-COLORWAY-folding.pdf: 64 letters of two bytes are the longest id.
most=$(number "the file name of a booklet")
for side in at over; do
    rest=$((most - 128 - 64 - 3 - 11 + $(extra $side)))
    pattern $side <<<"${small/mat/$(times é 64)}"
    sed -i "s/id=\"reef\"/id=\"$(times r 64)\"/; s/id=\"c1\"/id=\"$(times é $((rest / 2)))$(times c $((rest % 2)))\"/" "$work/$side.xml"
done
both "the file name of a booklet" limit

# ---- numbers ----

most=$(number "whole numbers")
pattern at <<<"$small<assembly of=\"mat\"><step make=\"mat\" count=\"$most\"/></assembly>"
pattern over <<<"$small<assembly of=\"mat\"><step make=\"mat\" count=\"$((most + 1))\"/></assembly>"
both "whole numbers" value

# Lengths of a statement, as no cloth is so large.
length() { echo "<quilt id=\"mat\"><patch fabric=\"kelp\" width=\"$1\" height=\"4\"/></quilt>"; }
most=$(number "a length" 1)
length "$most" | pattern at
length $((most + 1)) | pattern over
both "the longest length" length

finest=$(number "a length" 3)
length "4 1/$finest" | pattern at
length "4 1/$((finest + 1))" | pattern over
both "the finest length" length

# ---- messages and lists ----

# order SIDE: standard input in an order of kits, beside its pattern.
order() {
    {
        echo '<order xmlns="urn:seamwright:pattern:1" id="stall" title="Stall">'
        cat
        echo '</order>'
    } >"$work/$1.xml"
    pattern mat <<<"$small"
}
asked='<line pattern="mat.xml" quilt="mat" colorway="c1" kits="1"/>'
most=$(number "lines of an order")
times "$asked" "$most" | order at
times "$asked" $((most + 1)) | order over
both "lines of an order" limit

# A bolt and what stands in it, beside extras.
most=$(number "cloths, bolts, flaws, pieces and extras of an order")
shelf() { # THINGS
    echo "${asked%/>}>$(times '<extra name="Bag"/>' 9)</line>"
    echo '<cloth name="Kelp"/> <fat-quarters of="Kelp" count="1"/> <bolt of="Kelp" length="90">'
    awk -v n=$(($1 - 12)) 'BEGIN {
        for (i = 0; i < n; i++) printf "<flaw from=\"%d/128\" to=\"%d/128\"/>", 2 * i + 1, 2 * i + 2 }'
    echo '</bolt>'
}
shelf "$most" | order at
shelf $((most + 1)) | order over
both "cloths, bolts, flaws, pieces and extras of an order" limit

most=$(number "kits of an order")
times "${asked/kits=\"1\"/kits=\"10000\"}" $((most / 10000)) | order at
{ times "${asked/kits=\"1\"/kits=\"10000\"}" $((most / 10000)); echo "$asked"; } | order over
both "kits of an order" limit

most=$(grep -oE 'Of messages [0-9]+' templates/manual/limits.md | grep -oE '[0-9]+')
for n in "$most" $((most + 1)); do
    awk -v kind=errors -v n="$n" -f $generate >"$work/x.xml"
    "$SEAMWRIGHT" check "$work/x.xml" 2>"$work/err" >"$work/out"
    problem=
    [ "$(grep -c ': error: ' "$work/err")" -eq "$most" ] ||
        problem="$(grep -c ': error: ' "$work/err") printed"
    say "$n messages" "$problem"
done

list=$(grep -A1 'A list for `plan`' templates/manual/limits.md | tr -d ,)
most=$(echo "$list" | grep -oE '[0-9]+ sizes' | grep -oE '[0-9]+')
for more in 0 1; do
    {
        echo 'width 42'
        for i in $(seq $((most + more))); do
            echo "1 $((i / 10)).$((i % 10)) 1"
        done
    } >"$work/list"
    timeout 120 "$SEAMWRIGHT" plan "$work/list" >"$work/out" 2>"$work/err"
    found=$?
    problem=
    [ $found -eq $more ] || problem="status $found"
    say "a list of $((most + more)) sizes" "$problem"
done
most=$(echo "$list" | grep -oE '[0-9]+ leftovers' | grep -oE '[0-9]+')
for more in 0 1; do
    {
        printf 'width 42\n2 3 10\n'
        for i in $(seq $((most + more))); do echo "leftover 5 6 1"; done
    } >"$work/list"
    timeout 120 "$SEAMWRIGHT" plan "$work/list" >"$work/out" 2>"$work/err"
    found=$?
    problem=
    [ $found -eq $more ] || problem="status $found"
    say "$((most + more)) leftovers" "$problem"
done

# A row of widths 1/p: their sum has the product of the primes p below the line.
# The seam of 1/4 has two bits more.
bits=$(number "exact numbers" 4)
for side in at over; do
    awk -v most="$bits" -v more="$(extra $side)" 'BEGIN {
        print "<quilt id=\"mat\"><row press=\"open\" height=\"1\">"
        for (p = 9973; more >= 0; p -= 2) {
            for (d = 3; d * d <= p && p % d; d += 2);
            if (d * d <= p)
                continue
            bits += log(p) / log(2)
            if (bits + 2 > most && more-- == 0)
                break
            print "<patch fabric=\"" (n++ % 2 ? "kelp" : "sand") "\" width=\"1/" p "\"/>"
        }
        print "</row></quilt>"
    }' | pattern $side
done
both "bits of exact numbers" limit

# What other tests hold on both sides: the words, and where.
elsewhere() {
    echo "$1" >>"$work/used"
    problem=
    grep -qF "$3" "$2" || problem="$2 has no $3"
    say "${1%%:*}, in ${2#tests/}" "$problem"
}
elsewhere "photo, logo: 20 MB" tests/resolve/test_photo.c 32767
elsewhere 'font of a `display-face`: 10 MB' tests/resolve/test_font.c 10000001
elsewhere '`flying-geese` and `square-in-square`' tests/codes/limit.geese.xml 'flying-geese'
elsewhere "places where lines of quilting meet" tests/codes/limit.echoes.err 'whole numbers of 1,024 bits'
elsewhere "the same once they are cut where they meet" tests/codes/limit.meetings.err 'and 1000000 once they are cut'
elsewhere "changes that are tried in search of" tests/mend/test_causes.c MEND_TRIALS_OF_TWO

problem=
while read -r line; do
    known=
    while read -r words; do
        case $line in "$words"*) known=yes ;; esac
    done <"$work/used"
    [ -n "$known" ] || problem="no case for: $line"
done <"$work/lines"
say "each line of the page has its case" "$problem"
exit $failed
