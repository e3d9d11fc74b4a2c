#!/bin/sh
# embed.sh LIST: prints C source that holds the files named in LIST, one a
# line, and the table of them that include/templates.h promises. The bytes
# come in by the assembler, which is quick and knows no limit of length.
set -eu
LC_ALL=C
list=$1

# Names go into C strings inside assembler strings: keep them plain.
if grep -n '[^A-Za-z0-9._/ -]' "$list" >&2; then
    echo "embed.sh: a name below templates/ has an unusual character" >&2
    exit 1
fi

number=0
rows=
printf '/* Made by embed.sh; changes here are lost. */\n'
printf '#include "templates_table.h"\n\n'
while IFS= read -r file; do
    [ -n "$file" ] || continue
    symbol=template_bytes_$number
    printf 'extern const unsigned char %s[];\n' "$symbol"
    printf '__asm__(".section .rodata\\n.balign 16\\n%s:\\n"\n' "$symbol"
    printf '        ".incbin \\"%s\\"\\n.byte 0\\n.text\\n");\n' "$file"
    rows="$rows    {\"${file#templates/}\", $symbol, $(wc -c <"$file")},
"
    number=$((number + 1))
done <"$list"

# The row of NULLs keeps the table from being empty, which C has no word for.
printf '\nconst struct template_file template_table[] = {\n%s' "$rows"
printf '    {NULL, NULL, 0}};\nconst size_t template_count = %d;\n' "$number"
