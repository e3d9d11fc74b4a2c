/* Other numbers: a step of the ruler more or less, a seam, a square; half and
 * double; what stands elsewhere in the definition; what the disagreement itself
 * amounts to. Read next: names.c. */
#include <string.h>

#include "mender.h"

enum { NUMBERS_MOST = 64 };

struct numbers {
    struct rational items[NUMBERS_MOST];
    size_t count;
    size_t likely; /* so many of them, at the beginning */
};

/* Finer than 1/64 is on no ruler, and a length of nothing is no length. A full
 * list drops what comes last, which is the least likely. */
static void add_number(struct numbers *numbers, struct rational number)
{
    if (!rational_is_fraction(number) || rational_sign(number) <= 0 ||
        numbers->count == NUMBERS_MOST || number.den > 64)
        return;
    for (size_t i = 0; i < numbers->count; i++)
        if (rational_equal(numbers->items[i], number))
            return;
    numbers->items[numbers->count++] = number;
}

/* A step up and a step down; the smaller first, but both are tried. */
static void add_around(struct numbers *numbers, struct rational number,
                       struct rational by)
{
    if (!rational_known(by))
        return;
    add_number(numbers, rational_sub(number, by));
    add_number(numbers, rational_add(number, by));
}

/* The scales of the definition around the element; 1 where there is none. */
static size_t scales_of(const struct mender *mender,
                        const struct element *element,
                        struct rational scales[4])
{
    const struct definition *definition =
        defined_by(mender, top_of(mender, element));
    scales[0] = rational_whole(1);
    size_t count = 1;
    if (definition == NULL)
        return count;
    const struct definition_scales *all =
        &mender->sized->scales[definition->index];
    for (size_t i = 0; i < all->items.count && count < 4; i++)
        if (!rational_equal(all->items.items[i].factor, rational_whole(1)))
            scales[count++] = all->items.items[i].factor;
    return count;
}

/* How far the two sides of an error are apart, or a part of it, as each of
 * several pieces has its share. */
static void add_differences(const struct mender *mender,
                            struct numbers *numbers, struct rational number,
                            struct rational scale, int64_t first, int64_t last)
{
    for (size_t i = 0; i < mender->error_count && i < ERRORS_MANY; i++)
        for (size_t side = 0; side < 2; side++)
            for (int64_t share = first; share <= last; share++) {
                const struct rational off = mender->errors[i]->off[side];
                if (rational_known(off) && rational_sign(off) != 0)
                    add_around(numbers, number,
                               rational_div(off, rational_times(scale, share)));
            }
}

/* Lengths of the same attribute, or of the other side of one. */
static void add_beside(struct numbers *numbers, const struct element *element,
                       enum attribute_id id)
{
    for (size_t i = 0; i < element->value_count; i++) {
        const struct value *value = &element->values[i];
        const bool side = (id == ATTR_WIDTH || id == ATTR_HEIGHT) &&
                          (value->id == ATTR_WIDTH || value->id == ATTR_HEIGHT);
        if (!value->usable || (value->id != id && !side))
            continue;
        add_number(numbers, value->number);
        if (id == ATTR_FINISHED || id == ATTR_UNFINISHED || id == ATTR_CUT)
            add_number(numbers, value->second);
    }
    for (size_t i = 0; i < element->children.count; i++)
        add_beside(numbers, element->children.items[i], id);
}

/* From likely to unlikely: numbers by which the two sides of an error would
 * agree, numbers of the same kind nearby, then typical slips: a larger share of
 * the error, a step of the ruler, the seams added or left out, a whole, a half
 * or a quarter, twice or half of it. `likely` parts the first two from the
 * rest. */
static struct numbers numbers_near(const struct mender *mender,
                                   const struct element *element,
                                   const struct value *value,
                                   struct rational number)
{
    const struct pattern *pattern = mender->sized->design->pattern;
    struct numbers numbers = {.count = 0};
    struct rational scales[4];
    const size_t count = scales_of(mender, element, scales);
    for (size_t i = 0; i < count; i++)
        add_differences(mender, &numbers, number, scales[i], 1, 2);
    add_beside(&numbers, top_of(mender, element), value->id);
    numbers.likely = numbers.count;
    for (size_t i = 0; i < count; i++) {
        add_differences(mender, &numbers, number, scales[i], 3, 8);
        add_around(&numbers, number,
                   rational_div(pattern->cutting_step, scales[i]));
        add_around(&numbers, number,
                   rational_div(rational_times(pattern->seam, 2), scales[i]));
    }
    static const int64_t parts[][2] = {{1, 1}, {1, 2}, {1, 4}};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        add_around(&numbers, number, rational_make(parts[i][0], parts[i][1]));
    add_number(&numbers, rational_times(number, 2));
    add_number(&numbers, rational_div(number, rational_whole(2)));
    return numbers;
}

/* The likely ones first, of all places; with them those that are rounder than
 * what is written. */
