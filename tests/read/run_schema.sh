#!/bin/sh
# The schema for editors and the program's own reader agree: what the schema
# rejects has a message of the reader's kinds, and the other way round. Tried
# on every sample, on every case of tests/codes and what it includes, and on a list of values that
# are put into one small pattern, with two validators that do not share code.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
SCHEMA=templates/pattern.rng
ORDERS=templates/order.rng
# What can be told from one element and its attributes alone.
KINDS='xml-syntax namespace unknown-element unknown-attribute missing-attribute
missing-element stray-text length value'
work=$BUILD/tests/schema
failed=0
rm -rf -- "$work"
mkdir -p "$work/values"
if ! [ -x "$SEAMWRIGHT" ]; then
    echo "not ok the program: there is no $SEAMWRIGHT"
    exit 1
fi

# Where the two cannot agree, with what the schema does and why.
EXCEPTIONS='encoding.xml reject: bytes that are not UTF-8 are no XML either
namespace.shared.xml accept: an editor opens shared files, too
unknown-attribute.sashing.xml accept: an attribute that a child forbids
unknown-element.triangles.xml accept: the page tells which pieces rows of triangles hold
value.accent.xml accept: no pattern of characters knows contrast
value.composed.xml accept: no pattern of characters knows composed ones
length.xml accept: no pattern of characters can compare two numbers
missing-attribute.bolt.xml accept: one attribute asks for another
length-improper accept: the same
length-large accept: a limit in inches cannot be told in every unit
price-fraction reject: the reader takes any number; editors are told decimals'

result() {
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

# value CASE ELEMENT ATTRIBUTE TEXT: a pattern that holds the text there.
value() {
    cloth='color="#dfeaea"' patch='width="4" height="6"' fabric='' block=1 picture=
    case $2.$3 in
    cloth.color) cloth="color=\"$4\"" ;;
    cloth.*) cloth="$cloth $3=\"$4\"" ;;
    patch.width) patch="width=\"$4\" height=\"6\"" ;;
    patch.*) patch="$patch $3=\"$4\"" ;;
    fabric.*) fabric="$3=\"$4\"" ;;
    block.*) block=$4 ;;
    shape.*) picture="<picture><shape fabric=\"clay\" $3=\"$4\"/></picture>" ;;
    esac
    cat >"$work/values/$1.xml" <<END
<pattern xmlns="urn:seamwright:pattern:1" id="kiln" title="Kiln Row">
  <about $([ "$2" != about ] || echo "$3=\"$4\"")/>
  <fabrics> <fabric id="clay" $fabric/> </fabrics>
  <colorway id="fired"> <cloth fabric="clay" $cloth/> </colorway>
  <block id="brick" grid="$block"> <patch fabric="clay"/> $picture </block>
  <quilt id="mat"> <patch fabric="clay" $patch/> </quilt>
</pattern>
END
}

# order_value CASE ATTRIBUTE TEXT: an order that holds the text there.
order_value() {
    order='' line='' cloth='' labels=''
    case $2 in
    over | spare | layers | digits | currency) order="$2=\"$3\"" ;;
    style | kits) line="$2=\"$3\"" ;;
    grams | sold) cloth="$2=\"$3\"" ;;
    offset-x) labels="$2=\"$3\"" ;;
    esac
    [ "$2" = kits ] || line="kits=\"4\" $line"
    cat >"$work/values/$1.xml" <<END
<order xmlns="urn:seamwright:pattern:1" id="fair" title="Kiln Fair" $order>
  <line pattern="mat.xml" quilt="mat" colorway="kiln" $line/>
  <cloth code="G-1" bolt="540" $cloth/>
  <labels columns="2" rows="5" width="4" height="2" left="0" top="1/2" across="4 3/16" down="2" $labels/>
</order>
END
}

