/* A row says what one element may carry and hold. To add an element or an
 * attribute: a line in the lists of pattern.h, a row here, the schema
 * templates/pattern.rng, and for an attribute of a new type a reader in
 * values.c. Nothing here looks at values. */
#include "grammar.h"

#include <string.h>

/* Sets as bits: two masks answer "may it stand here" and "is it missing"
 * without a search. */
#define A(id) (UINT64_C(1) << (id))
#define E(kind) (UINT32_C(1) << (kind))

_Static_assert(ATTRIBUTE_COUNT <= 64, "attribute sets are 64 bits");
_Static_assert(ELEMENT_COUNT <= 32, "element sets are 32 bits");

#define PIECES                                                                 \
    (E(ELEMENT_PATCH) | E(ELEMENT_ROW) | E(ELEMENT_COLUMN) | E(ELEMENT_GRID) | \
     E(ELEMENT_USE) | E(ELEMENT_DIAGONAL) | E(ELEMENT_HALF_SQUARE))

/* What stands for a fact in the designer's own words. */
#define REFERENCES \
    (E(ELEMENT_QTY) | E(ELEMENT_SIZE) | E(ELEMENT_CLOTH_NAME))

/* Every piece may have these. */
#define PIECE_COMMON                                                  \
    (A(ATTR_ID) | A(ATTR_WIDTH) | A(ATTR_HEIGHT) | A(ATTR_FINISHED) | \
     A(ATTR_UNFINISHED) | A(ATTR_PRESS) | A(ATTR_TOWARD) | A(ATTR_KEY))

/* A missing entry is zero: no attributes, no children, no text. `needs` names
 * children of which at least one must be there; a row that holds pieces gives
 * all their bits at once (check_children in read.c reads that as "any"). */
