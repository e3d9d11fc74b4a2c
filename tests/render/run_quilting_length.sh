#!/bin/bash
# What the table of quilting tells is what is drawn: the length of all lines in
# the figure of a stage, read back from the SVG and brought to the size of the
# quilt by its outline, is the sum of the table to 1 in 1,000. Fillers that are
# stitched by eye are drawn as samples, so their stage is left out.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
work=$BUILD/tests/quilting-length
failed=0
rm -rf -- "$work"
mkdir -p "$work"

# drawn WIDTH: the sum of all lines, where the outline of the quilt is so wide.
drawn() {
    awk -v wide="$1" '
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
        /class="outline"/ && !scale {
            split(path(), at, /[ML ]/)
            scale = wide / (at[4] - at[2])
        }
        /class="mark"/ { all += length_of(path()) }
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

measure samples/eight-sails.xml throw regatta 48
measure samples/lantern-walk.xml throw dusk 66
measure samples/lone-beacon.xml throw dawn 56
measure samples/orchard-gate.xml throw may 46
measure samples/reed-lights.xml lap before-dawn 48
measure samples/reed-lights.xml throw first-frost 72
measure samples/turning-lamp.xml throw morning-watch 62
measure samples/vane-harbor.xml throw heather 54.5
measure samples/vane-harbor.xml bed pine 91
exit $failed
