/* What may stand where: the reader's own table of the language. The RELAX NG
 * schema under templates/ says the same to editors; a test holds them together.
 */
#ifndef SEAMWRIGHT_GRAMMAR_H
#define SEAMWRIGHT_GRAMMAR_H

#include "pattern.h"
#include "set.h"

enum content { CONTENT_ELEMENTS, CONTENT_TEXT };

struct grammar_row {
    enum element_kind kind;
    struct set required; /* of attributes */
    struct set optional;
    struct set children;  /* of kinds of element */
    struct set needs;     /* kinds of which one must be there, of each */
    bool needs_piece;     /* a piece must be there, of any kind */
    enum content content; /* text is an error in CONTENT_ELEMENTS */
};

const struct grammar_row *grammar_row(enum element_kind kind);

/* May the attribute stand on this element? */
bool grammar_allows(enum element_kind kind, enum attribute_id id);

/* All kinds of piece. */
const struct set *grammar_pieces(void);

struct attribute_row {
    const char *name;
    enum value_type type;
    const char *choices; /* words with blanks between */
};
const struct attribute_row *attribute_row(enum attribute_id id);

/* ensures: the element of that name, or ELEMENT_COUNT. */
enum element_kind element_named(const char *name);
/* ensures: the attribute that the name means on an element of this kind, or
 * ATTRIBUTE_COUNT where it may have none of that name. */
enum attribute_id attribute_in(enum element_kind kind, const char *name);

/* The element that the name means inside `parent`, or ELEMENT_COUNT. */
enum element_kind element_in(const struct element *parent, const char *name);
/* True where text and references stand in any order. */
bool mixes_text(enum element_kind kind);

#endif
