#!/bin/bash
# A pattern whose blocks, units and fabrics lie in shared files is the pattern that
# has them all in one: the same booklets to the byte, the same tables, figures and
# messages, and the same help for a mistake, whatever file it is in. Then files
# that no `include` may lead to, or that are none. Prints `ok NAME` or
# `not ok NAME` for each case.
set -u
cd "$(dirname "$0")/../.." || exit 2
root=$PWD
SEAMWRIGHT=${SEAMWRIGHT:-${BUILD:-build}/seamwright}
case $SEAMWRIGHT in /*) ;; *) SEAMWRIGHT=$root/$SEAMWRIGHT ;; esac
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

result() { # NAME PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok include: $1"
    else
        echo "not ok include: $1: $2"
        failed=1
    fi
}

shared='<shared xmlns="urn:seamwright:pattern:1">'

# split SOURCE FOLDER: the same pattern in four files: the source itself, parts/
# blocks.xml with what it begins with, cloth/fabrics.xml and parts/units.xml, which
# the blocks include. requires: children of the root that begin and end with two
# blanks and their tag.
split() {
    rm -rf "$2"
    mkdir -p "$2/parts" "$2/cloth"
    awk -v shared="$shared" -v folder="$2" -v name="${1##*/}" '
        function open(file) { print shared >file; opened[file] = 1 }
        BEGIN {
            own = folder "/" name
            blocks = folder "/parts/blocks.xml"
            units = folder "/parts/units.xml"
            fabrics = folder "/cloth/fabrics.xml"
            open(blocks); open(units); open(fabrics)
            to = own
        }
        to == own && /^  <(fabrics|colorway|unit|block|assembly)[ >]/ {
            kind = $1
            gsub(/[<>]/, "", kind)
            to = kind == "unit" ? units : kind == "fabrics" ? fabrics : blocks
            if (!named[own]++)
                print "  <include href=\"parts/blocks.xml\"/>" >own
            if (to == units && !named[units]++)
                print "  <include href=\"units.xml\"/>" >blocks
            if (to == fabrics)
                print "  <include href=\"../cloth/fabrics.xml\"/>" >blocks
        }
        { print >to }
        to != own && index($0, "</" kind ">") > 0 { to = own }
        END { for (file in opened) print "</shared>" >file }' "$1"
}

# Without places, with lines of other files as lines, and with no order of two that
# are mended one behind the other: the first is that of the first file. A fix over
# several lines holds what stands between.
messages() { # FILE
    "$SEAMWRIGHT" check --diagnostics json "$1" 2>&1 |
        jq -cS '{name, level, message, "label": .label, help,
                 fix: (.fix.replacement // "none" |
                       if contains("\n") then "lines" else . end),
                 notes: [.notes[]?.message] | sort}' |
        sed -E 's/ of `[^`]*\.xml`//g; s/lines? [0-9]+((, | and )[0-9]+)*/line N/g
                s/(, | \()once line N is mended\)?//' |
        sort
}

# ---- the same outputs ----

compare_outputs() { # SOURCE
    base=$(basename "$1" .xml)
    split "$1" "$work/split"
    mkdir -p "$work/whole"
    cp "$1" "$work/whole/"
    for way in whole split; do
        (
            cd "$work/$way" || exit 2
            "$SEAMWRIGHT" build -o out "$base.xml" 2>/dev/null
            "$SEAMWRIGHT" list "$base.xml" >list 2>/dev/null
            "$SEAMWRIGHT" figure "$base.xml" 2>/dev/null | cut -d' ' -f1 >figures
            "$SEAMWRIGHT" figure "$base.xml" "$(sed -n 4p figures)" >figure.svg \
                2>/dev/null
            jq 'del(.diagnostics)' out/pattern.json >json
            rm -f out/pattern.json
        ) >/dev/null
    done
    problem=
    [ "$(find "$work/whole/out" -name '*.pdf' | wc -l)" -gt 0 ] || problem="no booklet"
    [ -s "$work/whole/figure.svg" ] || problem="no figure"
    [ "$(grep -c . "$work/split/$base.xml")" -lt "$(grep -c . "$1")" ] ||
        problem="nothing was split"
    for part in out list figures figure.svg json; do
        diff -r "$work/whole/$part" "$work/split/$part" >/dev/null ||
            problem="$problem $part differs"
    done
    result "$base in four files" "$problem"
    messages "$work/whole/$base.xml" >"$work/one"
    messages "$work/split/$base.xml" >"$work/four"
    result "$base: the same messages" "$(diff "$work/one" "$work/four" | head -4)"
    rm -rf "$work/whole" "$work/split"
}

# ---- the same help for a mistake ----

