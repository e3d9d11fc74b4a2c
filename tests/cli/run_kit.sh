#!/bin/sh
# The command `kit` as a user meets it: an order and kits of one pattern, wrong
# usage, all files or none, what one order leaves for the next, and facts that
# are kept: used where nothing has changed, made anew where they are damaged or
# a file has changed.
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

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok kit: $1"
    else
        echo "not ok kit: $1: $2"
        failed=1
    fi
}

# run STATUS WORD...: what is said goes to out and said.
run() {
    wanted=$1
    shift
    "$program" kit "$@" >out 2>said
    status=$?
    [ $status -eq "$wanted" ] ||
        echo "status $status, not $wanted: $(head -n 1 said)"
}

says() { # TEXT: the messages have it
    grep -qF -e "$1" said || echo "it does not say '$1': $(head -n 1 said)"
}

cd "$work" || exit 2
mkdir patterns
cp "$root/tests/codes/patterns/mat.xml" patterns/
cat >fair.kits <<'END'
<order xmlns="urn:seamwright:pattern:1" id="fair" title="Kiln Fair" over="1/2">
  <line pattern="patterns/mat.xml" quilt="mat" colorway="kiln" kits="4" price="9"/>
  <cloth code="G-1" bolt="90" price="24.00"/>
  <bolt of="G-2" length="60 3/8" lot="5"/>
</order>
END

# ---- an order ----

result "an order" "$(run 0 fair.kits)"
problem=
for file in purchase bolts strips picking slips count costs; do
    [ -s "fair/$file.csv" ] || problem="$problem no $file.csv"
    # RFC 4180: as many cells in each row, where none has a comma.
    awk -F, -v RS='\r\n' 'NR == 1 { n = NF } NF != n { bad = 1 }
        END { exit bad || NR < 1 }' "fair/$file.csv" ||
        problem="$problem $file.csv is uneven"
done
result "its tables" "$problem"
xmllint --noout --relaxng "$root/templates/order.rng" fair/next-shelf.xml 2>said
result "the next shelf is one" "$(grep -v validates said)"
result "what is told" "$(grep -qx 'to buy: 24.00' out || cat out)"

# ---- the next one ----

cp fair/next-shelf.xml patterns/shelf.xml
cat >next.kits <<'END'
<order xmlns="urn:seamwright:pattern:1" id="next" title="Next Fair">
  <include href="patterns/shelf.xml"/>
  <line pattern="patterns/mat.xml" quilt="mat" colorway="kiln" kits="2"/>
</order>
END
result "the next order" "$(run 0 next.kits)"
# 90 - 4 x 9 1/2 = 52, and 60 3/8 less as much is 22 3/8.
result "takes what is left" "$(grep -q '^G-1,Clay cotton,shelf 2,.*,cut,2,9,9,line 1,18,18' next/bolts.csv &&
    grep -q '^G-2,Ash cotton,shelf 1,5,.*keep\|^G-2,Ash cotton,shelf 1,5,cut,2,9' next/bolts.csv ||
    cat next/bolts.csv)"

# ---- one pattern ----

result "kits of one pattern" \
    "$(run 0 patterns/mat.xml --quilt mat --colorway kiln --kits 3 --style cut -o one)"
result "are cut" "$(grep -q '^1,.*,piece,A1,1,' one/slips.csv || cat one/slips.csv)"

# ---- wrong usage ----

result "no kits" "$(run 2 patterns/mat.xml --quilt mat --colorway kiln; says 'need --quilt')"
result "no number" "$(run 2 patterns/mat.xml --quilt mat --colorway kiln --kits 0
    says '--kits is from 1 to 10000, not `0`')"
result "no such style" "$(run 2 patterns/mat.xml --style yardag; says 'did you mean `yardage`?')"
result "no such quilt" "$(run 2 patterns/mat.xml --quilt matt --colorway kiln --kits 3
    says 'did you mean `mat`?')"
result "an order has its own" "$(run 2 fair.kits --kits 3; says 'is an order')"
result "no such file" "$(run 4 none.kits)"
"$program" build fair.kits >out 2>said
result "an order is not built" "$(says 'is read by `seamwright kit`')"

# ---- all or none ----

cp -r fair before
sed 's/quilt="mat"/quilt="rug"/' fair.kits >wrong.kits
result "an order with a slip" "$(run 1 wrong.kits -o fair; says 'the last output is kept')"
result "keeps the last output" "$(diff -r before fair)"
{
    echo '<!DOCTYPE order SYSTEM "a>b" [<!ENTITY kits "[4]>">]>'
    cat fair.kits
} >typed.kits
result "an order with a document type" "$(run 1 typed.kits -o fair; says '[doctype]')"
cp "$root/tests/codes/patterns/slip.xml" patterns/mat.xml
result "a pattern with a slip" "$(run 1 fair.kits; says '[kit-pattern]')"
result "keeps it, too" "$(diff -r before fair)"
cp "$root/tests/codes/patterns/mat.xml" patterns/
mkdir full && echo mine >full/notes.txt
result "a folder of other files" "$(run 4 fair.kits -o full)"
result "is left alone" "$(ls full | grep -vx notes.txt)"

# ---- facts that are kept ----

# What is kept is believed where its digests are right: other facts with right
# digests would show, and damaged ones must not.
run 0 fair.kits >/dev/null
cp fair/facts.kept good
result "kept facts come back the same" "$(run 0 fair.kits; cmp good fair/facts.kept)"
size=$(wc -c <good)
problem=
for at in 20 60 130 190 210 $((size / 2)) $((size - 3)); do
    cp good fair/facts.kept
    printf '\377' | dd of=fair/facts.kept bs=1 seek="$at" conv=notrunc 2>/dev/null
    run 0 fair.kits >problem
    [ ! -s problem ] && cmp -s good fair/facts.kept &&
        diff -r -x facts.kept before fair >/dev/null ||
        problem="$problem at byte $at: $(cat problem)"
    head -c "$at" good >fair/facts.kept
    run 0 fair.kits >problem
    [ ! -s problem ] && cmp -s good fair/facts.kept ||
        problem="$problem cut at byte $at: $(cat problem)"
done
result "damaged facts are made anew" "$problem"
sed -i 's/height="6"/height="60"/' patterns/mat.xml
run 0 fair.kits >problem
result "a pattern that changed is planned anew" \
    "$(cat problem; ! cmp -s before/bolts.csv fair/bolts.csv || echo "the same cuts")"
exit $failed
