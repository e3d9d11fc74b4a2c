#!/bin/bash
# Single changes to the sources, and which of them no test sees.
#
# COUNT mutants (100) of the sources in FOLDERS are judged, JOBS (1, at most 2)
# at a time; SEED (1) says which. Each is made in a copy of the tree below
# $BUILD/code-mutants, its library is linked anew, and the tests of its folder
# and of neighbours run, those first that kill most in a second, until one fails.
# Only those tests run that came to the changed line when nothing was changed:
# for all others the program is the same.
#
#   killed     a test failed, died or did not come to its end
#   survived   none did
#   stillborn  it does not compile without warnings; it does not count
#   equal      the compiler makes the same code of it; it does not count
#
# Verdicts are kept in $BUILD/code-mutants/results, one a line, and not sought
# again; AGAIN=1 judges those anew that survived. QUICK=4 leaves out tests that take
# more seconds, but for the golden files: a first view, as some that survive it are
# killed by the rest (AGAIN=1). Ends with the rate and with the survivors. Read
# next: lines.sh, mutate.c.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEED=${SEED:-1}
COUNT=${COUNT:-100}
JOBS=${JOBS:-1}
FOLDERS=${FOLDERS:-solve sew cut plan tell book render}
work=$BUILD/code-mutants
results=$work/results
mkdir -p "$work" || exit 2
work=$(cd "$work" && pwd)
results=$work/results
touch "$results"
UNSEEN="no test runs it"
QUICK=${QUICK:-}
unset MAKEFLAGS MFLAGS MAKELEVEL CMOCKA_MESSAGE_OUTPUT
[ "$JOBS" -le 2 ] || JOBS=2

# Of tests/FOLDER/... the words of paths that may see a change in src/FOLDER.
# `check` and `list`, which tests/driver compares at length, differ in what they
# plan alone.
tests_of() {
    case $1 in
    solve) echo solve/ resolve/ sew/ cut/ driver/run_golden codes/ ;;
    sew) echo sew/ solve/ cut/ tell/ book/ driver/run_golden codes/ ;;
    cut | plan) echo cut/ plan/ driver/ codes/ cli/run_plan.sh ;;
    tell) echo tell/ book/ driver/run_golden render/test_json.c ;;
    book) echo book/ tell/ driver/run_golden render/test_json.c render/test_svg.c \
        render/test_scale.c ;;
    render) echo render/ driver/run_golden ;;
    *) echo "$1/" driver/ codes/ ;;
    esac
}

# ---- copies of the tree ----

# Brings what differs into the copy, and takes out what went. New times make
# the objects of what a broken run left behind anew.
sync_tree() {
    mkdir -p "$1"
    (cd "$1" && restore) || exit 2
    find Makefile include src tests templates samples README.md -type f |
        LC_ALL=C sort >"$1/files.new"
    [ ! -e "$1/files" ] || LC_ALL=C comm -23 "$1/files" "$1/files.new" |
        while read -r gone; do rm -f "$1/$gone"; done
    while read -r file; do
        cmp -s "$file" "$1/$file" && continue
        mkdir -p "$1/$(dirname "$file")" && cp "$file" "$1/$file"
    done <"$1/files.new"
    mv "$1/files.new" "$1/files"
}

# In the copy where it is called; over the library as it was.
mutate() {
    LD_LIBRARY_PATH=build/whole build/tests/code-mutants/mutate "$@"
}

# In the copy where it is called: everything of the targets, as the Makefile
# says. Without places in the source, so that equal code is equal objects.
make_here() {
    make BUILD=build LIBRARY=build/libseamwright.so OPTIONS=-O2 \
        CFLAGS='-fPIC -Wno-parentheses' WERROR=-Werror "$@"
}

