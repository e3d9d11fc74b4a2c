/* owner: kit
 *
 * An order, planned: what is bought, how every roll is cut, what goes into each
 * bag, what it costs. Papers and tables only tell what stands here.
 *
 * Lengths are in the units of the order. Money is exact; it is rounded where it
 * is printed (money_rounded), each line of a document for itself, and totals
 * are sums of exact values.
 */
#ifndef SEAMWRIGHT_KITS_H
#define SEAMWRIGHT_KITS_H

#include "bolts.h"
#include "kit_facts.h"
#include "order.h"

/* In the place of a line's index: what is cut is spare, or is cut up into
 * pieces that are counted. */
#define KITS_SPARE SIZE_MAX
#define KITS_PIECES (SIZE_MAX - 1)

/* ---- what is cut from a cloth ---- */

enum kits_cut_kind {
    CUT_AS_YARDAGE, /* as the booklet's materials say, and `over` */
    CUT_AS_STRIP,   /* a strip that goes into the kit: no `over` */
    CUT_TO_PIECES,  /* a strip that is cut up for bags: no `over` */
    CUT_TO_SHEETS   /* a half yard that is cut into fat quarters */
};

/* Who takes cuts of one length. */
struct kits_taker {
    size_t line;    /* index; or KITS_SPARE, KITS_PIECES */
    size_t content; /* index of what it is in a kit of that line */
    size_t each;    /* in a kit; 0 where not by kits */
    size_t count;   /* in all */
};

/* All cuts of one length of a cloth, of all lines together. */
struct kits_cut {
    enum kits_cut_kind kind;
    struct rational told;   /* length as it is printed */
    struct rational length; /* as it is cut, with `over` */
    size_t count;           /* with the spare ones */
    size_t spare;
    LIST(struct kits_taker) takers; /* by line; the spare ones last */
};

/* Cuts of one length for one taker, one behind the other in a roll. */
struct kits_run {
    size_t cut;  /* index of the cloth's cuts */
    size_t line; /* index; or KITS_SPARE, KITS_PIECES */
    size_t count;
    struct rational to; /* running length from the roll's end, behind the last;
                           of a new bolt with the end loss before it */
};

/* A length of cloth that is opened, as it lies on the table. */
struct kits_roll {
    const struct order_bolt *bolt; /* of the shelf; NULL: bought */
    size_t number;                 /* of bolts of the shelf: their place in the
                                      order, from 1; of bought ones of a cloth,
                                      from 1 */
    struct rational from;   /* where its use begins, from its end: behind a flaw
                               or the end loss */
    struct rational length; /* that is usable from there */
    LIST(struct kits_run) runs; /* in the order of cutting, longest first */
    struct rational used, left; /* `used` + `left` = `length` */
    bool kept;                  /* what is left goes back to the shelf */
};

/* What stays on the shelf: a bolt of the next order. */
struct kits_end {
    const struct order_bolt *bolt; /* that it is of; NULL: a bought one */
    struct rational length, width; /* width: unknown as in the order */
    bool whole;                    /* not opened: its flaws are still in it */
};

/* Pieces of one kind that are counted: fat quarters and precuts. */
struct kits_pieces {
    enum sold_as kind;
    size_t needed, spare;   /* for kits, and on top of them */
    size_t shelf;           /* that lie there */
    size_t cut;             /* from half yards */
    size_t bought;          /* as pieces */
    struct rational price;  /* of one that is bought; unknown for none */
    size_t left;            /* shelf + cut + bought - needed - spare */
    size_t each;            /* that one length gives; 0 where not cut */
    size_t lengths;         /* half yards that are cut for them */
    struct rational length; /* of one, with `over` */
    LIST(struct kits_taker) takers; /* by line; the spare ones last */
};

/* ---- kits that are cut ---- */

/* A size of piece, of all lines together. */
struct kits_size {
    struct rational width, height; /* longer side first where it turns */
    bool turns, lengthwise, whole; /* whole: strips across the cloth */
    size_t count;
    size_t surplus;                 /* that the strips give beyond that */
    LIST(struct kits_taker) takers; /* `content`: index in the bag's pieces */
};

/* Pieces side by side in a strip. */
struct kits_segment {
    size_t size;
    size_t count;
    struct rational along; /* the side that lies along the strip */
};

/* Strips that are cut alike, laid in layers. */
struct kits_strip {
    struct rational height;
    LIST(struct kits_segment) segments; /* none: it stays whole */
    size_t repeat;
    size_t passes;     /* stacks that are cut: repeat over layers, up */
    size_t cross_cuts; /* of all passes: squaring an end, then each segment */
    size_t settings;   /* of the ruler: height, and each other width */
};

struct kits_cutting {
    LIST(struct kits_size) sizes;
    LIST(struct kits_strip) strips;
    struct rational width;  /* that the strips are as long as */
    struct rational length; /* of all strips */
    struct rational bound;  /* no plan of this kind takes less */
    size_t passes, cross_cuts, settings;
};

/* ---- cloths ---- */

