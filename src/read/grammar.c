/* A row says what one element may carry and hold. To add an element or an
 * attribute: a line in the lists of pattern.h, a row here, the schema
 * templates/pattern.rng, and for an attribute of a new type a reader in
 * values.c. Nothing here looks at values. */
#include "grammar.h"

#include <string.h>

_Static_assert((int)ATTRIBUTE_COUNT <= SET_LIMIT, "each attribute fits a set");
_Static_assert((int)ELEMENT_COUNT <= SET_LIMIT, "each element fits a set");

#define PIECES                                                             \
    ELEMENT_PATCH, ELEMENT_ROW, ELEMENT_COLUMN, ELEMENT_GRID, ELEMENT_USE, \
        ELEMENT_DIAGONAL, ELEMENT_HALF_SQUARE, ELEMENT_FLYING_GEESE,       \
        ELEMENT_SQUARE_IN_SQUARE, ELEMENT_QUARTER_SQUARE,                  \
        ELEMENT_HALF_RECTANGLE, ELEMENT_ON_POINT, ELEMENT_TRIANGLES,       \
        ELEMENT_STAR

/* What stands for a fact in the designer's own words. */
#define REFERENCES ELEMENT_QTY, ELEMENT_SIZE, ELEMENT_CLOTH_NAME

/* Every piece may have these. */
#define PIECE_COMMON                                                  \
    ATTR_ID, ATTR_WIDTH, ATTR_HEIGHT, ATTR_FINISHED, ATTR_UNFINISHED, \
        ATTR_PRESS, ATTR_TOWARD, ATTR_KEY, ATTR_TIMES

/* Words that tell the places of what is quilted. */
#define PLACE_WORDS ATTR_OF, ATTR_FABRIC, ATTR_ROW, ATTR_COLUMN, ATTR_BORDER

