/* owner: kit
 *
 * What one kit of a quilt in a colorway needs, taken from its cutting plan.
 * It keeps nothing of the pattern, so that many patterns can be compiled one
 * after the other, and that it can be kept for the next run.
 *
 * Lengths are in `units` of the pattern.
 */
#ifndef SEAMWRIGHT_KIT_FACTS_H
#define SEAMWRIGHT_KIT_FACTS_H

#include "cutplan.h"

/* Rectangles of one size; as struct cut_item has them. */
struct kit_piece {
    const char *label;
    struct rational width, height; /* cut size */
    size_t count;                  /* of joined strips: whole strips */
    bool turns, lengthwise;
    bool joined; /* whole strips across the cloth */
    bool binding, border;
    bool trimmed; /* no ruler cuts it: it is trimmed to its size later */
};

/* Strips of one height, or lengths that are cut along the selvage. */
struct kit_strips {
    struct rational height;
    size_t count;
    bool binding; /* nothing else is cut from them */
};

/* One fabric of the quilt. */
struct kit_fabric {
    const char *letter; /* as the booklet has it: "A" */
    const char *role;   /* the fabric's name */
    const char *name;   /* of its cloth */
    const char *code;   /* "" for none */
    long color;         /* 0xrrggbb */
    enum sold_as sold;
    struct rational width;  /* that the plan counts on */
    struct rational needed; /* of it, that the widest strip takes */
    struct rational price;  /* of a yard or metre, or of a piece; or unknown */
    bool top;               /* something of the quilt top is cut from it */
    struct rational amount; /* of yardage, for top and binding; 0: sheets */
    /* The same without strips that are for binding alone. */
    struct rational amount_unbound;
    size_t sheets; /* of cloth sold by number */
    LIST(struct kit_piece) pieces;
    LIST(struct kit_strips) strips;
};

struct kit_thread {
    const char *id, *name; /* of its spool, "" for none */
    size_t spools;         /* 0: no length of a spool is told */
    int64_t length;        /* in yards or metres, rounded up */
};

/* The quilt top as a card shows it: convex shapes on a grid, the longer side of
 * the finished top KIT_PICTURE_SIDE long, in whole numbers. It is a drawing: no
 * size is taken from it. Shapes at the edge have the seam allowance on, which
 * lies beyond 0 and beyond `width` and `height`. */
enum { KIT_PICTURE_SIDE = 10000 };
struct kit_spot {
    int x, y;
};
struct kit_shape {
    size_t fabric;       /* of the pattern */
    size_t first, count; /* of the spots */
};
struct kit_picture {
    const char *quilt;
    int width, height, allowance;
    LIST(struct kit_shape) shapes;
    LIST(struct kit_spot) spots;
};

struct kit_facts {
    const char *pattern_id, *title;
    const char *quilt, *quilt_name;
    const char *colorway, *colorway_name;
    enum length_unit units;
    struct rational width, height;   /* of the finished quilt */
    LIST(struct kit_fabric) fabrics; /* that are used, in their order */
    bool backing;
    size_t backing_fabric;          /* of `fabrics` */
    struct rational backing_amount; /* 0: in the amount of the top */
    bool batting;
    struct rational batting_width, batting_height;
    bool binding;
    size_t binding_fabric;
    LIST(struct kit_thread) threads;
    const struct kit_picture *picture; /* NULL for none */
    LIST(long) colors;                 /* of all fabrics of the pattern */
};

/* All quilts and colorways of a pattern. */
struct kit_facts_list {
    LIST(struct kit_facts) items;
    LIST(struct kit_picture *) pictures; /* one of each quilt */
};

/* ensures: facts in `arena` that hold nothing of the plans. */
struct kit_facts_list *kit_facts(struct arena *arena,
                                 const struct cutplans *plans);

/* ensures: the picture of a sewn quilt, in `arena`. */
struct kit_picture *kit_picture(struct arena *arena,
                                const struct sewn_quilt *quilt);

/* The facts of a quilt and colorway, or NULL. */
const struct kit_facts *kit_facts_find(const struct kit_facts_list *list,
                                       const char *quilt, const char *colorway);

/* As text that kit_facts_read takes back. */
const char *kit_facts_write(struct arena *arena,
                            const struct kit_facts_list *list);
/* ensures: the facts and *at behind them; NULL where the bytes from *at up to
 * `end` are none. Numbers in them are not judged: who keeps them keeps a digest
 * beside them. */
struct kit_facts_list *kit_facts_read(struct arena *arena, const char **at,
                                      const char *end);

#endif
