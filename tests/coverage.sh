#!/bin/sh
# Lines and branches of src that the tests ran, from what `make coverage` left in
# BUILD. Calls of internal_error are left out, and of the `if` before one the
# branch that leads there. Prints a line for each file, then what was not run as
# FILE:LINE (LIST=1: with the branches), then the sums. FLOORS=1 (all tests were
# run): ends with status 1 where a sum is below what was once reached. Not run by
# nature are the sandbox, which coverage must do without (it writes elsewhere), and
# the ends of a process that dies by a signal.
set -u
cd "$(dirname "$0")/.." || exit 2
BUILD=${BUILD:-build/coverage}
case $BUILD in /*) ;; *) BUILD=$PWD/$BUILD ;; esac
work=$BUILD/tests/gcov
rm -rf "$work"
mkdir -p "$work"

# A line each: FILE LINE COUNT BRANCHES-TAKEN BRANCHES
for source in src/*/*.c; do
    object=$BUILD/${source%.c}.o
    [ -e "${object%.o}.gcno" ] || continue
    gcov --json-format --stdout --branch-probabilities "$object" 2>/dev/null |
        jq -r --arg source "$source" '.files[] | select(.file == $source) |
            .lines[] | [$source, .line_number, .count,
                ([.branches[] | select(.count > 0)] | length),
                (.branches | length)] | @tsv'
done >"$work/lines"

# FAULT lines belong to a call of internal_error, GUARD lines to its `if`.
for source in src/*/*.c; do
    awk -v file="$source" '
        { text[NR] = $0 }
        END {
            for (i = 1; i <= NR; i++) {
                if (text[i] !~ /internal_error\(/ || text[i] ~ /^[_a-z]/)
                    continue
                for (j = i; text[j] !~ /;/ && j < NR; j++)
                    print "FAULT", file, j
                print "FAULT", file, j
                for (j = i - 1; j > i - 5 && text[j] !~ /[;{}]$/; j--) {
                    print "GUARD", file, j
                    if (text[j] ~ /^ *(} else )?(if|for|while) \(/)
                        break
                }
            }
        }' "$source"
done >"$work/marks"

awk -v list="${LIST:-}" -v floors="${FLOORS:-}" \
    -v lines_floor=98 -v branches_floor=92 '
    FILENAME ~ /marks$/ { mark[$2, $3] = $1; next }
    mark[$1, $2] == "FAULT" { next }
    {
        # One line may be told several times, once for each use of a macro.
        if (!(($1, $2) in seen)) {
            seen[$1, $2] = ++n
            file[n] = $1
            line[n] = $2
        }
        i = seen[$1, $2]
        if ($3 > 0)
            ran[i] = 1
        if (mark[$1, $2] == "GUARD" && $5 > $4 && $4 > 0)
            $5 = $4
        taken[i] += $4
        branches[i] += $5
    }
    END {
        for (i = 1; i <= n; i++) {
            f = file[i]
            lines[f]++
            run[f] += ran[i]
            b[f] += branches[i]
            t[f] += taken[i]
            if (!ran[i])
                left[f] = left[f] " " line[i]
            else if (list != "" && taken[i] < branches[i])
                part[f] = part[f] " " line[i]
        }
        for (f in lines) {
            printf "%5.1f %% of %4d lines, %5.1f %% of %4d branches  %s\n",
                   100 * run[f] / lines[f], lines[f],
                   b[f] ? 100 * t[f] / b[f] : 100, b[f], f | "sort -k 9"
            all += lines[f]; done += run[f]; allb += b[f]; doneb += t[f]
        }
        close("sort -k 9")
        for (f in left)
            print "left: " f ":" left[f] | "sort"
        for (f in part)
            print "in part: " f ":" part[f] | "sort"
        close("sort")
        printf "lines %.2f %% of %d (floor %d), branches %.2f %% of %d (floor %d)\n",
               100 * done / all, all, lines_floor, 100 * doneb / allb, allb,
               branches_floor
        exit floors != "" && (100 * done < lines_floor * all ||
                              100 * doneb < branches_floor * allb)
    }' "$work/marks" "$work/lines"