static void rank_number(struct mender *mender, const struct numbers *numbers,
                        struct rational now, size_t i)
{
    const bool rounder =
        rational_known(now) && (!rational_is_fraction(now) ||
                                numbers->items[i].den < now.den);
    const bool likely = i < numbers->likely;
    mender->rank = likely && (i < 3 || rounder) ? 1
                   : likely || rounder          ? 2
                   : i < 12                     ? 3
                                                : 4;
}

/* As it would be written in the source, without glyphs. */
static const char *length_text(const struct mender *mender,
                               struct rational number)
{
    return length_written(mender->arena, number,
                        mender->sized->design->pattern->units);
}

/* Two sides in one value, "4 x 6": either may be wrong, or they are in the
 * wrong order. */
static void offer_size(struct mender *mender, const struct element *element,
                       const struct value *value)
{
    for (int side = 0; side < 2; side++) {
        const struct rational now = side == 0 ? value->number : value->second;
        const struct numbers numbers =
            numbers_near(mender, element, value, now);
        for (size_t i = 0; i < numbers.count; i++) {
            rank_number(mender, &numbers, now, i);
            offer_value(
                mender, element, value->id,
                arena_printf(mender->arena, "%s x %s",
                             length_text(mender, side == 0 ? numbers.items[i]
                                                           : value->number),
                             length_text(mender, side == 1 ? numbers.items[i]
                                                           : value->second)),
                numbers.items[i]);
        }
    }
    offer_value(mender, element, value->id,
                arena_printf(mender->arena, "%s x %s",
                             length_text(mender, value->second),
                             length_text(mender, value->number)),
                value->number);
}

/* One number in the value, or a square told by one side. */
static void offer_lengths(struct mender *mender, const struct element *element,
                          const struct value *value)
{
    const struct numbers numbers =
        numbers_near(mender, element, value, value->number);
    for (size_t i = 0; i < numbers.count; i++) {
        rank_number(mender, &numbers, value->number, i);
        offer_value(mender, element, value->id,
                    length_text(mender, numbers.items[i]), numbers.items[i]);
    }
}

/* Counts below 1 are refused by the reader anyway. The number 1 stands for a
 * coarse one: no count is finer than another. */
static void offer_count(struct mender *mender, const struct element *element,
                        const struct value *value, long number)
{
    if (number > 0 && number != value->whole)
        offer_value(mender, element, value->id,
                    arena_printf(mender->arena, "%ld", number),
                    rational_whole(1));
}

/* Miscounting by one to three is usual, so is counting both halves or one of
 * them; a grid may also have as many rows as its pieces fill. */
static void offer_counts(struct mender *mender, const struct element *element,
                         const struct value *value)
{
    const long now = value->whole;
    mender->rank = 1;
    for (long by = 1; by <= 3; by++) {
        offer_count(mender, element, value, now - by);
        offer_count(mender, element, value, now + by);
    }
    offer_count(mender, element, value, now * 2);
    offer_count(mender, element, value, now % 2 == 0 ? now / 2 : 0);
    const struct value *other =
        written(element, value->id == ATTR_ACROSS ? ATTR_DOWN : ATTR_ACROSS);
    const long pieces = (long)element->children.count;
    if (other != NULL && other->whole > 0 && pieces % other->whole == 0)
        offer_count(mender, element, value, pieces / other->whole);
}

/* The type of the attribute decides what may be near to the value. A value that
 * could not be read is told by the reader, with its own advice. */
void offer_numbers(struct mender *mender, const struct element *element,
                   const struct value *value)
{
#define TYPE_OF(id, name, type, choices) [id] = type,
    static const enum value_type types[ATTRIBUTE_COUNT] = {
        ATTRIBUTE_LIST(TYPE_OF)};
#undef TYPE_OF
    const enum value_type type = types[value->id];
    if (!value->usable)
        return;
    if (type == VALUE_SIZE && !value->single)
        offer_size(mender, element, value);
    else if (type == VALUE_LENGTH || type == VALUE_SIZE)
        offer_lengths(mender, element, value);
    else if (type == VALUE_WHOLE)
        offer_counts(mender, element, value);
    mender->rank = 0;
}

/* A side that was forgotten, where others beside it have one: a use of a block
 * takes its finished size, all else width and height. */
void offer_sizes(struct mender *mender, const struct element *element)
{
    static const enum attribute_id sides[] = {ATTR_WIDTH, ATTR_HEIGHT,
                                              ATTR_FINISHED};
    for (size_t i = 0; i < 3; i++) {
        const bool block = written(element, ATTR_BLOCK) != NULL;
        struct numbers numbers = {.count = 0};
        if (block != (sides[i] == ATTR_FINISHED) ||
            written(element, sides[i]) != NULL)
            continue;
        add_beside(&numbers, top_of(mender, element), sides[i]);
        for (size_t k = 0; k < numbers.count; k++)
            offer_value(mender, element, sides[i],
                        length_text(mender, numbers.items[k]),
                        numbers.items[k]);
    }
}
