/* owner: base
 *
 * Facts of the trade: what holds where a pattern says nothing, and how cloth is
 * sold. Each is told in inches and in centimetres, since shops and rulers of
 * the two systems differ by more than a conversion. The table with its sources
 * is src/base/trade.c; nothing else decides such a number by its unit.
 */
#ifndef SEAMWRIGHT_TRADE_H
#define SEAMWRIGHT_TRADE_H

#include "length.h"

enum trade_fact {
    TRADE_SEAM,         /* width of the seam allowance */
    TRADE_SCANT,        /* what a scant seam is narrower */
    TRADE_CUTTING_STEP, /* what a ruler cuts; cut sizes are rounded up to it */
    TRADE_SQUARING,     /* length of cloth that squaring up takes */
    TRADE_RESERVE,      /* of a strip's length, for trimming its ends */
    TRADE_BORDER_SPARE, /* of a border strip, until the top is measured */
    TRADE_MITRE_ROOM,   /* of a mitred strip, both ends together */
    TRADE_TRIM,         /* what trimming is to take off a leg of a triangle */
    TRADE_STAR_GROWTH,  /* what a star may grow by as its strip is rounded */
    TRADE_TIGHT,        /* a strip with less to spare is told as tight */
    TRADE_CLOTH_WIDTH,  /* usable, between the selvages */
    TRADE_SOLD_STEP,    /* yardage is sold in multiples of it */
    TRADE_MAT,          /* depth of one; longer cuts are marked with a tape */
    TRADE_FAT_QUARTER,  /* its height; it is half as wide as the cloth */
    TRADE_FAT_EIGHTH,   /* the same */
    TRADE_TEN_INCH,     /* side of a square that is sold by number */
    TRADE_FIVE_INCH,    /* the same */
    TRADE_STRIP,        /* height of a strip that is sold by number */
    TRADE_OVERAGE,      /* of backing and batting, at each side of the quilt */
    TRADE_BACKING_SEAM, /* allowance at each side of a seam of the backing */
    TRADE_BINDING,      /* width of a binding strip as cut, folded double */
    TRADE_BINDING_TAIL, /* binding beyond the perimeter: mitres and closing */
    TRADE_FOOT,         /* of a machine, from the needle to its edge */
    TRADE_START,        /* the travel that one start of quilting is worth */
    TRADE_BOBBIN,       /* length of thread on a bobbin */
    TRADE_FOLD,         /* what the fold of a seam pressed to a side takes */
    TRADE_FOLD_OPEN,    /* and of one that is pressed open */
    TRADE_THREAD,       /* what seams and cuts are off by chance */
    TRADE_TEST_STRIP,   /* width of the strips that a seam is tested with */
    TRADE_OFF_BLOCK,    /* what a block may be off, */
    TRADE_OFF_TRIMMED,  /* a unit that is trimmed, */
    TRADE_OFF_TOP,      /* and a quilt top */
    TRADE_FACT_COUNT
};

/* requires: `units` inches or centimetres. ensures: the length, in `units`. */
struct rational trade_length(enum trade_fact fact, enum length_unit units);

/* The unit in which shops count length: yards, or metres for centimetres. */
enum length_unit trade_shop_unit(enum length_unit units);

#endif
