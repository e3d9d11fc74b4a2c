/* owner: sew
 *
 * Each quilt, sewn on virtual cloth. Work goes from cut rectangles upwards;
 * what is alike is a *heap*: made once, counted. The picture of a heap, of
 * each of its steps and of the whole quilt is the cloth itself.
 *
 * All lengths are real (the pattern's unit). A cloth lies with the top left
 * corner of its finished rectangle at (0, 0), x to the right, y down; its
 * faces reach over the seam allowance around it.
 */
#ifndef SEAMWRIGHT_SEWN_H
#define SEAMWRIGHT_SEWN_H

#include "sized.h"

struct vertex {
    struct rational x, y;
};

/* A convex part of what is seen, of one fabric. */
struct face {
    int fabric;
    bool wrong_side;
    const struct vertex *points;
    size_t count;
    unsigned turn; /* of its print: quarter turns from upright */
    bool slanted;  /* its print lies an eighth of a turn further */
};

struct operation;

/* A seam in a cloth: the stitch line between two points of the finished
 * rectangle, the side its allowances are pressed to, and what sewed it. */
struct seam {
    struct vertex from, to;
    int x, y; /* pressed towards; both 0 for open */
    const struct piece *piece;
    const struct operation *operation;
};

struct cloth {
    LIST(struct face) faces;
    LIST(struct seam) seams;
    struct rational width, height; /* finished */
};

/* ---- what is seen at a moment of the work ---- */

enum { WHOLE = -1 };

/* A face in a picture of the work; parts that lie apart are moved by whole
 * gaps, whose size the page decides. */
struct shown_face {
    struct face face;
    int part;         /* index of the heap's input, or WHOLE */
    int gap_x, gap_y; /* moved by so many gaps */
};

/* A fold is where cloth is doubled, as a strip is on the mat; a dot, where a
 * seam ends before an edge, has both its ends in one place. */
enum mark_kind { MARK_DRAWN, MARK_SEWN, MARK_CUT, MARK_FOLD, MARK_DOT };

/* Of a cut, the way to what is thrown away; both 0 where both sides stay. */
struct mark {
    enum mark_kind kind;
    struct vertex from, to;
    int waste_x, waste_y;
    int gap_x, gap_y; /* moved with the cloth that it lies on */
    bool goes_on; /* a cut round a shape, whose scissors stand elsewhere */
};

/* A seam that is pressed: towards (x, y), or open where both are 0. */
struct press_mark {
    struct vertex at;  /* the middle of the stitch line, */
    struct vertex end; /* and one of its ends */
    int x, y;
    int gap_x, gap_y;
    int across_x, across_y; /* a direction across the seam */
};

/* A flap that is turned over its seam: from its middle to where it lands. */
struct turn_mark {
    struct vertex from, to;
};

/* A place on an edge that is measured from a corner. */
struct edge_point {
    struct vertex at;
    struct rational reach; /* to the corner */
    int x, y;              /* the way from the edge into the cloth */
    int along_x, along_y;  /* the way from the corner */
};

struct state {
    LIST(struct edge_point) points;
    LIST(struct turn_mark) turns;
    LIST(struct shown_face) faces;
    LIST(struct mark) marks;
    LIST(struct press_mark) presses;
};

/* ---- techniques: rows of plain data, each in the file of its craft ---- */

/* How the parts of an operation lie before they are sewn. */
enum laid {
    LAID_TOGETHER, /* one on the other, right sides together */
    LAID_ACROSS,   /* side by side; in a grid, row below row */
    LAID_DOWN      /* one below the other */
};

/* A word of enum press_side as a bit. */
#define PRESS_BIT(side) (1u << (side))

/* One thing that hands do: lay and sew and press. */
struct operation {
    const char *name; /* in JSON: "flip-corner" */
    enum laid laid;
    unsigned presses; /* the words that its seams can follow, as bits */
    bool draws_line;  /* sewn along a diagonal whose direction is told */
    bool at_corner;   /* of its base */
    bool sets_in;     /* its seams turn about a dot */
};

/* Identifier, name of the row. A new technique is a line here, a craft in
 * src/sew and a telling in src/tell; both tables are made from this list. */
