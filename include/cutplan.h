/* owner: cut
 *
 * What is cut from which cloth, and how much of it is bought: one plan for
 * each quilt and colorway. The same strips make the text, the diagram, the
 * tables and the yardage. All lengths in the pattern's unit.
 */
#ifndef SEAMWRIGHT_CUTPLAN_H
#define SEAMWRIGHT_CUTPLAN_H

#include "quilting.h"

enum cut_use { CUT_PIECE, CUT_BORDER, CUT_BACKING, CUT_BINDING };

/* Which sides of a border an item is for. */
enum border_part { BORDER_ALL, BORDER_SIDES, BORDER_ENDS };

/* Pieces with slanted edges, of one kind, that are cut from strips. */
struct shaped_piece {
    const char *label;
    enum patch_shape shape;
    const struct strip_shape *strip;
    struct rational height; /* of its row, finished */
    size_t count;
    LIST(const struct definition *) takers;
};

/* What one strip gives: pieces from its left end, each a number in the item's
 * list; `repeat` strips are cut alike. */
struct shaped_strip {
    LIST(size_t) pieces;
    size_t repeat;
};

/* Rectangles of one size and cloth; or whole strips from which shapes are cut:
 * those of one height come from the same strips. */
struct cut_item {
    enum cut_use use;
    const char *label;                      /* "A1"; unique in a quilt */
    LIST(const struct definition *) takers; /* sewn from it, in their order */
    LIST(size_t)
    corners_of; /* numbers of the borders at whose corners it lies */
    int fabric;
    struct rational width, height; /* cut size */
    size_t count;
    bool turns;      /* may lie the other way: no print or grain forbids it */
    bool lengthwise; /* `height` runs along the selvage, in one piece */
    bool joined;     /* whole strips that are joined end to end first */
    LIST(struct rational)
    lengths;               /* cut from the joined strips; of binding
                              of two kinds only the first has it */
    const char *labels[2]; /* of a border's joined strips: sides and ends; one
                              label where they are alike */
    struct rational joined_spare; /* of a border's joined strips, in all */
    size_t reserved_count; /* of them, where each leaves the reserve; or 0 */
    bool straight;         /* joined by straight seams, else by diagonal ones */
    size_t border;         /* number of the border, from 1 */
    enum border_part part;
    LIST(struct shaped_piece) shaped; /* none: rectangles */
    LIST(struct shaped_strip) shaped_strips;
    /* A piece that no ruler cuts: its unfinished size, longer side first. */
    bool trimmed;
    struct rational trim_width, trim_height;
};

/* Segments of a strip, side by side, all alike: in each `stack` pieces one
 * above the other. What a piece is lower than its strip, is trimmed. */
struct strip_cut {
    size_t item;
    size_t count; /* segments */
    size_t stack;
    struct rational along, across; /* the piece as it lies */
};

/* `repeat` strips of one height that are cut the same way; the last of them
 * only in part where `last` tells other cuts. */
struct strip {
    struct rational height;
    LIST(struct strip_cut) cuts; /* from the left */
    LIST(struct strip_cut) last; /* of the last strip; none: as the others */
    struct rational used;        /* of its length */
    size_t repeat;
};

/* A strip as hands cut it. The count of a pair is that of the cuts, each
 * through both layers of the folded strip, from its selvage ends; they give two
 * pieces. Singles are cut from what is opened then. */
struct strip_work {
    LIST(struct strip_cut) pairs, singles; /* longest first, borders last */
    struct rational folded; /* what the pairs take of each layer */
    struct rational opened; /* what is left at the fold, opened */
};

/* Do its pairs reach the fold? Then the last cut goes along it. */
static inline bool reaches_fold(const struct strip_work *work)
{
    return work->pairs.count > 0 && rational_sign(work->opened) == 0;
}

enum sheet_kind {
    SHEET_BOUGHT,     /* a fat quarter or another piece as it is sold */
    SHEET_LENGTHWISE, /* a length of the cloth, cut along the selvage */
    SHEET_REST        /* what stays of a lengthwise one */
};

/* A rectangle of cloth that is cut into strips, from the top down or, where
 * `down`, from the left, so that their heights add up to its width. */
struct sheet {
    enum sheet_kind kind;
    bool foot; /* a rest that lies at the end of a lengthwise piece */
    struct rational width, height;
    bool down;
    LIST(struct strip) strips;
    struct rational used; /* by the strips' heights */
    size_t repeat;
};

/* What a person has to do: lines of cutting (strips of one pattern), ruler
 * settings, pieces to trim. */
struct cut_effort {
    size_t lines, settings, trims;
};

/* A plan of fewer lines for one more step of cloth. */
struct cut_offer {
    struct rational bought;
    LIST(struct strip) strips; /* none: there is no such plan */
    struct cut_effort effort;
};

