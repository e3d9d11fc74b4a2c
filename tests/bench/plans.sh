#!/bin/sh
# Plans of published lists against their reference lengths, where the folder
# that SEAMWRIGHT_CUTTING names holds them (strips.csv beside a folder a set).
# One line a variant: lists, how many are as short as the proven length, and the
# worst that is longer. Told and passed over where they are absent.
set -u
cd "$(dirname "$0")/../.." || exit 2
SEAMWRIGHT=${SEAMWRIGHT:-${BUILD:-build}/seamwright}
lists=${SEAMWRIGHT_CUTTING:-}
if [ -z "$lists" ] || [ ! -r "$lists/strips.csv" ]; then
    echo "plans: set SEAMWRIGHT_CUTTING to the folder of the published lists"
    exit 0
fi
# set,instance,...,variant,rotation,...,plan_length,proved
tail -n +2 "$lists/strips.csv" | while IFS=, read -r set name _ _ _ variant \
    turns _ _ _ _ _ length proved; do
    [ "$proved" = 1 ] || continue
    [ -z "${1:-}" ] || [ "$set" = "$1" ] || continue
    options=
    [ "$turns" = yes ] || options=--keep-grain
    case $variant in *non-exact*) options="$options --trimmed" ;; esac
    # shellcheck disable=SC2086 # a list of options
    found=$("$SEAMWRIGHT" plan $options "$lists/$set/$name.txt" |
        awk '/^length/ { last = $2 + 0 } END { print last }')
    echo "$set,$variant,$turns,$name,$found,$length"
done | awk -F, '{
        key = $1 ", " $2 ", turns " $3
        n[key]++
        if ($5 > 0 && $5 <= $6) met[key]++
        else { over = $5 / $6 - 1; if (over > worst[key]) worst[key] = over
               missed[key] = missed[key] " " $4 }
    }
    END { for (key in n) printf "%s: %d of %d proven lengths met%s\n", key,
              met[key], n[key], missed[key] == "" ? "" : sprintf("; worst %.2f %% over:%s", worst[key] * 100, missed[key]) }' | sort
