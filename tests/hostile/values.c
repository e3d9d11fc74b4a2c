/* Numbers, lengths and words that no attribute is glad of. Read next:
 * invented.c. */
#include <string.h>

#include "hostile.h"

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

const char *long_name(struct making *m)
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
