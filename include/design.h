/* owner: resolve
 *
 * What was meant: every name bound to what it names, every cell of a setting
 * filled, no definition inside itself. Sizes are not known yet.
 */
#ifndef SEAMWRIGHT_DESIGN_H
#define SEAMWRIGHT_DESIGN_H

#include "name_table.h"
#include "pattern.h"

/* How a piece is laid: first mirrored left to right, then turned clockwise by
 * quarter turns. The eight of them are the symmetries of a square. */
struct orientation {
    unsigned turn; /* 0 to 3 */
    bool mirror;
};

/* `inner` first, then `outer`. */
struct orientation orientation_compose(struct orientation outer,
                                       struct orientation inner);
struct orientation orientation_inverse(struct orientation o);

/* A diagonal, seen with the cloth right side up. */
enum line_direction { LINE_RISING, LINE_FALLING };
enum line_direction line_oriented(enum line_direction line,
                                  struct orientation o);
const char *line_name(enum line_direction line); /* "rising", "falling" */

/* Corners, clockwise from the top left. */
enum corner_place { TOP_LEFT, TOP_RIGHT, BOTTOM_RIGHT, BOTTOM_LEFT };
enum corner_place corner_oriented(enum corner_place at, struct orientation o);
const char *corner_name(enum corner_place at); /* "top-left", ... */
/* The diagonal that cuts this corner off. */
enum line_direction corner_line(enum corner_place at);

/* Sides, clockwise from the top. */
enum side { SIDE_TOP, SIDE_RIGHT, SIDE_BOTTOM, SIDE_LEFT };
enum side side_oriented(enum side side, struct orientation o);

/* ---- what the source states ---- */

/* A length, a size or a number that an attribute states. Only this stage asks
 * the elements for it; later ones ask here. What is not written is all zero,
 * and so unknown. */
struct stated {
    bool written;           /* the attribute stands there ... */
    bool usable;            /* ... and could be read; else that was reported */
    bool has_unit;          /* a length with its unit behind it */
    struct rational value;  /* a length, a number, the width of a size */
    struct rational second; /* the height of a size */
    const char *text;       /* as it was written */
    struct span span;
};

/* Amounts of a cloth, one for each quilt. */
struct stated_amounts {
    const struct rational *items; /* NULL where not stated, or not readable */
    size_t count;
    struct span name, span; /* of the attribute */
};

/* ---- fabrics ---- */

enum { NO_FABRIC = -1 };

struct fabric {
    const struct element *element;
    const char *id, *name;
    char key;
    bool one_way;
};

/* A fabric of a unit or block that each use may cast anew. Inside its
 * definition it is numbered like a fabric, behind all fabrics of the pattern:
 * number `design->fabrics.count` + i is role i. Outside, and on cloth, there
 * are only fabrics. */
struct role {
    const struct element *element;
    const struct definition *owner;
    const char *id;
    char key;
    int fabric; /* where a use says nothing */
    bool used;  /* a piece, a corner or a picture names it */
};

/* The real cloth that plays a fabric's role in one colorway. */
/* In the order of the choices of sold=. */
enum sold_as {
    SOLD_YARDAGE,
    SOLD_FAT_QUARTER,
    SOLD_FAT_EIGHTH,
    SOLD_TEN_INCH,
    SOLD_FIVE_INCH,
    SOLD_STRIP
};

struct bolt {
    const struct element *element;
    int fabric;
    const char *name, *code;
    double red, green, blue; /* 0 to 1 */
    struct rational width;   /* usable, in the pattern's units */
    enum sold_as sold;
    struct rational selvage;   /* cut off at each side; 0 where the width that
                                  was stated lies between the selvages */
    struct rational shrinkage; /* part of width and length that is lost */
    struct rational allowance; /* for squaring up; unknown: the pattern's */
    struct rational reserve;   /* of each strip; the pattern's if not stated */
    size_t layers;             /* cut at once; the pattern's if not stated */
    struct rational price;     /* unknown where not given */
    struct stated_amounts yards, fat_quarters, sheets;
};

/* The real thread that plays a thread of quilting in one colorway. */
struct spool {
    const struct element *element;
    const char *thread; /* the id of what it plays, in every quilt */
    const char *name;   /* "" for none */
    bool colored;
    double red, green, blue;      /* 0 to 1, where it is colored */
    struct rational length;       /* of thread on it; unknown: not stated */
    struct stated_amounts spools; /* one for each quilt with that thread */
};

