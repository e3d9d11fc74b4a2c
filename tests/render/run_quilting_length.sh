#!/bin/bash
# What the table of quilting tells is what is drawn: the length of all lines in
# the figure of a stage, read back from the SVG and brought to the size of the
# quilt by its outline, is the sum of the table to 1 in 1,000. Of fillers each
# kind of area is read: its own figure, brought to its size by the area that its
# outline encloses, and the steps of its path, which are drawn one by one. What
# is stitched by eye is drawn as a sample; its length is that of the law: a line
# s apart owns a strip s wide, and a pebble of diameter d is a circle and a half,
# packed as closely as circles go (Anatomy of a Pebble,
# creativequiltingbydebbiestanton, April 2015): sqrt(3) pi / d on a square.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$BUILD/tests/quilting-length
failed=0
rm -rf -- "$work"
mkdir -p "$work"

# Functions of all scripts below: the data of a path, and its length.
paths='
        function path() {
            match($0, / d="[^"]*"/)
            return substr($0, RSTART + 4, RLENGTH - 5)
        }
        function length_of(d, n, w, i, x, y, first_x, first_y, sum) {
            gsub(/[MLZ]/, " & ", d)
            n = split(d, w, " ")
            for (i = 1; i <= n; i++) {
                if (w[i] == "M") {
                    x = first_x = w[++i]; y = first_y = w[++i]
                } else if (w[i] == "L") {
                    sum += sqrt((w[i + 1] - x) ^ 2 + (w[i + 2] - y) ^ 2)
                    x = w[++i]; y = w[++i]
                } else if (w[i] == "Z") {
                    sum += sqrt((first_x - x) ^ 2 + (first_y - y) ^ 2)
                } else {
                    print "a path has " w[i] > "/dev/stderr"
                    exit 1
                }
            }
            return sum
        }
        function area_of(d, n, w, i, next_x, next_y, sum) {
            gsub(/[MLZ]/, " ", d)
            n = split(d, w, " ")
            for (i = 1; i < n; i += 2) {
                next_x = i + 2 < n ? w[i + 2] : w[1]
                next_y = i + 2 < n ? w[i + 3] : w[2]
                sum += w[i] * next_y - next_x * w[i + 1]
            }
            return (sum < 0 ? -sum : sum) / 2
        }'

# drawn WIDTH: the sum of all lines, where the outline of the quilt is so wide.
# Travel has dashes of 0.9 mm, which no thread has.
drawn() {
    awk -v wide="$1" "$paths"'
        /class="outline"/ && !scale {
            split(path(), at, /[ML ]/)
            scale = wide / (at[4] - at[2])
        }
        /class="mark"/ && !/stroke-dasharray="2.551 1.701"/ {
            all += length_of(path())
        }
        END { printf "%.4f\n", all * scale }'
}

# told STAGE: the sum of its rows.
told() {
    awk -v stage="  $1:" 'index($0, stage) == 1 {
        match($0, /, [0-9.]* in; found/)
        sum += substr($0, RSTART + 2)
    } END { print sum + 0 }' "$work/list"
}

# measure SAMPLE QUILT COLORWAY WIDTH
measure() {
    "$SEAMWRIGHT" list --quilting --quilt "$2" --colorway "$3" "$1" \
        >"$work/list" 2>/dev/null
    for stage in ditch lines echoes; do
        grep -q "^  $stage: " "$work/list" || continue
        "$SEAMWRIGHT" figure "$1" "quilting-$stage" --quilt "$2" \
            --colorway "$3" -o "$work/$stage.svg" >"$work/out" 2>&1
        found=$(drawn "$4" <"$work/$stage.svg")
        wanted=$(told "$stage")
        if awk -v a="$found" -v b="$wanted" 'BEGIN {
                exit !(b > 0 && a > b * 0.999 && a < b * 1.001) }'; then
            echo "ok quilting length: ${1##*/} $2, $stage"
        else
            echo "not ok quilting length: ${1##*/} $2, $stage: $found drawn, $wanted told"
            failed=1
        fi
    done
}

# in_area SIZE WHOLE: the sum of all lines, where the first outline encloses so
# much; unless WHOLE is 1, of the solid ones alone, as travel is dashed in paths,
# where threads are not.
in_area() {
    awk -v size="$1" -v whole="$2" "$paths"'
        /class="outline"/ && !scale { scale = sqrt(size / area_of(path())) }
        /class="mark"/ && (whole || !/stroke-dasharray/) {
            all += length_of(path())
        }
        END { printf "%.4f\n", all * scale }'
}

# agree NAME FOUND TOLD: to 1 in 1,000, and half of the last place that is told.
agree() {
    if awk -v a="$2" -v b="$3" 'BEGIN {
            d = a - b; exit !(b > 0 && (d < 0 ? -d : d) < b / 1000 + 0.05) }'; then
        echo "ok quilting length: $1"
    else
        echo "not ok quilting length: $1: $2 drawn, $3 told"
        failed=1
    fi
}

# fillers SAMPLE QUILT COLORWAY SWIRLS PEBBLES: after `measure` of the same; both
# spacings as the source tells them. Lines of small areas are told too coarsely.
fillers() {
    sed -n '/^Areas/,/^$/s/^  \([a-z]*\): [0-9]* of [a-z]*, \([0-9.]*\) square in each, \([a-z]*\), \([0-9.]*\) in each$/\1 \2 \3 \4/p' \
        "$work/list" >"$work/kinds"
    [ -s "$work/kinds" ] || agree "$2, kinds of area" 0 1
    while read -r letter size fill told; do
        case $fill in
        swirls)
            agree "$2, area $letter by the law" \
                "$(awk -v s="$4" -v a="$size" 'BEGIN { print a / s }')" "$told"
            continue
            ;;
        pebbles)
            agree "$2, area $letter by the law" \
                "$(awk -v d="$5" -v a="$size" 'BEGIN {
                    print a * sqrt(3) * atan2(0, -1) / d }')" "$told"
            continue
            ;;
        esac
        awk -v size="$size" 'BEGIN { exit !(size < 20) }' && continue
        for figure in "quilting-area-$letter" "quilting-area-$letter-sequence"; do
            "$SEAMWRIGHT" figure "$1" "$figure" --quilt "$2" --colorway "$3" \
                -o "$work/$figure.svg" >"$work/out" 2>&1
            whole=1
            [ "$figure" = "quilting-area-$letter" ] || whole=0
            agree "$2, $figure" \
                "$(in_area "$size" "$whole" <"$work/$figure.svg")" "$told"
        done
    done <"$work/kinds"
}

measure samples/eight-sails.xml throw regatta 48
measure samples/lantern-walk.xml throw dusk 66
measure samples/lone-beacon.xml throw dawn 56
measure samples/orchard-gate.xml throw may 46
measure samples/reed-lights.xml lap before-dawn 48
fillers samples/reed-lights.xml lap before-dawn 1 2
measure samples/reed-lights.xml throw first-frost 72
fillers samples/reed-lights.xml throw first-frost 1 2
measure samples/turning-lamp.xml throw morning-watch 62
measure samples/vane-harbor.xml throw heather 54.5
measure samples/vane-harbor.xml bed pine 91
exit $failed