programs() {
    for source in tests/*/test_*.c tests/driver/dump_*.c; do
        echo "build/${source%.c}"
    done
}

build_tree() (
    cd "$1" || exit 2
    # shellcheck disable=SC2046 # names without blanks
    make_here -j"$JOBS" all $(programs) build/tests/code-mutants/mutate \
        >build.log 2>&1 || { tail -20 build.log; exit 1; }
    mkdir -p build/whole && cp -p build/libseamwright.so build/seamwright build/whole
)

# ---- tests ----

# run_test SECONDS TEST [LIBRARY]: in the copy where it is called. The limit is of
# the processor, as the machine may be busy; that of the clock is for a program
# that waits. Behind a blank in TEST stands what a script is asked for.
run_test() (
    library=${3:-$PWD/build}
    export BUILD=build SEAMWRIGHT=$library/seamwright TMPDIR="$PWD/build/tmp"
    export LD_LIBRARY_PATH="$library"
    rm -rf "$TMPDIR" && mkdir -p "$TMPDIR"
    ulimit -c 0
    ulimit -v 4000000
    ulimit -t "$1"
    clock=$((60 + $1 * 20))
    # shellcheck disable=SC2086 # a path, and a word
    case $2 in
    *.c) set -- "build/${2%.c}" ;;
    *) set -- bash $2 ;;
    esac
    timeout --foreground -k 5 $clock "$@" >build/test.log 2>&1 </dev/null
)

# Of tests/FOLDER/... that belong to src/FOLDER. What scripts do with one sample
# or list is a test by itself, and so are the cases with the same first letter.
list_tests() {
    for word in $(tests_of "$1"); do
        for test in tests/"$word"*; do
            case $test in
            */run_goldens.sh)
                list_parts "$test" samples
                list_parts "$test" tests/driver/pages
                ;;
            */run_codes.sh) list_letters "$test" tests/codes ;;
            */run_lists.sh) list_parts "$test" tests/plan/lists ;;
            */test_*.c | */run_*.sh) [ ! -e "$test" ] || echo "$test" ;;
            esac
        done
    done
}

list_parts() {
    for part in "$2"/*.xml "$2"/*.txt; do
        part=${part##*/}
        [ "$part" = "${part#\*}" ] && echo "$1 ${part%.???}"
    done
}

list_letters() {
    for part in "$2"/*.xml; do
        part=${part##*/}
        echo "$1 ${part:0:1}"
    done | uniq
}

# order_tests FOLDER: its tests, the best buy first: each has what it takes, over the mutants of this folder that it has killed so far.
# What killed none yet counts less among neighbours than in the folder itself,
# most where it is a golden file, in which most changes show, and least where it
# is one of many alike. What is new comes first where survivors are judged again.
order_tests() {
    list_tests "$1" | awk -F '\t' -v folder="$1" -v again="${AGAIN:-}" '
        FILENAME == ARGV[1] { spent[$2] = $1; next }
        FILENAME == ARGV[2] {
            if ($1 == "killed" && index($4, "src/" folder "/") == 1) {
                sub(/ \(too long\)$/, "", $2)
                kills[$2]++
            }
            next
        }
        {
            weight = 1
            if ($1 ~ /run_goldens/)
                weight = 12
            else if ($1 ~ /run_(codes|lists)/)
                weight = 0.25
            else if (index($1, "tests/" folder "/") == 1)
                weight = 4
            time = $1 in spent ? spent[$1] : again ? 0 : 1000
            print (time + 20) / (weight + 12 * kills[$1]), $1
        }' "$work/times" "$results" - | sort -n | cut -d ' ' -f 2-
}

# shellcheck source=tests/code-mutants/lines.sh disable=SC1091
. tests/code-mutants/lines.sh

# ---- one mutant ----

# verdict WORD KILLER MUTANT
keep_verdict() {
    printf '%s\t%s\t%s\n' "$1" "$2" "$3" >>"$results"
    echo "$1 $2 $(echo "$3" | cut -f 2,3 | tr '\t' ':')"
}

# find_killer FOLDER PLACES: the tests of a folder that come to one of the places
# until one fails: prints its name, with what became of it where it did not end by
# itself.
find_killer() {
    ran=
    while read -r test; do
        measure "$test" || exit 2
        comes_to "$test" "$2" || continue
        ran=1
        ! passed_over "$test" || continue
        run_test "$(limit_of "$test")" "$test"
        status=$?
        [ $status -eq 0 ] && continue
        case $status in
        124 | 137 | 152) echo "$test (too long)" ;;
        *) echo "$test" ;;
        esac
        return
    done < <(order_tests "$1")
    [ -n "$ran" ] || echo "$UNSEEN"
}

# In the copy where it is called: all as it was, with its times, so that nothing is
# made anew for it. A run that was broken off leaves that to the next.
restore() {
    [ -e build/changed ] || return 0
    file=$(cat build/changed)
    cp -p build/kept.c "$file" && cp -p build/kept.o "build/${file%.c}.o" &&
        cp -p build/whole/libseamwright.so build && rm build/changed
}