struct colorway {
    const struct element *element;
    const char *id, *name;
    const struct bolt *bolts; /* one for each fabric, in their order */
    LIST(struct spool) spools;
};

/* Kinds of piece: identifier, element, name of the rows about it (`sizing_NAME`
 * in src/solve, `craft_NAME` in src/sew). */
#define PIECE_LIST(X)                                                     \
    X(PIECE_PATCH, ELEMENT_PATCH, patch)                                  \
    X(PIECE_ROW, ELEMENT_ROW, row)                                        \
    X(PIECE_COLUMN, ELEMENT_COLUMN, column)                               \
    X(PIECE_GRID, ELEMENT_GRID, grid)                                     \
    X(PIECE_USE, ELEMENT_USE, use)                                        \
    X(PIECE_DIAGONAL, ELEMENT_DIAGONAL, diagonal)                         \
    X(PIECE_HALF_SQUARE, ELEMENT_HALF_SQUARE, half_square)                \
    X(PIECE_BORDER, ELEMENT_BORDER, border)                               \
    X(PIECE_FLYING_GEESE, ELEMENT_FLYING_GEESE, flying_geese)             \
    X(PIECE_SQUARE_IN_SQUARE, ELEMENT_SQUARE_IN_SQUARE, square_in_square) \
    X(PIECE_QUARTER_SQUARE, ELEMENT_QUARTER_SQUARE, quarter_square)       \
    X(PIECE_HALF_RECTANGLE, ELEMENT_HALF_RECTANGLE, half_rectangle)       \
    X(PIECE_ON_POINT, ELEMENT_ON_POINT, on_point)                         \
    X(PIECE_TRIANGLES, ELEMENT_TRIANGLES, triangles)                      \
    X(PIECE_STAR, ELEMENT_STAR, star)

#define PIECE_ENUM(kind, element, name) kind,
enum piece_kind { PIECE_LIST(PIECE_ENUM) };
#undef PIECE_ENUM
#define PIECE_ONE(kind, element, name) +1
enum { PIECE_KIND_COUNT = 0 PIECE_LIST(PIECE_ONE) };
#undef PIECE_ONE

/* To which side a seam is pressed, in the piece's own position. */
enum press_side {
    PRESS_RULE, /* the trade's rule chooses */
    PRESS_OPEN,
    PRESS_LEFT,
    PRESS_RIGHT,
    PRESS_UP,
    PRESS_DOWN,
    PRESS_TOWARD_CORNER,
    PRESS_TOWARD_BORDER,
    PRESS_SOLVE, /* so said: as where nothing is, whatever a step says */
    PRESS_TOWARD_FABRIC
};

struct press {
    enum press_side side;
    int fabric; /* for PRESS_TOWARD_FABRIC */
    const struct element *element;
    const char *word; /* as it was written, for messages */
    struct span span; /* of the word */
};

/* How a square is sewn across a corner. Drawn: a line on its wrong side, sewn
 * on, then trimmed beyond it. Cut first: both layers are cut beyond the line,
 * then sewn beside the cut. The same cloth; `both` tells the two ways. */
enum corner_method { CORNER_DRAWN, CORNER_CUT_FIRST, CORNER_BOTH };

struct corner {
    const struct element *element;
    enum corner_place at;
    int fabric;
    struct rational size; /* local units; unknown where not usable */
    enum corner_method method;
    struct stated stated_size; /* the same, as it was written */
    struct stated cut;
    bool line_stated; /* beside a place, so that the two can be compared */
    enum line_direction line; /* where it is stated */
};

struct piece;
struct definition;
struct assembly;
struct cell;

/* How a patch is cut: a rectangle; or a triangle with two equal legs, whose
 * right angle is its top left corner, from a square that is cut once across
 * (its legs lie on the straight grain) or twice (its long edge does). Or, at 60
 * degrees, as high as its row: a triangle that points up; a diamond that leans to
 * the right or to the left; half a hexagon, its long edge below; half a triangle
 * that ends a row, its right angle at the top left or at the top right. Or, at
 * 45 degrees, a diamond with four equal sides, two of them level, that leans to
 * the right. */
enum patch_shape {
    PATCH_WHOLE,
    PATCH_HALVED,
    PATCH_QUARTERED,
    PATCH_TRIANGLE,
    PATCH_DIAMOND_RIGHT,
    PATCH_DIAMOND_LEFT,
    PATCH_HALF_HEXAGON,
    PATCH_END_LEFT,
    PATCH_END_RIGHT,
    PATCH_STAR_DIAMOND
};
/* Is it cut from a strip, along a ruler's slanted lines? */
static inline bool patch_is_angled(enum patch_shape shape)
{
    return shape >= PATCH_TRIANGLE;
}

