/* Sources made up from nothing: nested, endless, circular, or no XML at all;
 * and lists of pieces. */
#include <stdio.h>
#include <string.h>

#include "hostile.h"
#include "pattern.h"

size_t below(struct making *m, size_t limit)
{
    return (size_t)unit_below(&m->random, limit);
}

const char *pick(struct making *m, const char *const *texts, size_t count)
{
    return texts[below(m, count)];
}

static const char *repeated(struct making *m, const char *what, size_t times)
{
    struct buffer out = buffer_in(m->arena);
    for (size_t i = 0; i < times; i++)
        buffer_text(&out, what);
    return buffer_string(&out);
}

/* ---- values ---- */

static const char *const numbers_at_an_edge[] = {"0",
                                                 "1",
                                                 "2",
                                                 "3",
                                                 "4",
                                                 "6",
                                                 "12",
                                                 "64",
                                                 "65",
                                                 "200",
                                                 "201",
                                                 "10000",
                                                 "10001",
                                                 "20000",
                                                 "65536",
                                                 "1000000",
                                                 "2147483647",
                                                 "2147483648",
                                                 "4294967296",
                                                 "9223372036854775807",
                                                 "9223372036854775808",
                                                 "99999999999999999999",
                                                 "-1",
                                                 "-0",
                                                 "+1",
                                                 "00",
                                                 "007",
                                                 "1e9",
                                                 "0x10",
                                                 "1.5",
                                                 "1.",
                                                 ".5",
                                                 "1,5",
                                                 "0.0000001",
                                                 "3.3333333333",
                                                 "1/2",
                                                 "1/0",
                                                 "0/1",
                                                 "1 1/2",
                                                 "1-1/2",
                                                 "1/3",
                                                 "7/999983",
                                                 "1/65536",
                                                 "1/1000000007",
                                                 "99999 63/64",
                                                 "1/2/3",
                                                 "1 2",
                                                 "\xc2\xbd",
                                                 "2\xc2\xbd",
                                                 "\u2153",
                                                 "1\u2044"
                                                 "2",
                                                 "\u0661",
                                                 "\uff11",
                                                 "NaN",
                                                 "inf",
                                                 "1 in",
                                                 "1cm",
                                                 "2.54 cm",
                                                 "1'",
                                                 "1\"",
                                                 "12 x 12",
                                                 "1 x",
                                                 "x 1",
                                                 "12 x 99999999",
                                                 "1 x 1 x 1"};

const char *hostile_number(struct making *m)
{
    return PICK(m, numbers_at_an_edge);
}

/* Direction marks, separators, runs that combine, halves of pairs, letters that
 * look like others, and what a terminal takes for an order. */