#define TECHNIQUE_LIST(X)                           \
    X(TECHNIQUE_CUT, cut)                           \
    X(TECHNIQUE_CORNERS, corners)                   \
    X(TECHNIQUE_DIAGONAL, diagonal)                 \
    X(TECHNIQUE_HALF_SQUARE, half_square)           \
    X(TECHNIQUE_JOIN, join)                         \
    X(TECHNIQUE_BORDER, border)                     \
    X(TECHNIQUE_FLYING_GEESE, flying_geese)         \
    X(TECHNIQUE_SQUARE_IN_SQUARE, square_in_square) \
    X(TECHNIQUE_QUARTER_SQUARE, quarter_square)     \
    X(TECHNIQUE_HALF_RECTANGLE, half_rectangle)     \
    X(TECHNIQUE_ON_POINT, on_point)                 \
    X(TECHNIQUE_TRIANGLES, triangles)               \
    X(TECHNIQUE_STAR, star)

#define TECHNIQUE_ENUM(kind, row) kind,
enum technique { TECHNIQUE_LIST(TECHNIQUE_ENUM) };
#undef TECHNIQUE_ENUM
#define TECHNIQUE_ONE(kind, row) +1
enum { TECHNIQUE_COUNT = 0 TECHNIQUE_LIST(TECHNIQUE_ONE) };
#undef TECHNIQUE_ONE

/* ---- what is sewn in one action ---- */

/* A seam as an action sews it, in the heap's own place. Press marks, words and
 * joints come from it. */
struct sewn_seam {
    struct seam seam;
    size_t before, next;    /* the inputs on its two sides */
    int across_x, across_y; /* the way from `before` to `next`, and to the
                               cloth that is trimmed off beside the seam */
    int row;                /* of a grid's rows while they lie apart, else 0 */
};

struct action {
    const struct operation *operation;
    LIST(size_t) parts; /* inputs that are added, the base first */
    LIST(struct sewn_seam) seams;
    enum line_direction line; /* as drawn on the wrong side, in place */
    enum corner_place at;     /* of the first corner */
    struct press press;       /* as chosen, never PRESS_RULE */
    bool pressed_by_rule;     /* the trade's rule chose it */
    struct state before, after;
    struct state other; /* before, in a second way that makes the same; empty
                           where there is one way only */
    /* Empty where there is no such move: what is cut before it is laid, and
     * what is opened as it lies when it is trimmed. */
    struct state parted, opened;
};

/* ---- heaps ---- */

struct input {
    size_t heap;
    unsigned turn;        /* clockwise quarter turns of that heap's cloth */
    struct rational x, y; /* where its finished corner lies */
    bool slanted; /* x and y are along the diagonal rows of a setting on point,
                     or along the diagonals of a star: slanted_point tells where
                     that is */
    enum corner_place at; /* of a corner square, */
    enum corner_method method; /* and how it is sewn */
};

/* Finished, clockwise from the top left corner of its box. A convex
 * polygon with exact corners; most are rectangles. */
struct outline {
    const struct vertex *points;
    size_t count;
};

/* How a piece with slanted edges is cut from a strip: one beside the other,
 * every second one turned by half unless the edges run alike. */
struct strip_shape {
    struct outline as_cut; /* in the strip, from x = 0; the strip's edges are at
                              y = 0 and at its height */
    struct rational advance; /* from one piece to the next */
    struct rational run;     /* what the slant of both ends takes, in all */
    bool turned;
    unsigned degrees; /* of the ruler's line */
};

/* A piece that is cut, not sewn. Triangles are counted one by one; width and
 * height are of the square that the heap's yield of them is cut from. */
struct cut_piece {
    int fabric;
    size_t border; /* a strip of this border, from 1; 0 for a piece */
    struct rational width, height; /* as cut */
    enum patch_shape shape;
    const struct strip_shape *strip; /* of what is cut from one; else NULL */
    const char *label; /* "A1": fabric letter and number; unique in a quilt */
};

struct half_square {
    enum line_direction line;
    int left, right;
    bool flap_left; /* the square that is laid on top makes the left half */
    enum half_square_method method;
    struct rational slack;
    int toward; /* the fabric its seam is pressed to so that it nests in what it
                   becomes, or NO_FABRIC: by the rule */
};

/* Four triangles that meet in the middle. */
struct quarter_square {
    int fabrics[4];          /* clockwise from the top */
    bool has_plain;          /* two neighbors are one piece of cloth ... */
    enum corner_place plain; /* ... those at this corner */
    enum corner_place base;  /* of the half that lies below, input 0 */
    enum half_square_method method;
    struct rational slack;
    bool nested; /* the seams of its halves are pressed to opposite sides */
};

