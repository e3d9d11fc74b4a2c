#!/bin/sh
# Every command while something fails: the Nth allocation, or the Nth call for a
# file, a map, a process (faults.c). No memory ends with status 3, a refused file
# or folder with 4; or the fault does not matter, and all comes out to the byte.
# The last output stays whole, nothing lies beside it, and no signal ends it.
# FAULTS=all tries each N, else a share of them by SEED. PATTERN=shoal takes a quilt
# whose cloth is drawn anew for each page, in place of a small one.
set -u
cd "$(dirname "$0")/../.." || exit 2
root=$PWD
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
FAULTS=${FAULTS:-9}
SEED=${SEED:-$(date +%j)}
PATTERN=${PATTERN:-pier}
figure=cutting-A
[ "$PATTERN" = pier ] || figure=quilt
case $SEAMWRIGHT in /*) ;; *) SEAMWRIGHT=$root/$SEAMWRIGHT ;; esac
case $BUILD in /*) ;; *) BUILD=$root/$BUILD ;; esac
library=$BUILD/tests/faults/faults.so
ulimit -c 0

# The sanitizers have an allocator of their own.
if [ -n "${SANITIZED:-}" ]; then
    echo "ok faults: not under the sanitizers # SKIP"
    exit 0
fi
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
mkdir "$work/at" && cd "$work/at" || exit 2
cp "$root"/tests/faults/tide.jpg "$root"/tests/faults/pieces.txt .
cp "$root/tests/faults/$PATTERN.xml" pier.xml
cp -r "$root/tests/faults/parts" .
cp -r parts ..

# Two lines: the facts of the first pattern lie beside the old kits, the second one
# is compiled. The shelf holds some of the cloth.
cp pier.xml quay.xml
order() {
    echo '<order xmlns="urn:seamwright:pattern:1" id="fair" title="Fair" currency="EUR" spare="5">'
    for pattern; do
        echo "<line pattern=\"$pattern.xml\" quilt=\"mat\" colorway=\"dawn\" kits=\"2\"/>"
    done
    [ $# -eq 1 ] || echo '<cloth name="Water" sold="half-yard" price="4.10" width="42"/>
        <bolt of="Water" length="40"> <flaw from="9" to="10"/> </bolt>'
    echo '<labels columns="2" rows="3" width="4" height="3" left="1/4" top="1" across="4" down="3"/></order>'
}
order pier >../old.kits
order pier quay >pier.kits

# What each command writes: a folder or a file.
outputs='out out.svg kits packet sheet.pdf'
output_of() {
    case $1 in
    build*) echo out ;;
    figure*) echo out.svg ;;
    kit*) echo kits ;;
    proof*) echo packet ;;
    compare*) echo sheet.pdf ;;
    esac
}

# What is there before, and what comes out where nothing fails. Another length in
# the old quilt makes all of it differ.
sed 's/ photo="[^"]*"//; s/12 x 6/12 x 5/; s/finished="4"/finished="5"/' pier.xml >../old.xml
cp pier.xml tide.jpg ..
# make old|new SOURCE ORDER OTHER: all outputs; an errata sheet from the data of the other.
make() {
    mkdir -p "../$1"
    "$SEAMWRIGHT" build "$2" -o "../$1/out" &&
        "$SEAMWRIGHT" figure "$2" "$figure" -o "../$1/out.svg" &&
        "$SEAMWRIGHT" kit "$3" -o "../$1/kits" &&
        "$SEAMWRIGHT" proof "$2" -o "../$1/packet" &&
        { "$SEAMWRIGHT" compare "$4" "$2" -o "../$1/sheet.pdf"; [ $? -eq 6 ]; }
} >/dev/null 2>&1
make old ../old.xml ../old.kits pier.xml || exit 2
cp ../old/out/pattern.json old.json
make new pier.xml pier.kits old.json || exit 2
for output in $outputs; do
    diff -qr "../old/$output" "../new/$output" >/dev/null && exit 2
done

prepare() {
    for output in $outputs; do
        diff -qr "../old/$output" "$output" >/dev/null 2>&1 ||
            { rm -rf "$output" && cp -r "../old/$output" "$output"; }
    done
}

# as old|new: what the command writes; all else is as it was.
as() {
    for output in $outputs; do
        which=old
        [ "$output" != "$target" ] || which=$1
        diff -qr "../$which/$output" "$output" >/dev/null 2>&1 || return 1
    done
}

# with KIND N COMMAND...: its status; what it said is in ../said and ../words.
with() {
    rm -f ../name
    timeout -k 5 60 env FAULT_KIND="$1" FAULT_AT="$2" FAULT_COUNT="$work/count" \
        FAULT_NAME="$work/name" LD_PRELOAD="$library" "$SEAMWRIGHT" \
        $command >../said 2>../words </dev/null
}

# objection KIND STATUS: why the end of a run is wrong, or nothing.
objection() {
    case $1.$2 in
    *."$clean")
        [ "$1" = calls ] || [ ! -e ../name ] || echo "went on without memory"
        as new && cmp -s ../said ../good || echo "other bytes with status $2" ;;
    *.3)
        grep -q '^seamwright: out of memory' ../words || echo "3 without a word"
        as old || echo "the last output is not whole" ;;
    calls.1)
        grep -q 'cannot be read' ../words &&
            grep -qE '\[(photo|include|kit-pattern)\]' ../words ||
            echo "a mistake is told"
        as old || echo "the last output is not whole" ;;
    calls.4)
        grep -q '^seamwright: ' ../words || echo "4 without a word"
        # The files are there when the words about them fail.
        as old || { grep -q 'standard output' ../words && as new; } ||
            echo "the last output is not whole" ;;
    *) echo "status $2" ;;
    esac
}

# Nothing beside, or what a folder that would not be emptied has left: the next
# build takes it away.
left_over() {
    [ "$(ls -A)" != "$listing" ] || return 0
    [ "$1" = calls ] && "$SEAMWRIGHT" $command >/dev/null 2>&1
    [ "$(ls -A)" = "$listing" ] || echo "left beside: $(ls -A | tr '\n' ' ')"
}

# numbers TOTAL: those to try, one a line; the last ones of a share always, as a
# fault behind the writing of the output is the worst.
numbers() {
    if [ -n "${FAULTS_FROM:-}" ]; then
        seq "$FAULTS_FROM" "$1"
    elif [ "$FAULTS" = all ] || [ "$FAULTS" -ge "$1" ]; then
        seq 1 "$1"
    else
        awk -v total="$1" -v count="$FAULTS" -v seed="$SEED" 'BEGIN {
            srand(seed)
            for (i = 0; i < count; i++) print 1 + int(rand() * total)
            for (i = total > 4 ? total - 4 : 1; i <= total; i++) print i }'
    fi
}

# try KIND: the command with each number.
try() {
    prepare
    with "$1" 0
    clean=$?
    cp ../said ../good
    total=$(cat ../count)
    tried=0
    : >../bad
    for number in $(numbers "$total"); do
        prepare
        with "$1" "$number"
        status=$?
        reason=$(objection "$1" "$status"; left_over "$1")
        tried=$((tried + 1))
        [ -z "$reason" ] || {
            echo "# $1 $number ($(cat ../name 2>/dev/null)): $reason"
            head -2 ../words | sed 's/^/#   /'
            find . -name '.seamwright-[fno]*' -prune -exec rm -rf {} +
        } >>../bad
    done
    head -20 ../bad
    if [ -s ../bad ]; then echo "not ok faults: $command: $1, $(grep -c \
        '^# [mc]' ../bad) of $tried"
    else echo "ok faults: $command: $1, $tried of $total"; fi
}

prepare
listing=$(ls -A)
printf '%s\n' 'check pier.xml' 'list pier.xml' 'plan pieces.txt' \
    "figure pier.xml $figure -o out.svg" 'build pier.xml -o out' \
    'kit pier.kits -o kits' 'proof pier.xml -o packet' \
    'compare old.json pier.xml -o sheet.pdf' >../commands
while read -r command; do
    target=$(output_of "$command")
    case $command in
    *"${ONLY:-}"*)
        try memory
        try calls ;;
    esac
done <../commands