/* Rows of triangles with equal sides, which point up and down in turns, and of
 * what is as large as two or three of them, with half a triangle at each end.
 * Rows are mirror images of those beside them. The cells of its piece are those
 * of the rows, from the top. */
struct triangle_rows {
    size_t across; /* triangles in a row, without the halves at its ends */
    size_t rows;
    const size_t *first; /* the first cell of each row, and behind the last */
    const size_t *place; /* of each cell: the place of its first triangle; of
                            ends 0 and `across` */
    bool down;           /* the first triangle of the first row points down */
};

/* A setting on point: blocks stand on a corner, in diagonal rows, and triangles
 * fill the sides and the corners. The cells of its piece are those of the
 * diagonal rows, from the top right corner to the bottom left one, each row
 * from its upper left end; then the four triangles at the corners, clockwise
 * from the top left one. */
struct on_point {
    size_t across, down; /* blocks that stand at the top, and at the left side */
    struct rational excess; /* from their points to the finished edge */
    struct stated about;    /* how large it is wished to be, real */
    size_t rows;            /* diagonal ones, */
    const size_t *first;    /* the first cell of each, and behind the last */
    bool sashed;            /* every second row is of strips and cornerstones */
    /* As the designer told them: a level line of `across` blocks, one of one
     * less between their lower halves, and so on. */
    const struct cell *blocks;
    size_t block_count;
    /* Sashing between neighbors of one row, between rows, and where both cross;
     * NULL where there is none. */
    const struct piece *upright, *level, *crossing;
    bool turned; /* `level` is `upright`, turned */
    const struct piece *side, *corner; /* the triangles; `side` NULL for none */
};

/* Pieces that are pressed by what lies beside them (rows, columns, grids and
 * diagonals of a row or a column) are pieces of their own each time that they
 * are repeated: all of one `first`, of one size, of the same cells. All else
 * that is repeated is one piece in several cells. */

/* One place in a row, column, grid or diagonal. */
struct cell {
    const struct piece *piece;
    struct orientation orientation; /* from a map; else none */
    struct span span;               /* what to point at */
    size_t line;                    /* of a map's text, from 1; 0 without one */
};

/* How many are made at a time; in the order of the choices of method=. */
enum half_square_method { METHOD_ONE, METHOD_TWO, METHOD_FOUR, METHOD_EIGHT };
/* In the order of the choices of method=. */
enum geese_method { GEESE_CORNERS, GEESE_FOUR };
enum square_method { SQUARE_CORNERS, SQUARE_TRIANGLES };

/* A fabric that a piece states, and where. */
struct piece_fabric {
    enum attribute_id attribute;
    int fabric;
};

struct piece {
    enum piece_kind kind;
    const struct element *element;
    const char *id;            /* NULL for none */
    const char *name;          /* of a row, column or grid; NULL for none */
    size_t index;              /* among all pieces of the design */
    const struct piece *first; /* itself; of one that is repeated and pressed in
                                  turns, the one that was written */
    const struct definition *owner;
    struct stated width, height;             /* local units */
    struct stated size;                      /* of a square, local units */
    struct stated finished, unfinished, cut; /* real sizes */
    struct stated count;
    struct stated strip; /* real, of a star: the strip of its diamonds, as cut */
    LIST(struct corner) corners;
    LIST(struct cell) cells;
    size_t across, down; /* of a grid */
    bool equal; /* cells of a row are of one width, of a column of one height,
                   of a grid of both */
    LIST(struct piece_fabric)
    fabrics; /* a patch's one; left and right; top, right, bottom and left;
                goose and sky; center and corners; of a star the first diamond
                clockwise from the top, the second, corners and sides */
    enum half_square_method method;
    bool has_plain; /* of a quarter-square, two of whose triangles ... */
    enum corner_place plain;  /* ... at this corner, are one piece of cloth */
    enum line_direction line; /* of a diagonal, half-square, half-rectangle */
    struct rational room;     /* real, of a half-rectangle: what trimming is to
                                 take off the shorter leg of its triangles */
    bool horizontal;          /* a diagonal whose strip runs across, not down */
    bool aligned; /* of a grid that is rows and strips: cells of its rows that
                     lie one below the other are of one width */
    bool broken;  /* what it has was reported: its sums stay silent */
    bool second_row; /* a row that stands second, fourth, ... in a column */
    const struct piece *before, *after; /* in the same row or column; NULL at
                                           its ends */
    const struct definition *target;    /* of a use; NULL where not bound */
    const int *cast; /* of a use: what plays each role of its target, in their
                        order, told in fabrics and roles of its own definition;
                        NULL where the target has none */
    struct orientation orientation; /* of a use */
    bool turn_written, mirror_written;
    struct press press;
    /* As its definition says, or the pattern; a corner may say otherwise. */
    enum corner_method corner_method;
    const struct border *border; /* of a border: the rest of it */
    enum patch_shape shape;      /* of a patch */
    const struct on_point *on_point; /* of such a setting */
    const struct triangle_rows *triangles; /* of such rows */
    enum geese_method geese_method;
    enum side points;                 /* the way that a goose points */
    enum square_method square_method; /* of a square in a square */
};

