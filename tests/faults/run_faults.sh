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

# What is there before, and what comes out where nothing fails.
sed 's/ photo="[^"]*"//; s/12 x 6/12 x 5/; s/finished="4"/finished="5"/' pier.xml >../old.xml
"$SEAMWRIGHT" build ../old.xml -o ../old >/dev/null 2>&1 || exit 2
"$SEAMWRIGHT" figure ../old.xml "$figure" -o ../old.svg 2>/dev/null || exit 2
"$SEAMWRIGHT" build pier.xml -o ../new >/dev/null 2>&1 || exit 2
"$SEAMWRIGHT" figure pier.xml "$figure" -o ../new.svg 2>/dev/null || exit 2
cmp -s ../old.svg ../new.svg && exit 2

prepare() {
    [ -d out ] && same old || { rm -rf out && cp -r ../old out; }
    cmp -s ../old.svg out.svg || cp ../old.svg out.svg
}

# same old|new: what is in the folder, with the list.
same() {
    for file in "../$1"/* "../$1"/.seamwright-files; do
        cmp -s "$file" "out/${file##*/}" || return 1
    done
    [ "$(ls -A out | wc -l)" = "$(ls -A "../$1" | wc -l)" ]
}

# as old|new: folder and figure, as far as the command writes them.
as() {
    case $command in
    build*) same "$1" && cmp -s ../old.svg out.svg ;;
    *-o*) same old && cmp -s "../$1.svg" out.svg ;;
    *) same old && cmp -s ../old.svg out.svg ;;
    esac
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
    *.0)
        [ "$1" = calls ] || [ ! -e ../name ] || echo "went on without memory"
        as new && cmp -s ../said ../good || echo "other bytes with status 0" ;;
    *.3)
        grep -q '^seamwright: out of memory' ../words || echo "3 without a word"
        as old || echo "the last output is not whole" ;;
    calls.1)
        grep -qE 'cannot be read.*\[(photo|include)\]' ../words ||
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
    [ "$1" = calls ] && "$SEAMWRIGHT" build pier.xml -o out >/dev/null 2>&1
    [ "$(ls -A)" = "$listing" ] || echo "left beside: $(ls -A | tr '\n' ' ')"
}

# numbers TOTAL: those to try, one a line.
numbers() {
    if [ "$FAULTS" = all ] || [ "$FAULTS" -ge "$1" ]; then
        seq 1 "$1"
    else
        awk -v total="$1" -v count="$FAULTS" -v seed="$SEED" 'BEGIN {
            srand(seed)
            for (i = 0; i < count; i++) print 1 + int(rand() * total) }'
    fi
}

# try KIND: the command with each number.
try() {
    prepare
    with "$1" 0
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
    "figure pier.xml $figure -o out.svg" 'build pier.xml -o out' >../commands
while read -r command; do
    case $command in
    *"${ONLY:-}"*)
        try memory
        try calls ;;
    esac
done <../commands