/* Two triangles, each half of a rectangle that was cut in two. */
struct half_rectangle {
    enum line_direction line;
    int left, right;
    struct half_rectangle_cut cut; /* of both, as they lie in the unit */
};

/* Eight diamonds that meet in the middle; squares and triangles around them. */
struct star {
    int points, second; /* of the first diamond clockwise from the top, and so
                           on in turns */
    int corners, sides;
    struct star_cut cut;
};

struct flying_geese {
    enum side points;
    enum geese_method method;
    /* Of what is sewn four at a time, at least: along the base of the goose,
     * and from there to its point. */
    struct rational long_slack, short_slack;
};

struct square_in_square {
    enum square_method method;
    /* Of triangles: what trimming takes off at least, both sides together, and
     * how far from the trimmed edge the points of the center lie: a seam, less
     * what rounding made the center larger. */
    struct rational slack, reach;
};

/* Which fabric plays each role of a unit or block, in their order. */
struct cast {
    const struct definition *definition;
    const int *fabrics;
};

/* A unit or block that a heap is. One that only wraps another is that one's
 * heap, and so is one that looks the same. */
struct heap_name {
    const struct definition *definition;
    const struct cast *cast; /* NULL for one without roles */
    bool mirror;             /* seen in a mirror */
    size_t count; /* places in the quilt; what a wrapper holds is the wrapper
                     alone */
};

struct heap {
    enum technique technique;
    const struct craft *craft; /* of the sewing stage alone */
    const struct piece *piece;
    const struct cast *cast;        /* in which the piece was sewn first */
    LIST(struct heap_name) names;   /* in the order of their first use */
    const struct definition *named; /* the first that has a place in the quilt,
                                       else the first; NULL for none */
    const struct cast *named_cast;  /* of `named` */
    bool named_mirror;              /* `named`, seen in a mirror */
    bool mirror;                    /* seen mirrored against `piece` */
    struct rational factor;         /* scale of its definition */
    struct outline outline;
    struct rational width, height; /* of the outline's box */
    LIST(struct input) inputs;
    unsigned symmetry; /* looks the same after so many quarter turns: 1, 2, 4 */
    size_t yield;      /* made at a time */
    size_t count;      /* needed for the quilt */
    const struct cloth *cloth;
    LIST(struct action) actions;
    LIST(const struct words *) says; /* the designer's words */
    size_t step;   /* its number in the booklet, from 1; 0 for a cut */
    size_t within; /* the heap on the way to which it is sewn, in the same step;
                      itself where it ends a step */
    size_t like;   /* the heap of another size that is sewn alike, in whose step
                      it   is told; itself where there is none */
    union {        /* by technique */
        struct cut_piece cut;
        struct half_square half_square;
        struct flying_geese flying_geese;
        struct square_in_square square_in_square;
        struct quarter_square quarter_square;
        struct half_rectangle half_rectangle;
        struct star star;
        struct {
            enum line_direction line;
        } diagonal;
        struct {
            size_t across, down; /* cells; of rows of several lengths those of
                                    the longest */
            const size_t *first; /* the first input of each row, and behind the
                                    last; NULL where all are as long */
            struct rational excess; /* of a setting on point */
        } join;
        const struct border *border;
    } of;
};

/* The inputs of a border, in their order; pieces at its corners, if it has any,
 * from the top left one on, clockwise. */
enum border_input {
    BORDER_CENTER,
    BORDER_LEFT,
    BORDER_RIGHT,
    BORDER_TOP,
    BORDER_BOTTOM,
    BORDER_CORNER
};

/* Does its sewing take no words and figures but those that all borders share?
 * Not with pieces at the corners, with mitred ones, or around a top that lies
 * turned. */
static inline bool border_is_plain(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_BORDER &&
           heap->inputs.count == BORDER_CORNER && !heap->of.border->mitred &&
           heap->inputs.items[BORDER_CENTER].turn == 0;
}