/* A cell of a picture: the fabrics of its four quarters, clockwise from the
 * top. */
struct picture_cell {
    int quarters[4];
    const struct piece *piece; /* of a quilt, named by its key; or NULL ... */
    struct orientation orientation; /* ... and how it lies */
    bool readable;                  /* else its token names no cloth */
    size_t row;                     /* of the text, from 1 */
    struct span span;
};

/* A polygon of a picture, painted over those before it. */
struct picture_shape {
    const struct element *element;
    int fabric;
    const struct rational *points; /* x and y in turns; NULL: not readable */
    size_t point_count;
};

struct quilting; /* told_quilting.h */

enum definition_kind { DEFINE_UNIT, DEFINE_BLOCK, DEFINE_QUILT };
enum { DEFINE_COUNT = 3 };

/* As a piece, a border has what it goes round in cell 0 (the root of the quilt,
 * or the border before it), and in cells 1 to 4 what lies at its corners, from
 * the top left clockwise. */
enum { BORDER_CELLS = 5 };
struct border {
    const struct element *element;
    const struct piece *piece;
    size_t number; /* from the inside, from 1 */
    int fabric;
    struct rational width;
    bool lengthwise;     /* cut along the selvage, in one piece */
    bool blocks;         /* at the corners; else the strips butt, */
    bool mitred;         /* or meet at 45 degrees, ... */
    bool matched;        /* and are joined to those of the border inside of it,
                            which is mitred, too: the two are sewn as one */
    bool ends_first;     /* top and bottom are sewn before the sides */
    bool straight_joins; /* of strips that are too short; else diagonal */
    struct stated finished, unfinished; /* of the top with this border */
};

struct definition {
    enum definition_kind kind;
    const struct element *element;
    const char *id, *name;
    size_t index;                  /* among all definitions */
    size_t first_role, role_count; /* of a unit or block: its roles, in the
                                      order of the source */
    const struct piece *root;
    bool gridded; /* lengths inside are grid squares */
    struct rational grid_across, grid_down;
    struct stated width, height;       /* of a unit or a block */
    const struct element *picture;     /* NULL for none */
    bool picture_borders;              /* of a quilt: they are in it */
    long picture_cells;                /* across; 0 where not stated */
    bool picture_triangles;            /* its cells are triangles in rows ... */
    bool picture_down;                 /* ... of which the first points down */
    LIST(struct picture_cell) cells;   /* of a picture told as text */
    LIST(struct picture_shape) shapes; /* of a picture told as polygons */
    LIST(struct piece *) uses;         /* pieces of it that use a definition */
    const struct assembly *assembly;   /* the first of it, or NULL where the
                                          compiler orders the steps itself */
    bool used;
    bool unsound; /* an error was reported in it, or it lacks a name that was
                     reported elsewhere */
    /* of a quilt */
    struct stated finished;
    LIST(struct border) borders; /* from the inside out */
    const struct piece *whole; /* the outermost border; without one, the root */
    const struct element *backing, *batting, *binding;
    int backing_fabric, binding_fabric;
    bool backing_together; /* bought with the same cloth of the top */
    /* Unknown where not stated. */
    struct rational backing_overage, batting_overage, batting_gap;
    struct rational binding_width;
    const struct quilting *quilting; /* NULL where none is told */
};

/* ---- the designer's own words ---- */

enum reference_kind { REFER_COUNT, REFER_SIZE, REFER_CLOTH };
/* In the order of the choices of as=. */
enum size_as { AS_FINISHED, AS_UNFINISHED, AS_CUT };

