/* owner: resolve
 *
 * An order of kits, as it was asked for: which quilts, how many kits of each
 * and in what form, what lies on the shelf, how cloth is bought and cut. Names
 * of patterns, quilts and colorways are looked up later (kits.h).
 *
 * Lengths are in `units`, money in units of the currency. What is optional and
 * not written is unknown, NULL or 0, as each field says.
 */
#ifndef SEAMWRIGHT_ORDER_H
#define SEAMWRIGHT_ORDER_H

#include "design.h"
#include "files.h"

/* In what form cloth goes into the bag; in the order of the choices of style=.
 */
enum kit_style {
    KIT_YARDAGE,      /* each cloth as the booklet's materials say */
    KIT_FAT_QUARTERS, /* as fat quarters, where all pieces of a cloth fit */
    KIT_STRIPS,       /* strips of the widths that the booklet cuts */
    KIT_CUT           /* each piece cut, in lettered bags */
};
const char *kit_style_name(enum kit_style style); /* "yardage", ... */

/* By what step a cloth is bought, and what its price is for; the first of them
 * in the order of the choices of sold= on a cloth of an order. */
enum order_sold {
    SELL_BOLT,
    SELL_YARD,
    SELL_HALF_YARD,
    SELL_QUARTER_YARD,
    SELL_METER,
    SELL_TENTH_METER,
    SELL_FAT_QUARTER,
    SELL_PIECE /* another piece that is sold by number; never written */
};
const char *order_sold_name(enum order_sold sold); /* "bolt", ... */

/* Something beside cloth: a booklet, a bag, a spool. */
struct order_extra {
    const struct element *element;
    const char *name;
    struct rational cost; /* of one; 0 where not stated */
    size_t count;         /* in a kit */
};

/* So many kits of one quilt in one colorway. */
struct order_line {
    const struct element *element;
    size_t number;    /* from 1, in the order of the source */
    const char *file; /* as it was written */
    const char *quilt, *colorway;
    size_t kits;
    enum kit_style style;
    bool backing, binding, batting, thread; /* in the kit */
    struct rational price;                  /* of a kit; unknown: none */
    LIST(struct order_extra) extras;
};

/* What the order says of a cloth. It is that of a pattern with the same code;
 * one without a code, that of the same name (and color, where it states one).
 */
struct order_cloth {
    const struct element *element;
    const char *code;      /* "" for none */
    const char *name;      /* "" for none: the pattern's */
    long color;            /* 0xrrggbb, or -1: the pattern's */
    const char *supplier;  /* the supplier's code, "" for none */
    const char *shelf;     /* where it lies, "" for none */
    const char *fiber;     /* "" for none */
    struct rational bolt;  /* length of a new one; unknown: not stated */
    enum order_sold sold;  /* not stated: by the bolt where its length is, else
                              by the yard or meter */
    struct rational price; /* of one step of `sold`; unknown: none */
    struct rational width; /* usable; unknown: as the patterns say */
    struct rational grams; /* measured, of a square metre; unknown: none */
    struct rational grams_error; /* part of it, 0.02 for 2 %; unknown: none */
};

/* A part of a bolt that is not used. 0 is the end that is cut from. */
struct order_flaw {
    const struct element *element;
    struct rational from, to; /* from < to <= length of the bolt */
};

/* A length on the shelf. Those that stand first are the older ones. */
struct order_bolt {
    const struct element *element;
    const char *of; /* the code of its cloth, or the name of one without */
    struct rational length;
    struct rational width;         /* its own; unknown: as its cloth */
    const char *lot;               /* "" for none */
    LIST(struct order_flaw) flaws; /* by place, none over another */
};

/* Pieces of one kind on the shelf, which are counted. */
struct order_pieces {
    const struct element *element;
    const char *of;
    enum sold_as kind; /* never SOLD_YARDAGE */
    size_t count;
};

/* A sheet of labels: where they lie on the paper. */
struct order_labels {
    const struct element *element;
    bool a4; /* else letter */
    size_t columns, rows;
    struct rational width, height; /* of one label */
    struct rational left, top;     /* of the first one, from the edges */
    struct rational across, down;  /* from one to the next */
    size_t start;                  /* the first free one, from 1, by rows */
    struct rational offset_x, offset_y; /* how far a printer prints off: added
                                           to each place; may be below 0 */
};

struct order {
    const struct element *root; /* NULL: an order of the command line */
    const char *id, *title;
    const char *date;         /* "" for none */
    const char *currency;     /* "EUR"; "" for none */
    int digits;               /* of money behind the point: 0, 2 or 3 */
    enum length_unit units;   /* inches or centimetres */
    const char *language;     /* of the papers */
    int paper;                /* 1 for A4, 0 for letter, -1: by units */
    struct rational over;     /* added to each cut of a length */
    struct rational spare;    /* part of all cuts of one length: 0.05 */
    struct rational end_loss; /* of each new bolt */
    struct rational keep;     /* ends of it, and longer, stay on the shelf */
    size_t layers;            /* of cloth that are cut at once, 1 to 8 */
    LIST(struct order_line) lines;
    LIST(struct order_cloth) cloths;
    LIST(struct order_bolt) bolts;
    LIST(struct order_pieces) pieces;
    const struct order_labels *labels; /* NULL for none */
};

/* The paper that labels are on, in inches or centimetres. */
struct rational order_sheet_width(const struct order *order);
struct rational order_sheet_height(const struct order *order);

/* Reads all that an order says into facts; asks for no pattern.
 * requires: the root of an order, as read_order gives it.
 * ensures: an order; elements with mistakes are left out of it.
 * reports: what stands twice, flaws that lie beyond their bolt or over each
 *   other, labels that do not fit their sheet. */
struct order *resolve_order(struct run *run, const struct element *root);

/* An order of one line, from the command line: nothing on the shelf, nothing
 * spare. */
struct order *order_of_one(struct arena *arena, enum length_unit units,
                           const char *file, const char *quilt,
                           const char *colorway, size_t kits,
                           enum kit_style style);

/* The pattern of a line, which lies below the folder of the order.
 * ensures: its bytes; or NULL. reports: what cannot be read. */
const struct file_content *read_line_pattern(struct run *run,
                                             const struct order_line *line);

#endif
