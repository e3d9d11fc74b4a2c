#!/bin/bash
# Packets of a sample for three testers, filled in as people and spreadsheets do
# it, and gathered: what is printed, with which status, and that nothing is
# written. What is wrong in a table is told in tests/codes (claims-*).
set -u
about="gather: "
. "$(dirname "$0")/packets.sh"

# fill FILE CLAIM ANSWER MEASURE: the two cells of the claim's row.
fill() {
    sed -i -E "/^([^,]*,){6}$2,/ s#,,,([0-9]+,[0-9]+,)#,$3,$4,\1#" "$1"
}

for tester in 1 2 3; do
    "$SEAMWRIGHT" proof samples/lantern-walk.xml --testers 3 --tester $tester \
        -o "$work/of$tester" >"$work/out" 2>&1 || cat "$work/out"
    cp "$work/of$tester/claims.csv" "$work/$tester.csv"
done
cd "$work" || exit 2

# number_of KIND TEXT: of the first claim of a kind with such a text.
number_of() {
    cat 1.csv 2.csv 3.csv | grep ",$1," | grep -F "$2" | head -n 1 | cut -d, -f7
}
strips=$(number_of strips "")
block=$(number_of size "Lantern,12½ in wide")
high=$(number_of size "Lantern,12½ in high")
center=$(number_of size "center,60½ in wide")
# The first claim goes to testers 1 and 2, the second to 2 and 3.
for tester in 1 2 3; do
    for claim in $(tail -n +2 $tester.csv | grep -E ',(shown|asked),' | cut -d, -f7); do
        [ "$claim" -le 4 ] || fill $tester.csv "$claim" right ''
    done
done
fill 1.csv 1 wrong '64 in'
fill 2.csv 1 Unklar ''
fill 2.csv 2 w ''
fill 3.csv 2 right ''
fill 1.csv 3 u ''
fill 1.csv "$strips" '' '3 7\/16'
fill 1.csv "$block" '' '12 3\/8'
fill 1.csv "$center" '' 59.75
fill 2.csv "$strips" '' '3½'
fill 2.csv "$block" '' '12 1\/8'
fill 2.csv "$high" '' '"12,5"'
fill 3.csv "$center" '' '59'

cat >cases <<CASES
1	Two or more call it wrong or unclear
1	wrong: 1.csv (64 in); unclear: 2.csv
1	Testers disagree
1	wrong: 2.csv; right: 3.csv
1	One calls it wrong or unclear
1	unclear: 1.csv; no answer: 3.csv
1	Nobody checked
1	  4
1	not this tester's seam: look at the pattern
1	this tester's seam
1	off; no strips tell whose fault it is
0	lacks the row
CASES
touch out err before after
find . -type f | sort >before
"$SEAMWRIGHT" proof --gather 1.csv 2.csv 3.csv >out 2>err
status=$?
find . -type f | sort >after
result "nothing is written" "$(diff before after | xargs)"
result "three tables" "$([ $status -eq 0 ] && [ ! -s err ] || echo "status $status: $(head -n 2 err)")"
while IFS=$'\t' read -r count words; do
    found=$(grep -cE "(^|[ ;])$(printf '%s' "$words" | sed 's/[(.)]/\\&/g')\$" out)
    [ "$count" -ne 0 ] || found=$(grep -cF "$words" out)
    result "says: $words" "$([ "$found" -ge "$count" ] && [ "$count" -ne 0 -o "$found" -eq 0 ] || echo "$found times")"
done <cases
# The block that the seam explains, by what is said of it as data.
"$SEAMWRIGHT" proof --gather 1.csv 2.csv 3.csv --json >json 2>err
verdicts=$(jq -r --argjson block "$block" '.booklets[0].claims[] |
    select(.claim == $block) | .answers[] | .verdict // "none"' json | xargs)
result "verdicts as JSON" "$([ "$verdicts" = "as-told pattern none" ] || echo "$verdicts")"
result "findings as JSON" "$(jq -r '[.booklets[0].claims[] | .finding // empty] |
    group_by(.) | map("\(.[0]) \(length)") | join(", ")' json |
    grep -v '^disputed 1, one 1, right [0-9]*, two 1, unchecked 1$')"

