#!/bin/bash
# The program from outside: commands, options, exit statuses, streams, files.
# Prints `ok NAME` or `not ok NAME` for each case.
set -u
cd "$(dirname "$0")/../.." || exit 2
BUILD=${BUILD:-build}
SEAMWRIGHT=${SEAMWRIGHT:-$BUILD/seamwright}
root=$PWD
case $SEAMWRIGHT in
/*) program=$SEAMWRIGHT ;;
*) program=$root/$SEAMWRIGHT ;;
esac
work=$(mktemp -d) || exit 2
trap 'chmod -R u+rwx "$work"; rm -rf "$work"' EXIT
failed=0
unset NO_COLOR SOURCE_DATE_EPOCH
sample=$root/samples/lantern-walk.xml
cd "$work" || exit 2

# A pattern about which there is nothing to say.
cat >clean.xml <<'XML'
<pattern xmlns="urn:seamwright:pattern:1" id="pier" title="Pier" units="in" seam="1/4">
  <fabrics>
    <fabric id="kelp" key="k" name="Kelp"/> <fabric id="sand" key="s" name="Sand"/>
  </fabrics>
  <colorway id="ebb" name="Ebb">
    <cloth fabric="kelp" name="Moss" color="#224433" width="42"/>
    <cloth fabric="sand" name="Dune" color="#ccbb88" width="42"/>
  </colorway>
  <quilt id="mat" name="Mat">
    <row> <patch fabric="kelp" width="4" height="4"/> <patch fabric="sand" width="4"/> </row>
  </quilt>
</pattern>
XML

# result NAME COMMAND...: the case holds where the command succeeds.
result() {
    name=$1
    shift
    if "$@" >said 2>&1; then
        echo "ok cli: $name"
    else
        cut -c1-300 said | head -5
        echo "not ok cli: $name"
        failed=1
    fi
}

# status WANTED ARGUMENT...: runs the program, keeps its streams in out and err.
status() {
    wanted=$1
    shift
    "$program" "$@" >out 2>err </dev/null
    found=$?
    [ $found -eq "$wanted" ] || { echo "status $found, not $wanted"; return 1; }
}

empty() {
    [ ! -s "$1" ] || { echo "$1 is not empty:"; head -3 "$1"; return 1; }
}
holds() {
    grep -qF -e "$2" "$1" || { echo "$1 lacks: $2"; head -3 "$1"; return 1; }
}
lacks() {
    ! grep -qF -e "$2" "$1" || { echo "$1 holds: $2"; return 1; }
}
entries() {
    find . -mindepth 1 -maxdepth 1 ! -name said ! -name out ! -name err |
        LC_ALL=C sort
}

# ---- help, version, wrong usage ----

help_says_all() {
    status 0 --help && empty err &&
        for word in check build list --output --quilt --colorway --paper \
            --language --json --diagnostics --color --help --version "0 clean" \
            "1 mistakes" "2 wrong usage" "3 out of" "4 input or output" \
            "5 internal"; do
            holds out "$word" || return 1
        done
}
help_is_narrow() {
    status 0 --help && ! awk 'length($0) > 80 { print; bad = 1 }
        END { exit !bad }' out
}
version_is_a_line() {
    status 0 --version && empty err && [ "$(wc -l <out)" -eq 1 ] &&
        grep -qE '^seamwright [0-9]+\.[0-9]+\.[0-9]+$' out
}
wrong_usage() {
    status 2 "$@" && empty out && [ -s err ] &&
        grep -qE "^Try 'seamwright( [a-z]+)? --help'\.$" err
}

result "help says all, on standard output" help_says_all
result "help fits 80 columns" help_is_narrow
result "-h is --help" eval 'status 0 -h && cp out h && status 0 --help && cmp h out'
result "version is one line" version_is_a_line
result "nothing asked" wrong_usage
result "unknown command" wrong_usage knit "$sample"
result "unknown option" wrong_usage check --purl "$sample"
result "unknown short option" wrong_usage check -z "$sample"
result "no file" wrong_usage check
result "option without its value" wrong_usage build "$sample" -o
result "two files to build" wrong_usage build "$sample" "$sample"
result "two files to list" wrong_usage list "$sample" "$sample"
result "unknown paper" wrong_usage build --paper a5 "$sample"
result "unknown language" wrong_usage build --language fr "$sample"
result "unknown form of diagnostics" wrong_usage check --diagnostics xml "$sample"
result "unknown color" wrong_usage check --color=blue "$sample"
result "options behind --" eval 'status 4 check -- --help && holds err -- --help'
result "wrong usage leaves nothing behind" eval '[ "$(entries | xargs)" = "./clean.xml ./h" ]'

# ---- files that cannot be read ----

mkdir folder
mkfifo pipe
unreadable() {
    cp "$sample" closed.xml && chmod 0 closed.xml
    [ -r closed.xml ] || { status 4 check closed.xml && holds err closed.xml; }
}
worst_of() {
    printf '<pattern' >broken.xml
    status 1 check "$sample" broken.xml && status 4 check broken.xml missing.xml
}

result "missing file" eval 'status 4 check missing.xml && empty out && holds err "missing.xml: cannot read"'
result "directory" eval 'status 4 check folder && empty out && holds err folder'
result "FIFO does not block" eval 'timeout 5 "$program" check pipe 2>err; [ $? -eq 4 ]'
result "unreadable file" unreadable
result "build of a missing file writes nothing" eval 'status 4 build missing.xml -o none && [ ! -e none ]'
result "check tells the worst status" worst_of
result "more than 16 MiB is a limit" eval 'truncate -s 16777217 large.xml && status 3 check large.xml && holds err "16 MiB"; s=$?; rm -f large.xml; [ $s -eq 0 ]'

# ---- clean runs ----

silent_check() {
    status 0 check clean.xml && empty out && empty err
}
from_stdin() {
    "$program" list - <"$sample" >stdin.out 2>err && "$program" list "$sample" >out &&
        cmp stdin.out out
}
builds_stdin() {
    mkdir -p in && (cd in && "$program" build - <"$sample" >../out) &&
        [ -e in/pattern/lantern-walk-throw-dusk.pdf ]
}
default_folder() {
    mkdir -p def && (cd def && "$program" build "$sample" >../out) &&
        [ -e def/lantern-walk/pattern.json ] && holds out lantern-walk-throw-dusk.pdf
}
list_holds() {
    status 0 list clean.xml && empty err && status 0 list "$sample" && holds out "66 x 78 in" && holds out Wing
}
json_list() {
    status 0 build "$sample" -o j && status 0 list --json "$sample" &&
        jq 'del(.quilts[].colorways[].pages)' j/pattern.json >data &&
        jq . out | cmp - data && jq -e .version out
}

result "a clean check is silent" silent_check
result "a source on standard input" from_stdin
result "build from standard input" builds_stdin
result "build goes beside, not into the source's folder" default_folder
result "list" list_holds
cutting_list() {
    status 0 list --cutting "$sample" && holds out "2 pieces cause it (2 x A4, A5)" &&
        holds out "each size by itself: 3 3/4 yd" && holds out "proven: no plan of this kind takes less" &&
        holds out "with 3 5/8 yd: 2 lines"
}
result "list --cutting" cutting_list
# No chance without its seam: a right one, the person's own, both ways off, all.
tolerance_list() {
    status 0 list --tolerance "$sample" && empty err &&
        holds out "three test strips of 1 1/2 measure 3 1/2" && lacks out yours &&
        holds out "right  narrow  wide  persons" &&
        status 0 list --strips "3 7/16" "$sample" &&
        holds out "right  yours  narrow  wide  persons" && holds out "they measure 3 7/16" &&
        status 0 list --tolerance --json --strips 3-7/16 "$sample" &&
        jq -e '.version == 1 and .quilts[0].strips == "3 7/16" and
            .quilts[0].hand.offsets.yours == "0.000000" and
            ([.quilts[].sizes[].outcomes | keys == ["narrow", "persons", "right", "wide", "yours"]] | all) and
            ([.quilts[].sizes[] | select(.shares) | [.shares[].share | tonumber] | add | . > 0.7 and . < 1.01] | all)' out
}
strips_are_plausible() {
    status 2 list --strips 5 "$sample" && empty out &&
        holds err "three strips of 1 1/2 make 3 1/2 in with a seam of 1/4" &&
        status 2 list --strips wide "$sample" && empty out && holds err "is a length, such as 3 7/16"
}
result "list --tolerance" tolerance_list
result "--strips that no seam makes" strips_are_plausible
result "list --json is pattern.json" json_list

# ---- choices ----

vane=$root/samples/vane-harbor.xml
one_of_six() {
    status 0 build --quilt bed --colorway pine "$vane" -o bed && [ "$(ls bed/*.pdf)" = \
        bed/vane-harbor-bed-pine.pdf ] &&
        lacks bed/cutting.csv throw && lacks bed/cutting.csv heather &&
        [ "$(jq -r '.quilts[].id, .quilts[].colorways[].id' bed/pattern.json |
            xargs)" = "bed pine" ]
}
result "--quilt and --colorway choose" one_of_six
result "--quilt alone" eval 'status 0 build --quilt throw "$vane" -o throw && [ "$(ls throw/*.pdf | wc -l)" -eq 3 ]'
result "unknown quilt" eval 'status 2 build --quilt king "$vane" -o no && holds err "\`throw\`" && [ ! -e no ]'
result "unknown colorway" eval 'status 2 list --colorway red "$vane" && empty out && holds err "\`pine\`"'

# ---- output ----

full_disk() {
    "$program" "$@" >/dev/full 2>err
    found=$?
    [ $found -eq 4 ] && [ -s err ]
}
closed_pipe() {
    ("$program" list "$vane" 2>err; echo $? >code) | :
    [ "$(cat code)" -eq 4 ] || [ "$(cat code)" -eq 0 ]
}
surely_closed_pipe() {
    (sleep 0.3; "$program" list "$vane" 2>err; echo $? >code) | true
    [ "$(cat code)" -eq 4 ] && [ -s err ]
}
closed_stdout() {
    "$program" list "$sample" >&- 2>err
    [ $? -eq 4 ]
}

result "full disk: list" full_disk list "$sample"
result "full disk: list --json" full_disk list --json "$sample"
result "full disk: --help" full_disk --help
result "full disk: --version" full_disk --version
result "full disk: build" full_disk build "$sample" -o full
result "a pipe that closes early" closed_pipe
result "a pipe that is closed" surely_closed_pipe
result "standard output closed" closed_stdout

mkdir others && echo mine >others/notes.txt
keeps_others() {
    status 4 build "$sample" -o others && holds err others && [ "$(ls -A others)" = notes.txt ] &&
        [ "$(cat others/notes.txt)" = mine ]
}
keeps_added() {
    status 0 build "$sample" -o added && echo mine >added/notes.txt &&
        status 4 build "$sample" -o added && holds added/notes.txt mine &&
        [ -e added/pattern.json ]
}
result "a folder of other files is kept" keeps_others
result "a file of the user's in the output is kept" keeps_added
result "an empty folder is used" eval 'mkdir void && status 0 build "$sample" -o void && [ -e void/pattern.json ]'
result "a file is not replaced" eval 'echo mine >plain && status 4 build "$sample" -o plain && holds plain mine'
result "no folder above" eval 'status 4 build "$sample" -o above/below && [ ! -e above ]'
result "a folder with a blank and a slash behind" eval 'status 0 build "$sample" -o "a folder/" && [ -e "a folder/pattern.json" ]'

failed_keeps() {
    cp "$sample" work.xml && status 0 build work.xml -o last &&
        (cd last && find . -type f -exec sha256sum {} + | sort) >before &&
        sed 's/width="3" height="3"/width="4" height="3"/' "$sample" >work.xml &&
        status 1 build work.xml -o last && holds err "last output is kept" &&
        (cd last && find . -type f -exec sha256sum {} + | sort) >after &&
        cmp before after && ! ls -d last?* .last* 2>/dev/null
}
result "a failed build keeps the last output" failed_keeps

# ---- diagnostics ----

mistake() {
    sed 's/line="rising"/line="falling"/' "$sample" >mistake.xml
}
color_forms() {
    mistake
    esc=$(printf '\033')
    status 1 check mistake.xml && lacks err "$esc" &&
        status 1 check --color always mistake.xml && holds err "$esc" &&
        status 1 check --color=never mistake.xml && lacks err "$esc" || return 1
    NO_COLOR=1 "$program" check --color=always mistake.xml 2>err
    holds err "$esc"
}
on_terminal() {
    # A pseudo-terminal is not to be had in every container.
    script -qc true /dev/null </dev/null >/dev/null 2>&1 || return 0
    esc=$(printf '\033')
    script -qc "TERM=xterm '$program' check mistake.xml" /dev/null </dev/null >tty
    holds tty "$esc" &&
        script -qc "NO_COLOR=1 TERM=xterm '$program' check mistake.xml" \
            /dev/null </dev/null >tty && lacks tty "${esc}[" &&
        script -qc "TERM=dumb '$program' check mistake.xml" \
            /dev/null </dev/null >tty && lacks tty "${esc}["
}
json_lines() {
    mistake
    status 1 check --diagnostics=json mistake.xml && empty out && [ -s err ] &&
        while IFS= read -r line; do
            printf '%s' "$line" | jq -e 'type == "object"' || return 1
        done <err
    [ "$(jq -s length err)" -eq "$(wc -l <err)" ]
}
json_where_clean() {
    status 0 check --diagnostics=json clean.xml && empty err
}
result "color only where it is wanted" color_forms
result "color on a terminal, NO_COLOR, TERM=dumb" on_terminal
result "diagnostics as JSON, one a line" json_lines
result "no JSON where nothing is wrong" json_where_clean

# ---- the same bytes ----

same_everywhere() {
    "$program" build "$vane" -o same1 >out 2>err || return 1
    mkdir -p far/away home && (
        cd far/away || exit 1
        umask 077
        export LANG=de_DE.UTF-8 LC_ALL=tr_TR.UTF-8 TZ=Pacific/Apia
        export HOME=$work/home LANGUAGE=fr COLUMNS=20
        "$program" build "$vane" -o ../../same2 >../../out 2>../../err
    ) && diff -r same1 same2
}
same_inode() {
    mkdir -p deep && cp "$vane" deep/vane-harbor.xml &&
        "$program" build deep/vane-harbor.xml -o same3 >out 2>err && diff -r same1 same3
}
nothing_at_home() {
    [ -z "$(find home -type f)" ]
}
# The pattern's date, or SOURCE_DATE_EPOCH (reproducible-builds.org); never the
# clock of the machine.
epoch() {
    status 0 build "$sample" -o noepoch || return 1
    for run in 1 2; do
        SOURCE_DATE_EPOCH=1000000000 "$program" build "$sample" \
            -o "epoch$run" >out 2>err || return 1
    done
    diff -r epoch1 epoch2 || return 1
    TZ=UTC pdfinfo -isodates epoch1/*.pdf | grep 'Date: *2001-09-09T01:46:40' &&
        TZ=UTC pdfinfo -isodates noepoch/*.pdf | grep 'Date: *2026-11-02' || return 1
    # Empty is unset; what is no time is told and not passed over.
    SOURCE_DATE_EPOCH='' "$program" build "$sample" -o strange >out 2>err &&
        diff -r noepoch strange || return 1
    for value in nonsense -1 ' ' 1e9 253402300800 99999999999999999999; do
        SOURCE_DATE_EPOCH=$value "$program" build "$sample" -o refused \
            >out 2>err
        [ $? -eq 2 ] && [ ! -e refused ] && grep -q SOURCE_DATE_EPOCH err ||
            { echo "with $value"; return 1; }
    done
    SOURCE_DATE_EPOCH=253402300799 "$program" build "$sample" -o last \
        >out 2>err && TZ=UTC pdfinfo -isodates last/*.pdf |
        grep 'Date: *9999-12-31T23:59:59'
}
# A stream that was closed: a file that is opened must not take its number.
closed_stream() {
    status 0 build "$sample" -o open || return 1
    "$program" build "$sample" -o closed 2>err >&-
    [ $? -eq 4 ] && grep -q 'standard output: cannot write' err &&
        diff -r open closed || return 1
    "$program" list "$sample" 2>err >&-
    [ $? -eq 4 ] && grep -q 'standard output: cannot write' err || return 1
    "$program" build "$sample" -o mute >out 2>&- <&- && diff -r open mute
}
# Names and paths with what a terminal would act on, or what turns letters: on
# both streams they are seen as U+XXXX. ESC, U+009B and U+202E are looked for.
raw_bytes() {
    ! LC_ALL=C grep -qE "$(printf '\033|\302\233|\342\200\256')" "$@"
}
escaped_everywhere() {
    turned=$(printf 'ebb\342\200\256foam')
    sed "s/name=\"Throw\"/name=\"$turned\"/; s/name=\"Dusk\"/name=\"$turned\"/" \
        "$sample" >turned.xml
    grep -q "$turned" turned.xml || return 1
    "$program" list turned.xml >out1 2>err1 && "$program" list --json turned.xml >out2 &&
        "$program" figure turned.xml >out3 &&
        "$program" figure turned.xml quilt >out4 2>err4
    raw_bytes out1 err1 out2 out3 out4 err4 || return 1
    grep -q U+202E out1 && grep -q 'u202e' out2 || return 1
    path=$(printf 'no\033[2J\302\233\342\200\256')
    for command in check build list plan figure; do
        "$program" $command "$path" >out 2>err
        [ $? -eq 4 ] && raw_bytes out err && grep -q U+001B err || return 1
    done
    "$program" build "$sample" -o "$path/x" >out 2>err
    [ $? -eq 4 ] && raw_bytes out err || return 1
    "$program" build "$sample" -o "$path" >out 2>err && raw_bytes out err
}
# 200 messages and how many more; all of them for a program. The status is that
# of all.
many_messages() {
    awk -v kind=errors -v n="$1" -f "$root/tests/pathological/generate.awk" \
        >many.xml
    "$program" check many.xml >out 2>err
    [ $? -eq 1 ] && [ "$(grep -c 'error: ' err)" -eq "$2" ] &&
        tail -1 err | grep -q "^many.xml: $1 errors" || return 1
    [ "$1" -eq "$2" ] || grep -qx "$(($1 - $2)) more messages; $2 are shown" err ||
        return 1
    "$program" check --diagnostics json many.xml >out 2>err
    [ $? -eq 1 ] && [ "$(wc -l <err)" -eq "$1" ]
}
# As large as a source may be, with blanks behind it.
blanks_behind() {
    { cat "$sample" && head -c 16777216 /dev/zero | tr '\0' ' '; } |
        head -c 16777216 >blanks.xml
    status 0 check blanks.xml
}
result "two builds are the same, whatever the surroundings" same_everywhere
result "the source's folder does not matter" same_inode
result "nothing is written to the home folder" nothing_at_home
result "the date is the pattern's, not the machine's" epoch
result "a closed stream takes no harm" closed_stream
result "nothing that a terminal acts on is printed" escaped_everywhere
result "200 messages are printed" many_messages 200 200
result "of 201 messages 200 are printed" many_messages 201 200
result "a source may end in blanks" blanks_behind

# ---- the booklets ----

for path in "$root"/samples/*.xml; do
    name=$(basename "$path" .xml)
    status 0 build "$path" -o "letter-$name"
    status 0 build --paper a4 "$path" -o "a4-$name"
done

# The catalogue lies in a stream.
language_of() {
    qpdf --qdf --object-streams=disable "$1" - | grep -aq "/Lang ($2"
}
# Booklets take the language, what programs read does not; the option wins over
# the pattern.
german_booklet() {
    sed 's/<pattern /<pattern language="de" /' "$sample" >german.xml
    status 0 build german.xml -o german &&
        status 0 build --language de "$sample" -o chosen &&
        status 0 build --language en german.xml -o back &&
        status 0 build "$sample" -o english || return 1
    pdftotext german/*.pdf - | grep -q 'Zuschnitt' &&
        ! cmp -s german/*.pdf english/*.pdf &&
        cmp german/*.pdf chosen/*.pdf && cmp back/*.pdf english/*.pdf &&
        language_of german/*.pdf de && language_of english/*.pdf en || return 1
    for data in materials.csv cutting.csv; do
        cmp "chosen/$data" "english/$data" || return 1
    done
    # Pages are those of the booklet; all else is English.
    for folder in chosen english; do
        jq 'del(.quilts[].colorways[].pages)' $folder/pattern.json >$folder.json
    done
    cmp chosen.json english.json
}
result "a German booklet, and English data" german_booklet

page_sizes() {
    for pdf in letter-*/*.pdf; do
        pdfinfo "$pdf" >info && grep -q 'Page size: *612 x 792 pts' info ||
            { echo "$pdf"; return 1; }
    done
    for pdf in a4-*/*.pdf; do
        pdfinfo "$pdf" >info && grep -qE 'Page size: *595\.2[0-9]* x 841\.(8|9)[0-9]* pts' info ||
            { echo "$pdf"; cat info; return 1; }
    done
}
# Pages: enough for a section each, and no more than a step a page and a few.
page_counts() {
    for pdf in letter-*/*.pdf a4-*/*.pdf; do
        pages=$(pdfinfo "$pdf" | awk '/^Pages:/ { print $2 }')
        steps=$(pdftotext -raw "$pdf" - | tr '\f' '\n' | grep -cE '^[0-9]+ .* (Make|Add) [0-9]+( borders?)?( . [0-9]+|[:,] .* kinds)*$')
        # A quilting plan has pages of its own: a map, stages, paths, sheets.
        more=0
        ! pdftotext -raw "$pdf" - | tr '\f' '\n' | grep -qx 'The stages' || more=12
        [ "$pages" -ge 5 ] && [ "$pages" -le $((steps + 8 + more)) ] ||
            { echo "$pdf: $pages pages, $steps steps"; return 1; }
        pdftotext "$pdf" - | grep -qF "$pages / $pages" || return 1
    done
}
sound() {
    for pdf in letter-*/*.pdf a4-*/*.pdf; do
        qpdf --check "$pdf" >said2 2>&1 || { cat said2; return 1; }
        ! grep -i warning said2 || return 1
        pdfinfo "$pdf" | grep -q '^Tagged: *yes' ||
            { echo "$pdf is not tagged"; return 1; }
    done
}
fonts_in() {
    for pdf in letter-*/*.pdf; do
        pdffonts "$pdf" | awk -v pdf="$pdf" 'NR > 2 { n++
            if ($(NF - 4) != "yes" || $(NF - 2) != "yes") { print; bad = 1 } }
            END { if (n < 1) print pdf; exit bad || n < 1 }' || return 1
    done
}
# Title, sizes, counts, and each label of the cutting table as a word.
text_in() {
    for folder in letter-*; do
        for pdf in "$folder"/*.pdf; do
            pdftotext -raw "$pdf" text && tr -s ' \302\240' '  ' <text >flat
            id=${pdf##*/} id=${id%.pdf}
            title=$(jq -r .pattern.title "$folder/pattern.json")
            tr '\n' ' ' <text >running
            holds text "$title" && holds text Make && holds running "It measures" &&
                holds text Unfinished &&
                holds text Materials && holds text Cutting && holds text Sewing &&
                holds text Finishing || return 1
            quilt=$(jq -r '.quilts[] as $q | $q.colorways[] |
                [$q.id, .id] | join("-")' "$folder/pattern.json")
            echo "$quilt" | grep -qx "${id#"$(jq -r .pattern.id "$folder/pattern.json")"-}" ||
                { echo "no quilt and colorway for $id"; return 1; }
            tr -cs 'A-Za-z0-9' '\n' <text | sort -u >words
            jq -r '.quilts[] | select(.id == $q) | .pieces[].label' \
                --arg q "$(echo "${id#*-*-}" | cut -d- -f1)" \
                "$folder/pattern.json" | sort -u >labels
            [ -s labels ] || { echo "no labels for $id"; return 1; }
            ! comm -23 labels words | grep . || return 1
        done
    done
}
sizes_in() {
    pdftotext -raw letter-lantern-walk/lantern-walk-throw-dusk.pdf text &&
        grep -q '66 × 78 in finished' text && grep -q '2½ × 6½' text &&
        grep -q '^1 Corner unit A1+B2 Make 120$' text
}
result "letter and A4" page_sizes
result "page counts" page_counts
result "qpdf finds every booklet sound" sound
result "all fonts are embedded and mapped" fonts_in
result "title, sections and labels can be read out" text_in
result "sizes can be read out" sizes_in

# ---- names ----

long_names() {
    long=$(printf 'n%.0s' $(seq 1 60))
    sed "s/id=\"lantern-walk\"/id=\"$long\"/; s/id=\"throw\"/id=\"big.size_1\"/" \
        "$sample" >names.xml
    status 0 build names.xml -o names && [ -e "names/$long-big.size_1-dusk.pdf" ]
}
# A file name of the system holds 255 bytes at most.
too_long() {
    long=$(printf 'n%.0s' $(seq 1 300))
    sed "s/id=\"lantern-walk\"/id=\"$long\"/" "$sample" >toolong.xml
    "$program" build toolong.xml -o toolong >out 2>err
    found=$?
    { [ $found -eq 1 ] || [ $found -eq 3 ] || [ $found -eq 4 ]; } && [ -s err ] && [ ! -e toolong ]
}
slash_in_id() {
    sed 's|id="lantern-walk"|id="../out"|' "$sample" >slash.xml
    status 1 build slash.xml -o slash && [ ! -e slash ] && [ ! -e ../out-throw-dusk.pdf ]
}
same_file_twice() {
    sed 's|</quilt>|</quilt><quilt id="throw-dusk" name="B"><use block="lantern" finished="12"/></quilt>|
         s|</colorway>|</colorway><colorway id="dusk-dusk" name="D"><cloth fabric="night" color="#111111" width="42"/><cloth fabric="flame" color="#dd5522" width="42"/><cloth fabric="glow" color="#ffee66" width="42"/></colorway>|' \
        "$sample" >twice.xml
    "$program" build twice.xml -o twice >out 2>err
    found=$?
    [ $found -ne 0 ] || [ "$(ls twice/*.pdf | wc -l)" -eq 4 ]
}
result "long ids, dots and underscores in file names" long_names
result "an id too long for a file name" too_long
result "a slash in an id" slash_in_id
result "two booklets never share a name" same_file_twice

exit $failed
