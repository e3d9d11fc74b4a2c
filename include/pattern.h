/* owner: read
 *
 * What was written: the source as a tree of known elements whose attribute
 * values have been read, with the place of everything. No libxml2 beyond here.
 */
#ifndef SEAMWRIGHT_PATTERN_H
#define SEAMWRIGHT_PATTERN_H

#include <stdbool.h>

#include "diag.h"
#include "length.h"

/* Elements: identifier, name. */
#define ELEMENT_LIST(X)                             \
    X(ELEMENT_PATTERN, "pattern")                   \
    X(ELEMENT_ABOUT, "about")                       \
    X(ELEMENT_SUMMARY, "summary")                   \
    X(ELEMENT_FABRICS, "fabrics")                   \
    X(ELEMENT_FABRIC, "fabric")                     \
    X(ELEMENT_COLORWAY, "colorway")                 \
    X(ELEMENT_CLOTH, "cloth")                       \
    X(ELEMENT_UNIT, "unit")                         \
    X(ELEMENT_BLOCK, "block")                       \
    X(ELEMENT_ROLE, "role")                         \
    X(ELEMENT_PICTURE, "picture")                   \
    X(ELEMENT_QUILT, "quilt")                       \
    X(ELEMENT_BORDER, "border")                     \
    X(ELEMENT_BACKING, "backing")                   \
    X(ELEMENT_BATTING, "batting")                   \
    X(ELEMENT_BINDING, "binding")                   \
    X(ELEMENT_ASSEMBLY, "assembly")                 \
    X(ELEMENT_STEP, "step")                         \
    X(ELEMENT_SAY, "say")                           \
    X(ELEMENT_PATCH, "patch")                       \
    X(ELEMENT_ROW, "row")                           \
    X(ELEMENT_COLUMN, "column")                     \
    X(ELEMENT_GRID, "grid")                         \
    X(ELEMENT_MAP, "map")                           \
    X(ELEMENT_ON_POINT, "on-point")                 \
    X(ELEMENT_TRIANGLES, "triangles")               \
    X(ELEMENT_SASHING, "sashing")                   \
    X(ELEMENT_CORNERSTONE, "cornerstone")           \
    X(ELEMENT_USE, "use")                           \
    X(ELEMENT_CORNER, "corner")                     \
    X(ELEMENT_DIAGONAL, "diagonal")                 \
    X(ELEMENT_HALF_SQUARE, "half-square")           \
    X(ELEMENT_SHAPE, "shape")                       \
    X(ELEMENT_QTY, "qty")                           \
    X(ELEMENT_SIZE, "size")                         \
    X(ELEMENT_CLOTH_NAME, "cloth")                  \
    X(ELEMENT_FLYING_GEESE, "flying-geese")         \
    X(ELEMENT_SQUARE_IN_SQUARE, "square-in-square") \
    X(ELEMENT_QUARTER_SQUARE, "quarter-square")     \
    X(ELEMENT_SHARED, "shared")                     \
    X(ELEMENT_INCLUDE, "include")                   \
    X(ELEMENT_SPOOL, "spool")                       \
    X(ELEMENT_QUILTING, "quilting")                 \
    X(ELEMENT_THREAD, "thread")                     \
    X(ELEMENT_DITCH, "ditch")                       \
    X(ELEMENT_EXTEND, "extend")                     \
    X(ELEMENT_ECHO, "echo")                         \
    X(ELEMENT_CONNECT, "connect")                   \
    X(ELEMENT_AREA, "area")                         \
    X(ELEMENT_FILL, "fill")                         \
    X(ELEMENT_ORDER, "order")                       \
    X(ELEMENT_LINE, "line")                         \
    X(ELEMENT_EXTRA, "extra")                       \
    X(ELEMENT_ORDER_CLOTH, "cloth")                 \
    X(ELEMENT_BOLT, "bolt")                         \
    X(ELEMENT_FLAW, "flaw")                         \
    X(ELEMENT_FAT_QUARTERS, "fat-quarters")         \
    X(ELEMENT_PRECUTS, "precuts")                   \
    X(ELEMENT_LABELS, "labels")                     \
    X(ELEMENT_SHELF, "shelf")                       \
    X(ELEMENT_HALF_RECTANGLE, "half-rectangle")     \
    X(ELEMENT_STAR, "eight-pointed-star")

