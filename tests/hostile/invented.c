/* Sources made up from nothing: nested, endless, circular, or no XML at all;
 * and lists of pieces. */
#include <stdio.h>
#include <string.h>

#include "hostile.h"
#include "pattern.h"

static void put_head(struct buffer *out, const char *id)
{
    buffer_printf(
        out,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"%s\" title=\"T\">"
        "<fabrics><fabric id=\"f\" key=\"f\" name=\"F\"/><fabric id=\"g\" "
        "key=\"g\" name=\"G\"/></fabrics><colorway id=\"c\" name=\"C\">"
        "<cloth fabric=\"f\" name=\"One\" color=\"#336699\"/><cloth "
        "fabric=\"g\""
        " name=\"Two\" color=\"#eeeecc\"/></colorway>\n",
        id);
}

void random_tree(struct making *m, struct buffer *out, size_t depth)
{
    const char *name = element_name((enum element_kind)below(m, ELEMENT_COUNT));
    buffer_printf(out, "<%s", name);
    for (size_t i = below(m, 5); i > 0; i--)
        buffer_printf(
            out, " %s=\"%s\"",
            attribute_name((enum attribute_id)below(m, ATTRIBUTE_COUNT)),
            hostile_value(m));
    buffer_text(out, ">");
    if (below(m, 5) == 0)
        buffer_text(out, hostile_text(m));
    for (size_t i = below(m, depth > 5 ? 1 : 5); i > 0; i--)
        random_tree(m, out, depth + 1);
    buffer_printf(out, "</%s>\n", name);
}

static void trees(struct making *m, struct buffer *out)
{
    put_head(out, "tree");
    for (size_t i = below(m, 6) + 1; i > 0; i--)
        random_tree(m, out, 0);
    buffer_text(out, "</pattern>");
}

/* A piece that the grammar allows, with sizes that may be anything. */
static void random_piece(struct making *m, struct buffer *out, size_t depth)
{
    static const char *const sizes[] = {"1", "2", "3", "1/2", "4", "1 1/2"};
    const char *width = below(m, 4) == 0 ? hostile_number(m) : PICK(m, sizes);
    static const char *const boxes[] = {"row", "column", "grid", "diagonal"};
    const size_t chosen = below(m, depth > 4 ? 3 : 8);
    if (chosen == 0)
        buffer_printf(out, "<patch fabric=\"f\" width=\"%s\" height=\"%s\"/>",
                      width, PICK(m, sizes));
    else if (chosen == 1)
        buffer_printf(out,
                      "<patch fabric=\"g\" width=\"%s\"><corner at=\"top-left"
                      "\" fabric=\"f\" size=\"%s\"/></patch>",
                      PICK(m, sizes), width);
    else if (chosen == 2)
        buffer_printf(out,
                      "<half-square line=\"falling\" left=\"f\" right=\"g\" "
                      "size=\"%s\"/>",
                      width);
    else {
        const char *box = boxes[chosen % 4];
        buffer_printf(out, "<%s", box);
        if (chosen % 4 == 2)
            buffer_printf(out, " across=\"%zu\" down=\"%zu\"", below(m, 4) + 1,
                          below(m, 4) + 1);
        if (chosen % 4 == 3)
            buffer_printf(out, " line=\"rising\" width=\"%s\"", width);
        buffer_text(out, ">");
        for (size_t i = below(m, 4) + 1; i > 0; i--)
            random_piece(m, out, depth + 1);
        buffer_printf(out, "</%s>", box);
    }
}

static void pieces(struct making *m, struct buffer *out)
{
    put_head(out, "pieces");
    buffer_text(out, "<quilt id=\"q\" name=\"Q\">");
    random_piece(m, out, 0);
    buffer_text(out, "</quilt></pattern>");
}

/* One patch, at the edges of what a length may be; now and then it is sound. */
static void one_size(struct making *m, struct buffer *out)
{
    put_head(out, "size");
    buffer_printf(out,
                  "<quilt id=\"q\" name=\"Q\"><grid across=\"%s\" down=\"2\">",
                  below(m, 3) == 0 ? hostile_number(m) : "2");
    const char *a = hostile_number(m), *b = hostile_number(m);
    if (below(m, 2) == 0)
        buffer_printf(out, "<patch fabric=\"f\" width=\"%s\" height=\"%s\"/>",
                      a, b);
    else
        buffer_printf(out,
                      "<half-square line=\"rising\" left=\"f\" right=\"g\" "
                      "size=\"%s\"/>",
                      a);
    buffer_printf(out, "</grid><border fabric=\"g\" width=\"%s\"/>",
                  below(m, 2) == 0 ? hostile_number(m) : "1");
    buffer_text(out, "<backing fabric=\"f\"/><batting/><binding fabric=\"g\"/>"
                     "</quilt></pattern>");
}

