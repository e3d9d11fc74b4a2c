/* Other words: choices, names of fabrics and of units and blocks, keys. Read
 * next: maps.c. */
#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "mender.h"

/* Words are neither coarse nor fine, hence no number. */
static void offer_word(struct mender *mender, const struct element *element,
                       enum attribute_id id, const char *word)
{
    offer_value(mender, element, id, word, rational_unknown());
}

/* ---- choices ---- */

/* Each but that which is there, or which is meant where nothing is. */
static void offer_each(struct mender *mender, const struct element *element,
                       enum attribute_id id, const char *choices)
{
    while (*choices != '\0') {
        const size_t length = strcspn(choices, " ");
        const char *word = arena_copy(mender->arena, choices, length);
        const bool meant = written(element, id) == NULL &&
                           (strcmp(word, "0") == 0 || strcmp(word, "no") == 0 ||
                            strcmp(word, "up") == 0);
        if (!meant)
            offer_word(mender, element, id, word);
        choices += length;
        choices += strspn(choices, " ");
    }
}

/* Which cloth lies where only a picture tells, and sizes through the method:
 * never the steps. */
bool only_steps(struct mender *mender)
{
    if (mender->steps == STEPS_UNKNOWN) {
        mender->steps = STEPS_ALONE;
        for (size_t i = 0; i < mender->error_count; i++)
            if (!of_steps(mender->errors[i]->code))
                mender->steps = STEPS_NOT_ALONE;
    }
    return mender->steps == STEPS_ALONE;
}

/* Only what something else in the source tells of, too. */
static bool can_be_checked(struct mender *mender, enum attribute_id id)
{
    if (only_steps(mender))
        return id == ATTR_MIRROR || id == ATTR_TURN;
    return id == ATTR_UNITS || id == ATTR_TURN || id == ATTR_MIRROR ||
           id == ATTR_AT || id == ATTR_LINE || id == ATTR_PLAIN ||
           id == ATTR_METHOD || id == ATTR_QUARTER_METHOD ||
           id == ATTR_GOOSE_METHOD || id == ATTR_SQUARE_METHOD ||
           id == ATTR_POINTS_TO || id == ATTR_CORNERS || id == ATTR_PRESS ||
           id == ATTR_EQUAL || id == ATTR_OUTER;
}

/* What says something by being there may be too much. */
static void offer_omission(struct mender *mender, const struct element *element,
                           enum attribute_id id)
{
    const struct value *value = written(element, id);
    const char *bytes = mender->run->source->bytes;
    if (value == NULL)
        return;
    uint32_t start = value->span.start;
    while (start > element->name.end &&
           strchr(" \t\r\n", bytes[start - 1]) == NULL)
        start--; /* name, sign and quote, if they stand together */
    if (start == element->name.end || bytes[start] != attribute_name(id)[0])
        return;
    offer(mender,
          (struct candidate){.manner = MANNER_REMOVE,
                             .kind = KIND_OMISSION,
                             .element = element,
                             .attribute = id,
                             .number = rational_unknown(),
                             .place = value->span,
                             .edit = {{start - 1, value->span.end + 1}, ""}});
}

/* Attributes that take one of a few words. Written ones are changed; a turn, a
 * mirror and the way that geese point may also have been forgotten, so that
 * they are offered where they are not written. */
void offer_choices(struct mender *mender, const struct element *element)
{
    mender->rank = 1;
#define CHOICES_OF(id, name, type, choices) [id] = choices,
    static const char *const choices[ATTRIBUTE_COUNT] = {
        ATTRIBUTE_LIST(CHOICES_OF)};
#undef CHOICES_OF
    for (int id = 0; id < ATTRIBUTE_COUNT; id++)
        if (can_be_checked(mender, (enum attribute_id)id) &&
            written(element, (enum attribute_id)id) != NULL)
            offer_each(mender, element, (enum attribute_id)id, choices[id]);
    if (!only_steps(mender))
        offer_omission(mender, element, ATTR_PLAIN);
    if (element->kind == ELEMENT_USE && written(element, ATTR_TURN) == NULL)
        offer_each(mender, element, ATTR_TURN, choices[ATTR_TURN]);
    if ((element->kind == ELEMENT_USE || element->kind == ELEMENT_STEP) &&
        written(element, ATTR_MIRROR) == NULL)
        offer_each(mender, element, ATTR_MIRROR, choices[ATTR_MIRROR]);
    if (element->kind == ELEMENT_FLYING_GEESE &&
        written(element, ATTR_POINTS_TO) == NULL)
        offer_each(mender, element, ATTR_POINTS_TO, choices[ATTR_POINTS_TO]);
    if (element->kind == ELEMENT_SASHING &&
        written(element, ATTR_OUTER) == NULL && !only_steps(mender))
        offer_each(mender, element, ATTR_OUTER, choices[ATTR_OUTER]);
    mender->rank = 0;
}

/* ---- names ---- */

/* All attributes whose value is the id of a fabric; an exchange of two of them
 * is a likely slip. */
bool names_fabric(enum attribute_id id)
{
    return id == ATTR_FABRIC || id == ATTR_LEFT || id == ATTR_RIGHT ||
           id == ATTR_TOP || id == ATTR_BOTTOM || id == ATTR_GOOSE ||
           id == ATTR_SKY || id == ATTR_CENTER || id == ATTR_CORNER_FABRIC ||
           id == ATTR_STAR_POINTS || id == ATTR_SECOND || id == ATTR_SIDES ||
           id == ATTR_TOWARD;
}

/* A colorway lists its cloths in the order of the fabrics, if all others stand
 * where they do. */
