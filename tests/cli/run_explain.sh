#!/bin/sh
# The answers of `seamwright explain`. Pages of the manual are printed as they
# stand; an element or attribute leads to its page. Each name of the catalogue
# has a text, which begins with the name and its summary, keeps to its size, and
# shows a source that gives just that message and one that builds.
#
# A text shows its wrong source between the lines `-- wrong` and `--`, and the
# right one between `-- right` and `--`, or, where one line differs, as
# `-- right: line N` with the line below it. A source that is no XML is a table
# of claims; its rows are wider than a text, and go on in lines that are set in.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
CATALOGUE=include/diag_catalogue.h
LINES_MOST=45
COLUMNS_MOST=78
# Names whose wrong source cannot be shown as text, one a line with the reason
# behind it; their texts say so too. None at present: an encoding can be
# promised wrongly in plain letters, and a limit exceeded in few words.
NOT_SHOWN=''
work=$BUILD/tests/explain
failed=0
rm -rf "$work"
mkdir -p "$work"
cp tests/codes/patterns/mat.xml "$work/" # what orders are of

# result CASE PROBLEM: no problem is a success.
result() {
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

# between OPENING FILE: the lines of a block. Ends without success where the
# block is not there exactly once, is empty, or has no end.
between() {
    awk -v opening="$1" '
        $0 == opening { blocks++; inside = 1; next }
        inside && $0 == "--" { inside = 0; ended++; next }
        inside { print; lines++ }
        END { exit !(blocks == 1 && ended == 1 && lines > 0) }' "$2"
}

# right_source TEXT WRONG: the right source, whole or made of the wrong one.
right_source() {
    line=$(sed -n 's/^-- right: line \([0-9][0-9]*\)$/\1/p' "$1")
    if [ -z "$line" ]; then
        between '-- right' "$1"
        return
    fi
    sed -n '/^-- right: line/{n;p;}' "$1" >"$work/line"
    awk -v at="$line" -v file="$work/line" '
        NR == at && (getline other < file) > 0 && other != $0 {
            print other
            replaced = 1
            next
        }
        { print }
        END { exit !replaced }' "$2"
}

# unfold FILE: a table of claims with each row in a line; true where it is one.
unfold() {
    ! head -n 1 "$1" | grep -q '^ *<' || return 1
    sed ':a; N; $!ba; s/\n  *//g' "$1" >"$1.rows"
}

# named NAME FILE: how many messages of that name were printed.
named() {
    grep -acE "^[^ ]+:[0-9]+:[0-9]+: (error|warning|remark): .* \[$1\]$" "$2"
}

# of_level LEVELS FILE: how many messages of those levels were printed.
of_level() {
    grep -acE "^[^ ]+:[0-9]+:[0-9]+: ($1): .* \[[a-z-]+\]$" "$2"
}

# check_form NAME LEVEL SUMMARY TEXT
check_form() {
    if [ "$(head -n 1 "$4")" != "$1: $3" ]; then
        echo "it begins with: $(head -n 1 "$4")"
    elif [ "$(wc -l <"$4")" -gt "$LINES_MOST" ]; then
        echo "$(wc -l <"$4") lines"
    elif LC_ALL=C.UTF-8 awk -v most="$COLUMNS_MOST" \
        'length($0) > most { found = 1 } END { exit !found }' "$4"; then
        echo "a line is longer than $COLUMNS_MOST columns"
    elif grep -qP '\t| $' "$4"; then
        echo "a line has a tab, or ends with a blank"
    fi
}

# check_wrong NAME LEVEL TEXT: its wrong source gives the message, and no error
# or warning besides.
check_wrong() {
    source=$work/$1.wrong.xml
    out=$work/$1.wrong.err
    if ! between '-- wrong' "$3" >"$source"; then
        echo "no wrong source"
        return
    fi
    if unfold "$source"; then
        "$SEAMWRIGHT" proof --gather --color never "$source.rows" 2>"$out" \
            >"$work/stdout"
    else
        "$SEAMWRIGHT" check --color never "$source" 2>"$out"
    fi
    status=$?
    wanted=0
    [ "$2" != error ] || wanted=1
    others=$(($(of_level 'error|warning' "$out")))
    [ "$2" = remark ] || others=$((others - $(named "$1" "$out")))
    if [ "$status" -ne "$wanted" ]; then
        echo "ended with status $status, not $wanted"
    elif [ "$(named "$1" "$out")" -eq 0 ]; then
        echo "no $1, but: $(head -n 1 "$out")"
    elif [ "$others" -ne 0 ]; then
        echo "$others other errors and warnings"
    fi
}

# check_right NAME TEXT: its right source builds without an error or warning,
# and without the message itself where that is a remark.
check_right() {
    source=$work/$1.right.xml
    out=$work/$1.right.err
    if ! right_source "$2" "$work/$1.wrong.xml" >"$source"; then
        echo "no right source"
        return
    fi
    if unfold "$source"; then
        "$SEAMWRIGHT" proof --gather --color never "$source.rows" 2>&1 \
            >"$work/stdout"
        return
    fi
    command=build made=pdf
    ! grep -q '^<order' "$source" || { command=kit made=csv; }
    "$SEAMWRIGHT" $command --color never "$source" -o "$work/$1" \
        2>"$out" >"$work/stdout"
    status=$?
    if [ "$status" -ne 0 ]; then
        echo "ended with status $status: $(head -n 1 "$out")"
    elif [ "$(of_level 'error|warning' "$out")" -ne 0 ] ||
        [ "$(named "$1" "$out")" -ne 0 ]; then
        head -n 1 "$out"
    elif [ -z "$(ls "$work/$1"/*.$made 2>/dev/null)" ]; then
        echo "nothing was written"
    fi
}

check_text() {
    text=$work/$1.txt
    if ! "$SEAMWRIGHT" explain "$1" >"$text" 2>"$work/said"; then
        result "explain $1" "$(head -n 1 "$work/said")"
        return
    fi
    result "explain $1: form" "$(check_form "$1" "$2" "$3" "$text")"
    if printf '%s\n' "$NOT_SHOWN" | grep -q "^$1 "; then
        return
    fi
    result "explain $1: wrong source" "$(check_wrong "$1" "$2" "$text")"
    result "explain $1: right source" "$(check_right "$1" "$text")"
}

# The list: messages, each line a name, a level and a summary; then the pages of
# the manual below two heads, each line a name and a summary.
"$SEAMWRIGHT" explain >"$work/list" 2>"$work/said"
status=$?
problem=
[ "$status" -eq 0 ] && [ ! -s "$work/said" ] || problem="status $status"
result "explain lists names" "$problem"
awk '/^$/ { exit } NR > 1 { sub(/^  /, ""); print }' "$work/list" >"$work/table"
awk '/^$/ { pages = 1; getline; next } pages' "$work/list" >"$work/pages"
problem=$(grep -vE '^[a-z-]+ +(error|warning|remark) +[a-z].*$' "$work/table")
result "explain lists name, level and summary" "$problem"
problem=$(grep -vE '^  [a-z-]+ +[a-z].*$' "$work/pages")
result "explain lists subject and summary" "$problem"
problem=$(grep '^[^ ]' "$work/list" | xargs)
[ "$problem" != "Messages The language The program" ] || problem=
result "explain lists messages, the language, the program" "$problem"
problem=$(LC_ALL=C.UTF-8 awk 'length > 80' "$work/pages")
result "explain lists subjects in 80 columns" "$problem"
entries=$(grep -c 'X(DIAG_[A-Z]' "$CATALOGUE")
listed=$(wc -l <"$work/table")
problem=
[ "$entries" -eq "$listed" ] || problem="$listed names, $entries in the header"
result "explain lists the whole catalogue" "$problem"

while read -r name level summary; do
    check_text "$name" "$level" "$summary"
done <"$work/table"

# A text whose message went should go too.
problem=
for file in templates/explain/*.txt; do
    name=${file##*/}
    grep -q "^${name%.txt} " "$work/table" || problem="$problem $file"
