/* Slips that several errors together tell: two sizes of neighbors exchanged,
 * one unit for another, a name misspelt in several places. Read next:
 * lacking.c. */
#include <string.h>

#include "buffer.h"
#include "mender.h"

/* As likely as what the program offers itself. */
static void offer_likely_exchange(struct mender *mender, struct span a,
                                  struct span b)
{
    const size_t count = mender->candidates.count;
    offer_exchange(mender, element_at(mender, a.start), a, b);
    if (mender->candidates.count > count)
        mender->candidates.items[count].program = true;
}

/* The widths, or the heights, of two children. */
static void offer_sizes_of(struct mender *mender, const struct element *parent)
{
    enum { CHILDREN_MOST = 12 }; /* pairs grow with their square */
    static const enum attribute_id sides[] = {ATTR_WIDTH, ATTR_HEIGHT};
    const size_t count = parent->children.count;
    for (size_t s = 0; s < 2 && count <= CHILDREN_MOST; s++)
        for (size_t i = 0; i < parent->children.count; i++)
            for (size_t k = i + 1; k < parent->children.count; k++) {
                const struct value *a =
                    written(parent->children.items[i], sides[s]);
                const struct value *b =
                    written(parent->children.items[k], sides[s]);
                if (a != NULL && b != NULL)
                    offer_likely_exchange(mender, a->span, b->span);
            }
    for (size_t i = 0; i < parent->children.count; i++)
        offer_sizes_of(mender, parent->children.items[i]);
}

void offer_size_exchanges(struct mender *mender)
{
    enum { CELLS_MOST = 40 };
    const struct definition *drawn = differing_picture(mender);
    if (drawn == NULL || mender->before.count > CELLS_MOST)
        return;
    offer_sizes_of(mender, drawn->element);
    for (size_t i = 0; i < drawn->uses.count; i++) {
        const struct definition *target = drawn->uses.items[i]->target;
        if (target != NULL)
            offer_sizes_of(mender, target->element);
    }
}

/* ---- one unit for another ---- */

/* What the step of a wrong count makes, or NULL. */
static const struct value *counted_name(const struct mender *mender,
                                        size_t error)
{
    const struct diagnostic *d = mender->errors[error];
    const bool counts = d->code == DIAG_STEP_COUNT ||
                        d->code == DIAG_STEP_UNUSED ||
                        d->code == DIAG_MIRRORED_HEAP;
    const struct element *step = element_at(mender, d->span.start);
    return counts && step->kind == ELEMENT_STEP ? written(step, ATTR_MAKE)
                                                : NULL;
}

/* In place of the one name the other, in all uses below the element. */
static void offer_other_name(struct mender *mender,
                             const struct element *element, const char *from,
                             const char *to)
{
    static const enum attribute_id names[] = {ATTR_UNIT, ATTR_BLOCK};
    for (size_t i = 0; element->kind == ELEMENT_USE && i < 2; i++) {
        const struct value *value = written(element, names[i]);
        if (value != NULL && strcmp(value->text, from) == 0)
            offer_value(mender, element, names[i], to, rational_unknown());
    }
    for (size_t i = 0; i < element->children.count; i++)
        offer_other_name(mender, element->children.items[i], from, to);
}

void offer_counted_names(struct mender *mender)
{
    enum { ERRORS_MOST = 6 };
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < mender->error_count && i < ERRORS_MOST; i++)
        for (size_t k = 0; k < mender->error_count && k < ERRORS_MOST; k++) {
            const struct value *from = counted_name(mender, i);
            const struct value *to = counted_name(mender, k);
            if (from == NULL || to == NULL || strcmp(from->text, to->text) == 0)
                continue;
            for (size_t n = 0; n < design->definitions.count; n++)
                offer_other_name(mender, design->definitions.items[n]->element,
                                 from->text, to->text);
        }
}

/* A use more, where the steps count more than there are, or one for a use of
 * another name. */
static void offer_more_uses(struct mender *mender, const struct element *parent,
                            const struct definition *more)
{
    const enum attribute_id id =
        more->kind == DEFINE_UNIT ? ATTR_UNIT : ATTR_BLOCK;
    for (size_t i = 0; i < parent->children.count; i++) {
        const struct element *child = parent->children.items[i];
        const struct value *used =
            child->kind == ELEMENT_USE ? written(child, id) : NULL;
        if (used != NULL && strcmp(used->text, more->id) == 0)
            offer_copy(mender, parent, i);
        else if (used != NULL)
            offer_value(mender, child, id, more->id, rational_unknown());
        offer_more_uses(mender, child, more);
    }
}

/* The unit or block of the name, or NULL. */
static const struct definition *named(const struct mender *mender,
                                      const char *name)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        if (one->id != NULL && strcmp(one->id, name) == 0 &&
            (one->kind == DEFINE_UNIT || one->kind == DEFINE_BLOCK))
            return one;
    }
    return NULL;
}