static size_t place_of_cloth(const struct element *cloth)
{
    size_t place = 0;
    const struct element *parent = cloth->parent;
    while (place < parent->children.count &&
           parent->children.items[place] != cloth)
        place++;
    return place;
}

/* Any fabric of the pattern, and any role of the unit or block but for its
 * roles themselves. Of a cloth all are far but the one whose place in the list
 * it has. */
static void offer_fabrics(struct mender *mender, const struct element *element,
                          enum attribute_id id)
{
    const struct design *design = mender->sized->design;
    const bool cloth = element->kind == ELEMENT_CLOTH;
    const size_t count = element->kind == ELEMENT_ROLE ? design->fabrics.count
                                                       : fabric_numbers(design);
    for (size_t i = 0; i < count; i++) {
        const char *name = fabric_name(mender, element, i);
        mender->far = cloth && place_of_cloth(element) != i;
        if (name != NULL)
            offer_word(mender, element, id, name);
    }
    mender->far = false;
}

static void offer_definitions(struct mender *mender,
                              const struct element *element,
                              enum attribute_id id)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        const bool fits = id == ATTR_UNIT    ? one->kind == DEFINE_UNIT
                          : id == ATTR_BLOCK ? one->kind == DEFINE_BLOCK
                                             : true;
        if (fits && one->id != NULL)
            offer_word(mender, element, id, one->id);
    }
    for (size_t i = 0; id == ATTR_MAKE && i < design->pieces.count; i++)
        if (design->pieces.items[i]->id != NULL)
            offer_word(mender, element, id, design->pieces.items[i]->id);
}

/* A name that something asks for and nothing has. */
static void offer_asked_names(struct mender *mender,
                              const struct element *element)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code == DIAG_UNKNOWN_FABRIC || d->code == DIAG_UNKNOWN_PIECE ||
            d->code == DIAG_MISSING_CLOTH)
            offer_word(mender, element, ATTR_ID, span_text(mender, d->span));
    }
}

/* A key that a picture or a map asks for and nothing has. */
static void offer_asked_keys(struct mender *mender,
                             const struct element *element)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct diagnostic *d = mender->errors[i];
        if (d->code != DIAG_PICTURE_TOKEN && d->code != DIAG_MAP)
            continue;
        for (const char *c = span_text(mender, d->span); *c != '\0'; c++)
            if (isalnum((unsigned char)*c))
                offer_word(mender, element, ATTR_KEY,
                           arena_copy(mender->arena, c, 1));
    }
}

void offer_names(struct mender *mender, const struct element *element,
                 const struct value *value)
{
    mender->rank = 2;
    if (names_fabric(value->id) && !only_steps(mender))
        offer_fabrics(mender, element, value->id);
    else if (value->id == ATTR_UNIT || value->id == ATTR_BLOCK ||
             value->id == ATTR_MAKE ||
             (value->id == ATTR_OF && element->kind == ELEMENT_ASSEMBLY))
        offer_definitions(mender, element, value->id);
    else if (value->id == ATTR_ID)
        offer_asked_names(mender, element);
    else if (value->id == ATTR_KEY)
        offer_asked_keys(mender, element);
    mender->rank = 0;
}

/* ---- exchanges ---- */

struct naming {
    const struct element *element;
    struct span span;
};
typedef LIST(struct naming) naming_list;

static void collect(struct mender *mender, const struct element *element,
                    bool keys, naming_list *list)
{
    for (size_t i = 0; i < element->value_count; i++) {
        const struct value *value = &element->values[i];
        if (keys ? value->id == ATTR_KEY : names_fabric(value->id))
            *LIST_ADD(mender->arena, list) =
                (struct naming){element, value->span};
    }
    for (size_t i = 0; i < element->children.count; i++)
        collect(mender, element->children.items[i], keys, list);
}

/* Left for right, goose for sky: two fabrics within one tag. */
void offer_own_exchanges(struct mender *mender, const struct element *element)
{
    mender->rank = 3;
    for (size_t i = 0; i < element->value_count; i++)
        for (size_t k = i + 1; k < element->value_count; k++)
            if (names_fabric(element->values[i].id) &&
                names_fabric(element->values[k].id) && !only_steps(mender))
                offer_exchange(mender, element, element->values[i].span,
                               element->values[k].span);
    mender->rank = 0;
}

/* The nearer two are, the likelier they were exchanged. */
static void offer_pairs(struct mender *mender, const struct element *top,
                        bool keys, unsigned rank)
{
    enum { NAMES_MOST = 40 };
    naming_list list = {0};
    mender->rank = rank;
    collect(mender, top, keys, &list);
    const size_t count = list.count < NAMES_MOST ? list.count : NAMES_MOST;
    for (size_t by = 1; by < count; by++)
        for (size_t i = 0; i + by < count; i++)
            offer_exchange(mender, list.items[i].element, list.items[i].span,
                           list.items[i + by].span);
    mender->rank = 0;
}

/* Keys are the letters that maps are written with. */
void offer_key_exchanges(struct mender *mender, const struct element *top,
                         unsigned rank)
{
    offer_pairs(mender, top, true, rank);
}

/* The last that is tried, as there are many pairs: first keys, then names.
 * Steps name no fabrics, so nothing is offered where only steps are wrong. */
void offer_name_exchanges(struct mender *mender, const struct element *top)
{
    if (only_steps(mender))
        return;
    offer_pairs(mender, top, true, LAST_RANK - 1);
    offer_cast_exchanges(mender, top);
    offer_pairs(mender, top, false, LAST_RANK);
}