#define ELEMENT_ENUM(kind, name) kind,
enum element_kind { ELEMENT_LIST(ELEMENT_ENUM) ELEMENT_COUNT };
#undef ELEMENT_ENUM

/* How the text of an attribute is read. */
enum value_type {
    VALUE_TEXT,    /* as it stands, not empty */
    VALUE_ID,      /* a name: letters, digits, - _ . */
    VALUE_KEY,     /* one letter or digit */
    VALUE_LENGTH,  /* more than 0 */
    VALUE_ROOM,    /* a length, or 0 for none */
    VALUE_SIZE,    /* a length, or "W x H" */
    VALUE_WHOLE,   /* 1 to 10000 */
    VALUE_CHOICE,  /* one of the words in the attribute's list */
    VALUE_COLOR,   /* #rrggbb */
    VALUE_DATE,    /* YYYY-MM-DD */
    VALUE_PRICE,   /* a decimal number, 0 or more */
    VALUE_PERCENT, /* a decimal number, 0 or more and below 50 */
    VALUE_LENGTHS, /* lengths with commas between: one a quilt */
    VALUE_POINTS,  /* "X,Y X,Y ...": at least three */
    VALUE_WHOLES,  /* whole numbers with commas between */
    VALUE_NAMES,   /* names with blanks between */
    VALUE_CHOICES, /* words of the attribute's list with blanks between */
    VALUE_NUMBER,  /* a decimal number, more than 0 */
    VALUE_SHIFT,   /* a length, or one below 0 */
    VALUE_TIMES,   /* 1 to 10000, or "all" */
    VALUE_CASTS    /* "ROLE=FABRIC ROLE=FABRIC" */
};

/* Attributes: identifier, name, type, choices. Two of one name never stand on
 * one element. */