# change SOURCE NAME N: the Nth value of the name is another one.
change() {
    awk -v name="$2" -v n="$3" '
        BEGIN {
            other["rising"] = "falling"; other["falling"] = "rising"
            other["0"] = "90"; other["90"] = "180"; other["180"] = "270"
            other["270"] = "90"; other["yes"] = "no"; other["no"] = "yes"
        }
        {
            rest = $0; line = ""
            while (match(rest, " " name "=\"[^\"]*\"")) {
                from = RSTART + length(name) + 3
                value = substr(rest, from, RSTART + RLENGTH - 1 - from)
                if (++seen == n)
                    value = value in other ? other[value] \
                        : value ~ /^[0-9]+$/ ? value + 1 : value "x"
                line = line substr(rest, 1, from - 1) value "\""
                rest = substr(rest, RSTART + RLENGTH)
            }
            print line rest
        }' "$1"
}

compare_mistake() { # SOURCE NAME N [NAME N]: two are in two files, mostly
    base=$(basename "$1" .xml)
    change "$1" "$2" "$3" >"$work/$base.xml"
    ! cmp -s "$1" "$work/$base.xml" || return
    if [ $# -gt 3 ]; then
        cp "$work/$base.xml" "$work/once"
        change "$work/once" "$4" "$5" >"$work/$base.xml"
        ! cmp -s "$work/once" "$work/$base.xml" || return
    fi
    split "$work/$base.xml" "$work/split"
    messages "$work/$base.xml" >"$work/one"
    messages "$work/split/$base.xml" >"$work/four"
    [ "$(wc -l <"$work/one")" -eq 0 ] || tried=$((tried + 1))
    result "$base with $2 number $3 another one${4:+ and $4 number $5}" \
        "$(diff "$work/one" "$work/four" | head -4)"
}

tried=0
for source in samples/*.xml; do
    compare_outputs "$source"
done
for name in turn line fabric make count id at press width; do
    for n in 1 3 6; do
        for source in samples/lantern-walk.xml samples/vane-harbor.xml; do
            compare_mistake "$source" "$name" "$n"
        done
    done
done
for second in 'block 1' 'finished 1' 'make 1' 'make 2' 'count 1' 'width 9'; do
    for first in 'fabric 5' 'line 1' 'unit 2' 'turn 2' 'at 1'; do
        for source in samples/lantern-walk.xml samples/vane-harbor.xml; do
            # shellcheck disable=SC2086 # words
            compare_mistake "$source" $first $second
        done
    done
done
problem=
[ "$tried" -ge 60 ] || problem="only $tried mistakes were told"
result "$tried mistakes" "$problem"

# Fixes of all files are offered where all of them together were tried.
sed 's/<use unit="wing" turn="180"/<use unit="wings" turn="180"/
     s/<assembly of="lantern"/<assembly of="lanter"/; s/fabric="glow"\/>/fabric="glo"\/>/
     s/block="lantern"/block="lantren"/' samples/lantern-walk.xml >"$work/four.xml"
split "$work/four.xml" "$work/split"
messages "$work/four.xml" >"$work/one"
messages "$work/split/four.xml" >"$work/four"
problem=$(diff "$work/one" "$work/four" | head -4)
[ "$(grep -cE '"fix":"(wing|lantern|glow)"' "$work/four")" -eq 4 ] ||
    problem="$problem not four fixes"
result "a fix in each of three files" "$problem"

# ---- places ----

quilt='<quilt id="mat"> <patch fabric="kelp" width="4" height="4"/> </quilt>'

source_with() { # FILE LINE...
    file=$1
    shift
    {
        echo '<pattern xmlns="urn:seamwright:pattern:1" id="reef" title="Reef">'
        printf '%s\n' "$@" "$quilt" '</pattern>'
    } >"$file"
}

mkdir -p "$work/reef/parts/deep" "$work/outside"
cloth='<fabrics> <fabric id="kelp"/> </fabrics>
<colorway id="day"> <cloth fabric="kelp" color="#224433"/> </colorway>'
echo "$shared $cloth </shared>" | tee "$work/reef/parts/kelp.xml" \
    >"$work/outside/kelp.xml"

# says NAME STATUS WORDS COMMAND...: what standard error has.
says() {
    name=$1 status=$2 words=$3
    shift 3
    timeout -k 5 60 "$@" >"$work/stdout" 2>"$work/said" </dev/null
    found=$?
    problem=
    [ $found -eq "$status" ] || problem="status $found: $(head -1 "$work/said")"
    grep -qF -e "$words" "$work/said" || [ -z "$words" ] ||
        problem="$problem it says: $(head -1 "$work/said")"
    [ -n "$words" ] || [ ! -s "$work/said" ] || problem="it says: $(cat "$work/said")"
    result "$name" "$problem"
}

# refused NAME HREF WORDS
refused() {
    source_with "$work/reef/$1.xml" "<include href=\"$2\"/>"
    says "$1" 1 "$3" "$SEAMWRIGHT" check "$work/reef/$1.xml"
    grep -q "^$work/reef/$1.xml:2:16: " "$work/said" ||
        result "$1 names its include" "$(head -1 "$work/said")"
}

source_with "$work/reef/a.xml" '<include href="parts/kelp.xml"/>'
source_with "$work/reef/b.xml" '<include href="./parts//deep/../kelp.xml"/>'
echo "$shared <include href=\"kelp.xml\"/> </shared>" >"$work/reef/parts/again.xml"
source_with "$work/reef/c.xml" '<include href="parts/again.xml"/>' \
    '<include href="parts/kelp.xml"/>'
says "a folder below" 0 '' "$SEAMWRIGHT" check "$work/reef/a.xml"
says "up and down below it" 0 '' "$SEAMWRIGHT" check "$work/reef/b.xml"
says "named by two files" 0 '' "$SEAMWRIGHT" check "$work/reef/c.xml"
says "several sources" 0 '' "$SEAMWRIGHT" check "$work/reef/a.xml" \
    "$work/reef/b.xml" "$work/reef/c.xml"
says "from another folder" 0 '' sh -c "cd '$work/outside' && '$SEAMWRIGHT' check ../reef/c.xml"
problem=
(cd "$work/reef" && "$SEAMWRIGHT" check - <c.xml) 2>"$work/said" || problem=$(cat "$work/said")
result "from standard input" "$problem"

ln -s ../outside/kelp.xml "$work/reef/linked.xml"
ln -s ../outside "$work/reef/away"
ln -s parts "$work/reef/near"
mkfifo "$work/reef/pipe.xml"
refused "a link" linked.xml 'is a symbolic link, or lies in one'
refused "through a link" away/kelp.xml 'is a symbolic link, or lies in one'
refused "through a link inside" near/kelp.xml 'is a symbolic link, or lies in one'
refused "a folder" parts 'is not a file'
refused "a folder by its slash" parts/ 'cannot be read'
refused "itself as a folder" . 'is not a file'
refused "a file as a folder" parts/kelp.xml/ 'cannot be read: Not a directory'
refused "a pipe" pipe.xml 'is not a file'
refused "a device" /dev/zero 'leads out of the folder of this source'
refused "from the root" "$work/reef/parts/kelp.xml" 'leads out of the folder'
refused "above" ../outside/kelp.xml 'leads out of the folder of this source'
refused "above and back" ../reef/parts/kelp.xml 'leads out of the folder'
refused "down and above" parts/../../outside/kelp.xml 'leads out of the folder'
refused "with a backslash" 'parts\kelp.xml' 'leads out of the folder'
refused "an address" http://reef.example/kelp.xml 'cannot be read: No such file'
refused "a name too long" "$(printf '%0199d' 0)" 'cannot be read: No such file'
refused "an empty name" '' 'empty'

# held NAME BYTES WORDS: a file that is there and is no shared file.
held() {
    printf "$2" >"$work/reef/parts/held.xml"
    source_with "$work/reef/h.xml" '<include href="parts/held.xml"/>'
    says "$1" 1 "$3" "$SEAMWRIGHT" check "$work/reef/h.xml"
    problem=
    grep -q "^$work/reef/parts/held.xml:[0-9:]* error: " "$work/said" ||
        problem="the file is not named"
    grep -qF "$work/reef/h.xml:2:16: note: the file is included here" "$work/said" ||
        problem="$problem; the include is not named"
    result "$1 is told in its file" "$problem"
}

held "a NUL" '<sha\0red/>' 'byte 00 is no part of UTF-8 text'
held "no UTF-8" '<shared \377/>' 'byte FF is no part of UTF-8 text'
held "half a character" '<shared/>\342\202' 'byte E2 is no part of UTF-8 text'
held "no XML" 'kelp, sand' '[xml-syntax]'
held "nothing" '' 'the file holds no element'
held "blanks" '  \n \n' '[xml-syntax]'
held "a mark alone" '\357\273\277' '[xml-syntax]'
held "an end too early" "$shared <unit id=\"a\">" '`unit` is never closed'
held "an end too many" "$shared</shared></shared>" '[xml-syntax]'
held "another root" '<reef/>' 'the root element is `reef` where `shared` is expected'
held "a document type" "<!DOCTYPE shared [<!ENTITY a \"b\">]>$shared</shared>" '[doctype]'
held "another encoding" "<?xml version=\"1.0\" encoding=\"UTF-16\"?>$shared</shared>" \
    'the file calls itself `UTF-16`'
held "too deep" "$shared$(printf '<row>%.0s' $(seq 70))" 'more than 64 elements inside each other'

# A mark of the byte order and a declaration stand in each file by themselves.
printf '\357\273\277<?xml version="1.0" encoding="utf-8"?>\r\n%s\r\n%s\r\n</shared>' \
    "$shared" "$cloth" >"$work/reef/parts/marked.xml"
source_with "$work/reef/m.xml" '<include href="parts/marked.xml"/>'
says "a byte order mark" 0 '' "$SEAMWRIGHT" check "$work/reef/m.xml"

exit $failed
