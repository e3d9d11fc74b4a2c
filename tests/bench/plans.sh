#!/bin/sh
# plans.sh [SET]: plans of published lists against their reference lengths,
# where the folder that SEAMWRIGHT_CUTTING names holds them (strips.csv beside a
# folder a set; invented lists in `lists`). A row an instance, then a line a
# variant: how many are as short as the proven length, how many are proved, the
# worst that is longer. Told and passed over where they are absent.
set -u
cd "$(dirname "$0")/../.." || exit 2
SEAMWRIGHT=${SEAMWRIGHT:-${BUILD:-build}/seamwright}
lists=${SEAMWRIGHT_CUTTING:-}
if [ -z "$lists" ] || [ ! -r "$lists/strips.csv" ]; then
    echo "plans: set SEAMWRIGHT_CUTTING to the folder of the published lists"
    exit 0
fi
scratch=$(mktemp -d) || exit 2
trap 'rm -rf "$scratch"' EXIT

# plan FILE OPTION...: its plan in $scratch/plan, $spent the milliseconds of
# both plans, the shortest and the simplest.
plan() {
    file=$1
    shift
    # With a height the list would be planned as sheets.
    sed '/^height/d' "$file" >"$scratch/list"
    before=$(date +%s%N)
    "$SEAMWRIGHT" plan --thorough "$@" "$scratch/list" >"$scratch/plan" || : >"$scratch/plan"
    spent=$((($(date +%s%N) - before) / 1000000))
}

# figures: "LENGTH BOUND" of the shortest plan, which is printed last. Lengths
# are printed as decimals or as mixed fractions (4-1/2, 4 1/2).
figures() {
    awk 'function number(text, parts, sum, n, i, f) {
            n = split(text, parts, /[- ]/)
            for (i = 1; i <= n; i++)
                sum += split(parts[i], f, "/") == 2 ? f[1] / f[2] : parts[i]
            return sum
        }
        /^length/ {
            sub(/:.*/, "")
            sub(/^length /, "")
            split($0, both, ", bound ")
            last = number(both[1]) " " number(both[2])
        }
        END { print last == "" ? "- -" : last }' "$scratch/plan"
}

# Rows of strips.csv whose length is proved:
# set,instance,...,variant,rotation,...,plan_length,proved
published() {
    tail -n +2 "$lists/strips.csv" | tr -d '\r' |
        while IFS=, read -r set name _ _ _ variant turns _ _ _ _ _ length \
            proved; do
            [ "$proved" = 1 ] || continue
            [ -z "${1:-}" ] || [ "$set" = "$1" ] || continue
            options=
            [ "$turns" = yes ] || options=--keep-grain
            case $variant in *non-exact*) options="$options --trimmed" ;; esac
            # shellcheck disable=SC2086 # a list of options
            plan "$lists/$set/$name.txt" $options
            echo "$set,$name,$variant,$turns,$(figures | tr ' ' ,),$length,$spent"
        done
}

echo "set/instance, variant, rotation: length (bound) against reference, ms"
published "${1:-}" | tee "$scratch/rows" | awk -F, '{
    printf "%s/%s, %s, %s: %s (%s) %s %s, %d\n", $1, $2, $3, $4, $5, $6,
        $5 == "-" ? "none" : $5 <= $7 ? "=" : "longer than", $7, $8 }'
awk -F, '{
        key = $3 ", rotation " $4
        n[key]++
        ms[key] += $8
        proved[key] += $5 != "-" && $5 == $6
        if ($5 != "-" && $5 <= $7) {
            met[key]++
            next
        }
        over = $5 == "-" ? 1 : $5 / $7 - 1
        if (over > worst[key])
            worst[key] = over
        missed[key] = missed[key] " " $1 "/" $2
    }
    END {
        for (key in n)
            printf "%s: %d of %d lengths met, %d proved, %d ms%s\n", key,
                met[key], n[key], proved[key], ms[key],
                missed[key] == "" ? "" : sprintf("; worst %.2f %% over:%s",
                    worst[key] * 100, missed[key])
    }' "$scratch/rows" | LC_ALL=C sort
[ -z "${1:-}" ] || exit 0

# The invented lists: lengths in inches of the shortest plan, and the effort of
# the simplest within the cloth as sold, each behind what was reached before.
echo
echo "list, variant: length (bound) of reference; sold in 1/8 yd; effort of"
echo "reference (by hand); ms"
while read -r name variant length effort hand; do
    [ -r "$lists/lists/$name.txt" ] || continue
    case $variant in trimmed) options=--trimmed ;; *) options= ;; esac
    # shellcheck disable=SC2086 # an option or none
    plan "$lists/lists/$name.txt" $options
    figures >"$scratch/figures"
    read -r found bound <"$scratch/figures"
    # The simplest plan is printed first.
    simple=$(awk '/^effort/ { sub(/:.*/, ""); print $2; exit }' "$scratch/plan")
    awk -v name="$name" -v variant="$variant" -v found="$found" \
        -v bound="$bound" -v length_was="$length" -v effort="$effort" \
        -v hand="$hand" -v simple="$simple" -v ms="$spent" 'BEGIN {
            eighths = int(found / 4.5)
            eighths += eighths * 4.5 < found
            printf "%s, %s: %s (%s) of %s; %d; %s of %s (%s); %d\n", name,
                variant, found, bound, length_was, eighths, simple, effort,
                hand, ms }'
done <<'EOF'
q01_sampler exact 148 32 26
q01_sampler trimmed 143.5 45 26
q02_ninepatch exact 141 13 13
q02_ninepatch trimmed 136.5 18 13
q03_starpoints exact 117 22 17
q03_starpoints trimmed 111.875 27 17
q04_logcabin exact 90 15 25
q04_logcabin trimmed 90 15 25
q05_irishchain exact 244 14 14
q05_irishchain trimmed 244 14 14
EOF
