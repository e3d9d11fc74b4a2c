#!/bin/sh
# Plans of sheets for published lists, where the folder that SEAMWRIGHT_CUTTING
# names holds them (sheets.csv beside a folder of lists, silva2010). A row a
# list and first cut, with nothing turned: sheets, bound, whether proved, the
# best published number, milliseconds of the whole command. The lists leave open
# which side of a sheet is upright, so both first cuts are measured. Told and
# passed over where the folder is absent.
set -u
cd "$(dirname "$0")/../.." || exit 2
SEAMWRIGHT=${SEAMWRIGHT:-${BUILD:-build}/seamwright}
lists=${SEAMWRIGHT_CUTTING:-}
if [ -z "$lists" ] || [ ! -r "$lists/sheets.csv" ]; then
    echo "sheets: set SEAMWRIGHT_CUTTING to the folder of the published lists"
    exit 0
fi
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT

# problem,objective,stages,type,first cut,rotation,set/instance,best,bound
for cut in down across; do
    tail -n +2 "$lists/sheets.csv" | while IFS=, read -r _ _ _ _ _ _ name best _; do
        name=${name##*/}
        { cat "$lists/silva2010/$name.txt" && echo "first-cut $cut"; } \
            >"$work/list.txt"
        begin=$(date +%s%N)
        "$SEAMWRIGHT" plan --keep-grain "$work/list.txt" >"$work/out"
        end=$(date +%s%N)
        awk -v name="$name" -v cut="$cut" -v best="$best" \
            -v time=$(((end - begin) / 1000000)) '
            /^sheets/ { found = $2; bound = $4 + 0; proved = /proven/ }
            END { printf "%s,%s,sheets %d,bound %d,%s,published %d,%d ms\n",
                      name, cut, found, bound, proved ? "proved" : "open",
                      best, time }' "$work/out"
    done
done | awk -F, '{
        print
        n[$2]++
        sheets = substr($3, 8) + 0
        best = substr($6, 11) + 0
        met[$2] += sheets > 0 && sheets <= best
        fewer[$2] += sheets > 0 && sheets < best
        proved[$2] += $5 == "proved"
        if ($7 + 0 > worst[$2]) worst[$2] = $7 + 0
    }
    END { for (cut in n)
              printf "first cut %s: published number met on %d of %d, fewer on %d, proved %d, slowest %d ms\n",
                  cut, met[cut], n[cut], fewer[cut], proved[cut], worst[cut] }'
