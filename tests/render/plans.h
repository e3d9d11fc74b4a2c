/* What the tests of tables and data share: a pattern whose names are written
 * to be mistaken for formulas, quotes and ends of lines. */
#ifndef SEAMWRIGHT_TESTS_PLANS_H
#define SEAMWRIGHT_TESTS_PLANS_H

#include "../book/sample.h"
#include "render.h"

static const char hostile[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"hostile\" "
    "title=\"A &quot;quoted&quot;, &lt;odd&gt; \\ title\" units=\"in\" "
    "seam=\"1/4\">"
    "<about designer=\"=cmd()\" publisher=\"&#x1F9F5; tab\" "
    "revision=\"1\" date=\"2026-11-02\"/>"
    "<fabrics><fabric id=\"sum\" key=\"a\" name=\"=SUM(A1:A9)\"/>"
    "<fabric id=\"plus\" key=\"b\" name=\"+1 shade, &quot;warm&quot;\"/>"
    "<fabric id=\"minus\" key=\"c\" name=\"-2\"/>"
    "<fabric id=\"at\" key=\"d\" name=\"@home\"/></fabrics>"
    "<colorway id=\"one\" name=\"One\">"
    "<cloth fabric=\"sum\" name=\"&quot;\" color=\"#111111\" width=\"42\" "
    "price=\"11.80\" code=\"'1\"/>"
    "<cloth fabric=\"plus\" name=\"a,b\" color=\"#222222\" width=\"42 1/2\" "
    "price=\"0.05\" code=\"=1+1\"/>"
    "<cloth fabric=\"minus\" name=\"two lines\" color=\"#333333\" "
    "width=\"42\" sold=\"fat-quarter\"/>"
    "<cloth fabric=\"at\" name=\"tab\" color=\"#444444\" width=\"42\"/>"
    "</colorway>"
    "<unit id=\"dot\" name=\"=1+2,&quot;x&quot;\"><patch fabric=\"minus\" "
    "width=\"3 1/8\" height=\"4\"/></unit>"
    "<quilt id=\"mat\" name=\"-Mat\"><column>"
    "<row><patch fabric=\"sum\" width=\"4 3/8\" height=\"4\"/>"
    "<patch fabric=\"plus\" width=\"4\"/><use unit=\"dot\"/></row>"
    "<patch fabric=\"at\" height=\"5\"/></column>"
    "<border fabric=\"plus\" width=\"2\" corners=\"butted\"/>"
    "<backing fabric=\"sum\" overage=\"4\"/>"
    "<binding fabric=\"at\" width=\"2 1/2\"/></quilt></pattern>";

/* The samples, and behind them the hostile one. */
static inline struct sample any_sample(struct arena *arena, size_t index)
{
    return index < SAMPLE_COUNT ? sample_file(SAMPLES[index])
                                : sample_text(arena, hostile);
}

static inline struct rational plain_length(const char *text,
                                           enum length_unit unit)
{
    const struct length_result result =
        length_parse(text, strlen(text), unit);
    if (result.fault != LENGTH_OK)
        fail_msg("\"%s\" is no length", text);
    return result.value;
}

#endif
