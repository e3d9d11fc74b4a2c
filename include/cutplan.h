/* owner: cut
 *
 * What is cut from which cloth, and how much of it is bought: one plan for
 * each quilt and colorway. The same list of strips makes the text, the
 * diagram and the yardage. All lengths in the pattern's unit.
 */
#ifndef SEAMWRIGHT_CUTPLAN_H
#define SEAMWRIGHT_CUTPLAN_H

#include "sewn.h"

enum cut_use { CUT_PIECE, CUT_BORDER, CUT_BINDING };

/* Rectangles of one size and cloth. */
struct cut_item {
    enum cut_use use;
    const char *label;   /* "A1"; unique in a quilt */
    const char *purpose; /* "Lantern", "border", "binding" */
    int fabric;
    struct rational width, height; /* cut size; `width` along the strip */
    size_t count;
    bool joined; /* whole strips that are joined end to end first */
    LIST(struct rational) lengths; /* cut from the joined strips */
    size_t border;                 /* number of the border, from 1 */
};

struct strip_cut {
    size_t item;
    size_t count;
};

/* `repeat` strips of one height that are cut the same way. */
struct strip {
    struct rational height;
    LIST(struct strip_cut) cuts;
    struct rational used; /* of its length */
    size_t repeat;
};

/* Sheets (fat quarters) that are cut into the same strips. */
struct sheet {
    LIST(size_t) strips;  /* indexes, once for each strip */
    struct rational used; /* of its height */
    size_t repeat;
};

struct fabric_plan {
    int fabric;
    const struct bolt *bolt;
    LIST(struct cut_item) items;
    LIST(struct strip) strips;    /* highest first */
    LIST(struct sheet) sheets;    /* only of fat quarters */
    struct rational strip_length; /* usable width of cloth or sheet */
    struct rational sheet_height; /* of a fat quarter */
    struct rational cut_height;   /* strips together */
    struct rational allowance;    /* added before rounding */
    struct rational bought;       /* length of yardage; 0 for sheets */
    size_t bought_sheets;
};

/* Backing: `panels` widths of cloth side by side. */
struct backing_plan {
    bool wanted;
    int fabric;
    const struct bolt *bolt;
    struct rational width, height; /* of the finished backing */
    size_t panels;
    bool seams_vertical; /* panels run down the quilt */
    struct rational panel_length;
    struct rational bought;
};

struct binding_plan {
    bool wanted;
    int fabric;
    struct rational width;  /* of the cut strip */
    struct rational length; /* needed, with the tail */
    struct rational tail;
    size_t strips;
    size_t item; /* in the fabric's plan */
};

struct cutplan {
    const struct sewn_quilt *quilt;
    const struct colorway *colorway;
    struct fabric_plan *fabrics; /* by fabric index; no items where not used */
    struct backing_plan backing;
    bool batting_wanted;
    struct rational batting_width, batting_height;
    struct rational batting_gap; /* unknown where not stated */
    struct binding_plan binding;
};

struct cutplans {
    const struct sewn *sewn;
    LIST(struct cutplan)
    items; /* quilts in their order, in each the colorways */
};

/* Plans all cutting.
 * requires: sewn quilts. ensures: every piece lies in exactly one strip.
 * reports: pieces that no cloth is wide enough for; stated amounts that are
 *   others. */
struct cutplans *plan_cutting(struct run *run, const struct sewn *sewn);

/* ensures: true where the plan holds every piece once, inside its cloth. */
bool cutplan_holds(const struct fabric_plan *plan);

/* "1 7/8 yd" or "1.7 m"; plain text. */
char *yardage_text(struct arena *arena, const struct pattern *pattern,
                   struct rational bought, bool glyphs);

#endif