struct fabric_plan {
    int fabric;
    const struct bolt *bolt;
    LIST(struct cut_item) items;
    LIST(struct strip)
    strips;                       /* across the cloth: borders, then highest
                                     first */
    LIST(struct sheet) sheets;    /* bought; or lengthwise ones and rests */
    struct rational strip_length; /* usable width of the cloth or sheet */
    struct rational sheet_height; /* as it is bought; 0 for yardage */
    struct rational cut_height;   /* strips and lengthwise cloth together */
    struct rational allowance;    /* added before rounding */
    struct rational needed;       /* with the allowance and shrinkage */
    struct rational bought;       /* length of yardage; 0 for sheets */
    size_t bought_sheets;
    size_t simply; /* sizes that were planned without a search, or 0 */
    struct rational reserve; /* that each strip is to leave of its length */
    /* The least amount for which every strip leaves it; unknown where all do,
     * or where nothing was found. */
    struct rational reserved_bought;
    LIST(struct strip) reserved_strips; /* of that amount; none: not planned */
    LIST(struct sheet) reserved_plan; /* of reserved_sheets */
    size_t reserved_sheets; /* the same in sheets; 0: all do, or none found */
    struct cut_effort effort;
    /* Each size cut by itself, for comparison. */
    struct rational hand_bought;
    size_t hand_sheets;
    struct cut_effort hand_effort;
    /* With lengthwise pieces: what it takes where they, their rests and strips
     * are planned one after the other, for comparison; else unknown. */
    struct rational apart_bought;
    /* Less than this is not sold that would do for a plan of this kind:
     * unknown, or 0 sheets, where nothing is proven. */
    struct rational least_bought;
    size_t least_sheets;
    struct cut_offer offer;
};

/* Backing: `panels` widths of cloth side by side. */
struct backing_plan {
    bool wanted;
    int fabric;
    const struct bolt *bolt;
    struct rational width, height; /* of the finished backing */
    size_t panels;
    bool one_way;        /* its print runs along the panels */
    bool seams_vertical; /* panels run down the quilt */
    struct rational panel_length;
    /* Panels are cut from the cloth of the top, and are in its amount. All but
     * the last are as wide as the cloth. */
    bool together;
    struct rational last_width;
    const char *labels[2];  /* of the wide ones, or NULL, and of the last one */
    struct rational bought; /* 0 where together */
};