order_values() {
    cp tests/codes/patterns/mat.xml "$work/values/"
    number=0
    while read -r attribute text; do
        number=$((number + 1))
        order_value "order-$number" "$attribute" "$text"
    done <<'END'
over 1/2
over 0
over -1
spare 5
spare 50
layers 8
layers 9
digits 3
digits 4
currency EUR
currency 1
style cut
style kit
kits 40
kits 0
grams 150
grams 0.5
grams .0
grams 0
grams 150 g
sold half-yard
sold half
offset-x -1/16
offset-x −0.5 mm
offset-x 0
offset-x 1 mm
offset-x --1
offset-x 1-
END
}

# values PREFIX ELEMENT ATTRIBUTE, texts on standard input, one a line.
values() {
    number=0
    while IFS= read -r text; do
        number=$((number + 1))
        value "$1-$number" "$2" "$3" "$text"
    done
}

make_values() {
    values width patch width <<'END'
4
 4 
4.
.5
4.0
4.12345
4.12340
0.5000000
4 1/2
4-1/2
4 - 1/2
4½
4 ½
½
⅐
5/8
5 / 8
5⁄8
41/2
4 1/
4 1
1/0
0/4
0
0.0
0 0/1
0 1/2
00004
-4
−4
+4
4in
4 in
4 inch
4 IN
4 yd
1/2yd
4 1/2 cm
4mm
4&#xA0;1/2
4&#x2009;½
4&#x9;1/2
4&#xA;
in
x
four
4,5
4/10000
4/10001
4/00016
1e3
4 1/2 1/2
END
    values finished patch finished <<'END'
4 x 6
4x6
4 × 6
4X6
4
4in x 6in
4 x 6 in
4 in x 6
4 x
x 6
4 x 6 x 8
0 x 6
4 x 0
4½ x 6-1/2 cm
4 x 6 ft
4 * 6
END
    values count patch count <<'END'
1
0
007
10000
10001
000001
1.0
-1
 1
1 
END
    values id patch id <<'END'
a
a-b_c.d
1a
-a
a b
 a
école
雨
a:b
a/b

END
    values press patch press <<'END'
open
 open
Open
toward-corner
END
    values key fabric key <<'END'
k
7
kk
é
-

END
    values name fabric name <<'END'
Clay

  
 a &amp; b 
&#xA;
雨
END
    values color cloth color <<'END'
#d9552b
#D9552B
#d9552
#d9552b0
d9552b
#d9552g
red
END
    values price cloth price <<'END'
11.80
11
0
.5
 11.80 
11,80
$11
11.80 in
-1
1/2
END
    values percent cloth shrinkage <<'END'
3
2.5
0
 3 
.5
49.9
049
50
100
3 %
1/2
-1
2.5 in
END
    values allowance cloth allowance <<'END'
0
0.0
0/4
0 1/2
 0 in 
1
2 1/2 cm
-1
0 x 1
none

END
    values sold cloth sold <<'END'
fat-eighth
ten-inch-square
five-inch-square
strip
half-yard
END
    values yards cloth yards <<'END'
1
1, 2 1/2
1,2½ ,3 yd
1,
,1
1,,2
1;2
0
1,0
2 m
END
    values fat-quarters cloth fat-quarters <<'END'
1
1, 2
1 ,2
1.5
0
1,
END
    values grid block grid <<'END'
6
6 x 4
6x4
6.0
6 1/2
0
six
6 in
END
    values points shape points <<'END'
0,0 6,0 3,6
 0,0 6,0 3,6 
0,0 6,0
0,0 6,0 3
0,0 6,0 3,6 2,2 1,4
0,0 6,0 3,6,
0, 0 6 ,0 3 , 6
0,0 1/2,0 ½,2.5
0,0 2 1/2,0 3,6
0,0 2-1/2,0 3,6-1/2
0,0;6,0;3,6
-1,0 6,0 3,6
0,0 6in,0 3,6
0,0 six,0 3,6
0 0 6 0 3 6

END
    values date about date <<'END'
2026-11-02
2026-13-02
2026-00-02
2026-11-32
2026-1-2
02.11.2026
END
    values skill about skill <<'END'
beginner
novice
END
    value length-improper patch width '4 3/2'
    value length-large patch width '1000000'
    value price-fraction cloth price '11½'
}