/* A missing entry is zero: no attributes, no children, no text. */
static const struct grammar_row rows[ELEMENT_COUNT] = {
    [ELEMENT_PATTERN] =
        {.required = SET(ATTR_ID, ATTR_TITLE),
         .optional = SET(ATTR_UNITS, ATTR_SEAM, ATTR_CUTTING_STEP,
                         ATTR_ALLOWANCE, ATTR_EFFORT, ATTR_LAYERS, ATTR_RESERVE,
                         ATTR_LANGUAGE, ATTR_CORNERS_METHOD),
         .children = SET(ELEMENT_ABOUT, ELEMENT_FABRICS, ELEMENT_COLORWAY,
                         ELEMENT_UNIT, ELEMENT_BLOCK, ELEMENT_QUILT,
                         ELEMENT_ASSEMBLY, ELEMENT_INCLUDE),
         .needs = SET(ELEMENT_FABRICS, ELEMENT_COLORWAY, ELEMENT_QUILT)},
    [ELEMENT_ABOUT] = {.optional =
                           SET(ATTR_DESIGNER, ATTR_PUBLISHER, ATTR_REVISION,
                               ATTR_DATE, ATTR_SKILL, ATTR_PHOTO, ATTR_LOGO,
                               ATTR_DISPLAY_FACE, ATTR_ACCENT, ATTR_PAPER),
                       .children = SET(ELEMENT_SUMMARY)},
    [ELEMENT_SUMMARY] = {.children = SET(REFERENCES), .content = CONTENT_TEXT},
    [ELEMENT_FABRICS] = {.children = SET(ELEMENT_FABRIC),
                         .needs = SET(ELEMENT_FABRIC)},
    [ELEMENT_FABRIC] = {.required = SET(ATTR_ID),
                        .optional = SET(ATTR_KEY, ATTR_NAME, ATTR_PRINT)},
    [ELEMENT_COLORWAY] = {.required = SET(ATTR_ID),
                          .optional = SET(ATTR_NAME),
                          .children = SET(ELEMENT_CLOTH, ELEMENT_SPOOL),
                          .needs = SET(ELEMENT_CLOTH)},
    [ELEMENT_CLOTH] = {.required = SET(ATTR_FABRIC, ATTR_COLOR),
                       .optional =
                           SET(ATTR_NAME, ATTR_WIDTH, ATTR_SOLD, ATTR_PRICE,
                               ATTR_CODE, ATTR_YARDS, ATTR_FAT_QUARTERS,
                               ATTR_SHEETS, ATTR_SELVAGE, ATTR_SHRINKAGE,
                               ATTR_ALLOWANCE, ATTR_LAYERS, ATTR_RESERVE)},
    [ELEMENT_UNIT] = {.required = SET(ATTR_ID),
                      .optional = SET(ATTR_NAME, ATTR_WIDTH, ATTR_HEIGHT,
                                      ATTR_CORNERS_METHOD),
                      .children = SET(PIECES, ELEMENT_ROLE),
                      .needs_piece = true},
    [ELEMENT_BLOCK] = {.required = SET(ATTR_ID),
                       .optional = SET(ATTR_NAME, ATTR_GRID, ATTR_WIDTH,
                                       ATTR_HEIGHT, ATTR_CORNERS_METHOD),
                       .children = SET(PIECES, ELEMENT_ROLE, ELEMENT_PICTURE),
                       .needs_piece = true},
    [ELEMENT_ROLE] = {.required = SET(ATTR_ID, ATTR_FABRIC),
                      .optional = SET(ATTR_KEY)},
    [ELEMENT_PICTURE] = {.optional = SET(ATTR_CELLS, ATTR_TRIANGLE_CELLS,
                                         ATTR_BORDERS),
                         .children = SET(ELEMENT_SHAPE),
                         .content = CONTENT_TEXT},
    [ELEMENT_SHAPE] = {.required = SET(ATTR_FABRIC, ATTR_POINTS)},
    [ELEMENT_QUILT] = {.required = SET(ATTR_ID),
                       .optional = SET(ATTR_NAME, ATTR_FINISHED),
                       .children = SET(PIECES, ELEMENT_PICTURE, ELEMENT_BORDER,
                                       ELEMENT_BACKING, ELEMENT_BATTING,
                                       ELEMENT_BINDING, ELEMENT_QUILTING),
                       .needs_piece = true},
    [ELEMENT_BORDER] = {.required = SET(ATTR_FABRIC, ATTR_WIDTH),
                        .optional =
                            SET(ATTR_CORNERS, ATTR_FINISHED, ATTR_UNFINISHED,
                                ATTR_GRAIN, ATTR_FIRST, ATTR_JOINS, ATTR_PRESS),
                        .children = SET(PIECES)},
    [ELEMENT_BACKING] = {.required = SET(ATTR_FABRIC),
                         .optional = SET(ATTR_OVERAGE, ATTR_BOUGHT)},
    [ELEMENT_BATTING] = {.optional = SET(ATTR_MAX_GAP, ATTR_OVERAGE)},
    [ELEMENT_BINDING] = {.required = SET(ATTR_FABRIC),
                         .optional = SET(ATTR_WIDTH)},
    [ELEMENT_ASSEMBLY] = {.required = SET(ATTR_OF),
                          .children = SET(ELEMENT_STEP),
                          .needs = SET(ELEMENT_STEP)},
    [ELEMENT_STEP] = {.required = SET(ATTR_MAKE),
                      .optional =
                          SET(ATTR_COUNT, ATTR_PRESS, ATTR_TOWARD, ATTR_MIRROR),
                      .children = SET(ELEMENT_SAY)},
    [ELEMENT_SAY] = {.children = SET(REFERENCES), .content = CONTENT_TEXT},
    [ELEMENT_QTY] = {.required = SET(ATTR_OF)},
    [ELEMENT_SIZE] = {.required = SET(ATTR_OF), .optional = SET(ATTR_AS)},
    [ELEMENT_CLOTH_NAME] = {.required = SET(ATTR_OF)},
    [ELEMENT_PATCH] = {.required = SET(ATTR_FABRIC),
                       .optional = SET(PIECE_COMMON, ATTR_CUT, ATTR_COUNT),
                       .children = SET(ELEMENT_CORNER)},
    [ELEMENT_ROW] = {.optional = SET(PIECE_COMMON, ATTR_EQUAL, ATTR_NAME),
                     .children = SET(PIECES, ELEMENT_CORNER),
                     .needs_piece = true},
    [ELEMENT_COLUMN] = {.optional = SET(PIECE_COMMON, ATTR_EQUAL, ATTR_NAME),
                        .children = SET(PIECES, ELEMENT_CORNER),
                        .needs_piece = true},
    [ELEMENT_GRID] = {.required = SET(ATTR_ACROSS, ATTR_DOWN),
                      .optional = SET(PIECE_COMMON, ATTR_EQUAL, ATTR_NAME),
                      .children = SET(PIECES, ELEMENT_CORNER, ELEMENT_MAP,
                                      ELEMENT_SASHING),
                      .needs_piece = true},
    [ELEMENT_ON_POINT] = {.required = SET(ATTR_ACROSS, ATTR_DOWN, ATTR_FABRIC),
                          .optional = SET(PIECE_COMMON, ATTR_NAME, ATTR_FLOAT,
                                          ATTR_ABOUT),
                          .children =
                              SET(PIECES, ELEMENT_MAP, ELEMENT_SASHING),
                          .needs_piece = true},
    [ELEMENT_TRIANGLES] = {.required = SET(ATTR_ACROSS, ATTR_DOWN),
                           .optional = SET(PIECE_COMMON, ATTR_NAME, ATTR_SIZE,
                                           ATTR_ENDS, ATTR_FIRST_POINTS),
                           .children = SET(PIECES, ELEMENT_MAP),
                           .needs_piece = true},
    [ELEMENT_MAP] = {.content = CONTENT_TEXT},
    [ELEMENT_SASHING] = {.optional = SET(ATTR_FABRIC, ATTR_WIDTH, ATTR_OUTER),
                         .children = SET(PIECES, ELEMENT_CORNERSTONE)},
    [ELEMENT_CORNERSTONE] = {.optional = SET(ATTR_FABRIC),
                             .children = SET(PIECES)},
    [ELEMENT_USE] = {.optional = SET(PIECE_COMMON, ATTR_UNIT, ATTR_BLOCK,
                                     ATTR_TURN, ATTR_MIRROR, ATTR_WITH),
                     .children = SET(ELEMENT_CORNER)},
    [ELEMENT_CORNER] = {.required = SET(ATTR_AT, ATTR_FABRIC, ATTR_SIZE),
                        .optional =
                            SET(ATTR_LINE, ATTR_CUT, ATTR_CORNER_METHOD)},
    [ELEMENT_DIAGONAL] = {.required = SET(ATTR_LINE),
                          .optional = SET(PIECE_COMMON),
                          .children = SET(PIECES, ELEMENT_CORNER),
                          .needs_piece = true},
    [ELEMENT_HALF_SQUARE] = {.required = SET(ATTR_LINE, ATTR_LEFT, ATTR_RIGHT),
                             .optional = SET(PIECE_COMMON, ATTR_METHOD,
                                             ATTR_CUT, ATTR_SIZE),
                             .children = SET(ELEMENT_CORNER)},
    [ELEMENT_FLYING_GEESE] = {.required = SET(ATTR_GOOSE, ATTR_SKY),
                              .optional = SET(PIECE_COMMON, ATTR_POINTS_TO,
                                              ATTR_GOOSE_METHOD),
                              .children = SET(ELEMENT_CORNER)},
    [ELEMENT_SQUARE_IN_SQUARE] =
        {.required = SET(ATTR_CENTER, ATTR_CORNER_FABRIC),
         .optional = SET(PIECE_COMMON, ATTR_SQUARE_METHOD, ATTR_SIZE),
         .children = SET(ELEMENT_CORNER)},
    [ELEMENT_QUARTER_SQUARE] = {.required = SET(ATTR_TOP, ATTR_RIGHT,
                                                ATTR_BOTTOM, ATTR_LEFT),
                                .optional =
                                    SET(PIECE_COMMON, ATTR_QUARTER_METHOD,
                                        ATTR_CUT, ATTR_SIZE, ATTR_PLAIN),
                                .children = SET(ELEMENT_CORNER)},
    [ELEMENT_HALF_RECTANGLE] = {.required =
                                    SET(ATTR_LINE, ATTR_LEFT, ATTR_RIGHT),
                                .optional =
                                    SET(PIECE_COMMON, ATTR_ROOM, ATTR_CUT),
                                .children = SET(ELEMENT_CORNER)},
    [ELEMENT_STAR] = {.required = SET(ATTR_STAR_POINTS, ATTR_CORNER_FABRIC),
                      .optional = SET(PIECE_COMMON, ATTR_SECOND, ATTR_SIDES,
                                      ATTR_SIZE, ATTR_STRIP)},
    [ELEMENT_SHARED] = {.children = SET(ELEMENT_FABRICS, ELEMENT_COLORWAY,
                                        ELEMENT_UNIT, ELEMENT_BLOCK,
                                        ELEMENT_ASSEMBLY, ELEMENT_INCLUDE)},
    [ELEMENT_INCLUDE] = {.required = SET(ATTR_HREF)},
    [ELEMENT_SPOOL] = {.required = SET(ATTR_THREAD),
                       .optional = SET(ATTR_NAME, ATTR_COLOR, ATTR_LENGTH,
                                       ATTR_SPOOLS)},
    [ELEMENT_QUILTING] = {.optional =
                              SET(ATTR_FOOT, ATTR_QUILTING_RULER, ATTR_TRAVEL,
                                  ATTR_START, ATTR_ORDER, ATTR_SYMMETRY,
                                  ATTR_STARTS, ATTR_BOBBIN),
                          .children =
                              SET(ELEMENT_THREAD, ELEMENT_DITCH, ELEMENT_EXTEND,
                                  ELEMENT_ECHO, ELEMENT_CONNECT, ELEMENT_AREA),
                          .needs = SET(ELEMENT_THREAD)},
    [ELEMENT_THREAD] = {.required = SET(ATTR_ID),
                        .optional = SET(ATTR_MATCH, ATTR_BLEND, ATTR_COLOR,
                                        ATTR_BELOW)},
    [ELEMENT_DITCH] = {.required = SET(ATTR_THREAD),
                       .optional =
                           SET(PLACE_WORDS, ATTR_BETWEEN, ATTR_OUTLINE)},
    [ELEMENT_EXTEND] = {.required = SET(ATTR_INTO, ATTR_THREAD),
                        .optional = SET(PLACE_WORDS, ATTR_ID, ATTR_BETWEEN,
                                        ATTR_OUTLINE, ATTR_UNTIL)},
    [ELEMENT_ECHO] = {.required =
                          SET(ATTR_ECHO_SIDE, ATTR_SPACING, ATTR_THREAD),
                      .optional = SET(PLACE_WORDS, ATTR_ID, ATTR_AROUND,
                                      ATTR_FIRST_ECHO, ATTR_ECHO_TIMES,
                                      ATTR_ECHO_CORNERS)},
    [ELEMENT_CONNECT] = {.required =
                             SET(ATTR_FROM, ATTR_TO, ATTR_INTO, ATTR_THREAD),
                         .optional = SET(PLACE_WORDS, ATTR_ID, ATTR_WITH_PLACE,
                                         ATTR_PAIR, ATTR_STOP)},
    [ELEMENT_AREA] = {.optional =
                          SET(PLACE_WORDS, ATTR_ID, ATTR_TOUCHING, ATTR_INSIDE),
                      .children =
                          SET(ELEMENT_ECHO, ELEMENT_CONNECT, ELEMENT_FILL)},
    [ELEMENT_FILL] = {.required = SET(ATTR_FILL_WITH),
                      .optional = SET(ATTR_SPACING, ATTR_ALONG, ATTR_THREAD)},
    [ELEMENT_ORDER] = {.required = SET(ATTR_ID, ATTR_TITLE),
                       .optional = SET(ATTR_DATE, ATTR_CURRENCY, ATTR_DIGITS,
                                       ATTR_UNITS, ATTR_OVER, ATTR_SPARE,
                                       ATTR_END_LOSS, ATTR_KEEP,
                                       ATTR_ORDER_LAYERS, ATTR_LANGUAGE,
                                       ATTR_PAPER),
                       .children = SET(ELEMENT_LINE, ELEMENT_ORDER_CLOTH,
                                       ELEMENT_BOLT, ELEMENT_FAT_QUARTERS,
                                       ELEMENT_PRECUTS, ELEMENT_LABELS,
                                       ELEMENT_INCLUDE),
                       .needs = SET(ELEMENT_LINE)},
    [ELEMENT_LINE] = {.required = SET(ATTR_PATTERN, ATTR_QUILT, ATTR_COLORWAY,
                                      ATTR_KITS),
                      .optional = SET(ATTR_STYLE, ATTR_IN_BACKING,
                                      ATTR_IN_BINDING, ATTR_IN_BATTING,
                                      ATTR_IN_THREAD, ATTR_PRICE),
                      .children = SET(ELEMENT_EXTRA)},
    [ELEMENT_EXTRA] = {.required = SET(ATTR_NAME),
                       .optional = SET(ATTR_COST, ATTR_COUNT)},
    [ELEMENT_ORDER_CLOTH] = {.optional =
                                 SET(ATTR_CODE, ATTR_NAME, ATTR_COLOR,
                                     ATTR_SUPPLIER, ATTR_BOLT_LENGTH,
                                     ATTR_ORDER_SOLD, ATTR_PRICE, ATTR_WIDTH,
                                     ATTR_GRAMS, ATTR_GRAMS_ERROR, ATTR_FIBER,
                                     ATTR_SHELF)},
    [ELEMENT_BOLT] = {.required = SET(ATTR_STOCK_OF, ATTR_LENGTH),
                      .optional = SET(ATTR_WIDTH, ATTR_LOT),
                      .children = SET(ELEMENT_FLAW)},
    [ELEMENT_FLAW] = {.required = SET(ATTR_FLAW_FROM, ATTR_FLAW_TO)},
    [ELEMENT_FAT_QUARTERS] = {.required = SET(ATTR_STOCK_OF, ATTR_COUNT)},
    [ELEMENT_PRECUTS] = {.required = SET(ATTR_STOCK_OF, ATTR_KIND, ATTR_COUNT)},
    [ELEMENT_LABELS] = {.required =
                            SET(ATTR_COLUMNS, ATTR_ROWS, ATTR_WIDTH,
                                ATTR_HEIGHT, ATTR_LABEL_LEFT, ATTR_LABEL_TOP,
                                ATTR_LABEL_ACROSS, ATTR_LABEL_DOWN),
                        .optional = SET(ATTR_PAPER, ATTR_LABEL_START,
                                        ATTR_OFFSET_X, ATTR_OFFSET_Y)},
    [ELEMENT_SHELF] = {.children = SET(ELEMENT_BOLT, ELEMENT_FAT_QUARTERS,
                                       ELEMENT_PRECUTS)},
};