/* A fact that stands in the text: `qty`, `size` or `cloth`. */
struct reference {
    enum reference_kind kind;
    const struct element *element;
    const char *name;              /* as it was written; "?" for none */
    const struct definition *make; /* a unit, block or quilt; or NULL */
    const struct piece *piece;     /* a piece with an id, or NULL */
    int fabric;                    /* of REFER_CLOTH */
    enum size_as as;
};

/* A `say` or the `summary`. The text before reference i is run i of the
 * element; one more run ends it. */
struct words {
    const struct element *element;
    LIST(struct reference) references;
};

struct assembly_step {
    const struct element *element;
    const char *name;              /* of what it makes; "?" for none */
    const struct definition *make; /* a unit or a block; NULL not bound */
    const struct piece *piece;     /* a piece with an id, or NULL */
    bool mirror;
    long count; /* 0 where not stated */
    struct press press;
    LIST(const struct words *) says;
};

struct assembly {
    const struct element *element;
    const struct definition *of; /* NULL where not bound */
    LIST(struct assembly_step) steps;
};

/* The bytes of a photo or a logo, as they are in its file. */
struct photo {
    bool jpeg; /* else PNG */
    const char *bytes;
    size_t length;
    unsigned width, height; /* pixels, as they are in the file */
    unsigned turn; /* clockwise quarter turns, as the camera was held */
};

/* A font of the designer's, as a file of its own: made anew from the file that
 * was named, with the letters of titles. Its family is FONT_FAMILY. */
#define FONT_FAMILY "Display face"
struct font {
    const char *bytes;
    size_t length;
};

/* ensures: all that heads of sections in that language, and the numbers of
 * steps, are written with. */
const char *heading_letters(const char *language);

/* A color that can be read on white. */
struct accent {
    bool stated;
    double red, green, blue; /* 0 to 1, sRGB */
};

struct design {
    const struct pattern *pattern;
    const char *id, *title;
    const char *designer, *publisher, *revision, *date, *skill;
    const struct words *summary; /* NULL for none */
    const struct photo *photo;   /* for the cover, or NULL */
    const struct photo *logo;    /* for both covers, or NULL */
    const struct font *display;  /* the face of headings, or NULL */
    struct accent accent;        /* of headings */
    int paper; /* 1 for A4, 0 for letter, -1 where not stated */
    LIST(struct fabric) fabrics;
    LIST(struct role) roles; /* of all definitions, those of one together */
    LIST(struct colorway) colorways;
    LIST(struct definition *) definitions; /* in the order of the source */
    LIST(const struct definition *) inner_first; /* each after all it uses */
    LIST(struct piece *) pieces;
    size_t repeats; /* cells that were not written but repeated */
    size_t casts;   /* of all units and blocks with roles, each once; 0 where
                       there   was an error */
    LIST(struct assembly) assemblies;
    LIST(const struct words *) words; /* all of them */
    struct name_table
        named[DEFINE_COUNT]; /* definitions of each kind by their ids */
};

/* Binds all names.
 * requires: a pattern. ensures: a design, in which what could not be bound is
 *   NULL or NO_FABRIC. reports: names that are not there or stand twice,
 *   definitions inside themselves, settings with too few or too many cells. */
struct design *resolve_pattern(struct run *run, const struct pattern *pattern);

/* The files that are made of one booklet. */
enum booklet_file { BOOKLET_WHOLE, BOOKLET_FOLDING, BOOKLET_PREVIEW };
/* ensures: the file name of one. No two files of a design have one name. */
const char *booklet_name(struct arena *arena, const struct design *design,
                         const struct definition *quilt,
                         const struct colorway *colorway,
                         enum booklet_file file);

/* ensures: the role of that number; NULL for a fabric. */
const struct role *design_role(const struct design *design, int fabric);
/* ensures: the id of a fabric or role, and the letter it has in pictures, '\0'
 * for none. requires: one of them. */
const char *fabric_id(const struct design *design, int fabric);
char fabric_key(const struct design *design, int fabric);
/* How many numbers of fabrics and roles there are, and whether pieces of the
 * definition may name that one: a fabric, or a role of its own. */
size_t fabric_numbers(const struct design *design);
bool may_name_fabric(const struct design *design,
                     const struct definition *definition, int fabric);

/* ensures: the definition of that id and kind, or NULL. */
const struct definition *design_find(const struct design *design,
                                     const char *id, enum definition_kind kind);

#endif
