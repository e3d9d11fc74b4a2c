# awk -v kind=KIND -v n=N -f generate.awk: a source that is large in one way.

function head() {
    print "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"big\" title=\"Big\"" \
          " units=\"in\" seam=\"1/4\"><fabrics>"
    print "<fabric id=\"kelp\" key=\"k\" name=\"Kelp\"/>" \
          "<fabric id=\"sand\" key=\"s\" name=\"Sand\"/></fabrics>"
    print "<colorway id=\"ebb\" name=\"Ebb\">" \
          "<cloth fabric=\"kelp\" name=\"Moss\" color=\"#224433\" width=\"42\"/>" \
          "<cloth fabric=\"sand\" name=\"Dune\" color=\"#ccbb88\" width=\"42\"/>" \
          "</colorway>"
}

function patch(i, width, height) {
    return "<patch fabric=\"" (i % 2 ? "kelp" : "sand") "\" width=\"" width \
           "\" height=\"" height "\"/>"
}

# Rows and columns by turns, n deep, a patch beside each.
function nested(    i) {
    print "<quilt id=\"q\" name=\"Q\">"
    for (i = 0; i < n; i++)
        print (i % 2 ? "<column>" : "<row>") "<patch fabric=\"kelp\" " \
              (i % 2 ? "height" : "width") "=\"1\"/>"
    print patch(0, 2, 2)
    for (i = n - 1; i >= 0; i--)
        print (i % 2 ? "</column>" : "</row>")
    print "</quilt>"
}

# n patches of n/100 different sizes in columns of a hundred.
function patches(    i) {
    print "<quilt id=\"q\" name=\"Q\"><row>"
    for (i = 0; i < n; i++) {
        if (i % 100 == 0)
            print "<column>"
        print patch(i, 1 + int(i / 100) % 20 / 8, 1)
        if (i % 100 == 99 || i == n - 1)
            print "</column>"
    }
    print "</row></quilt>"
}

# n patches in columns of equal ones, or of which no two are alike: heights are
# above all widths, so that none is another one turned.
function columns(unlike,    i, k, across, down) {
    across = int(sqrt(n)) > 300 ? 300 : int(sqrt(n))
    down = int((n + across - 1) / across)
    print "<quilt id=\"q\" name=\"Q\"><row>"
    for (i = 0; i < across; i++) {
        print "<column>"
        for (k = 0; k < down; k++)
            print patch(i + k, unlike ? 1 + i / 8 : 1, unlike ? 40 + k / 8 : 1)
        print "</column>"
    }
    print "</row></quilt>"
}

# n by n alike patches in one grid.
function grid() {
    print "<quilt id=\"q\" name=\"Q\"><grid across=\"" n "\" down=\"" n "\">" \
          patch(0, 1, 1) "</grid></quilt>"
}

# n by n blocks of four patches with a map, every other one turned.
function map(    i, k) {
    print "<block id=\"b\" name=\"B\" grid=\"2\"><grid across=\"2\" down=\"2\">" \
          patch(0, 1, 1) patch(1, 1, 1) patch(1, 1, 1) patch(1, 1, 1) "</grid></block>"
    print "<quilt id=\"q\" name=\"Q\"><grid across=\"" n "\" down=\"" n "\">" \
          "<use key=\"b\" block=\"b\" finished=\"4\"/><map>"
    for (i = 0; i < n; i++) {
        for (k = 0; k < n; k++)
            printf "b%s ", (i + k) % 2 ? ".90" : ""
        print ""
    }
    print "</map></grid></quilt>"
}

# Units of two of the unit before: 2 to the power of n patches.
function doubling(    i, flow) {
    print "<unit id=\"u0\" name=\"U0\">" patch(0, 1, 1) "</unit>"
    for (i = 1; i <= n; i++) {
        flow = i % 2 ? "row" : "column"
        print "<unit id=\"u" i "\" name=\"U" i "\"><" flow "><use unit=\"u" \
              i - 1 "\"/><use unit=\"u" i - 1 "\"/></" flow "></unit>"
    }
    print "<quilt id=\"q\" name=\"Q\"><use unit=\"u" n "\"/></quilt>"
}

