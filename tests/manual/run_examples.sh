#!/bin/bash
# Every example of the manual and of README.md does what it is marked to do. The
# mark stands behind the ``` that opens it:
#
#   xml build [FILE]          a whole source: it builds, and nothing is said of it
#   xml fails NAME [FILE]     it has the error NAME and no other message
#   xml warns NAME [FILE]     it builds, with the warning or remark NAME alone
#   xml part FRAME [fails NAME | warns NAME]
#                             the same for what stands in frames/FRAME.xml
#   text output [s/A/B/]      a command behind `$`, and what it prints; with a
#                             change that is made to the last source before
#   text booklet              words of the booklet that was built last
#   text file FILE            a file that commands read
#   xml file FILE             a file that a source includes
#   sh                        targets of the Makefile
#
# The examples of a page run in their order in one folder, so a command finds
# the files that stand above it. An example without a mark is a failure.
set -u
cd "$(dirname "$0")/../.." || exit 2
root=$PWD
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
case $SEAMWRIGHT in
/*) program=$SEAMWRIGHT ;;
*) program=$root/$SEAMWRIGHT ;;
esac
here=$root/tests/manual
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
examples=0
unset SOURCE_DATE_EPOCH

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok $1"
    else
        echo "not ok $1: $2"
        failed=1
    fi
}

# The names of all messages in the text form, one a line.
names_in() {
    sed -nE 's/^[^ ]+:[0-9]+:[0-9]+: (error|warning|remark): .* \[([a-z-]+)\]$/\2/p' \
        "$1" | sort -u
}

# try_source FILE WANTED: WANTED is the name of the one message, or nothing.
try_source() {
    rm -rf "${1%.xml}"
    "$program" build --color never "$1" >built 2>said
    status=$?
    found=$(names_in said | xargs)
    if [ "$found" != "$2" ]; then
        echo "it has the messages '$found': $(head -n 1 said)"
    elif [ "$3" = fails ] && [ $status -ne 1 ]; then
        echo "it builds"
    elif [ "$3" != fails ] && [ $status -ne 0 ]; then
        echo "status $status"
    fi
}

# source_example BODY WORD...: the mark behind `xml`.
source_example() {
    body=$1
    shift
    file=
    if [ "$1" = part ]; then
        frame=$here/frames/$2.xml
        [ -e "$frame" ] || { echo "there is no frame $2"; return; }
        awk -v body="$body" '
            $0 == "@example@" { while ((getline line < body) > 0) print line
                                next }
            { print }' "$frame" >part.xml
        file=part.xml
        shift 2
        [ $# -gt 0 ] || set -- build
    fi
    case $1 in
    build) wanted=''; file=${2:-${file:-example.xml}} ;;
    fails | warns) wanted=${2:-none}; file=${3:-${file:-example.xml}} ;;
    *) echo "the mark '$*' is not known"; return ;;
    esac
    [ "$file" = part.xml ] || cp "$body" "$file"
    echo "$file" >last
    try_source "$file" "$wanted" "$1"
}

# A shell of its own runs the command, with the program's name in its path.
output_example() { # BODY [CHANGE]
    command=$(sed -n '1s/^\$ //p' "$1")
    [ -n "$command" ] || { echo "it does not begin with a command"; return; }
    if [ -n "${2:-}" ]; then
        cp "$(cat last)" before
        sed "$2" before >"$(cat last)"
        ! cmp -s before "$(cat last)" || echo "the change '$2' changes nothing"
    fi
    sed 1d "$1" >wanted
    grep -qvx '\.\.\.' wanted || echo "it tells nothing of the output"
    PATH=$PWD/build:$PATH sh -c "$command" >actual 2>&1 </dev/null
    [ -z "${2:-}" ] || cp before "$(cat last)"
    awk -f "$here/transcript.awk" wanted actual
}

booklet_example() { # BODY
    file=$(cat last)
    pdftotext -raw "${file%.xml}"/*.pdf text.txt 2>said ||
        { head -n 1 said; return; }
    sed 's/\xc2\xa0/ /g' text.txt | tr -s ' \n' ' ' >flat
    grep -qF -e "$(tr -s ' \n' ' ' <"$1" | sed 's/ $//')" flat ||
        echo "the booklet has no such words"
}

targets_example() { # BODY
    while read -r line; do
        case $line in
        make\ *) target=$(echo "$line" | cut -d' ' -f2)
            grep -q "^$target:" "$root/Makefile" || echo "no target $target" ;;
        *) echo "it is no make: $line" ;;
        esac
    done <"$1"
}

keep_file() { # BODY FILE
    mkdir -p "$(dirname "$2")"
    cp "$1" "$2"
}

run_example() { # BODY MARK
    case $2 in
    "text file "* | "xml file "*) keep_file "$1" "${2#* file }" ;;
    "xml "*)
        # shellcheck disable=SC2086 # words
        source_example "$1" ${2#xml } ;;
    "text output") output_example "$1" ;;
    "text output s/"*) output_example "$1" "${2#text output }" ;;
    "text booklet") booklet_example "$1" ;;
    "sh") targets_example "$1" ;;
    *) echo "the mark '$2' is not known" ;;
    esac
}

run_page() { # PAGE
    name=${1##*/}
    mkdir -p "$work/$name/folder/build"
    ln -s "$program" "$work/$name/folder/build/seamwright"
    cd "$root" || exit 2
    awk -v folder="$work/$name" -f "$here/fences.awk" "$1" >"$work/list"
    cd "$work/$name/folder" || exit 2
    while read -r number place mark; do
        examples=$((examples + 1))
        result "manual: $place $mark" "$(run_example "$work/$name/$number" "$mark")"
    done <"$work/list"
}

for page in README.md templates/manual/*.md; do
    run_page "$page"
done
problem=
[ $examples -ge 40 ] || problem="only $examples examples were found"
result "manual: $examples examples" "$problem"
exit $failed