const struct grammar_row *grammar_row(enum element_kind kind)
{
    /* Indexed by kind, so the order of the rows above is for readers only. */
    return &rows[kind];
}

bool grammar_allows(enum element_kind kind, enum attribute_id id)
{
    return set_has(&rows[kind].required, id) ||
           set_has(&rows[kind].optional, id);
}

/* Also what tells a piece from other children of a definition. */
const struct set *grammar_pieces(void)
{
    static const struct set pieces = SET(PIECES);
    return &pieces;
}

/* Both tables of names come from the lists in pattern.h, so an enum and its
 * name cannot drift apart. */
#define ELEMENT_TEXT(kind, name) name,
static const char *const element_names[ELEMENT_COUNT] = {
    ELEMENT_LIST(ELEMENT_TEXT)};
#undef ELEMENT_TEXT

#define ATTRIBUTE_ROW(id, name, type, choices) {name, type, choices},
static const struct attribute_row attribute_rows[ATTRIBUTE_COUNT] = {
    ATTRIBUTE_LIST(ATTRIBUTE_ROW)};
#undef ATTRIBUTE_ROW

/* As written in a source; for messages. */
const char *element_name(enum element_kind kind)
{
    return element_names[kind];
}

const char *attribute_name(enum attribute_id id)
{
    return attribute_rows[id].name;
}