/* Names of people, of all lengths and signs, where all else is sound. */
static void names(struct making *m, struct buffer *out)
{
    const char *title = below(m, 2) == 0 ? long_name(m) : hostile_text(m);
    const char *name = below(m, 2) == 0 ? long_name(m) : hostile_text(m);
    const char *id = below(m, 4) == 0 ? long_name(m) : "q";
    buffer_printf(
        out,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"n\" title=\"a%s\">"
        "<fabrics><fabric id=\"f\" key=\"f\" name=\"a%s\"/></fabrics>"
        "<colorway id=\"c\" name=\"C\"><cloth fabric=\"f\" name=\"b%s\" "
        "color=\"#336699\"/></colorway><quilt id=\"%s\" name=\"c%s\">"
        "<patch fabric=\"f\" width=\"9\" height=\"9\"/></quilt></pattern>",
        title, name, hostile_text(m), id, name);
}

static void nested(struct making *m, struct buffer *out)
{
    static const char *const boxes[] = {"row",
                                        "column",
                                        "quilt",
                                        "say",
                                        "x",
                                        "grid across=\"1\" down=\"1\"",
                                        "diagonal line=\"rising\""};
    const char *box = PICK(m, boxes);
    const size_t depths[] = {10, 60, 61, 62, 63, 64, 300, 5000, 60000};
    const size_t depth = depths[below(m, UNIT_COUNT(depths))];
    put_head(out, "nest");
    buffer_text(out, "<quilt id=\"q\" name=\"Q\">");
    for (size_t i = 0; i < depth; i++)
        buffer_printf(out, "<%s>", box);
    buffer_text(out, "<patch fabric=\"f\" width=\"3\" height=\"3\"/>");
    for (size_t i = below(m, 2) == 0 ? depth : below(m, depth); i > 0; i--)
        buffer_printf(out, "</%.*s>", (int)strcspn(box, " "), box);
    buffer_text(out, "</quilt></pattern>");
}

/* Units that use each other: round, onwards, or twice each. */
static void cycles(struct making *m, struct buffer *out)
{
    const size_t counts[] = {1, 2, 3, 10, 100, 1000, 12000};
    const size_t count = counts[below(m, UNIT_COUNT(counts))];
    const size_t way = below(m, 4);
    put_head(out, "cycle");
    for (size_t i = 0; i < count; i++) {
        const size_t next = way == 0   ? (i + 1) % count
                            : way == 1 ? i + 1
                            : way == 2 ? below(m, count)
                                       : i + 1;
        buffer_printf(out, "<unit id=\"u%zu\" name=\"U\">", i);
        if (next < count)
            buffer_printf(out, "<row><use unit=\"u%zu\"/>", next);
        if (next < count && way == 3)
            buffer_printf(out, "<use unit=\"u%zu\" turn=\"90\"/>", next);
        buffer_text(out, next < count
                             ? "</row></unit>\n"
                             : "<patch fabric=\"f\" width=\"1\" height=\"1\"/>"
                               "</unit>\n");
    }
    buffer_text(out, "<quilt id=\"q\" name=\"Q\"><use unit=\"u0\"/></quilt>"
                     "</pattern>");
}

static void entities(struct making *m, struct buffer *out)
{
    static const char *const heads[] = {
        "<!ENTITY a \"aaaa\">",
        "<!ENTITY a \"&b;\"><!ENTITY b \"&a;\">",
        "<!ENTITY a SYSTEM \"file:///etc/hostname\">",
        "<!ENTITY % p \"x\">%p;",
        "<!ENTITY a PUBLIC \"x\" \"y\">",
        "<!ENTITY lt \"&#38;#60;\">",
        "<!ELEMENT pattern ANY>",
        "<!ATTLIST pattern id CDATA \"x\">",
        "<!NOTATION n SYSTEM \"n\">",
        "<!ENTITY a \"<patch/>\">",
        "<!-- ",
        "]]>",
        "<![INCLUDE[",
        "<!ENTITY % p SYSTEM \"http://localhost:9/x\">%p;"};
    static const char *const uses[] = {"&a;", "&b;", "&lt;", "&#60;", "%p;",
                                       "&a",  "&;",  "&#;",  "&#x;",  "&a;&a;"};
    buffer_printf(out, "<!DOCTYPE %s [%s%s",
                  below(m, 2) == 0 ? "pattern" : "x SYSTEM \"x.dtd\"",
                  PICK(m, heads), PICK(m, heads));
    for (size_t i = below(m, 2) * 30; i > 0; i--)
        buffer_printf(out, "<!ENTITY e%zu \"&e%zu;&e%zu;\">", i, i - 1, i - 1);
    buffer_text(out, "]>");
    put_head(out, PICK(m, uses));
    buffer_printf(out, "<quilt id=\"q\" name=\"%s\">%s&e30;</quilt></pattern>",
                  PICK(m, uses), PICK(m, uses));
}