# As spreadsheets save it: a byte order mark, tabs, other line ends.
"$SEAMWRIGHT" proof --gather 1.csv 2.csv 3.csv >plain 2>err
{ printf '\357\273\277'; sed 's/\r$//' 1.csv | awk '
    { out = ""; inside = 0
      for (i = 1; i <= length($0); i++) {
          c = substr($0, i, 1)
          if (c == "\"") inside = !inside
          out = out (c == "," && !inside ? "\t" : c)
      }
      print out }'; } >other
mv 1.csv kept.csv
mv other 1.csv
"$SEAMWRIGHT" proof --gather 1.csv 2.csv 3.csv >out 2>err
result "a table with tabs" "$(diff plain out | head -n 3)$(head -n 2 err)"
mv kept.csv 1.csv
result "from standard input" "$("$SEAMWRIGHT" proof --gather - 2.csv 3.csv <1.csv 2>&1 |
    sed 's/<stdin>/1.csv/; s/^\(  \|.* \)-\( .*\)/\1\2/' | grep -c 'Testers disagree' | grep -v '^1$')"

# A row that is gone is told, and so are packets that did not come back.
grep -v "^[^,]*,[^,]*,[^,]*,[^,]*,[^,]*,[^,]*,3," 1.csv >gone.csv
"$SEAMWRIGHT" proof --gather gone.csv 2.csv >out 2>err
result "a row that is gone" "$(grep -qF "gone.csv lacks the row of 3" out || head -n 4 out err)"
"$SEAMWRIGHT" proof --gather 1.csv >out 2>err
result "claims of others alone" "$(grep -A1 'Given to nobody' out | grep -q '^  2, ' || head -n 4 out err)"

# refuses CASE STATUS WORDS FILE...: the words, and no sum.
refuses() {
    local name=$1 wanted=$2 words=$3 status
    shift 3
    "$SEAMWRIGHT" proof --gather "$@" >out 2>err
    status=$?
    if [ $status -ne "$wanted" ] || [ -s out ] || ! grep -qF -- "$words" err; then
        result "$name" "status $status: $(head -n 3 err)"
    else
        result "$name" ""
    fi
}
cp 1.csv twin.csv
: >empty.csv
iconv -f UTF-8 -t ISO-8859-1//TRANSLIT 2.csv >latin.csv
printf 'a\0b\n' >zero.csv
sed 's/^lantern-walk,3/lantern-walk,4/' 3.csv >later.csv
sed 's/30 blocks/31 blocks/' 3.csv >mended.csv
refuses "the same table twice" 1 "twin.csv is the same table as 1.csv" 1.csv twin.csv
refuses "an empty file" 1 "the table is empty" 1.csv empty.csv
refuses "letters of a spreadsheet" 1 "is no text in UTF-8" 1.csv latin.csv
refuses "a byte that is no text" 1 "byte 00 is no text" zero.csv
refuses "another revision" 1 "later.csv:2:14: error: these are claims of another revision" 1.csv later.csv
refuses "the same revision, mended" 1 "is that of another printing" 1.csv mended.csv
# The closing line counts for the table that the mistakes are in.
blank=',,,([0-9]+,[0-9]+,)'
sed -E "0,/$blank/s//,maybe,,\1/" 2.csv >maybe.csv
sed -E "0,/$blank/s//,perhaps,,\1/" 3.csv | sed -E "0,/$blank/s//,perhaps,,\1/" >perhaps.csv
refuses "a mistake in the second table" 1 "maybe.csv: 1 error, 0 warnings" 1.csv maybe.csv
result "the first table has none" "$(grep '1.csv: .* error' err)"
refuses "mistakes in two tables" 1 "perhaps.csv: 2 errors, 0 warnings" 1.csv maybe.csv perhaps.csv
result "each table is counted apart" "$(grep -q '^maybe.csv: 1 error, 0 warnings$' err || tail -n 3 err)"
refuses "a pattern for a table" 1 "[claims-table]" "$root/samples/lantern-walk.xml"
refuses "a file that is not there" 4 "cannot read" 1.csv none.csv
refuses "a folder" 4 "cannot read" 1.csv of1
exit $failed