#define ATTRIBUTE_LIST(X)                                                  \
    X(ATTR_ID, "id", VALUE_ID, "")                                         \
    X(ATTR_TITLE, "title", VALUE_TEXT, "")                                 \
    X(ATTR_UNITS, "units", VALUE_CHOICE, "in cm")                          \
    X(ATTR_LANGUAGE, "language", VALUE_CHOICE, "en de")                    \
    X(ATTR_SEAM, "seam", VALUE_LENGTH, "")                                 \
    X(ATTR_CUTTING_STEP, "cutting-step", VALUE_LENGTH, "")                 \
    X(ATTR_ALLOWANCE, "allowance", VALUE_ROOM, "")                         \
    X(ATTR_EFFORT, "effort", VALUE_CHOICE, "thrifty simple")               \
    X(ATTR_LAYERS, "layers", VALUE_CHOICE, "1 2 4")                        \
    X(ATTR_RESERVE, "reserve", VALUE_ROOM, "")                             \
    X(ATTR_DESIGNER, "designer", VALUE_TEXT, "")                           \
    X(ATTR_PUBLISHER, "publisher", VALUE_TEXT, "")                         \
    X(ATTR_REVISION, "revision", VALUE_TEXT, "")                           \
    X(ATTR_DATE, "date", VALUE_DATE, "")                                   \
    X(ATTR_SKILL, "skill", VALUE_CHOICE, "beginner confident experienced") \
    X(ATTR_PHOTO, "photo", VALUE_TEXT, "")                                 \
    X(ATTR_LOGO, "logo", VALUE_TEXT, "")                                   \
    X(ATTR_DISPLAY_FACE, "display-face", VALUE_TEXT, "")                   \
    X(ATTR_ACCENT, "accent", VALUE_COLOR, "")                              \
    X(ATTR_PAPER, "paper", VALUE_CHOICE, "letter a4")                      \
    X(ATTR_KEY, "key", VALUE_KEY, "")                                      \
    X(ATTR_TIMES, "times", VALUE_WHOLE, "")                                \
    X(ATTR_EQUAL, "equal", VALUE_CHOICE, "no yes")                         \
    X(ATTR_NAME, "name", VALUE_TEXT, "")                                   \
    X(ATTR_PRINT, "print", VALUE_CHOICE, "solid all-over one-way")         \
    X(ATTR_FABRIC, "fabric", VALUE_ID, "")                                 \
    X(ATTR_COLOR, "color", VALUE_COLOR, "")                                \
    X(ATTR_WIDTH, "width", VALUE_LENGTH, "")                               \
    X(ATTR_HEIGHT, "height", VALUE_LENGTH, "")                             \
    X(ATTR_SOLD, "sold", VALUE_CHOICE,                                     \
      "yardage fat-quarter fat-eighth ten-inch-square five-inch-square "   \
      "strip")                                                             \
    X(ATTR_SELVAGE, "selvage", VALUE_LENGTH, "")                           \
    X(ATTR_SHRINKAGE, "shrinkage", VALUE_PERCENT, "")                      \
    X(ATTR_PRICE, "price", VALUE_PRICE, "")                                \
    X(ATTR_CODE, "code", VALUE_TEXT, "")                                   \
    X(ATTR_YARDS, "yards", VALUE_LENGTHS, "")                              \
    X(ATTR_FAT_QUARTERS, "fat-quarters", VALUE_WHOLES, "")                 \
    X(ATTR_SHEETS, "sheets", VALUE_WHOLES, "")                             \
    X(ATTR_GRAIN, "grain", VALUE_CHOICE, "crosswise lengthwise")           \
    X(ATTR_GRID, "grid", VALUE_SIZE, "")                                   \
    X(ATTR_CELLS, "cells", VALUE_WHOLE, "")                                \
    X(ATTR_TRIANGLE_CELLS, "triangles", VALUE_CHOICE, "up down")           \
    X(ATTR_FINISHED, "finished", VALUE_SIZE, "")                           \
    X(ATTR_UNFINISHED, "unfinished", VALUE_SIZE, "")                       \
    X(ATTR_CUT, "cut", VALUE_SIZE, "")                                     \
    X(ATTR_COUNT, "count", VALUE_WHOLE, "")                                \
    X(ATTR_CORNERS, "corners", VALUE_CHOICE, "butted blocks mitred")       \
    X(ATTR_OVERAGE, "overage", VALUE_LENGTH, "")                           \
    X(ATTR_BOUGHT, "bought", VALUE_CHOICE, "apart together")               \
    X(ATTR_MAX_GAP, "max-gap", VALUE_LENGTH, "")                           \
    X(ATTR_OF, "of", VALUE_ID, "")                                         \
    X(ATTR_MAKE, "make", VALUE_ID, "")                                     \
    X(ATTR_PRESS, "press", VALUE_CHOICE,                                   \
      "open left right up down toward-corner toward-border solve")         \
    X(ATTR_TOWARD, "toward", VALUE_ID, "")                                 \
    X(ATTR_ACROSS, "across", VALUE_WHOLE, "")                              \
    X(ATTR_DOWN, "down", VALUE_WHOLE, "")                                  \
    X(ATTR_UNIT, "unit", VALUE_ID, "")                                     \
    X(ATTR_BLOCK, "block", VALUE_ID, "")                                   \
    X(ATTR_TURN, "turn", VALUE_CHOICE, "0 90 180 270")                     \
    X(ATTR_MIRROR, "mirror", VALUE_CHOICE, "no yes")                       \
    X(ATTR_WITH, "with", VALUE_CASTS, "")                                  \
    X(ATTR_OUTER, "outer", VALUE_CHOICE, "no yes")                         \
    X(ATTR_FLOAT, "float", VALUE_ROOM, "")                                 \
    X(ATTR_ABOUT, "about", VALUE_SIZE, "")                                 \
    X(ATTR_ENDS, "ends", VALUE_ID, "")                                     \
    X(ATTR_FIRST_POINTS, "first", VALUE_CHOICE, "up down")                 \
    X(ATTR_BORDERS, "borders", VALUE_CHOICE, "no yes")                     \
    X(ATTR_AT, "at", VALUE_CHOICE,                                         \
      "top-left top-right bottom-right bottom-left")                       \
    X(ATTR_SIZE, "size", VALUE_LENGTH, "")                                 \
    X(ATTR_LINE, "line", VALUE_CHOICE, "rising falling")                   \
    X(ATTR_LEFT, "left", VALUE_ID, "")                                     \
    X(ATTR_RIGHT, "right", VALUE_ID, "")                                   \
    X(ATTR_TOP, "top", VALUE_ID, "")                                       \
    X(ATTR_BOTTOM, "bottom", VALUE_ID, "")                                 \
    X(ATTR_PLAIN, "plain", VALUE_CHOICE,                                   \
      "top-left top-right bottom-right bottom-left")                       \
    X(ATTR_METHOD, "method", VALUE_CHOICE, "one two four eight")           \
    X(ATTR_QUARTER_METHOD, "method", VALUE_CHOICE, "one two")              \
    X(ATTR_POINTS, "points", VALUE_POINTS, "")                             \
    X(ATTR_AS, "as", VALUE_CHOICE, "finished unfinished cut")              \
    X(ATTR_FIRST, "first", VALUE_CHOICE, "sides ends")                     \
    X(ATTR_JOINS, "joins", VALUE_CHOICE, "diagonal straight")              \
    X(ATTR_GOOSE, "goose", VALUE_ID, "")                                   \
    X(ATTR_SKY, "sky", VALUE_ID, "")                                       \
    X(ATTR_POINTS_TO, "points", VALUE_CHOICE, "up right down left")        \
    X(ATTR_GOOSE_METHOD, "method", VALUE_CHOICE, "corners four")           \
    X(ATTR_CORNER_METHOD, "method", VALUE_CHOICE, "drawn cut-first both")  \
    X(ATTR_CORNERS_METHOD, "corner-method", VALUE_CHOICE,                  \
      "drawn cut-first both")                                              \
    X(ATTR_CENTER, "center", VALUE_ID, "")                                 \
    X(ATTR_CORNER_FABRIC, "corners", VALUE_ID, "")                         \
    X(ATTR_SQUARE_METHOD, "method", VALUE_CHOICE, "corners triangles")     \
    X(ATTR_HREF, "href", VALUE_TEXT, "")                                   \
    X(ATTR_FOOT, "foot", VALUE_LENGTH, "")                                 \
    X(ATTR_QUILTING_RULER, "ruler", VALUE_LENGTH, "")                      \
    X(ATTR_TRAVEL, "travel", VALUE_CHOICE, "ditch any none")               \
    X(ATTR_START, "start", VALUE_LENGTH, "")                               \
    X(ATTR_ORDER, "order", VALUE_CHOICE, "across center-out")              \
    X(ATTR_SYMMETRY, "symmetry", VALUE_CHOICES,                            \
      "left-right top-bottom half-turn quarter-turn rising falling")       \
    X(ATTR_STARTS, "starts", VALUE_WHOLE, "")                              \
    X(ATTR_BOBBIN, "bobbin", VALUE_LENGTH, "")                             \
    X(ATTR_MATCH, "match", VALUE_ID, "")                                   \
    X(ATTR_BLEND, "blend", VALUE_NAMES, "")                                \
    X(ATTR_BELOW, "below", VALUE_ID, "")                                   \
    X(ATTR_THREAD, "thread", VALUE_ID, "")                                 \
    X(ATTR_LENGTH, "length", VALUE_LENGTH, "")                             \
    X(ATTR_SPOOLS, "spools", VALUE_WHOLES, "")                             \
    X(ATTR_ROW, "row", VALUE_WHOLE, "")                                    \
    X(ATTR_COLUMN, "column", VALUE_WHOLE, "")                              \
    X(ATTR_BORDER, "border", VALUE_WHOLE, "")                              \
    X(ATTR_BETWEEN, "between", VALUE_NAMES, "")                            \
    X(ATTR_OUTLINE, "outline", VALUE_CHOICE, "no yes")                     \
    X(ATTR_INTO, "into", VALUE_ID, "")                                     \
    X(ATTR_UNTIL, "until", VALUE_CHOICE, "seam line border edge")          \
    X(ATTR_AROUND, "around", VALUE_NAMES, "")                              \
    X(ATTR_ECHO_SIDE, "side", VALUE_CHOICE, "inside outside both")         \
    X(ATTR_SPACING, "spacing", VALUE_LENGTH, "")                           \
    X(ATTR_FIRST_ECHO, "first", VALUE_LENGTH, "")                          \
    X(ATTR_ECHO_TIMES, "times", VALUE_TIMES, "")                           \
    X(ATTR_ECHO_CORNERS, "corners", VALUE_CHOICE, "pointed rounded")       \
    X(ATTR_FROM, "from", VALUE_CHOICE,                                     \
      "corners outer-corners inner-corners seam-ends middles center "      \
      "line-ends")                                                         \
    X(ATTR_TO, "to", VALUE_CHOICE,                                         \
      "corners outer-corners inner-corners seam-ends middles center "      \
      "line-ends")                                                         \
    X(ATTR_WITH_PLACE, "with", VALUE_ID, "")                               \
    X(ATTR_PAIR, "pair", VALUE_CHOICE, "facing nearest all")               \
    X(ATTR_STOP, "stop", VALUE_ROOM, "")                                   \
    X(ATTR_TOUCHING, "touching", VALUE_ID, "")                             \
    X(ATTR_INSIDE, "inside", VALUE_ID, "")                                 \
    X(ATTR_FILL_WITH, "with", VALUE_CHOICE,                                \
      "lines grid swirls pebbles echo none")                               \
    X(ATTR_ALONG, "along", VALUE_ID, "")                                   \
    X(ATTR_CURRENCY, "currency", VALUE_ID, "")                             \
    X(ATTR_DIGITS, "digits", VALUE_CHOICE, "2 0 3")                        \
    X(ATTR_OVER, "over", VALUE_ROOM, "")                                   \
    X(ATTR_SPARE, "spare", VALUE_PERCENT, "")                              \
    X(ATTR_END_LOSS, "end-loss", VALUE_ROOM, "")                           \
    X(ATTR_KEEP, "keep", VALUE_ROOM, "")                                   \
    X(ATTR_ORDER_LAYERS, "layers", VALUE_CHOICE, "1 2 3 4 5 6 7 8")        \
    X(ATTR_PATTERN, "pattern", VALUE_TEXT, "")                             \
    X(ATTR_QUILT, "quilt", VALUE_ID, "")                                   \
    X(ATTR_COLORWAY, "colorway", VALUE_ID, "")                             \
    X(ATTR_KITS, "kits", VALUE_WHOLE, "")                                  \
    X(ATTR_STYLE, "style", VALUE_CHOICE, "yardage fat-quarters strips cut") \
    X(ATTR_IN_BACKING, "backing", VALUE_CHOICE, "out in")                  \
    X(ATTR_IN_BINDING, "binding", VALUE_CHOICE, "in out")                  \
    X(ATTR_IN_BATTING, "batting", VALUE_CHOICE, "out in")                  \
    X(ATTR_IN_THREAD, "thread", VALUE_CHOICE, "out in")                    \
    X(ATTR_COST, "cost", VALUE_PRICE, "")                                  \
    X(ATTR_SUPPLIER, "supplier", VALUE_TEXT, "")                           \
    X(ATTR_BOLT_LENGTH, "bolt", VALUE_LENGTH, "")                          \
    X(ATTR_ORDER_SOLD, "sold", VALUE_CHOICE,                               \
      "bolt yard half-yard quarter-yard meter tenth-meter fat-quarter")    \
    X(ATTR_GRAMS, "grams", VALUE_NUMBER, "")                               \
    X(ATTR_GRAMS_ERROR, "grams-error", VALUE_PERCENT, "")                  \
    X(ATTR_FIBER, "fiber", VALUE_TEXT, "")                                 \
    X(ATTR_SHELF, "shelf", VALUE_TEXT, "")                                 \
    X(ATTR_STOCK_OF, "of", VALUE_TEXT, "")                                 \
    X(ATTR_LOT, "lot", VALUE_TEXT, "")                                     \
    X(ATTR_FLAW_FROM, "from", VALUE_ROOM, "")                              \
    X(ATTR_FLAW_TO, "to", VALUE_LENGTH, "")                                \
    X(ATTR_KIND, "kind", VALUE_CHOICE,                                     \
      "fat-eighth ten-inch-square five-inch-square strip")                 \
    X(ATTR_COLUMNS, "columns", VALUE_WHOLE, "")                            \
    X(ATTR_ROWS, "rows", VALUE_WHOLE, "")                                  \
    X(ATTR_LABEL_LEFT, "left", VALUE_ROOM, "")                             \
    X(ATTR_LABEL_TOP, "top", VALUE_ROOM, "")                               \
    X(ATTR_LABEL_ACROSS, "across", VALUE_LENGTH, "")                       \
    X(ATTR_LABEL_DOWN, "down", VALUE_LENGTH, "")                           \
    X(ATTR_LABEL_START, "start", VALUE_WHOLE, "")                          \
    X(ATTR_OFFSET_X, "offset-x", VALUE_SHIFT, "")                          \
    X(ATTR_OFFSET_Y, "offset-y", VALUE_SHIFT, "")                          \
    X(ATTR_ROOM, "room", VALUE_ROOM, "")                                   \
    X(ATTR_STAR_POINTS, "points", VALUE_ID, "")                            \
    X(ATTR_SECOND, "second", VALUE_ID, "")                                 \
    X(ATTR_SIDES, "sides", VALUE_ID, "")                                   \
    X(ATTR_STRIP, "strip", VALUE_LENGTH, "")