/* Type and choices, for values.c. */
const struct attribute_row *attribute_row(enum attribute_id id)
{
    return &attribute_rows[id];
}

/* A linear search: names are few and differ early, and a source has far fewer
 * bytes of names than of anything else. */
enum element_kind element_named(const char *name)
{
    int kind = 0;
    while (kind < ELEMENT_COUNT && strcmp(element_names[kind], name) != 0)
        kind++;
    return (enum element_kind)kind;
}

/* `cloth` is three things: what plays a fabric in a colorway, its name in the
 * designer's words, and what an order says of it. The place tells which. */
enum element_kind element_in(const struct element *parent, const char *name)
{
    const enum element_kind kind = element_named(name);
    if (kind != ELEMENT_CLOTH || parent == NULL)
        return kind;
    return mixes_text(parent->kind)        ? ELEMENT_CLOTH_NAME
           : parent->kind == ELEMENT_ORDER ? ELEMENT_ORDER_CLOTH
                                           : kind;
}

/* References stand in text alone, and where one may stand all of them may. */
bool mixes_text(enum element_kind kind)
{
    return set_has(&rows[kind].children, ELEMENT_QTY);
}

/* One name may be two attributes, of other values on other elements (`points`
 * of a shape is no `points` of a piece): the row of the element tells which. */
enum attribute_id attribute_in(enum element_kind kind, const char *name)
{
    int id = 0;
    while (id < ATTRIBUTE_COUNT &&
           (!grammar_allows(kind, (enum attribute_id)id) ||
            strcmp(attribute_rows[id].name, name) != 0))
        id++;
    return (enum attribute_id)id;
}