# reader_says FILE: how the reader takes it: reject or accept. A shared file is
# read by the source beside its folder that includes it.
reader_says() {
    source=$1
    case $1 in */shared/*) source=${1%/shared/*}/with-${1##*/} ;; esac
    "$SEAMWRIGHT" check --diagnostics=json "$source" 2>"$work/json"
    status=$?
    if [ "$status" -gt 1 ] || ! jq -r --arg file "$1" \
        'select(.file == $file) | .name' "$work/json" >"$work/names" 2>&1; then
        echo "status $status"
        return
    fi
    for kind in $KINDS; do
        if grep -qx -e "$kind" "$work/names"; then
            echo reject
            return
        fi
    done
    echo accept
}

# The files among the arguments that jing rejects, by the schema of $schema. It gives up all of its files
# over one that is not XML, so such a file has a run of its own.
jing_rejects() {
    for file; do
        shift
        if xmllint --noout "$file" >/dev/null 2>&1; then
            set -- "$@" "$file"
        elif ! jing "$schema" "$file" >/dev/null 2>&1; then
            echo "$file"
        fi
    done
    jing "$schema" "$@" 2>&1 | sed -n 's/^\(.*\.xml\):[0-9]*:[0-9]*: .*/\1/p' |
        sed "s|^$PWD/||"
}

# Both validators over all files of one schema.
validate() {
    schema=$1
    shift
    xmllint --noout --relaxng "$schema" "$@" 2>&1 |
        sed -n 's/ validates$//p' >>"$work/xmllint.good"
    jing_rejects "$@" | sort -u >>"$work/jing.bad"
}

# check_file FILE
check_file() {
    base=${1##*/}
    wanted=$(reader_says "$1")
    exception=$(printf '%s\n' "$EXCEPTIONS" |
        sed -n "s/^${base%.xml}\(\.xml\)\{0,1\} \([a-z]*\): .*/\2/p")
    if [ -n "$exception" ] && [ "$wanted" = "$exception" ]; then
        result "$1" "is no exception any more"
        return
    fi
    wanted=${exception:-$wanted}
    one=reject two=accept
    ! grep -qxF -e "$1" "$work/xmllint.good" || one=accept
    ! grep -qxF -e "$1" "$work/jing.bad" || two=reject
    problem=
    [ "$one" = "$wanted" ] || problem="xmllint: $one, not $wanted"
    [ "$two" = "$wanted" ] || problem="$problem${problem:+; }jing: $two, not $wanted"
    [ -z "$problem" ] || problem="$problem; $(grep -o 'id="mat".*' "$1" | head -n 1)"
    result "$1" "$problem"
}

# A source for each shared file of the cases.
make_including() {
    cp -r tests/codes/shared "$work/"
    for file in "$work"/shared/*.xml; do
        cat >"$work/with-${file##*/}" <<END
<pattern xmlns="urn:seamwright:pattern:1" id="kiln" title="Kiln Row">
  <include href="shared/${file##*/}"/>
  <quilt id="mat"> <patch fabric="clay" width="4" height="6"/> </quilt>
</pattern>
END
    done
}

make_values
order_values
make_including
# The wrapper of a lean installation grumbles about libraries it does not need.
problem=$(jing "$SCHEMA" samples/lantern-walk.xml 2>&1 | grep -v '^\[warning\] ')
result "the schema is sound" "$problem"
problem=$(jing "$ORDERS" samples/harbor-market.kits 2>&1 | grep -v '^\[warning\] ')
result "the schema of orders is sound" "$problem"
set -- samples/*.xml samples/*.kits tests/codes/*.xml "$work"/values/*.xml "$work"/shared/*.xml
# shellcheck disable=SC2046 # names without blanks
validate "$SCHEMA" $(grep -L '^<order' "$@")
# shellcheck disable=SC2046
validate "$ORDERS" $(grep -l '^<order' "$@")
for file; do
    check_file "$file"
done
rejected=$(wc -l <"$work/jing.bad")
problem=
[ "$rejected" -ge 60 ] || problem="only $rejected files were rejected"
result "both sides were tried" "$problem"
exit "$failed"