# judge MUTANT, a line of the sample: in the copy where it is called.
judge() {
    IFS=$'\t' read -r _ file _ offset length text _ <<<"$1"
    object=build/${file%.c}.o
    folder=${file#src/}
    folder=${folder%%/*}
    cp -p "$file" build/kept.c && cp -p "$object" build/kept.o &&
        echo "$file" >build/changed || exit 2
    mutate apply build/kept.c "$offset" "$length" "$text" >"$file"
    if ! make_here "$object" >build/mutant.log 2>&1; then
        keep_verdict stillborn - "$1"
    elif cmp -s "$object" build/kept.o; then
        keep_verdict equal - "$1"
    else
        make_here build/libseamwright.so >build/mutant.log 2>&1 || exit 2
        killer=$(find_killer "$folder" "$(places_of "$1")") || exit
        case $killer in
        '' | "$UNSEEN") keep_verdict survived "${killer:--}" "$1" ;;
        *) keep_verdict killed "$killer" "$1" ;;
        esac
    fi
    restore || exit 2
}

# How many of the first mutants count, in the order of the sample.
counted() {
    awk -F '\t' -v count="$COUNT" '
        NR == FNR { verdict[$3] = $1; next }
        verdict[$1] ~ /^(killed|survived)$/ && n < count { n++ }
        END { print n + 0 }' "$results" "$work/sample"
}

# The mutants of one worker; `turn` is its place among them.
work_through() (
    trap 'exit 130' INT TERM # a test that is broken off judges nothing
    turn=$1
    cd "$work/tree-$turn" || exit 2
    prepare_counts
    number=0
    while IFS= read -r mutant; do
        number=$((number + 1))
        [ $((number % JOBS)) -eq "$turn" ] || continue
        grep -qF "	${mutant%%	*}	" "$results" && continue
        [ "$(counted)" -lt "$COUNT" ] || break
        judge "$mutant"
    done <"$work/sample"
)

# ---- all of them ----

report() {
    awk -F '\t' -v count="$COUNT" '
        NR == FNR { verdict[$3] = $1; killer[$3] = $2; next }
        !($1 in verdict) || n >= count { next }
        {
            split($2, part, "/")
            folder = part[2]
            if (!(folder in seen)) { seen[folder] = 1; order[++folders] = folder }
            tally[folder, verdict[$1]]++
            tally["all", verdict[$1]]++
            late += killer[$1] ~ /too long/
            n += verdict[$1] ~ /^(killed|survived)$/
        }
        verdict[$1] == "survived" {
            text = text sprintf("%s:%s: %s%s\n  - %s\n  + %s\n", $2, $3, $7,
                                killer[$1] == "-" ? "" : ", " killer[$1], $8, $9)
        }
        function row(name,    killed, lived) {
            killed = tally[name, "killed"]
            lived = tally[name, "survived"]
            printf "%-8s %7d %9d %8.1f %% %10d %6d\n", name, killed, lived,
                   killed + lived ? 100 * killed / (killed + lived) : 0,
                   tally[name, "stillborn"], tally[name, "equal"]
        }
        END {
            printf "%s", text
            printf "%-8s %7s %9s %10s %10s %6s\n", "folder", "killed",
                   "survived", "rate", "stillborn", "equal"
            for (i = 1; i <= folders; i++)
                row(order[i])
            row("all")
            printf "killed by a test that did not end: %d\n", late
        }' "$results" "$work/sample"
}

if [ -n "${AGAIN:-}" ]; then
    awk -F '\t' '$1 != "survived"' "$results" >"$results.new"
    mv "$results.new" "$results"
fi
sources=
for folder in $FOLDERS; do
    [ -d "src/$folder" ] || continue
    for file in "src/$folder"/*.c; do sources="$sources $file"; done
done
sync_tree "$work/tree-0"
build_tree "$work/tree-0" || exit 1
# shellcheck disable=SC2086 # names without blanks
(cd "$work/tree-0" && mutate sample "$SEED" 1000000 $sources) >"$work/sample" || exit 1
if [ "$(counted)" -lt "$COUNT" ]; then
    if [ "$JOBS" -eq 2 ]; then
        sync_tree "$work/tree-1"
        build_tree "$work/tree-1" || exit 1
    fi
    trap 'exit 130' INT TERM
    (cd "$work/tree-0" && build_counting && keep_times) || exit 1
    [ "$JOBS" -eq 1 ] || work_through 1 &
    work_through 0
    wait
fi
report