done
result "explain has no text without a message" "$problem"

# Every page of the folder is listed, and printed as it stands; only what tells of
# the same name elsewhere follows. No page is hidden by a message of its name.
pages=0
for file in templates/manual/*.md; do
    name=${file##*/}
    name=${name%.md}
    [ "$name" != contents ] || continue
    pages=$((pages + 1))
    problem=
    "$SEAMWRIGHT" explain "$name" >"$work/page" 2>"$work/said"
    grep -q "^  $name  " "$work/pages" || problem="not listed"
    head -c "$(wc -c <"$file")" "$work/page" | cmp -s - "$file" ||
        problem="$problem another text"
    tail -c "+$(($(wc -c <"$file") + 1))" "$work/page" | grep -vE \
        '^$|^(See also:|         ) seamwright explain [a-z-]+$' &&
        problem="$problem more text"
    result "explain $name: the page" "$problem"
done
problem=
[ "$(wc -l <"$work/pages")" -eq "$pages" ] ||
    problem="$(wc -l <"$work/pages") pages, not $pages"
result "explain lists the whole manual" "$problem"

# tells CASE NAME PATTERN...: the answer holds each of the lines.
tells() {
    case_name=$1
    "$SEAMWRIGHT" explain "$2" >"$work/page" 2>"$work/said"
    problem=
    shift 2
    for pattern; do
        grep -q -e "$pattern" "$work/page" || problem="$problem no $pattern;"
    done
    result "explain: $case_name" "$problem"
}