void offer_counted_uses(struct mender *mender)
{
    enum { ERRORS_MOST = 40 }; /* each looks at all uses */
    const struct design *design = mender->sized->design;
    if (only_steps(mender) || mender->error_count > ERRORS_MOST)
        return;
    for (size_t i = 0; i < mender->error_count; i++) {
        const struct value *name = counted_name(mender, i);
        const struct element *step =
            element_at(mender, mender->errors[i]->span.start);
        const struct definition *more =
            name == NULL ? NULL : named(mender, name->text);
        for (size_t k = 0; more != NULL && k < design->assemblies.count; k++)
            if (design->assemblies.items[k].element == step->parent &&
                design->assemblies.items[k].of != NULL)
                offer_more_uses(mender, design->assemblies.items[k].of->element,
                                more);
    }
}

/* ---- one name in several places ---- */

typedef LIST(struct span) span_list;

static void collect_name(struct mender *mender, const struct element *element,
                         bool fabric, const char *name, span_list *places)
{
    for (size_t i = 0; i < element->value_count; i++) {
        const struct value *value = &element->values[i];
        const bool named =
            fabric ? names_fabric(value->id)
                   : value->id == ATTR_UNIT || value->id == ATTR_BLOCK ||
                         value->id == ATTR_MAKE || value->id == ATTR_OF;
        if (named && value->text != NULL && strcmp(value->text, name) == 0)
            *LIST_ADD(mender->arena, places) = value->span;
    }
    for (size_t i = 0; i < element->children.count; i++)
        collect_name(mender, element->children.items[i], fabric, name, places);
}

static bool in_one_file(const struct mender *mender, const span_list *places)
{
    for (size_t i = 1; i < places->count; i++)
        if (!source_together(mender->run->source, places->items[0].start,
                             places->items[i].start))
            return false;
    return true;
}

/* From the first of them to the last, with what lies between. */
static const char *renamed_text(const struct mender *mender,
                                const span_list *places, const char *name)
{
    struct buffer text = buffer_in(mender->arena);
    for (size_t i = 0; i < places->count; i++) {
        if (i > 0)
            buffer_text(&text, span_text(mender, (struct span){
                                                     places->items[i - 1].end,
                                                     places->items[i].start}));
        buffer_text(&text, name);
    }
    return buffer_string(&text);
}

/* "lines 3, 4 and 7" */
static const char *lines_of(const struct mender *mender,
                            const span_list *places)
{
    struct buffer text = buffer_in(mender->arena);
    buffer_text(&text, "lines ");
    for (size_t i = 0; i < places->count; i++)
        buffer_printf(&text, "%s%zu",
                      i == 0                   ? ""
                      : i + 1 == places->count ? " and "
                                               : ", ",
                      source_line(mender->run->source, places->items[i].start));
    return buffer_string(&text);
}

/* Where no place names it by the id that it has, the id is misspelt. */
static void offer_id(struct mender *mender, const char *id, const char *asked)
{
    for (size_t i = 0; i < mender->root->children.count; i++) {
        const struct element *top = mender->root->children.items[i];
        const struct value *own = written(top, ATTR_ID);
        if (own != NULL && strcmp(own->text, id) == 0)
            offer_value(mender, top, ATTR_ID, asked, rational_unknown());
        for (size_t k = 0;
             top->kind == ELEMENT_FABRICS && k < top->children.count; k++) {
            own = written(top->children.items[k], ATTR_ID);
            if (own != NULL && strcmp(own->text, id) == 0)
                offer_value(mender, top->children.items[k], ATTR_ID, asked,
                            rational_unknown());
        }
    }
}

/* What is misspelt alike in several places is one slip. */
void offer_renames(struct mender *mender)
{
    enum { PLACES_MOST = 12, NAMES_MOST = 12 };
    size_t names = 0;
    for (size_t i = 0;
         mender->root != NULL && i < mender->error_count && names < NAMES_MOST;
         i++) {
        const struct diagnostic *d = mender->errors[i];
        const bool fabric = d->code == DIAG_UNKNOWN_FABRIC;
        span_list places = {0};
        if ((!fabric && d->code != DIAG_UNKNOWN_PIECE) ||
            d->replacement == NULL)
            continue;
        names++;
        collect_name(mender, mender->root, fabric, span_text(mender, d->span),
                     &places);
        if (places.count < 2)
            continue;
        span_list right = {0};
        collect_name(mender, mender->root, fabric, d->replacement, &right);
        if (right.count == 0)
            offer_id(mender, d->replacement, span_text(mender, d->span));
        if (right.count == 0 || places.count > PLACES_MOST ||
            !in_one_file(mender, &places))
            continue;
        offer(mender,
              (struct candidate){
                  .manner = MANNER_VALUE,
                  .kind = KIND_RENAME,
                  .element = element_at(mender, places.items[0].start),
                  .number = rational_unknown(),
                  .place = places.items[0],
                  .said = arena_printf(mender->arena, "%s in %s",
                                       quoted(mender->arena, d->replacement),
                                       lines_of(mender, &places)),
                  .edit = {{places.items[0].start,
                            places.items[places.count - 1].end},
                           renamed_text(mender, &places, d->replacement)}});
    }
}
