/* The one table of numbers that come from the trade. `Common practice` is a
 * habit for which no source was found, `our choice` is ours. Where only inches
 * have a source, the centimetres are common practice. The manual tells users
 * the same numbers (templates/manual/trade.md). */
#include "trade.h"

struct trade_row {
    struct rational inches, centimetres;
};

static const struct trade_row rows[TRADE_FACT_COUNT] = {
    /* Half of what a square is cut larger: Karen Combs, Formulas for Quilters,
     * 2002, karencombs.com/page.php?ID=31 (finished + 1/2). */
    [TRADE_SEAM] = {{1, 4}, {3, 4}},
    /* One or two threads: Testing your scant quarter inch seam, September 2012,
     * quiltcentric.com. As a length, common practice. */
    [TRADE_SCANT] = {{1, 32}, {1, 10}},
    /* Charts for setting triangles are rounded up to eighths: M. Hohn, 2002,
     * quilterscache.com/H/howtomakesettingtriangles.html. Metric rulers are
     * ruled in quarters. */
    [TRADE_CUTTING_STEP] = {{1, 8}, {1, 4}},
    /* Common practice. */
    [TRADE_SQUARING] = {{1, 1}, {5, 2}},
    /* Our choice: what the selvage ends of a strip lose when they are squared
     * up, and the least that still lets them be. */
    [TRADE_RESERVE] = {{1, 2}, {5, 4}},
    [TRADE_TIGHT] = {{1, 4}, {5, 8}},
    /* Rectangles that are 1 in wider and 2 in longer than finished (HRT
     * tutorial, mmmquilts.com, December 2019) leave 0.35 in of the short leg;
     * our choice is what still gives these for all that are twice as long as
     * wide. */
    [TRADE_TRIM] = {{1, 4}, {1, 2}},
    /* Our choice: a star that is sewn with the usual seam grows by 4.83 times
     * what its strip was rounded, so that seams wider by a sixty-fourth of an
     * inch mend as much as this. */
    [TRADE_STAR_GROWTH] = {{1, 8}, {3, 10}},
    /* Common practice: a strip that is cut long is trimmed to the top. */
    [TRADE_BORDER_SPARE] = {{1, 1}, {5, 2}},
    /* What a published rule leaves: side + 2 borders + 1 in, where seams of 1/4
     * take half of the inch (50 by 60 with borders of 1, 2 1/2, 3 1/2 from
     * strips of 65 and 75): calculating required border lengths, mitered
     * corners, quiltingboard.com, thread 168402. */
    [TRADE_MITRE_ROOM] = {{1, 2}, {3, 2}},
    /* Preparing a quilt top and backing, stcroixquilters.com (40 to 42);
     * patterns of American Patchwork & Quilting, 2015, state 42. */
    [TRADE_CLOTH_WIDTH] = {{42, 1}, {106, 1}},
    /* An eighth of a yard: Fraction conversions, February 2014,
     * catbirdquilts.wordpress.com. A tenth of a metre. */
    [TRADE_SOLD_STEP] = {{9, 2}, {10, 1}},
    /* Common practice: mats of 24 by 36 in, rulers of 24 in. */
    [TRADE_MAT] = {{24, 1}, {60, 1}},
    /* Half a yard by half the width, and a quarter yard by half the width: What
     * are fat quarters and fat eighths, American Patchwork & Quilting, 2017
     * (18 x 21, 9 x 21). Half a metre, a quarter of one. */
    [TRADE_FAT_QUARTER] = {{18, 1}, {50, 1}},
    [TRADE_FAT_EIGHTH] = {{9, 1}, {25, 1}},
    /* University of Nebraska-Lincoln Extension, 4-H fair book,
     * 4h.unl.edu/fairbook/static/quilting. Cut in inches everywhere (common
     * practice), so that centimetres are their exact conversion. */
    [TRADE_TEN_INCH] = {{10, 1}, {127, 5}},
    [TRADE_FIVE_INCH] = {{5, 1}, {127, 10}},
    [TRADE_STRIP] = {{5, 2}, {127, 20}},
    /* The lower end of what long-arm quilters ask: Longarming: how much backing
     * fabric do you really need, cookingupquilts.com (4 to 6). */
    [TRADE_OVERAGE] = {{4, 1}, {10, 1}},
    /* Quilt top prep, quiltyourquilt.com (1/2). */
    [TRADE_BACKING_SEAM] = {{1, 2}, {5, 4}},
    /* The widest of three common widths: Basic quilting skills,
     * villarosaquilts.com (2, 2 1/4, 2 1/2). */
    [TRADE_BINDING] = {{5, 2}, {13, 2}},
    /* Our choice. Published extras run from 0 to 24; 15: Fons & Porter, as told
     * at minneapolismqg.com, April 2014. */
    [TRADE_BINDING_TAIL] = {{10, 1}, {25, 1}},
    /* Needle to edge of feet for free motion, 3/16 to 1/2 in: Mark No More,
     * quiltmaker.com/articles/mark_no_more/4. */
    [TRADE_FOOT] = {{1, 4}, {3, 5}},
    /* Our choice: hiding one change of thread takes about five minutes (Empty
     * bobbin, caledoniaquilter.blogspot.com, November 2009). */
    [TRADE_START] = {{24, 1}, {60, 1}},
    /* 70 yards, 65 metres; size L holds 39 to 102 yards: Bobbin Capacity,
     * kmkfabrics.com/bobbin_education. */
    [TRADE_BOBBIN] = {{2520, 1}, {6500, 1}},
    /* Turn of the cloth, adonising.blogspot.com, March 2019 (1/32 in a seam);
     * pressed open, a few threads come back (tenderlystitched.com, February
     * 2017): half of it is our choice. */
    [TRADE_FOLD] = {{1, 32}, {2, 25}},
    [TRADE_FOLD_OPEN] = {{1, 64}, {1, 25}},
    /* Our choice. */
    [TRADE_THREAD] = {{1, 64}, {1, 25}},
    /* Common practice: three strips of 1 1/2 make 3 1/2. */
    [TRADE_TEST_STRIP] = {{3, 2}, {4, 1}},
    /* Our choice. A block that is 1/8 off is noticed, 1/4 is eased into a
     * border: mysewingroomsara.blogspot.com, May 2020; quiltingboard.com, post
     * 8000765. */
    [TRADE_OFF_BLOCK] = {{1, 8}, {3, 10}},
    [TRADE_OFF_TRIMMED] = {{1, 32}, {1, 10}},
    [TRADE_OFF_TOP] = {{1, 4}, {3, 5}},
};

struct rational trade_length(enum trade_fact fact, enum length_unit units)
{
    return units == UNIT_CM ? rows[fact].centimetres : rows[fact].inches;
}

enum length_unit trade_shop_unit(enum length_unit units)
{
    return units == UNIT_CM ? UNIT_M : UNIT_YD;
}