#define ATTRIBUTE_ENUM(id, name, type, choices) id,
enum attribute_id { ATTRIBUTE_LIST(ATTRIBUTE_ENUM) ATTRIBUTE_COUNT };
#undef ATTRIBUTE_ENUM

const char *element_name(enum element_kind kind);
const char *attribute_name(enum attribute_id id);

/* Which fabric plays a role. */
struct cast_text {
    const char *role, *fabric;
    struct span role_span, fabric_span;
};

/* A name among others, and where it stands. */
struct name_text {
    const char *text;
    struct span span;
};

struct value {
    enum attribute_id id;
    struct span name; /* the attribute's name */
    struct span span; /* the text between the quotes */
    const char *text;
    bool usable; /* false where it could not be read; that was reported */
    struct rational number, second; /* lengths; a size's width and height */
    bool single;                    /* a size written as one length */
    bool has_unit;                  /* a length with its unit behind it */
    long whole;                     /* 0 for "all" */
    int choice;                     /* index into the choices */
    unsigned choices; /* of several: a bit for each, by its index */
    LIST(struct rational) list;
    LIST(struct cast_text) casts;
    LIST(struct name_text) names;
};

struct element;

/* Text inside an element that mixes text and elements, up to the next child.
 * Blanks are folded; one at an end stays where a child stands beside it. */