static const char *const texts_that_trap[] = {"",
                                              " ",
                                              "\t",
                                              "\n",
                                              "\r\n",
                                              "\u202e",
                                              "\u2066\u2067\u2068",
                                              "\u2069",
                                              "\u200f\u061c",
                                              "\u2028",
                                              "\u2029",
                                              "a\u2029b\u2029",
                                              "\xc2\x85",
                                              "\xc2\xa0",
                                              "\u200b\u200b",
                                              "\ufeff",
                                              "\u200d",
                                              "\xc2\xad",
                                              "\u034f",
                                              "\u0301",
                                              "e\u0301\u0302\u0303\u0304",
                                              "\u1100\u1161\u11a8",
                                              "\U0001f468\u200d"
                                              "\U0001f469\u200d\U0001f467",
                                              "\U0001f3fb",
                                              "\U0001f1e6",
                                              "\ufdfa",
                                              "\u0130\u0131\xc3\x9f\ufb03",
                                              "\u05d0\u05d1 abc \u0627\u0628",
                                              "\u0e33",
                                              "\u0915\u094d\u0937\u093f",
                                              "\U000e0001\U000e007f",
                                              "\ufffe",
                                              "\uffff",
                                              "\U0010ffff",
                                              "\U000f0000",
                                              "\ufffd",
                                              "\xed\xa0\x80",
                                              "\xed\xb0\x80",
                                              "\xc0\xaf",
                                              "\xf4\x90\x80\x80",
                                              "\xff",
                                              "\x80",
                                              "\xe2\x80",
                                              "\x1b[2J",
                                              "\x07",
                                              "\x7f",
                                              "\x01",
                                              "\xc2\x9b"
                                              "31m",
                                              "&#x1b;",
                                              "&#13;",
                                              "&#10;",
                                              "&#9;",
                                              "&#0;",
                                              "&#x110000;",
                                              "&#xd800;",
                                              "&#xfffe;",
                                              "&lt;",
                                              "&amp;&amp;",
                                              "&nbsp;",
                                              "&unknown;",
                                              "&",
                                              "<",
                                              "]]>",
                                              "<![CDATA[x]]>",
                                              "<!-- x -->",
                                              "<!-- -- -->",
                                              "<?x y?>",
                                              "<?xml version=\"1.0\"?>",
                                              "s\\w s/w",
                                              "n/f f\\n q q",
                                              "/ \\ /",
                                              "a/b/c\\d",
                                              "n:f",
                                              "%s%n%x",
                                              "../../x",
                                              "/",
                                              "\\",
                                              "=1+1",
                                              "@x",
                                              "-",
                                              "{}",
                                              "$(x)",
                                              "`x`",
                                              "'",
                                              ",;|",
                                              "x x x x"};

const char *hostile_text(struct making *m)
{
    const char *text = PICK(m, texts_that_trap);
    if (below(m, 4) != 0)
        return text;
    return repeated(m, text, (size_t)1 << below(m, 13));
}

static const char *long_name(struct making *m)
{
    static const char *const letters[] = {
        "a", "W", "-", ".", "\xc3\xa4", "\u4e00", "a ", "\u0301", "_"};
    const size_t around = below(m, 3) + 199;
    const size_t lengths[] = {around, 64, 255, 256, 1000, 20000, 100000};
    return repeated(m, PICK(m, letters), lengths[below(m, 7)]);
}

const char *hostile_value(struct making *m)
{
    static const char *const words[] = {"yes",
                                        "no",
                                        "open",
                                        "left",
                                        "rising",
                                        "falling",
                                        "90",
                                        "270",
                                        "across",
                                        "in",
                                        "cm",
                                        "yardage",
                                        "fat-quarter",
                                        "lengthwise",
                                        "#000000",
                                        "#GGGGGG",
                                        "#fff",
                                        "2026-02-30",
                                        "0000-00-00",
                                        "9999-12-31",
                                        "0,0 1,0 0,1",
                                        "0,0 1,1 2,2",
                                        "0,0 9,0 0,9 9,9",
                                        "1,2,3,4,5,6",
                                        "50",
                                        "49.999",
                                        "night",
                                        "wing",
                                        "lantern",
                                        "throw",
                                        "dusk",
                                        "de",
                                        "one-way",
                                        "butted",
                                        "strip"};
    switch (below(m, 4)) {
    case 0:
        return PICK(m, words);
    case 1:
        return hostile_text(m);
    case 2:
        return below(m, 4) == 0 ? long_name(m) : hostile_text(m);
    default:
        return hostile_number(m);
    }
}

/* ---- whole sources ---- */

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

/* Elements and attributes of the grammar, put together by no rule. */
static void random_tree(struct making *m, struct buffer *out, size_t depth)
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
    const size_t counts[] = {1, 3, 8, 20, 49, 51, 399, 401};
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
        {"trees", trees, false},          {"pieces", pieces, false},
        {"one-size", one_size, false},    {"names", names, false},
        {"nested", nested, false},        {"cycles", cycles, false},
        {"entities", entities, false},    {"tokens", tokens, false},
        {"noise", noise, false},          {"many", many, false},
        {"piece-list", piece_list, true},
    };
    *count = UNIT_COUNT(kinds);
    return kinds;
}