# The twelve roles of a unit handed on, two of them exchanged where `at` is not 0.
function handed(at,    i, text) {
    for (i = 1; i <= 12; i++)
        text = text (i > 1 ? " " : "") "r" i "=r" \
               (at && i == at ? i + 1 : at && i == at + 1 ? i - 1 : i)
    return text
}

# Units of two of the unit before, in casts that differ; and a step too many.
function casts(    i, k, flow) {
    for (i = 0; i <= n; i++) {
        flow = i % 2 ? "row" : "column"
        print "<unit id=\"u" i "\" name=\"U" i "\">"
        for (k = 1; k <= 12; k++)
            print "<role id=\"r" k "\" fabric=\"" (k % 2 ? "kelp" : "sand") "\"/>"
        print "<" flow " press=\"open\">"
        for (k = 1; i == 0 && k <= 12; k++)
            print "<patch fabric=\"r" k "\" width=\"1\" height=\"1\"/>"
        if (i > 0)
            print "<use unit=\"u" i - 1 "\" with=\"" handed(0) "\"/><use unit=\"u" \
                  i - 1 "\" with=\"" handed(1 + (i * 5) % 11) "\"/>"
        print "</" flow "></unit>"
    }
    print "<quilt id=\"q\" name=\"Q\"><use unit=\"u" n "\"/></quilt>"
    if (wrong)
        print "<assembly of=\"q\"><step make=\"u0\" count=\"7\"/></assembly>"
}

# A chain of n units, each with one patch more than the unit before.
function chain(    i) {
    print "<unit id=\"u0\" name=\"U0\">" patch(0, 1, 1) "</unit>"
    for (i = 1; i <= n; i++)
        print "<unit id=\"u" i "\" name=\"U" i "\"><row><use unit=\"u" \
              i - 1 "\"/>" patch(i, 1, 1) "</row></unit>"
    print "<quilt id=\"q\" name=\"Q\"><use unit=\"u" n "\"/></quilt>"
}

# n rows whose sums say nothing about one of their widths.
function open_sums(    i) {
    for (i = 0; i < n; i++)
        print "<unit id=\"u" i "\" name=\"U" i "\"><row>" \
              "<patch fabric=\"kelp\" height=\"2\"/>" \
              "<patch fabric=\"sand\" width=\"2\"/></row></unit>"
    print "<quilt id=\"q\" name=\"Q\"><column>"
    for (i = 0; i < n; i++)
        print "<use unit=\"u" i "\"/>"
    print "</column></quilt>"
}

# One row of n patches whose widths are open but for their sum.
function wide_sum(    i) {
    print "<quilt id=\"q\" name=\"Q\" finished=\"" n " x 2\"><row>"
    for (i = 0; i < n; i++)
        print "<patch fabric=\"kelp\"/>"
    print "</row></quilt>"
}

# n names that are not there.
function errors(    i) {
    print "<quilt id=\"q\" name=\"Q\"><row>"
    for (i = 0; i < n; i++)
        print "<patch fabric=\"kelb" i "\" width=\"1\" height=\"1\"/>"
    print "</row></quilt>"
}

# A picture of n by 2 squares over a block that shows it.
function picture(    i, k) {
    print "<block id=\"b\" name=\"B\" grid=\"" n " x 2\"><grid across=\"" n \
          "\" down=\"2\"><patch fabric=\"kelp\" width=\"1\" height=\"1\"/></grid>"
    print "<picture>"
    for (k = 0; k < 2; k++) {
        for (i = 0; i < n; i++)
            printf "%s ", (i == n - 1 && k == 1 && wrong) ? "s" : "k"
        print ""
    }
    print "</picture></block><quilt id=\"q\" name=\"Q\"><use block=\"b\"" \
          " finished=\"" n " x 2\"/></quilt>"
}

# Numbers at and past the limits of what is read.
function huge(    i) {
    print "<quilt id=\"q\" name=\"Q\"><row>"
    for (i = 0; i < n; i++)
        print patch(i, i % 3 ? "99999 9999/10000" : "1/10000", "100000")
    print "</row></quilt>"
}