struct binding_plan {
    bool wanted;
    int fabric;
    struct rational width;  /* of the cut strip */
    struct rational length; /* needed, with the tail */
    struct rational tail;
    size_t strips;
    size_t item; /* in the fabric's plan: the first that it is joined from */
    const char *labels; /* "A7"; "A7, A8" with strips along the cloth, too */
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
    const struct quilting_plan *quilting; /* NULL for none */
    const struct cutplans *all; /* the plans of the pattern, this with them */
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
/* Puts the quilting of each quilt beside its cutting, for those who tell both.
 */
void note_quilting(struct cutplans *plans, const struct quilted *quilted);

/* Looks for measurements in the designer's words that are no size of the
 * pattern. requires: plans without errors. reports: each at its place. */
void check_numbers(struct run *run, const struct cutplans *plans);

/* Reports what these two report, and plans no more than that takes: cloth of
 * which an amount is stated, up to where the least amount is proven. */
void check_cutting(struct run *run, const struct sewn *sewn);

/* Would check_numbers be silent? Of plans that lack strips or amounts, true
 * still holds for the whole ones. */
bool numbers_known(struct run *run, const struct cutplans *plans);

/* ---- where everything lies ---- */

/* A piece on its cloth, x along the strip or the sheet's width, y across. */
struct placed_piece {
    size_t item;
    bool paired; /* cut with the one that lies under it when folded */
    struct rational x, y, width, height;
    /* Of a piece that is no rectangle, inside it; NULL: the rectangle. */
    const struct cut_outline *outline;
};

/* Corners in order, x and y in turns. */
struct cut_outline {
    const struct rational *coordinates;
    size_t corners;
};

struct placement {
    LIST(struct placed_piece) pieces;
};

/* Is it a border's strip that lies along its strip of cloth? It keeps the rest
 * of that until the top is measured, with what would be left over. */
bool keeps_rest(const struct fabric_plan *plan, const struct strip_cut *cut);
/* How a strip across the cloth is cut. `last`: the last one of its kind. */
struct strip_work fold_strip(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct strip *strip, bool last);
/* The same for a lengthwise sheet, which stays folded, too: its strips lie
 * along the selvages, in pairs, and what is left is in the middle. */
struct strip_work fold_sheet(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet);
/* Does the rest lie in this lengthwise sheet, beside its pieces or, a foot, at
 * the end of one? */
bool is_rest_of(const struct sheet *rest, const struct sheet *sheet);
/* What a sheet's strips leave of its width, and of its height. */
struct rational sheet_width_spare(const struct sheet *sheet);
struct rational sheet_height_spare(const struct sheet *sheet);
/* What lengthwise cloth leaves of its width, with what is cut from the rests of
 * it, which are among `sheets`; unknown where a piece is as wide as the
 * cloth. */
struct rational width_spare(const struct sheet *lengthwise,
                            const struct sheet *sheets, size_t count);
/* Is nothing cut from it until the top is measured: a strip to be joined, or
 * one of a border alone? */
bool is_left_whole(const struct fabric_plan *plan, const struct strip *strip);
/* Is it left whole, to be joined with others? */
bool is_whole_strip(const struct fabric_plan *plan, const struct strip *strip);
/* What a strip leaves of its length; unknown for whole ones. */
struct rational strip_spare(const struct fabric_plan *plan,
                            const struct strip *strip);
/* How often the cutter goes through cloth, in as many layers as are cut at
 * once: strips, the squaring of their ends, subcuts. */
size_t hand_cuts(const struct fabric_plan *plan);

/* The pieces of one strip across the cloth, opened, its lower left corner at 0,
 * 0 and the fold in the middle. `last`: of the last strip of its kind. */
struct placement place_strip(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct strip *strip, bool last);

/* By what lengths a ruler cuts a shape from its strip. */
struct shape_measures {
    struct rational longer, shorter; /* its level edges; 0: a point */
    bool longer_above;               /* as it lies when not turned */
    /* From one slanted cut to the next, square to them; unknown where they are
     * not parallel. */
    struct rational apart;
    bool upright; /* one of its ends is square to the strip */
};
struct shape_measures measure_shape(const struct strip_shape *strip);
/* Are two shapes cut by the same lengths? */
bool same_measures(const struct shape_measures *a,
                   const struct shape_measures *b);

/* The pieces of one strip of shapes, from its left end, opened, each with its
 * outline; `item` is then a number in the list of shapes. Where `length` is
 * known, ends where the next one would reach beyond it. */
struct placement place_shapes(struct arena *arena, const struct cut_item *item,
                              const struct shaped_strip *strip);

/* The pieces of one sheet, opened. */
struct placement place_sheet(struct arena *arena,
                             const struct fabric_plan *plan,
                             const struct sheet *sheet);

/* Rebuilds the plan on its cloth, apart from how it was found. ensures: true
 * where every piece is there as often as it is asked for, in its own size and
 * grain, none overlaps another or the edge, pieces that are cut through two
 * layers lie under each other when the cloth is folded, and all can be cut
 * apart by cuts from edge to edge of what is left. */
bool cutplan_holds(const struct fabric_plan *plan);

/* ---- squaring up ---- */

/* How the end of yardage is squared up: by at most `first` before the first cut
 * across it, then `times` more by at most `again`, behind every `every` cuts.
 * All of that is in what is bought. */
struct squaring {
    struct rational there; /* that is bought beyond what is cut, in whole
                              steps of a ruler */
    struct rational first, again;
    size_t every, times;
};
/* Where the length allows; `there` and `times` are those of no cloth. */
struct squaring usual_squaring(enum length_unit units);
/* The same, or less often, or less. requires: a plan of yardage; units of its
 * pattern. */
struct squaring squaring_of(const struct fabric_plan *plan,
                            enum length_unit units);
/* What it takes of the length. */
struct rational squaring_takes(const struct squaring *squaring);

/* How much more is sold where cuts take so much more of the length; 0 where
 * there is as much. requires: a plan of yardage; units of its pattern. */
struct rational more_to_buy(const struct fabric_plan *plan,
                            struct rational length, enum length_unit units);

/* ---- how near the next smaller amount is ---- */

/* Pieces of one size. */
struct piece_count {
    size_t item;
    size_t count;
};

/* The fewest pieces without which one step of cloth less, or one sheet less,
 * would do with the same cuts. */
struct cut_nudge {
    bool possible;        /* false where nothing less is sold */
    struct rational less; /* the next smaller amount; of yardage */
    struct rational over; /* what is needed above it, up to the cutting step */
    size_t pieces;        /* of all sizes together */
    LIST(struct piece_count) causes;
};
struct cut_nudge nudge_of(struct arena *arena, const struct pattern *pattern,
                          const struct fabric_plan *plan);

/* ---- words ---- */

/* "fat quarter", "fat quarters", "ten-inch square", ...; NULL for yardage. For
 * messages and data, which are English. */
const char *sheet_name(enum sold_as sold, bool several);

#endif