tells "an element leads to its page" border '^# borders: '
tells "an attribute leads to its page" max-gap '^# finishing: '
tells "an element that stands in two places" cloth '^## Element `cloth`$' \
    '^## Element `cloth` in a text$' '^See also: seamwright explain fabrics$' \
    '^          seamwright explain words$'
tells "an attribute that stands in several places" press '^press: ' \
    '^See also: seamwright explain pieces$' \
    '^          seamwright explain assembly$'
tells "what several elements have" mirror '^## Element `use`$' \
    '^- `mirror` (`no`, `yes`; default `no`): left' '^## Element `step`$' \
    '^See also: seamwright explain pieces$'
tells "an element that is an attribute, too" grid '^# pieces: ' \
    '^See also: seamwright explain blocks$'
tells "a message that is an element, too" picture '^picture: cloth' \
    '^See also: seamwright explain pictures$'

# fails CASE PATTERN WORD...: wrong usage, told with the words of the pattern.
fails() {
    case_name=$1
    pattern=$2
    shift 2
    "$SEAMWRIGHT" explain "$@" >"$work/stdout" 2>"$work/said"
    status=$?
    problem=
    if [ "$status" -ne 2 ]; then
        problem="ended with status $status, not 2"
    elif [ -s "$work/stdout" ]; then
        problem="something was printed on standard output"
    elif ! grep -q "$pattern" "$work/said"; then
        problem=$(head -n 1 "$work/said")
    fi
    result "explain: $case_name" "$problem"
}

# shellcheck disable=SC2016 # the backticks are part of the message
fails "a name that is nearly right" 'did you mean `seam-sum`?' seam-smu
fails "a name that is nearly a subject" 'did you mean `half-square`?' half-sqare
# shellcheck disable=SC2016
fails "a name that is nearly an element" 'did you mean `binding`?' bindng
# shellcheck disable=SC2016
fails "a name that is nearly an attribute" 'did you mean `overage`?' overrage
fails "a name that is near to nothing" 'lists all names' kettle
fails "an empty name" 'lists all names' ''
fails "a path is no name" 'no message, subject, element or attribute is called' \
    ../manual/pattern
fails "the list of pages is none" 'is called' contents
fails "two names" 'takes one name' ruler map

problem=$("$SEAMWRIGHT" --help | grep -c '^  seamwright explain \[NAME\]')
[ "$problem" -ne 1 ] || problem=
result "explain stands in the help" "$problem"

problem=
if [ -e /dev/full ]; then
    "$SEAMWRIGHT" explain ruler >/dev/full 2>"$work/said"
    status=$?
    [ "$status" -eq 4 ] || problem="ended with status $status, not 4"
fi
result "explain: standard output is full" "$problem"
exit "$failed"