# A comment of n bytes in a small pattern; on one line.
function comment(    i, text) {
    text = "seams and more seams and more seams and more seams and seams   "
    while (length(text) < 65536)
        text = text text
    printf "<!-- "
    for (i = 0; i < n; i += length(text))
        printf "%s", text
    print "-->"
    print "<quilt id=\"q\" name=\"Q\"><row>" patch(0, 4, 4) patch(1, 4, 4) \
          "</row></quilt>"
}

# A name of n bytes.
function name(    i) {
    printf "<quilt id=\"q\" name=\""
    for (i = 0; i < n; i++)
        printf "%s", i % 7 == 6 ? " " : "w"
    print "\"><row>" patch(0, 4, 4) patch(1, 4, 4) "</row></quilt>"
}

# n borders, and n colorways.
function borders(    i) {
    print "<quilt id=\"q\" name=\"Q\">" patch(0, 4, 4)
    for (i = 0; i < n; i++)
        print "<border fabric=\"" (i % 2 ? "kelp" : "sand") \
              "\" width=\"1/4\" corners=\"butted\"/>"
    print "</quilt>"
}

# n units, and n uses of names that no unit has: each is unlike the others.
function unknown(    i) {
    for (i = 0; i < n; i++)
        print "<unit id=\"unit-" i "\">" patch(0, 1, 1) "</unit>"
    print "<quilt id=\"q\" name=\"Q\"><row>"
    for (i = 0; i < n; i++)
        print "<use unit=\"unot-" i "\"/>"
    print "</row></quilt>"
}

# n units, each used by the one before, and the first by the last.
function cycle(    i) {
    for (i = 0; i < n; i++)
        print "<unit id=\"u" i "\"><row><use unit=\"u" (i + 1) % n \
              "\"/>" patch(i, 1, 1) "</row></unit>"
    print "<quilt id=\"q\" name=\"Q\"><use unit=\"u0\"/></quilt>"
}

# n units, each using the one before alone.
function depth(    i) {
    print "<unit id=\"u1\" name=\"U1\">" patch(0, 1, 1) "</unit>"
    for (i = 2; i <= n; i++)
        print "<unit id=\"u" i "\" name=\"U" i "\"><use unit=\"u" \
              i - 1 "\"/></unit>"
    print "<quilt id=\"q\" name=\"Q\"><use unit=\"u" n "\"/></quilt>"
}

# n units, each using the one before as deep as elements may stand inside each
# other: pattern, unit, 61 rows and columns, use.
function deepest(    i, k, last) {
    last = 61
    for (i = 1; i <= n; i++) {
        print "<unit id=\"u" i "\" name=\"U" i "\">"
        for (k = 0; k < last; k++)
            print (k % 2 ? "<column>" : "<row>") "<patch fabric=\"kelp\" " \
                  (k % 2 ? "height" : "width") "=\"1\"/>"
        print i == 1 ? patch(0, 2, 2) : "<use unit=\"u" i - 1 "\"/>"
        for (k = last - 1; k >= 0; k--)
            print (k % 2 ? "</column>" : "</row>")
        print "</unit>"
    }
    print "<quilt id=\"q\" name=\"Q\"><use unit=\"u" n "\"/></quilt>"
}

# A block of n uses, 190 across, whose picture has one wrong square.
function wrong_cell(    i, across, down) {
    across = n < 190 ? n : 190
    down = int(n / across)
    print "<unit id=\"u\" width=\"1\" height=\"1\">" patch(0, 1, 1) "</unit>"
    print "<block id=\"b\" name=\"B\" grid=\"" across " x " down "\">" \
          "<grid across=\"" across "\" down=\"" down "\">"
    for (i = 0; i < across * down; i++)
        print "<use unit=\"u\"/>"
    print "</grid><picture>"
    for (i = 0; i < across * down; i++)
        printf "%s%s", i == int(across * down / 2) ? "k" : "s", \
               i % across == across - 1 ? "\n" : " "
    print "</picture></block><quilt id=\"q\" name=\"Q\"><use block=\"b\"" \
          " finished=\"" across " x " down "\"/></quilt>"
}