/* Pieces of XML in no order. */
static void tokens(struct making *m, struct buffer *out)
{
    static const char *const parts[] = {"<",
                                        ">",
                                        "/>",
                                        "</",
                                        "<pattern",
                                        "</pattern>",
                                        " xmlns=\"",
                                        "\"",
                                        "'",
                                        "urn:seamwright:pattern:1",
                                        "urn:x",
                                        "<quilt>",
                                        "</quilt>",
                                        "<x:y>",
                                        "xmlns:x=\"",
                                        "<!--",
                                        "-->",
                                        "<![CDATA[",
                                        "]]>",
                                        "<?",
                                        "?>",
                                        "<!DOCTYPE ",
                                        "[",
                                        "]",
                                        "=",
                                        "&",
                                        ";",
                                        "&#",
                                        " id",
                                        " id=\"a\"",
                                        " id=\"a\"",
                                        "\n",
                                        "<row>",
                                        "</row>",
                                        "<?xml version=\"1.0\" encoding=\"",
                                        "UTF-16",
                                        "UTF-8",
                                        "?>",
                                        "xml:space=\"preserve\"",
                                        "xml:base=\"x\"",
                                        "a",
                                        "1"};
    if (below(m, 2) == 0)
        put_head(out, "t");
    for (size_t i = below(m, 200); i > 0; i--)
        buffer_text(out, below(m, 8) == 0 ? hostile_text(m) : PICK(m, parts));
}

static void noise(struct making *m, struct buffer *out)
{
    static const char *const starts[] = {
        "", "\xef\xbb\xbf", "\xfe\xff", "\xff\xfe", "\0<", "<?xml", "%PDF-1.4"};
    buffer_text(out, PICK(m, starts));
    for (size_t i = below(m, 4000); i > 0; i--)
        buffer_char(out, (char)below(m, 256));
}

/* Few lines that ask for very much. */
static void many(struct making *m, struct buffer *out)
{
    const size_t counts[] = {2, 8, 50, 199, 200};
    const size_t levels = below(m, 12) + 1;
    put_head(out, "many");
    buffer_text(out,
                "<unit id=\"u0\" name=\"U\"><patch fabric=\"f\" width=\"1\" "
                "height=\"1\"/></unit>\n");
    for (size_t i = 1; i <= levels; i++) {
        const size_t side = counts[below(m, UNIT_COUNT(counts))];
        buffer_printf(out,
                      "<unit id=\"u%zu\" name=\"U\"><grid across=\"%zu\" "
                      "down=\"2\"><use unit=\"u%zu\"/></grid></unit>\n",
                      i, side, i - 1);
    }
    buffer_printf(out,
                  "<quilt id=\"q\" name=\"Q\"><use unit=\"u%zu\"/></quilt>"
                  "</pattern>",
                  levels);
}

/* ---- lists of pieces ---- */

static void piece_list(struct making *m, struct buffer *out)
{
    static const char *const lines[] = {"width 42",
                                        "width 21",
                                        "height 18",
                                        "first-cut across",
                                        "first-cut up",
                                        "leftover 9 9 2",
                                        "leftover 1 1 99999999",
                                        "# words",
                                        "unit in",
                                        "unit",
                                        "2.5 2.5 180 squares",
                                        "2-1/2 12.5 49",
                                        "1/0 1 1",
                                        "1 1",
                                        "1 1 1 1 1",
                                        "width 0",
                                        "width 1/3",
                                        "height 1/999999",
                                        "width 99999999 "};
    buffer_text(out, below(m, 5) == 0 ? "" : "width 42\n");
    const size_t counts[] = {1, 3, 8, 20, 49, 51, 999, 1001};
    for (size_t i = counts[below(m, 4 + below(m, 5))]; i > 0; i--) {
        if (below(m, 3) == 0)
            buffer_text(out, PICK(m, lines));
        else if (below(m, 4) == 0)
            buffer_printf(out, "%s %s %s %s", hostile_number(m),
                          hostile_number(m), hostile_number(m),
                          hostile_text(m));
        else
            buffer_printf(out, "%zu.%zu %zu %zu x%zu", below(m, 20),
                          below(m, 10), below(m, 30) + 1, below(m, 90), i);
        buffer_char(out, below(m, 60) == 0 ? (char)below(m, 32) : '\n');
    }
}

const struct kind *invented_kinds(size_t *count)
{
    static const struct kind kinds[] = {
        {"trees", trees, HOSTILE_SOURCE},          {"pieces", pieces, HOSTILE_SOURCE},
        {"one-size", one_size, HOSTILE_SOURCE},    {"names", names, HOSTILE_SOURCE},
        {"nested", nested, HOSTILE_SOURCE},        {"cycles", cycles, HOSTILE_SOURCE},
        {"entities", entities, HOSTILE_SOURCE},    {"tokens", tokens, HOSTILE_SOURCE},
        {"noise", noise, HOSTILE_SOURCE},          {"many", many, HOSTILE_SOURCE},
        {"piece-list", piece_list, HOSTILE_LIST},
    };
    *count = UNIT_COUNT(kinds);
    return kinds;
}
