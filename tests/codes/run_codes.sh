#!/bin/sh
# One smallest broken source for each message of the catalogue.
#
# tests/codes/NAME.xml is reported as NAME, and as nothing else, in the words of
# NAME.err; NAME.WORD.xml is a further case of NAME. A case NAME.csv is a table of
# claims, which is gathered. In shared/ lies what some of them include, in
# patterns/ what orders are of. UPDATE=1 writes the .err files anew, to be read
# before they are kept. Words choose cases by how their names begin.
#
# Prints `ok CASE` or `not ok CASE` for each case, for each mend that a program
# can apply (the mended source has no message left), and for each message of
# the catalogue (it has a case).
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
CATALOGUE=include/diag_catalogue.h
CASES=tests/codes
work=$BUILD/tests/codes
failed=0
mkdir -p "$work/mended"
if ! [ -x "$SEAMWRIGHT" ]; then
    echo "not ok the program: there is no $SEAMWRIGHT"
    exit 1
fi

# result CASE PROBLEM: no problem is a success.
result() {
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

# The catalogue as lines "NAME LEVEL"; an entry may take several lines there.
catalogue() {
    tr -d '\134\n' <"$CATALOGUE" |
        grep -o 'X(DIAG_[A-Z_]*, *"[a-z-]*", *DIAG_[A-Z]*' |
        sed 's/.*"\([a-z-]*\)", *DIAG_\([A-Z]*\)$/\1 \2/'
}

# The words of the messages in the text form, that is lines with a place, a
# level and a name in brackets.
messages() {
    grep -aE \
        '^[^ ]+:[0-9]+:[0-9]+: (error|warning|remark): .* \[[a-z-]+\]$' "$1"
}

# file_of CASE: its source or table, from the root.
file_of() {
    if [ -e "$CASES/$1.csv" ]; then
        echo "$CASES/$1.csv"
    else
        echo "$CASES/$1.xml"
    fi
}

# look_at FILE OPTION...: what is said of it, and of it alone.
look_at() {
    case $1 in
    *.csv) "$SEAMWRIGHT" proof --gather "$@" ;;
    *) "$SEAMWRIGHT" check "$@" ;;
    esac
}

# check_text CASE NAME LEVEL: what is wrong with the printed form, or nothing.
check_text() {
    out=$work/$1.err
    look_at "$(file_of "$1")" --color never 2>"$out" >"$work/stdout"
    status=$?
    # A table that is only warned of is summed up.
    case $(file_of "$1").$3 in
    *.csv.WARNING) : >"$work/stdout" ;;
    esac
    [ "${UPDATE:-}" != 1 ] || cp "$out" "$CASES/$1.err"
    wanted=0
    [ "$3" != ERROR ] || wanted=1
    count=$(messages "$out" | wc -l)
    level=$(echo "$3" | tr '[:upper:]' '[:lower:]')
    if [ "$status" -ne "$wanted" ]; then
        echo "ended with status $status, not $wanted"
    elif [ "$count" -ne 1 ]; then
        echo "$count messages, not 1"
    elif ! messages "$out" | grep -aqE ": $level: .* \[$2\]$"; then
        echo "the message is not the $level [$2]"
    elif [ -s "$work/stdout" ]; then
        echo "something was printed on standard output"
    elif ! [ -e "$CASES/$1.err" ]; then
        echo "there is no $1.err"
    elif ! cmp -s "$out" "$CASES/$1.err"; then
        echo "other words than in $1.err:"
        diff -a "$CASES/$1.err" "$out" | sed 's/^/# /'
    fi
}

# The first line of a message stays within 100 characters, place not counted.
check_length() {
    long=$(messages "$CASES/$1.err" 2>/dev/null | sed 's/^[^ ]*: [a-z]*: //' |
        LC_ALL=C.UTF-8 awk 'length > 100 { print length; exit }')
    [ -z "$long" ] || echo "the first line has $long characters"
}

# check_json CASE NAME: the JSON form is one object of the same name. Leaves its
# fix as a line OFFSET END FILE and the replacement behind it; no line, no fix.
check_json() {
    look_at "$(file_of "$1")" --diagnostics=json 2>"$work/json" >"$work/stdout"
    jq -sj --arg name "$2" '(.[] | select(.fix) | .file as $file | .fix |
            "\(.offset) \(.endOffset) \(.file // $file)\n", .replacement),
        if length == 1 and .[0].name == $name then empty else error end' \
        "$work/json" >"$work/fix" 2>/dev/null || echo "not one object of that name"
}

# check_mend CASE: applies the fix that check_json has left to the bytes of its
# file.
check_mend() {
    read -r start end file <"$work/fix"
    cp -r "$(file_of "$1")" "$CASES/shared" "$CASES/patterns" "$work/mended/"
    {
        head -c "$start" "$file"
        tail -n +2 "$work/fix"
        tail -c "+$((end + 1))" "$file"
    } >"$work/mended/${file#"$CASES"/}"
    left=$(look_at "$work/mended/$(basename "$(file_of "$1")")" --color never 2>&1)
    status=$?
    if [ "$status" -ne 0 ] || [ -n "$left" ]; then
        printf 'status %s, and it says:\n%s\n' "$status" "$left" |
            sed '2,$s/^/# /'
    fi
}

check_case() {
    case_name=$1
    name=${case_name%%.*}
    level=$(sed -n "s/^$name //p" "$work/catalogue")
    if [ -z "$level" ]; then
        result "$case_name" "the catalogue has no $name"
        return
    fi
    result "$case_name" "$(check_text "$case_name" "$name" "$level")"
    result "$case_name is short" "$(check_length "$case_name")"
    result "$case_name as JSON" "$(check_json "$case_name" "$name")"
    [ ! -s "$work/fix" ] || result "$case_name mended" "$(check_mend "$case_name")"
}

check_cases() {
    for source in "$CASES/$1"*.xml "$CASES/$1"*.csv; do
        [ -e "$source" ] || continue
        case_name=${source##*/}
        check_case "${case_name%.*}"
    done
}

catalogue >"$work/catalogue"
if [ $# -gt 0 ]; then
    for word; do check_cases "$word"; done
    exit "$failed"
fi
check_cases ""

while read -r name level; do
    problem=
    [ -e "$(file_of "$name")" ] || problem="no case $name.xml ($level)"
    result "catalogue has a case of $name" "$problem"
done <"$work/catalogue"

# Should the pattern above not meet the header any more, all would look well.
entries=$(grep -c 'X(DIAG_' "$CATALOGUE")
read_entries=$(wc -l <"$work/catalogue")
problem=
[ "$entries" -eq "$read_entries" ] ||
    problem="$read_entries of $entries entries were read"
result "catalogue was read" "$problem"
exit "$failed"
