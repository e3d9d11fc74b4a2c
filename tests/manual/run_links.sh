#!/bin/bash
# The README and the manual as text: every link leads somewhere, every page of the
# manual is linked from the README, which stays short, and the manual fits a
# terminal.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
export LC_ALL=C.UTF-8
WORDS_MOST=3500
COLUMNS_MOST=80
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0
links=0

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok text: $1"
    else
        echo "not ok text: $1: $2"
        failed=1
    fi
}

# Lines outside of the blocks between ``` and ```.
prose() {
    awk '/^ *```/ { inside = !inside; next } !inside' "$1"
}

# The targets of all links, a line each. A link may be broken between its text and
# its target, not inside either.
targets() {
    prose "$1" | sed 's/`[^`]*`//g' | grep -o '\]([^)]*)' | sed 's/^](//; s/)$//'
}

# The anchors of a page, as a host of Markdown makes them from its headings:
# small letters, blanks become hyphens, all other signs go.
anchors() {
    prose "$1" | sed -n 's/^##* *//p' | tr '[:upper:]' '[:lower:]' |
        sed 's/[^[:alnum:] _-]//g; s/ /-/g'
}

# lead PAGE TARGET: what is wrong with the link, or nothing.
lead() {
    file=${2%%#*}
    anchor=
    case $2 in
    *\#*) anchor=${2#*#} ;;
    esac
    case $2 in
    *://*) return ;;
    '') echo "an empty link"; return ;;
    esac
    if [ -z "$file" ]; then
        file=$1
    else
        file=$(dirname "$1")/$file
    fi
    if ! [ -e "$file" ]; then
        echo "$2 is not there"
    elif [ -n "$anchor" ] && ! anchors "$file" | grep -qxF -e "$anchor"; then
        echo "$2 has no such heading"
    fi
}

for page in README.md DEVELOPERS.md templates/manual/*.md; do
    targets "$page" >"$work/targets"
    problem=
    while IFS= read -r target; do
        links=$((links + 1))
        wrong=$(lead "$page" "$target")
        [ -z "$wrong" ] || problem="$problem$wrong; "
    done <"$work/targets"
    result "links of $page" "$problem"
done
problem=
[ $links -ge 100 ] || problem="only $links links were found"
result "$links links" "$problem"

# The test itself: a link to nothing, and one to a heading that is not there.
problem=
[ -n "$(lead README.md nowhere.md)" ] && [ -n "$(lead README.md '#nowhere')" ] &&
    [ -n "$(lead README.md DEVELOPERS.md#nowhere)" ] || problem="they pass"
result "links that lead nowhere are found" "$problem"

problem=
for page in templates/manual/*.md; do
    targets README.md | grep -qxF -e "$page" || problem="$problem $page"
done
result "README.md links every page of the manual" "$problem"
words=$(wc -w <README.md)
problem=
[ "$words" -lt $WORDS_MOST ] || problem="it has $words"
result "README.md has fewer than $WORDS_MOST words" "$problem"

for page in templates/manual/*.md; do
    wide=$(grep -nE ".{$((COLUMNS_MOST + 1))}" "$page" | head -n 1 | cut -d: -f1)
    result "$page fits a terminal" "${wide:+line $wide is wider}"
done

# Every page can be reached from the overview of its part: the language from
# language.md, the program from commands.md.
reached() { # PART OVERVIEW
    for page in $(awk -v head="## $1" '/^## / { inside = $0 == head }
        inside && /^- \[/ { print substr($0, 4, index($0, "]") - 4) }' \
        templates/manual/contents.md); do
        [ "$page" = "$2" ] || targets "templates/manual/$2.md" |
            grep -qxF -e "$page.md" || echo "$page"
    done | xargs
}
result "language.md leads to every page of the language" \
    "$(reached 'The language' language)"
result "commands.md leads to every page of the program" \
    "$(reached 'The program' commands)"
exit $failed