/* Is it sewn in rows, or is it one? */
static inline bool heap_has_cells(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_JOIN ||
           heap->technique == TECHNIQUE_ON_POINT ||
           heap->technique == TECHNIQUE_TRIANGLES;
}
/* Cells of a join, or of a setting on point; 1 by 1 for all else. */
static inline size_t heap_across(const struct heap *heap)
{
    return heap_has_cells(heap) ? heap->of.join.across : 1;
}
static inline size_t heap_down(const struct heap *heap)
{
    return heap_has_cells(heap) ? heap->of.join.down : 1;
}
/* The first input of a row, and the one behind its last. requires: cells. */
static inline size_t heap_row_begin(const struct heap *heap, size_t row)
{
    return heap->of.join.first != NULL ? heap->of.join.first[row]
                                       : row * heap->of.join.across;
}
static inline size_t heap_row_end(const struct heap *heap, size_t row)
{
    return heap_row_begin(heap, row + 1);
}
/* The fabric of a cut; NO_FABRIC of what is sewn. */
static inline int heap_fabric(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_CUT ? heap->of.cut.fabric : NO_FABRIC;
}

/* Is the heap told as this unit or block in its quilt? */
static inline bool heap_is(const struct heap *heap,
                           const struct definition *definition)
{
    bool is = heap->named == definition;
    for (size_t i = 0; i < heap->names.count; i++)
        is |= heap->names.items[i].definition == definition &&
              heap->names.items[i].count > 0;
    return is;
}

struct sewn_border {
    const struct border *border;
    size_t heap, side, end; /* the top with it; its strips, which may be one */
    struct rational side_length, end_length; /* finished */
};

struct taken_size {
    struct rational width, height; /* finished */
};

/* How often something lies in a quilt, and in which sizes: counted in the
 * design, apart from the heaps. Where the quilt has none of it, the sizes are
 * those of the quilts that have. */
struct taken {
    size_t count;
    LIST(struct taken_size) sizes;
};

/* Of the piece or definition of this index. */
struct indexed_taken {
    size_t index;
    struct taken taken;
};

struct sewn_quilt {
    const struct definition *definition;
    /* Of what it takes, as the index rises; of pieces, those with an id. */
    LIST(struct indexed_taken) pieces_taken, definitions_taken;
    LIST(struct heap) heaps; /* each after all that it is made from */
    size_t top;              /* the heap of the centre */
    size_t whole;            /* of the outermost border; without one, `top` */
    unsigned whole_turn;
    LIST(struct sewn_border) borders;
    struct rational width, height; /* finished, with borders */
    const struct cloth *cloth;     /* the whole top */
    const struct sewn *all; /* the quilts of the pattern, this with them */
};

/* The heap that ends the step in which this one is sewn: itself, unless it is
 * sewn on the way. */
static inline size_t heap_whole(const struct sewn_quilt *quilt, size_t index)
{
    while (quilt->heaps.items[index].within != index)
        index = quilt->heaps.items[index].within;
    return index;
}

struct sewn {
    const struct sized *sized;
    /* What a quilt that has none of it knows of a piece with an id, of a
     * definition; by index. */
    const struct taken *pieces_elsewhere, *definitions_elsewhere;
    LIST(struct sewn_quilt) quilts;
};

/* Compares each sound block with its picture.
 * requires: a sized design (it may have errors). reports: diagonals, turns,
 *   corners and fabrics that are not what the picture shows. */
void check_pictures(struct run *run, const struct sized *sized);

/* Sews all quilts.
 * requires: a design without errors. ensures: as above. reports: steps that
 *   come out of order, make too few or too many, or are missing. */
struct sewn *sew_design(struct run *run, const struct sized *sized);

/* Checks the steps of a design with errors: of what has all its names. Where
 * sizes or a picture are wrong, what is needed is counted all the same.
 * reports: steps as sew_design does. */
void check_steps(struct run *run, const struct sized *sized);
/* How the quilt takes a definition, or a piece that has an id. */
const struct taken *definition_taken(const struct sewn_quilt *quilt,
                                     const struct definition *definition);
const struct taken *piece_taken(const struct sewn_quilt *quilt,
                                const struct piece *piece);

/* Where a point of the diagonal rows of a setting lies in it: turned by an
 * eighth, clockwise, and moved by what it floats. In a star the rows begin at
 * the middle. */
struct vertex slanted_point(const struct heap *heap, struct vertex v);

/* What a reference of the designer's words speaks of, as this quilt takes it;
 * NULL where it is bound to nothing. */
const struct taken *taken_of(const struct sewn_quilt *quilt,
                             const struct reference *reference);

/* The letter of a fabric in tables and figures: "A", "B", ... */
const char *fabric_letter(struct arena *arena, int fabric);

#endif