/* Shelf + bought = kits + pieces + spare + end loss + flaws + lost + left. All
 * lengths; `pieces` is what is cut up into counted pieces. */
struct kits_ledger {
    struct rational shelf, bought;
    struct rational kits, pieces, spare, end_loss, flaws, lost, left;
};

struct kits_cloth {
    const struct order_cloth *stated;     /* or NULL */
    const char *code, *name;              /* code: "" for none */
    const char *supplier, *shelf, *fiber; /* "" for none */
    long color;                           /* 0xrrggbb */
    struct rational width;                /* usable */
    struct rational needed;               /* of it, by the widest cut */
    enum order_sold sold;
    struct rational step;         /* length of one step; of a bolt all of
                                     it; 0 for pieces */
    struct rational price;        /* of one step; unknown for none */
    struct rational per_length;   /* price of one unit of length, or
                                     unknown */
    LIST(struct kits_cut) cuts;   /* longest first */
    LIST(struct kits_roll) rolls; /* that are opened: the shelf's first */
    LIST(struct kits_pieces) pieces;
    struct kits_cutting cutting; /* no sizes where no kit is cut */
    LIST(struct kits_end) ends;  /* what lies there for the next order */
    LIST(const struct order_bolt *) narrow; /* left alone: too narrow */
    struct kits_ledger ledger;
    size_t bought;                 /* steps: bolts, half yards, pieces */
    struct rational bought_length; /* 0 for pieces */
    struct rational cost;          /* of what is bought; unknown without a
                                      price */
    /* Of cutting the rolls, in the merits of bolts.h. Lengths are told in
     * `unit` of the cloth: merit times `unit` is a length. */
    struct rational unit;
    struct rational coin; /* the same for costs; where no price is known, a
                             cost is the length bought, in `unit` */
    int64_t merit[BOLT_MERITS], bound[BOLT_MERITS];
    bool proven[BOLT_MERITS];
};

/* ---- lines ---- */

enum kits_part { PART_OF_TOP, PART_OF_BACKING };

/* One piece size in a bag of a kit that is cut. */
struct kits_bag_piece {
    const char *label;
    struct rational width, height;
    size_t count;
    bool border, binding, joined;
};

/* What a kit holds of one fabric. Exactly one of `lengths`, `strips`, `pieces`
 * and `bag` tells the amount. */
struct kits_content {
    size_t cloth;       /* index */
    const char *letter; /* of the fabric in the booklet */
    const char *role;   /* name of the fabric */
    enum kits_part part;
    bool binding;                   /* the amount has the binding with it */
    struct rational length;         /* printed; 0 where not so told */
    LIST(struct kit_strips) strips; /* in units of the order */
    size_t pieces;                  /* counted, of `kind` */
    enum sold_as kind;
    LIST(struct kits_bag_piece) bag;
    struct rational used; /* length of cloth, for its cost: with `over` */
    struct rational cost; /* unknown without a price */
    /* Grams of it, and by how many they may be off; unknown where the cloth
     * states no weight, or no error of it. */
    struct rational grams, grams_error;
    /* Would the scale show that one of so many pieces lacks? n < 1/(2e). */
    bool weight_tells;
};

struct kits_line {
    const struct order_line *asked;
    const struct kit_facts *facts;
    LIST(struct kits_content) contents; /* by letter; backing last */
    struct rational cloth_cost;  /* of one kit; unknown where a price lacks */
    struct rational extras_cost; /* of one kit */
    struct rational cost;        /* both */
    struct rational margin;      /* part of the price: (price - cost) / price;
                                    unknown without one of them */
};

struct kits {
    const struct order *order;
    struct kits_line *lines;        /* as order->lines */
    LIST(struct kits_cloth) cloths; /* in the order of the lines */
    const size_t *picks; /* indexes of the cloths by shelf, code and name */
    size_t kit_count;
    struct rational bought_cost; /* of all cloth bought; unknown: one lacks */
    struct rational kits_cost;   /* of all kits; unknown: one lacks */
    struct rational kits_price;  /* unknown: one lacks */
};

/* ensures: the value rounded half up to the digits of the order, as it is
 * printed: "24.79"; "" for unknown. */
char *money_text(struct arena *arena, const struct order *order,
                 struct rational value);
/* ensures: the same as a number. */
struct rational money_rounded(const struct order *order, struct rational value);

/* ensures: the exact sum of money; where its fraction does not fit 64 bits, as
 * of many bolts of odd lengths, that of both to the nearest millionth; unknown
 * where one is, or where that does not fit, either. */
struct rational money_sum(struct rational a, struct rational b);

/* Plans an order. `facts`: for each line, in the order's order.
 * ensures: the kits; NULL where there was an error.
 * reports: cloths that contradict each other, that are too narrow, too short,
 *   or that cannot be bought; sums that cannot be held exactly. */
struct kits *plan_kits(struct run *run, const struct order *order,
                       const struct kit_facts *const *facts);

/* Judges a plan apart from how it was made: rebuilds each roll, counts what
 * each kit gets, repeats both ledgers and the money. A difference is an
 * internal error. */
void prove_kits(const struct kits *kits);

#endif