static const struct grammar_row rows[ELEMENT_COUNT] = {
    [ELEMENT_PATTERN] = {.required = A(ATTR_ID) | A(ATTR_TITLE),
                         .optional = A(ATTR_UNITS) | A(ATTR_SEAM) |
                                     A(ATTR_CUTTING_STEP) | A(ATTR_ALLOWANCE) |
                                     A(ATTR_EFFORT) | A(ATTR_LANGUAGE),
                         .children = E(ELEMENT_ABOUT) | E(ELEMENT_FABRICS) |
                                     E(ELEMENT_COLORWAY) | E(ELEMENT_UNIT) |
                                     E(ELEMENT_BLOCK) | E(ELEMENT_QUILT) |
                                     E(ELEMENT_ASSEMBLY),
                         .needs = E(ELEMENT_FABRICS) | E(ELEMENT_COLORWAY) |
                                  E(ELEMENT_QUILT)},
    [ELEMENT_ABOUT] = {.optional = A(ATTR_DESIGNER) | A(ATTR_PUBLISHER) |
                                   A(ATTR_REVISION) | A(ATTR_DATE) |
                                   A(ATTR_SKILL) | A(ATTR_PHOTO),
                       .children = E(ELEMENT_SUMMARY)},
    [ELEMENT_SUMMARY] = {.children = REFERENCES, .content = CONTENT_TEXT},
    [ELEMENT_FABRICS] = {.children = E(ELEMENT_FABRIC),
                         .needs = E(ELEMENT_FABRIC)},
    [ELEMENT_FABRIC] = {.required = A(ATTR_ID),
                        .optional = A(ATTR_KEY) | A(ATTR_NAME) | A(ATTR_PRINT)},
    [ELEMENT_COLORWAY] = {.required = A(ATTR_ID),
                          .optional = A(ATTR_NAME),
                          .children = E(ELEMENT_CLOTH),
                          .needs = E(ELEMENT_CLOTH)},
    [ELEMENT_CLOTH] = {.required = A(ATTR_FABRIC) | A(ATTR_COLOR),
                       .optional = A(ATTR_NAME) | A(ATTR_WIDTH) | A(ATTR_SOLD) |
                                   A(ATTR_PRICE) | A(ATTR_CODE) |
                                   A(ATTR_YARDS) | A(ATTR_FAT_QUARTERS) |
                                   A(ATTR_SHEETS) | A(ATTR_SELVAGE) |
                                   A(ATTR_SHRINKAGE) | A(ATTR_ALLOWANCE)},
    [ELEMENT_UNIT] = {.required = A(ATTR_ID),
                      .optional = A(ATTR_NAME) | A(ATTR_WIDTH) | A(ATTR_HEIGHT),
                      .children = PIECES,
                      .needs = PIECES},
    [ELEMENT_BLOCK] = {.required = A(ATTR_ID),
                       .optional = A(ATTR_NAME) | A(ATTR_GRID) | A(ATTR_WIDTH) |
                                   A(ATTR_HEIGHT),
                       .children = PIECES | E(ELEMENT_PICTURE),
                       .needs = PIECES},
    [ELEMENT_PICTURE] = {.optional = A(ATTR_CELLS),
                         .children = E(ELEMENT_SHAPE),
                         .content = CONTENT_TEXT},
    [ELEMENT_SHAPE] = {.required = A(ATTR_FABRIC) | A(ATTR_POINTS)},
    [ELEMENT_QUILT] = {.required = A(ATTR_ID),
                       .optional = A(ATTR_NAME) | A(ATTR_FINISHED),
                       .children = PIECES | E(ELEMENT_BORDER) |
                                   E(ELEMENT_BACKING) | E(ELEMENT_BATTING) |
                                   E(ELEMENT_BINDING),
                       .needs = PIECES},
    [ELEMENT_BORDER] = {.required = A(ATTR_FABRIC) | A(ATTR_WIDTH),
                        .optional = A(ATTR_CORNERS) | A(ATTR_FINISHED) |
                                    A(ATTR_UNFINISHED) | A(ATTR_GRAIN)},
    [ELEMENT_BACKING] = {.required = A(ATTR_FABRIC),
                         .optional = A(ATTR_OVERAGE)},
    [ELEMENT_BATTING] = {.optional = A(ATTR_MAX_GAP) | A(ATTR_OVERAGE)},
    [ELEMENT_BINDING] = {.required = A(ATTR_FABRIC), .optional = A(ATTR_WIDTH)},
    [ELEMENT_ASSEMBLY] = {.required = A(ATTR_OF),
                          .children = E(ELEMENT_STEP),
                          .needs = E(ELEMENT_STEP)},
    [ELEMENT_STEP] = {.required = A(ATTR_MAKE),
                      .optional = A(ATTR_COUNT) | A(ATTR_PRESS) |
                                  A(ATTR_TOWARD) | A(ATTR_MIRROR),
                      .children = E(ELEMENT_SAY)},
    [ELEMENT_SAY] = {.children = REFERENCES, .content = CONTENT_TEXT},
    [ELEMENT_QTY] = {.required = A(ATTR_OF)},
    [ELEMENT_SIZE] = {.required = A(ATTR_OF), .optional = A(ATTR_AS)},
    [ELEMENT_CLOTH_NAME] = {.required = A(ATTR_OF)},
    [ELEMENT_PATCH] = {.required = A(ATTR_FABRIC),
                       .optional = PIECE_COMMON | A(ATTR_CUT) | A(ATTR_COUNT),
                       .children = E(ELEMENT_CORNER)},
    [ELEMENT_ROW] = {.optional = PIECE_COMMON,
                     .children = PIECES | E(ELEMENT_CORNER),
                     .needs = PIECES},
    [ELEMENT_COLUMN] = {.optional = PIECE_COMMON,
                        .children = PIECES | E(ELEMENT_CORNER),
                        .needs = PIECES},
    [ELEMENT_GRID] = {.required = A(ATTR_ACROSS) | A(ATTR_DOWN),
                      .optional = PIECE_COMMON,
                      .children = PIECES | E(ELEMENT_CORNER) | E(ELEMENT_MAP),
                      .needs = PIECES},
    [ELEMENT_MAP] = {.content = CONTENT_TEXT},
    [ELEMENT_USE] = {.optional = PIECE_COMMON | A(ATTR_UNIT) | A(ATTR_BLOCK) |
                                 A(ATTR_TURN) | A(ATTR_MIRROR),
                     .children = E(ELEMENT_CORNER)},
    [ELEMENT_CORNER] = {.required = A(ATTR_AT) | A(ATTR_FABRIC) | A(ATTR_SIZE),
                        .optional = A(ATTR_LINE) | A(ATTR_CUT)},
    [ELEMENT_DIAGONAL] = {.required = A(ATTR_LINE),
                          .optional = PIECE_COMMON,
                          .children = E(ELEMENT_PATCH) | E(ELEMENT_CORNER),
                          .needs = E(ELEMENT_PATCH)},
    [ELEMENT_HALF_SQUARE] = {.required =
                                 A(ATTR_LINE) | A(ATTR_LEFT) | A(ATTR_RIGHT),
                             .optional = PIECE_COMMON | A(ATTR_METHOD) |
                                         A(ATTR_CUT) | A(ATTR_SIZE),
                             .children = E(ELEMENT_CORNER)},
};

const struct grammar_row *grammar_row(enum element_kind kind)
{
    /* Indexed by kind, so the order of the rows above is for readers only. */
    return &rows[kind];
}

/* Also what tells a piece from other children of a definition. */
uint32_t grammar_pieces(void)
{
    return PIECES;
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

/* A linear search: 31 names, and a source has far fewer bytes of names than of
 * anything else. */
enum element_kind element_named(const char *name)
{
    int kind = 0;
    while (kind < ELEMENT_COUNT && strcmp(element_names[kind], name) != 0)
        kind++;
    return (enum element_kind)kind;
}

/* `cloth` is two things: what plays a fabric in a colorway, and its name in the
 * designer's words. The place tells which. */
enum element_kind element_in(const struct element *parent, const char *name)
{
    const enum element_kind kind = element_named(name);
    return kind == ELEMENT_CLOTH && parent != NULL && mixes_text(parent->kind)
               ? ELEMENT_CLOTH_NAME
               : kind;
}

bool mixes_text(enum element_kind kind)
{
    return (rows[kind].children & REFERENCES) != 0;
}

/* ensures: ATTRIBUTE_COUNT for a name that is none; the caller reports it, as
 * it knows the place. */
enum attribute_id attribute_named(const char *name)
{
    int id = 0;
    while (id < ATTRIBUTE_COUNT && strcmp(attribute_rows[id].name, name) != 0)
        id++;
    return (enum attribute_id)id;
}