struct text_run {
    const char *text;
    size_t length;
    const uint32_t *places; /* the byte of the source that each byte of `text`
                               comes from; one more for the end */
    const struct element *child; /* behind the text; NULL at the end */
};

struct element {
    enum element_kind kind;
    struct span tag;     /* the start tag, from < to behind > */
    struct span name;    /* the name in the start tag */
    struct span content; /* the bytes between start tag and end tag */
    struct element *parent;
    size_t place; /* among the children of its parent */
    LIST(struct element *) children;
    struct value *values; /* what is written, in the order of the source */
    size_t value_count;
    const char *text; /* character content, blanks folded; "" for none */
    LIST(struct text_run) runs; /* of `say` and `summary`, else none */
    bool faulty;  /* what it has was reported: it may lack what others need */
    bool unsound; /* an error was reported about it, or inside of it */
};

struct pattern {
    const struct element *root;
    enum length_unit units; /* inches or centimetres */
    const char *language;   /* of the booklet: "en", "de" */
    struct rational seam;
    struct rational cutting_step;
    struct rational allowance; /* of cloth, for squaring up each cut */
    struct rational reserve;   /* of a strip's length, for trimming its ends */
    size_t layers;             /* of cloth that are cut at once: 1, 2 or 4 */
    bool simple; /* fewer lines of cutting may cost one more step of cloth */
};

