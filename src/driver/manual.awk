# manual.awk -v section=1|5 -v date=YYYY-MM-DD -v version=N CONTENTS: the pages of
# the manual that contents.md lists in one part, as one man page (man(7) macros).
# Section 1 is the program, section 5 the language. The first page of a part is
# the man page itself: its headings become sections; each other page becomes a
# section with its headings inside.
#
# The pages are Markdown as it is used there: headings, paragraphs, lists, blocks
# between ``` and ```, `code`, **strong**, *stressed* and links to other pages. A
# line of a kind that is not known ends the run with a message, as it would come
# out wrong.

# Works on bytes: all signs that are looked for are ASCII.

function fail(what) {
    print "manual.awk: " page ": " what >"/dev/stderr"
    failed = 1
    exit 1
}

# Signs that roff would take for its own. A hyphen in code is one that can be
# copied into a terminal.
function literal(text,    out, i, c) {
    out = ""
    for (i = 1; i <= length(text); i++) {
        c = substr(text, i, 1)
        if (c == "\\") c = "\\e"
        else if (c == "-") c = "\\-"
        else if (c == "'") c = "\\(aq"
        else if (c == "`") c = "\\(ga"
        else if (c == "^") c = "\\(ha"
        else if (c == "~") c = "\\(ti"
        out = out c
    }
    return out
}
function plain(text) {
    gsub(/\\/, "\\e", text)
    return text
}

# The length of what is marked at the beginning of the text: up to the sign that
# closes it.
function marked(text, left, right,    end) {
    if (substr(text, 1, length(left)) != left)
        return 0
    end = index(substr(text, length(left) + 1), right)
    return end < 2 ? 0 : end - 1
}

