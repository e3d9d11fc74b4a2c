/* Mistakes in one length: a step of the ruler more or less, or a square. */
#include "mutants.h"

/* A length that is off by `by`, in both directions. */
struct slip {
    enum kind kind;
    enum rule rule;
    struct rational by;
};

static const char *plain(struct sample *sample, struct rational length)
{
    return length_written(sample->arena, length, UNIT_IN);
}

static void slip_length(struct sample *sample, const struct value *value,
                        struct slip slip)
{
    for (int sign = -1; sign <= 1; sign += 2) {
        const struct rational to =
            rational_add(value->number, rational_times(slip.by, sign));
        if (rational_sign(to) > 0)
            mutant_replace(sample, slip.kind, slip.rule, value->span,
                           plain(sample, to));
    }
}

static void slip_size(struct sample *sample, const struct value *value,
                      struct slip slip)
{
    if (value->single) {
        slip_length(sample, value, slip);
        return;
    }
    for (int i = 0; i < 4; i++) {
        const struct rational by = rational_times(slip.by, i % 2 ? 1 : -1);
        const struct rational zero = rational_whole(0);
        const struct rational width =
            rational_add(value->number, i < 2 ? by : zero);
        const struct rational height =
            rational_add(value->second, i < 2 ? zero : by);
        if (rational_sign(width) > 0 && rational_sign(height) > 0)
            mutant_replace(sample, slip.kind, slip.rule, value->span,
                           arena_printf(sample->arena, "%s x %s",
                                        plain(sample, width),
                                        plain(sample, height)));
    }
}

static void slip_list(struct sample *sample, const struct value *value,
                      struct slip slip)
{
    for (size_t at = 0; at < 2 * value->list.count; at++) {
        const char *text = "";
        bool sound = true;
        for (size_t i = 0; i < value->list.count; i++) {
            struct rational one = value->list.items[i];
            if (i == at / 2)
                one =
                    rational_add(one, rational_times(slip.by, at % 2 ? 1 : -1));
            sound = sound && rational_sign(one) > 0;
            text = arena_printf(sample->arena, "%s%s%s", text,
                                i > 0 ? ", " : "", plain(sample, one));
        }
        if (sound)
            mutant_replace(sample, slip.kind, slip.rule, value->span, text);
    }
}

static void slip_value(struct sample *sample, const struct value *value,
                       enum attribute_id id, struct slip slip)
{
#define ATTRIBUTE_TYPE(id, name, type, choices) [id] = type,
    static const enum value_type types[ATTRIBUTE_COUNT] = {
        ATTRIBUTE_LIST(ATTRIBUTE_TYPE)};
#undef ATTRIBUTE_TYPE
    if (types[id] == VALUE_LENGTH || types[id] == VALUE_ROOM)
        slip_length(sample, value, slip);
    else if (types[id] == VALUE_SIZE)
        slip_size(sample, value, slip);
    else
        slip_list(sample, value, slip);
}

/* How wide the shop's cloth is shows only where a strip more is needed. */
static enum kind length_kind(const struct element *element)
{
    return element->kind == ELEMENT_CLOTH ? KIND_CLOTH : KIND_LENGTH;
}

static enum rule length_rule(const struct element *element,
                             enum attribute_id id)
{
    if (id == ATTR_OVERAGE || id == ATTR_MAX_GAP)
        return RULE_LAYERS;
    if (element->kind == ELEMENT_BINDING && id == ATTR_WIDTH)
        return RULE_BINDING;
    return RULE_NONE;
}

/* Lengths in grid squares: a ruler's step at each scale, and a square. */
static void slip_local(struct sample *sample, const struct definition *owner,
                       const struct value *value, enum attribute_id id)
{
    const struct definition_scales *scales =
        &sample->compiled.sized->scales[owner->index];
    for (size_t i = 0; i < scales->items.count; i++) {
        const struct rational by =
            rational_div(sample->compiled.pattern->cutting_step,
                         scales->items.items[i].factor);
        slip_value(sample, value, id,
                   (struct slip){KIND_LENGTH, RULE_NONE, by});
    }
    slip_value(sample, value, id,
               (struct slip){KIND_SQUARE, RULE_NONE, rational_whole(1)});
}

/* A unit's lengths are in the squares of the block that uses it, which shows
 * in a scale that is not 1. */
static bool is_local(const struct sample *sample,
                     const struct definition *owner, enum attribute_id id)
{
    if (owner == NULL || owner->kind == DEFINE_QUILT ||
        (id != ATTR_WIDTH && id != ATTR_HEIGHT && id != ATTR_SIZE))
        return false;
    const struct definition_scales *scales =
        &sample->compiled.sized->scales[owner->index];
    bool scaled = owner->gridded;
    for (size_t i = 0; i < scales->items.count; i++)
        scaled = scaled || !rational_equal(scales->items.items[i].factor,
                                           rational_whole(1));
    return scaled;
}

void mutate_lengths(struct sample *sample, const struct element *element)
{
    static const enum attribute_id lengths[] = {
        ATTR_SEAM,   ATTR_CUTTING_STEP, ATTR_ALLOWANCE,  ATTR_WIDTH,
        ATTR_HEIGHT, ATTR_FINISHED,     ATTR_UNFINISHED, ATTR_CUT,
        ATTR_SIZE,   ATTR_OVERAGE,      ATTR_MAX_GAP};
    const struct definition *owner = owner_of(sample, element);
    const struct rational step = sample->compiled.pattern->cutting_step;
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        const enum attribute_id id = lengths[i];
        const struct value *value = value_of(element, id);
        if (value == NULL)
            continue;
        if (is_local(sample, owner, id))
            slip_local(sample, owner, value, id);
        else
            slip_value(sample, value, id,
                       (struct slip){length_kind(element),
                                     length_rule(element, id), step});
    }
    /* Cloth is sold in eighths of a yard, sheets and squares by ones. */
    const struct slip eighth = {KIND_LENGTH, RULE_NONE, rational_make(1, 8)};
    const struct slip one = {KIND_COUNT, RULE_NONE, rational_whole(1)};
    if (value_of(element, ATTR_YARDS) != NULL)
        slip_value(sample, value_of(element, ATTR_YARDS), ATTR_YARDS, eighth);
    if (value_of(element, ATTR_FAT_QUARTERS) != NULL)
        slip_value(sample, value_of(element, ATTR_FAT_QUARTERS),
                   ATTR_FAT_QUARTERS, one);
    if (value_of(element, ATTR_GRID) != NULL)
        slip_value(sample, value_of(element, ATTR_GRID), ATTR_GRID, one);
}