# A quilt of n by n squares, written as a map without order, and its picture, of
# which `wrong` squares (0 for none) show the other fabric.
function quilt_picture(    i, k, cell) {
    print "<quilt id=\"q\" name=\"Q\"><grid across=\"" n "\" down=\"" n "\">" \
          "<patch key=\"x\" fabric=\"kelp\" width=\"1\" height=\"1\"/>" \
          "<patch key=\"y\" fabric=\"sand\" width=\"1\" height=\"1\"/><map>"
    for (i = 0; i < n; i++)
        for (k = 0; k < n; k++) {
            cell[i, k] = (i * i * 7 + k * k * 11 + i * k * 3) % 13 < 6
            printf "%s%s", cell[i, k] ? "x" : "y", k == n - 1 ? "\n" : " "
        }
    print "</map></grid><picture>"
    for (i = 1; i <= wrong; i++) {
        k = int(n * i / (wrong + 1))
        cell[k, n - 1 - k] = !cell[k, n - 1 - k]
    }
    for (i = 0; i < n; i++)
        for (k = 0; k < n; k++)
            printf "%s%s", cell[i, k] ? "k" : "s", k == n - 1 ? "\n" : " "
    print "</picture></quilt>"
}

# n blocks of ten by ten patches, each with nine squares of the picture wrong.
function wrong_blocks(    b, i, k) {
    for (b = 0; b < n; b++) {
        print "<block id=\"b" b "\" grid=\"10\"><column>"
        for (i = 0; i < 10; i++) {
            printf "<row>"
            for (k = 0; k < 10; k++)
                printf "%s", patch(0, 1, 1)
            print "</row>"
        }
        print "</column><picture>"
        for (i = 0; i < 10; i++)
            for (k = 0; k < 10; k++)
                printf "%s%s", (i * 7 + k * 3 + b) % 11 ? "s" : "k", \
                       k == 9 ? "\n" : " "
        print "</picture></block>"
    }
    print "<quilt id=\"q\" name=\"Q\"><row>"
    for (b = 0; b < n; b++)
        print "<use block=\"b" b "\" finished=\"10\"/>"
    print "</row></quilt>"
}

# A block of n squares whose picture is n shapes.
function shapes(    i, x, y) {
    print "<block id=\"b\" name=\"B\" grid=\"" n " x 1\">" \
          "<grid across=\"" n "\" down=\"1\">" patch(0, 1, 1) "</grid><picture>"
    for (i = 0; i < n; i++)
        print "<shape fabric=\"sand\" points=\"" i ",0 " i + 1 ",0 " i + 1 \
              ",1 " i ",1\"/>"
    print "</picture></block><quilt id=\"q\" name=\"Q\"><use block=\"b\"" \
          " finished=\"" n " x 1\"/></quilt>"
}

# A summary of n words.
function prose(    i) {
    print "<about><summary>"
    for (i = 0; i < n; i++)
        printf "%s%s", i % 9 ? "seam" : "sewing", i % 12 == 11 ? "\n" : " "
    print "</summary></about><quilt id=\"q\" name=\"Q\">" patch(0, 4, 4) "</quilt>"
}

BEGIN {
    head()
    if (kind == "nested") nested()
    else if (kind == "patches") patches()
    else if (kind == "equal") columns(0)
    else if (kind == "unlike") columns(1)
    else if (kind == "grid") grid()
    else if (kind == "map") map()
    else if (kind == "doubling") doubling()
    else if (kind == "casts") casts()
    else if (kind == "chain") chain()
    else if (kind == "open-sums") open_sums()
    else if (kind == "wide-sum") wide_sum()
    else if (kind == "errors") errors()
    else if (kind == "picture") picture()
    else if (kind == "quilt-picture") quilt_picture()
    else if (kind == "huge") huge()
    else if (kind == "comment") comment()
    else if (kind == "name") name()
    else if (kind == "borders") borders()
    else if (kind == "unknown") unknown()
    else if (kind == "cycle") cycle()
    else if (kind == "depth") depth()
    else if (kind == "deepest") deepest()
    else if (kind == "wrong-cell") wrong_cell()
    else if (kind == "wrong-blocks") wrong_blocks()
    else if (kind == "shapes") shapes()
    else if (kind == "prose") prose()
    else { print "no kind " kind > "/dev/stderr"; exit 2 }
    print "</pattern>"
}
