#!/bin/bash
# What the manual says of an attribute that is left out: a source that states its
# default makes the same files, byte by byte, as one that leaves it out; one that
# states something else does not. Where the manual has a default for inches and
# one for centimetres, both are tried.
set -u
cd "$(dirname "$0")/../.." || exit 2
root=$PWD
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
case $SEAMWRIGHT in
/*) program=$SEAMWRIGHT ;;
*) program=$root/$SEAMWRIGHT ;;
esac
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
unset SOURCE_DATE_EPOCH

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok default: $1"
    else
        echo "not ok default: $1: $2"
        failed=1
    fi
}

# Every element that has a default, none of them stated.
cat >"$work/base.xml" <<'XML'
<pattern xmlns="urn:seamwright:pattern:1" id="mill-pond" title="Mill Pond">
  <fabrics> <fabric id="water" key="w"/> <fabric id="sail" key="s"/> </fabrics>
  <colorway id="morning">
    <cloth fabric="water" color="#24566b"/> <cloth fabric="sail" color="#f2ead8"/>
    <spool thread="calm"/>
  </colorway>
  <unit id="cap"> <patch fabric="water" width="6" height="2"> <corner at="top-left" fabric="sail" size="1"/> </patch> </unit>
  <block id="hat" grid="3 x 2">
    <patch fabric="water"> <corner at="top-left" fabric="sail" size="1"/> </patch>
    <picture>
      s/w  w  w
      w    w  w
    </picture>
  </block>
  <unit id="vane"> <half-square line="falling" left="sail" right="water"/> </unit>
  <block id="mill" grid="2">
    <grid across="2" down="2" press="open">
      <use unit="vane"/>            <use unit="vane" turn="90"/>
      <use unit="vane" turn="270"/> <use unit="vane" turn="180"/>
    </grid>
    <picture>
      s\w  s/w
      w/s  w\s
    </picture>
  </block>
  <quilt id="runner">
    <column>
      <grid across="4" down="2" press="open"> <use block="mill" finished="6"/> </grid>
      <grid across="4" down="1" press="open"> <use block="hat" finished="6 x 4"/> </grid>
      <grid across="4" down="1" press="open"> <use unit="cap"/> </grid>
      <row press="open">
        <flying-geese goose="sail" sky="water" width="12"/>
        <square-in-square center="sail" corners="water" size="6"/>
        <quarter-square top="sail" right="water" bottom="sail" left="water" size="6"/>
      </row>
      <grid across="8" down="1" press="open">
        <half-rectangle line="rising" left="sail" right="water" width="3" height="2" press="open"/>
      </grid>
      <grid across="4" down="3"> <patch fabric="water" height="5"/> </grid>
      <grid across="3" down="5" press="open"> <patch fabric="water" height="5"/> </grid>
    </column>
    <border fabric="water" width="4"/>
    <backing fabric="sail"/> <batting/> <binding fabric="water"/>
  </quilt>
  <quilt id="rug">
    <column press="up">
      <row press="left">
        <patch fabric="water" width="4" height="4"/>
        <patch id="heart" fabric="sail" width="4"/> <patch fabric="water"/>
      </row>
      <patch fabric="water" height="4"/>
      <row press="left"> <patch fabric="water" width="6" height="4"/> <patch fabric="sail" width="6"/> </row>
    </column>
    <batting max-gap="12"/>
    <quilting>
      <thread id="calm" match="water"/> <thread id="bright" match="sail"/>
      <ditch between="sail water" thread="calm"/>
      <extend into="water" thread="calm"/>
      <echo fabric="sail" side="both" spacing="1/2" thread="bright"/>
      <connect fabric="sail" from="middles" to="middles" into="sail" thread="calm"/>
      <area fabric="water"> <fill with="grid" spacing="1" thread="calm"/> </area>
    </quilting>
  </quilt>
  <quilt id="lamp"> <eight-pointed-star points="sail" corners="water" size="12"/> </quilt>
  <quilt id="mat">
    <triangles across="2" down="1" size="3"> <patch fabric="water"/> <patch fabric="sail"/> </triangles>
  </quilt>
  <quilt id="kite"> <on-point across="2" down="2" fabric="water" press="open"> <use block="mill" finished="6"/> </on-point> </quilt>
  <assembly of="mill">
    <step make="vane"> <say>Each is <size of="vane"/>.</say> </step>
    <step make="mill"/>
  </assembly>
</pattern>
XML

# The same for orders of kits: a pattern with all that a kit may hold, and an
# order that takes little more than one bolt of it.
cat >"$work/cove.xml" <<'XML'
<pattern xmlns="urn:seamwright:pattern:1" id="cove" title="Cove">
  <fabrics> <fabric id="water"/> <fabric id="sail"/> </fabrics>
  <colorway id="noon">
    <cloth fabric="water" color="#24566b" code="N-1" price="11.80"/>
    <cloth fabric="sail" color="#f2ead8" code="N-2" price="11.80"/>
    <spool thread="calm"/>
  </colorway>
  <quilt id="mat">
    <row press="left"> <patch fabric="water" width="16" height="10"/> <patch fabric="sail" width="16"/> </row>
    <backing fabric="sail"/> <batting max-gap="12"/> <binding fabric="water"/>
    <quilting> <thread id="calm" match="water"/> <ditch between="sail water" thread="calm"/> </quilting>
  </quilt>
</pattern>
XML
cat >"$work/base.kits" <<'XML'
<order xmlns="urn:seamwright:pattern:1" id="fair" title="Fair">
  <line pattern="cove.xml" quilt="mat" colorway="noon" kits="7" price="9">
    <extra name="Booklet" cost="1.105"/>
  </line>
  <line pattern="cove.xml" quilt="mat" colorway="noon" kits="10" style="cut"/>
  <cloth code="N-1" bolt="120" price="20.00"/>
  <bolt of="N-2" length="41"/> <bolt of="N-2" length="50 cm"/>
</order>
XML

# Element and attribute, what the manual says (`*`: the value itself), the value
# to state, another one (`-` where there is none), and what is changed before.
CASES='pattern units|*||cm|
pattern seam|*||3/8|
pattern cutting-step|*||1/16|
pattern allowance|*||5|
pattern effort|*||simple|
pattern layers|*||1|
pattern reserve|*||6|
pattern language|*||de|
pattern corner-method|*||cut-first|
fabric name|the id|water|Water|
fabric print|*||one-way|
colorway name|the id|morning|Morning|
cloth name|the fabric'\''s name|Pond|Water|s/<fabric /<fabric name="Pond" /
cloth width|*||30|
cloth shrinkage|*||9|
cloth allowance|the pattern'\''s|5|12|s/<pattern /<pattern allowance="5" /
cloth layers|the pattern'\''s|1|4|s/<pattern /<pattern layers="1" /
cloth reserve|the pattern'\''s|6|0|s/<pattern /<pattern reserve="6" /
cloth sold|*||fat-quarter|
unit name|the id|cap|Cap|
unit corner-method|as the pattern says|drawn|cut-first|
block name|the id|hat|Hat|
block corner-method|as the pattern says|drawn|cut-first|
quilt name|the id|runner|Runner|
row equal|*||-|
column equal|*||-|
grid equal|*||-|
sashing outer|*||-|
use turn|*||90|
use mirror|*||yes|
half-square method|*||one|
picture borders|*||-|
picture cells|one for each square|3|6|
border corners|*||-|
border grain|*||lengthwise|
border first|*||ends|
border joins|*||straight|
corner method|as its block or unit says|drawn|cut-first|
flying-geese points|*||down|
flying-geese method|*||four|
square-in-square method|*||triangles|
quarter-square method|*||one|
half-rectangle room|*||1|
eight-pointed-star second|the fabric of the first|sail|water|
eight-pointed-star sides|the fabric of the corners|water|sail|
triangles first|*||down|
backing overage|*||6|
backing bought|*||together|
batting overage|the backing'\''s|3|5|s/<backing /<backing overage="3" /
batting overage|the backing'\''s|4 in|5|
batting overage|the backing'\''s|10 cm|5|s/<pattern /<pattern units="cm" /
binding width|*||2|
quilting foot|*||1/2|
quilting travel|*||none|
quilting start|*||1/8|
quilting order|*||center-out|
quilting bobbin|*||2 yd|
thread below|itself|calm|bright|
spool color|that of the thread|#24566b|#000000|
ditch of|the whole top|rug|heart|
ditch outline|*||yes|
extend of|the whole top|rug|heart|
extend outline|*||yes|
extend until|*||edge|
echo of|the whole top|rug|heart|
echo first|the spacing|1/2|1|
echo times|*||2|
echo corners|*||rounded|
connect of|the whole top|rug|heart|
connect with|as of|rug|heart|
connect pair|*||all|
on-point float|*||1/2|
connect stop|*||1/4|
area of|the whole top|rug|heart|
fill along|*||rising|
step mirror|*||yes|
size as|*||finished|
order digits|*||3|
order units|*||cm|
order over|*||1/2|
order spare|*||9|
order end-loss|*||2|
order keep|*||3|
order layers|*||1|
line style|*||strips|
line backing|*||in|
line binding|*||out|
line batting|*||in|
line thread|*||in|
extra count|*||2|'

# "ELEMENT ATTRIBUTE|DEFAULT" for each that the manual tells. An item may go on
# in a second line.
told_defaults() {
    awk '
        function tell() {
            if (match(item, /; default .*\): /)) {
                value = substr(item, RSTART + 10, RLENGTH - 13)
                sub(/\): .*/, "", value)
                gsub(/`/, "", value)
                split(item, word, "`")
                print element " " word[2] "|" value
            }
            item = ""
        }
        /^## / { tell(); element = ""
                 if ($2 == "Element") { element = $3; gsub(/`/, "", element) } }
        /^## Every piece/ { element = "piece" }
        element == "" { next }
        /^- `/ { tell(); item = $0; next }
        /^  / && item != "" { sub(/^ +/, " "); item = item $0; next }
        { tell() }
        END { tell() }' templates/manual/*.md
}

# make SOURCE FOLDER: all files, or the messages where there are none.
make_files() {
    rm -rf "$2"
    command=build
    ! grep -q '^<order' "$1" || command=kit
    "$program" $command --color never "$1" -o "$2" >"$work/out" 2>"$work/said" ||
        { mkdir -p "$2" && cp "$work/said" "$2"; }
}

# make_stating ELEMENT ATTRIBUTE VALUE FOLDER: the first such element states it.
make_stating() {
    awk -v tag="<$1" -v text=" $2=\"$3\"" '
        !done && match($0, tag "[ />]") {
            $0 = substr($0, 1, RSTART + length(tag) - 1) text \
                 substr($0, RSTART + length(tag))
            done = 1
        }
        { print }' "$work/before.xml" >"$work/stated.xml"
    make_files "$work/stated.xml" "$4"
}

# omitted CHANGE: the files of the base with the change, each change once; the
# source lies in before.xml.
omitted() {
    sed "$1" "$work/$base" >"$work/before.xml"
    folder=$work/omitted-$base-$(printf '%s' "$1" | cksum | tr ' ' '-')
    [ -d "$folder" ] || make_files "$work/before.xml" "$folder"
}

# try CASE ELEMENT ATTRIBUTE VALUE OTHER CHANGE
try() {
    omitted "${6:-}"
    if [ ! -e "$folder/pattern.json" ] && [ ! -e "$folder/slips.csv" ]; then
        result "$1" "$(head -n 1 "$folder/said")"
        return
    fi
    make_stating "$2" "$3" "$4" "$work/same"
    problem=
    diff -r "$folder" "$work/same" >"$work/difference" ||
        problem="$3=\"$4\" is something else: $(head -n 2 "$work/difference" | xargs)"
    result "$1 is $4" "$problem"
    [ "$5" != - ] || return
    make_stating "$2" "$3" "$5" "$work/other"
    problem=
    ! diff -r "$folder" "$work/other" >/dev/null ||
        problem="$3=\"$5\" is the same"
    result "$1 is not $5" "$problem"
}

told_defaults >"$work/told"
while IFS='|' read -r names words value other change; do
    element=${names% *}
    attribute=${names#* }
    base=base.xml root=pattern
    case $element in order | line | extra) base=base.kits root=order ;; esac
    told=$(sed -n "s/^$names|//p" "$work/told")
    [ "$words" = '*' ] || [ "$told" = "$words" ] ||
        result "$names" "the manual says: $told"
    if [ -z "$told" ]; then
        result "$names" "the manual has no default"
    elif [ "$words" != '*' ]; then
        try "$names" "$element" "$attribute" "$value" "$other" "$change"
    else
        try "$names" "$element" "$attribute" "${told%%, *}" "$other" "$change"
        [ "$told" = "${told#*, }" ] || try "$names in centimetres" "$element" \
            "$attribute" "${told#*, }" "$other" "s/<$root /<$root units=\"cm\" /"
    fi
done <<<"$CASES"

# Whatever the manual calls a default was tried.
while IFS='|' read -r names told; do
    problem=
    printf '%s\n' "$CASES" | grep -q "^$names|" || problem="not tried: $told"
    result "$names has a case" "$problem"
done <"$work/told"
problem=
[ "$(wc -l <"$work/told")" -ge 28 ] || problem="$(wc -l <"$work/told") found"
result "the defaults were found" "$problem"
exit $failed
