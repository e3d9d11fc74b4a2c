#!/bin/bash
# Options belong to commands: the help of each, the manual and the man page say
# the same, the program takes what they say and refuses the rest, with the
# nearest right one.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
export LC_ALL=C.UTF-8
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
failed=0

result() { # CASE PROBLEM: no problem is a success.
    if [ -z "$2" ]; then
        echo "ok usage: $1"
    else
        echo "not ok usage: $1: $2"
        failed=1
    fi
}

"$SEAMWRIGHT" --help >"$work/help"
commands=$(sed -n 's/^  seamwright \([a-z]*\) .*/\1/p' "$work/help")

# A line "COMMAND OPTION [VALUE]" for each pair, as the programs's own help has.
options_of() { # TEXT: "-o, --output FOLDER   words" to "--output FOLDER"
    sed -nE 's/^  (-[a-z], |    )(--[a-z-]+)( ([^ ]+))?(  .*)?$/\2 \4/p' "$1" | sed 's/ $//'
}
for command in $commands; do
    "$SEAMWRIGHT" help "$command" >"$work/own" || echo "$command: $?"
    "$SEAMWRIGHT" "$command" --help >"$work/dashed"
    problem=
    cmp -s "$work/own" "$work/dashed" || problem="help and --help differ"
    grep -q "^Usage: seamwright $command " "$work/own" || problem="no usage line"
    awk 'length($0) > 80 { bad = 1 } END { exit bad }' "$work/own" ||
        problem="wider than 80 columns"
    result "help $command" "$problem"
    options_of "$work/own" | sed "s/^/$command /"
done | tee "$work/said" | grep -v '^\(not \)\?ok ' | LC_ALL=C sort >"$work/table"
grep '^\(not \)\?ok ' "$work/said"
! grep -q '^not ok' "$work/said" || failed=1
"$SEAMWRIGHT" help >"$work/own"
result "help without a command is --help" "$(diff "$work/own" "$work/help" | head -n 3)"
options_of "$work/help" | LC_ALL=C sort -u >"$work/a"
cut -d' ' -f2- "$work/table" | LC_ALL=C sort -u >"$work/b"
result "the help of the program has the options of all commands" \
    "$(diff "$work/a" "$work/b" | xargs)"