/* ensures: what is written, perhaps not usable, or NULL where nothing is. */
const struct value *written_value(const struct element *element,
                                  enum attribute_id id);
/* ensures: the value, or NULL where it is missing or was not usable. */
const struct value *value_of(const struct element *element,
                             enum attribute_id id);
/* ensures: the attribute's text, or `otherwise` where it is missing. */
const char *text_of(const struct element *element, enum attribute_id id,
                    const char *otherwise);
/* ensures: how many layers of cloth may be cut at once: 1, 2 or 4. */
size_t layers_of(const struct element *element, size_t otherwise);
/* The nearest place to point at: the value if it is there, else the tag. */
struct span value_span(const struct element *element, enum attribute_id id);

/* From the start tag to behind the end tag. */
struct span element_span(const struct source *source,
                         const struct element *element);

/* ---- maps and pictures: words, counts and groups ---- */

/* Moves *at to the next word of an element's content (up to the next blank or
 * parenthesis), comments, counts and parentheses passed over, and tells in
 * *lines how many line ends lay before it. Each word once, as it is written.
 * ensures: false at the end of the content. */
bool next_word(const struct source *source, struct span content, uint32_t *at,
               struct span *word, size_t *lines);
/* The same for the counts of words and groups. */
bool next_count(const struct source *source, struct span content, uint32_t *at,
                struct span *count);