# Code, strong and stressed words, links.
function inline(text,    out, n, rest) {
    out = ""
    while (text != "") {
        if ((n = marked(text, "`", "`"))) {
            out = out "\\fB" literal(substr(text, 2, n)) "\\fR"
            text = substr(text, n + 3)
        } else if ((n = marked(text, "**", "**"))) {
            out = out "\\fB" plain(substr(text, 3, n)) "\\fR"
            text = substr(text, n + 5)
        } else if ((n = marked(text, "*", "*"))) {
            out = out "\\fI" plain(substr(text, 2, n)) "\\fR"
            text = substr(text, n + 3)
        } else if ((n = marked(text, "[", "]("))) {
            rest = substr(text, n + 4)
            if (!index(rest, ")"))
                fail("a link without its end: " text)
            out = out "\\fB" plain(substr(text, 2, n)) "\\fR"
            text = substr(rest, index(rest, ")") + 1)
        } else {
            match(substr(text, 2), /[`*[]/)
            n = RSTART ? RSTART : length(text)
            out = out plain(substr(text, 1, n))
            text = substr(text, n + 1)
        }
    }
    return out
}

# A line of text; a sign at its beginning would make it a request.
function line_of(text) {
    print (text ~ /^[.']/ ? "\\&" : "") text
}

# Paragraph macros right behind a head say nothing.
function paragraph() {
    if (!fresh)
        print ".PP"
    fresh = 0
}

function head(macro, text) {
    gsub(/`/, "", text)
    print macro " " plain(text)
    fresh = 1
}
function section_head(text) {
    head(".SH", toupper(text))
}

# What has been gathered: a paragraph, or an item of a list.
function flush(    colon) {
    if (kind == "paragraph") {
        paragraph()
        line_of(inline(text))
    } else if (kind == "item" && (colon = head_end(text))) {
        print ".TP 8"
        line_of(inline(substr(text, 1, colon - 1)))
        line_of(inline(substr(text, colon + 2)))
    } else if (kind == "item") {
        print ".IP \\(bu 2"
        line_of(inline(text))
    } else if (kind == "number") {
        print ".IP " number " 4"
        line_of(inline(text))
    }
    if (kind != "")
        fresh = 0
    kind = text = ""
}

# Where the head of an item ends: at the first colon that is not in code, if
# nothing stands before it but names, and what is told of them in parentheses.
function head_end(text,    i, code, before) {
    for (i = 1; i < length(text); i++) {
        if (substr(text, i, 1) == "`")
            code = !code
        else if (!code && substr(text, i, 2) == ": ")
            break
    }
    before = substr(text, 1, i - 1)
    gsub(/\[[^]]*\]\([^)]*\)/, "", before)
    gsub(/`[^`]*`|\*\*[^*]*\*\*/, "", before)
    gsub(/\([^)]*\)/, "", before)
    gsub(/ (and|or) /, "", before)
    return i < length(text) && before ~ /^[ ,]*$/ ? i : 0
}

function gather(new, words) {
    flush()
    kind = new
    text = words
}

# Of the synopsis only the calls are wanted, not how they were printed.
function code_line(line) {
    if (synopsis && (line ~ /^\$ / || line == "..."))
        return
    if (synopsis)
        sub(/^ +/, "", line)
    line_of(literal(line))
}

function text_line(line) {
    if (line == "")
        flush()
    else if (line ~ /^## /) {
        flush()
        line = substr(line, 4)
        synopsis = line == "Synopsis"
        if (first) section_head(line)
        else head(".SS", line)
    } else if (line ~ /^- /)
        gather("item", substr(line, 3))
    else if (line ~ /^[0-9]+\. / && kind != "paragraph") {
        gather("number", substr(line, index(line, " ") + 1))
        number = substr(line, 1, index(line, " ") - 1)
    } else if (line ~ /^[#|>+]/ || line ~ /^\t/ || (line ~ /^ / && kind == ""))
        fail("no such line is known: " line)
    else if (kind == "")
        gather("paragraph", line)
    else {
        sub(/^ +/, "", line)
        text = text " " line
    }
}

# A block is indented, and stands between two blank lines of its own.
function fence(line) {
    flush()
    if (!fenced) {
        paragraph()
        print ".RS 4\n.EX"
    } else
        print ".EE\n.RE"
    fenced = !fenced
}

# The title is the name and a summary.
function title(line) {
    sub(/^# /, "", line)
    if (index(line, ": ") == 0)
        fail("a title is NAME: SUMMARY")
    if (first)
        return
    section_head(substr(line, 1, index(line, ": ") - 1))
    line = substr(line, index(line, ": ") + 2)
    print inline(toupper(substr(line, 1, 1)) substr(line, 2) ".")
    fresh = 0
}

function convert(folder, name,    line, number_of_line) {
    page = folder name ".md"
    number_of_line = fenced = 0
    while ((getline line <page) > 0) {
        number_of_line++
        if (number_of_line == 1) title(line)
        else if (line ~ /^```/) fence(line)
        else if (fenced) code_line(line)
        else {
            # What stands before any heading of the first page.
            if (first && !described && line != "") {
                if (line !~ /^## /)
                    section_head("description")
                described = 1
            }
            text_line(line)
        }
    }
    if (number_of_line == 0)
        fail("it cannot be read")
    if (fenced)
        fail("a block has no end")
    flush()
    close(page)
}

BEGIN {
    program = section == 1
    name = program ? "seamwright" : "seamwright\\-pattern"
    wanted = program ? "## The program" : "## The language"
    print ".\\\" Made by manual.awk from templates/manual; changes here are lost."
    printf ".TH %s %d %s \"seamwright %s\"\n",
           program ? "SEAMWRIGHT" : "SEAMWRIGHT\\-PATTERN", section, date, version
    print ".SH NAME"
    print name " \\- " (program ? "turn the source of a quilt pattern into a" \
                          " booklet" : "the source of a quilt pattern")
    first = 1
}
/^## / { inside = $0 == wanted }
inside && /^- \[/ {
    folder = FILENAME
    sub(/[^\/]*$/, "", folder)
    convert(folder, substr($0, 4, index($0, "]") - 4))
    first = 0
}
END {
    if (failed)
        exit 1
    if (first)
        fail("contents.md lists no page")
    print ".SH SEE ALSO"
    print ".BR " (program ? "seamwright\\-pattern (5)" : "seamwright (1)")
}