# The same of "`--name VALUE` (`command`, ...): ..." in the manual, or of
# "--name VALUE (command, ...): ..." in the man page.
pairs() {
    { tr '\n' ' '; echo; } | sed 's/ - /\n- /g' | tr -d '`' | tr -s ' ' |
        sed -nE 's/^- (-[a-z], )?(--[a-z-]+)( [^ ]+)? \(([a-z, ]+)\): .*/\2\3:\4/p' |
        while IFS=: read -r option names; do
            [ "$names" != all ] || names=$commands
            for command in ${names//,/ }; do
                echo "$command $option"
            done
        done | LC_ALL=C sort
}
sed -n '/^## Options/,/^## Exit/p' templates/manual/commands.md | sed 1d | pairs \
    >"$work/manual"
mandoc -T utf8 -O width=1000 "$BUILD/seamwright.1" | sed 's/.\x08//g' |
    sed -nE 's/^ {7}((-[a-z], )?--[a-z-]+( [^ ]+)? \([a-z, ]+\))( .*)?$/- \1: x/p' |
    pairs >"$work/man"
for place in manual man; do
    result "options of each command in the $place" \
        "$(diff "$work/table" "$work/$place" | xargs)"
done
result "there are pairs to look at" "$(awk 'END { if (NR < 30) print NR }' "$work/table")"

# What the program does: a file that is not there is told (4) only where the
# words of the command were right.
cut -d' ' -f2- "$work/table" | LC_ALL=C sort -u | sed 's/ .*//' | sort -u >"$work/options"
value_of() { # OPTION: one that it takes, or nothing
    sed -n "s/^[a-z]* $1 //p" "$work/table" | head -n 1 |
        sed 's/^DPI$/150/; s/^LENGTH$/3.5/; s/|.*//; s/^OUT.svg$/x.svg/'
}
wrong=
for command in $commands; do
    for option in $(grep -vxE -e '--(help|version)' "$work/options"); do
        value=$(value_of "$option")
        "$SEAMWRIGHT" "$command" "$option${value:+=$value}" "$work/none.xml" \
            >"$work/out" 2>"$work/err" </dev/null
        status=$?
        if grep -q "^$command $option\( \|\$\)" "$work/table"; then
            ! grep -q " takes no " "$work/err" || wrong="$wrong $command $option"
        elif [ $status -ne 2 ] || [ -s "$work/out" ] ||
            ! grep -q "^seamwright: $command takes no $option\( (-[a-z])\)\?$" "$work/err" ||
            ! grep -qE '^help: [a-z, ]+ takes? it$' "$work/err"; then
            wrong="$wrong $command $option ($status)"
        fi
    done
done
result "each command takes its own options and no other" "$wrong"

# says CASE WORDS ARGUMENT...: wrong usage, told with the words.
says() {
    name=$1 words=$2
    shift 2
    "$SEAMWRIGHT" "$@" >"$work/out" 2>"$work/err" </dev/null
    status=$?
    problem=
    [ $status -eq 2 ] || problem="status $status"
    grep -qF -e "$words" "$work/err" || problem="$problem $(head -n 2 "$work/err" | xargs -0)"
    [ ! -s "$work/out" ] || problem="$problem; standard output"
    result "$name" "$problem"
}
sample=samples/vane-harbor.xml
# shellcheck disable=SC2016 # the backticks are part of the message
{
    says "a command nearly right" 'did you mean `build`?' biuld x.xml
    says "a command nearly right, for help" 'did you mean `figure`?' help figur
    says "a command nearly right with --help" 'did you mean `list`?' lsit --help
    says "an option nearly right" 'did you mean `--colorway`?' build --colourway a x.xml
    says "an option before its command" 'did you mean `--folding`?' --foldign build x.xml
    says "an option of another command nearly right" 'did you mean `--json` of list, proof and compare?' \
        build --jsno x.xml
    says "one dash too few" 'did you mean `--cutting`?' list -cutting x.xml
    says "the beginning of several" 'did you mean `--colorway` or `--color`?' \
        build --colo x x.xml
    says "a value nearly right" 'did you mean `a4`?' build --paper a44 x.xml
    says "a value where none belongs" '--json takes no value' list --json=yes x.xml
    says "a value that is missing" '--output needs a value' build x.xml -o
    says "a quilt nearly right" 'did you mean `throw`?' list --quilt thrwo $sample
    says "a colorway nearly right" 'did you mean `pine`?' list --colorway pin $sample
    says "the nearest right command" 'build, figure, kit, proof and compare take it' check -o x x.xml
    says "help of two commands" 'help takes one command' help list plan
    says "two packets at one go" 'one file at a time for proof, but for --gather' proof x.xml y.xml
    says "JSON of a packet" '--json goes with --gather' proof --json x.xml
    says "a folder for what is gathered" '--gather writes no folder (-o)' proof --gather -o x x.csv
    says "pages of what is gathered" '--gather takes no --paper or --language' proof --gather --paper a4 x.csv
    says "a language of what is gathered" '--gather takes no --paper or --language' proof --gather --language de x.csv
    says "a quilt of what is gathered" '--gather takes no --quilt or --colorway' proof --gather --quilt x x.csv
    says "testers of what is gathered" '--gather takes no --testers or --tester' proof --gather --testers 2 --tester 1 x.csv
    says "standard input twice" 'only one of the tables may be standard input' proof --gather - -
}
problem=
for words in "--paper A4" "--paper=LETTER" "--language DE"; do
    # shellcheck disable=SC2086 # two words
    "$SEAMWRIGHT" build $words "$work/none.xml" >"$work/out" 2>&1
    status=$?
    [ $status -eq 4 ] || problem="$problem $words: $status"
done
"$SEAMWRIGHT" build --paper A4 --quilt bed --colorway pine $sample -o "$work/a4" >"$work/out" 2>&1
pdfinfo "$work"/a4/*.pdf | grep -q '^Page size: *595' || problem="$problem; not A4"
result "capitals in a choice" "$problem"
exit $failed