/* Groups inside each other, and cells of all counts together. */
enum { DRAWING_DEPTH = 20, DRAWING_MOST = 40000 };

/* A word each time that it is meant. A line is a row, and each repeat of a
 * group that holds the end of a line begins one; rows count from 1. */
struct drawn_word {
    struct span span;
    size_t row;
};

struct drawn_text {
    LIST(struct drawn_word) words;
    size_t written;    /* words of the source */
    const char *fault; /* what is wrong with counts and groups; NULL for none */
    const char *help;  /* what would do */
    struct span span;  /* where that is */
    struct span edited;
    const char *text; /* in the place of `edited`: what may be meant; or NULL */
};

/* Reads an element's content, words written out as often as counts say.
 * ensures: false for a fault, and then no words. reports: nothing. */
bool read_drawing(struct arena *arena, const struct source *source,
                  struct span content, struct drawn_text *drawing);

/* Reads the run's source. What an `include` names stands behind it, among the
 * children of the root, and the run's source has its file then; a file that the
 * source has already is not read again.
 * ensures: a pattern; or NULL where there is no tree to speak of (not XML, not
 *   a pattern). Elements with mistakes are kept and marked.
 * reports: everything that can be said of one element alone. */
struct pattern *read_pattern(struct run *run);

/* ensures: true where the first element of the source is an `order`. */
bool is_order(const struct source *source);
/* Reads the run's source as an order of kits (order.h); what an `include` names
 * is a file whose root is `shelf`.
 * ensures: its root; or NULL where there is no tree to speak of.
 * reports: everything that can be said of one element alone. */
const struct element *read_order(struct run *run);

#endif
