/* Mistakes in one attribute: places, lines, turns, mirrors, lengths, counts. */
#include <string.h>

#include "mutants.h"

/* ---- choices ---- */

/* The attribute with its name, its quotes and the blank before it. */
static struct span whole_attribute(const struct value *value)
{
    return (struct span){value->name.start - 1, value->span.end + 1};
}

/* Writes the attribute with another value, into the tag if it is not there. */
static void write_value(struct sample *sample, enum kind kind, enum rule rule,
                        const struct element *element, enum attribute_id id,
                        const char *text)
{
    const struct value *value = value_of(element, id);
    if (value != NULL) {
        mutant_replace(sample, kind, rule, value->span, text);
        return;
    }
    const uint32_t at = element->name.end;
    mutant_replace(
        sample, kind, rule, (struct span){at, at},
        arena_printf(sample->arena, " %s=\"%s\"", attribute_name(id), text));
}

static void mutate_choice(struct sample *sample, enum kind kind, enum rule rule,
                          const struct element *element, enum attribute_id id,
                          const char *missing, const char *const *choices,
                          size_t count)
{
    const char *now = text_of(element, id, missing);
    for (size_t i = 0; i < count; i++)
        if (strcmp(choices[i], now) != 0)
            write_value(sample, kind, rule, element, id, choices[i]);
}

/* A piece of a map whose plain and mirrored cells are equally many: mirrored,
 * they change places, and each count stays as it is. */
static enum rule mirror_rule(const struct sample *sample,
                             const struct element *element)
{
    const struct element *parent = element->parent;
    long balance = 0, cells = 0;
    for (size_t i = 0; i < parent->children.count; i++) {
        const struct element *map = parent->children.items[i];
        uint32_t at = map->content.start;
        struct span word;
        size_t lines;
        while (map->kind == ELEMENT_MAP &&
               next_word(sample->source, map->content, &at, &word, &lines)) {
            const bool mirror = word.end - word.start > 2 &&
                                sample->source->bytes[word.start + 2] == 'm';
            balance += mirror ? -1 : 1;
            cells++;
        }
    }
    return cells > 0 && balance == 0 ? setting_rule(sample, element)
                                     : RULE_NONE;
}

static void mutate_mirror(struct sample *sample, const struct element *element)
{
    const struct value *value = value_of(element, ATTR_MIRROR);
    const enum rule rule = mirror_rule(sample, element);
    if (value == NULL)
        write_value(sample, KIND_MIRROR, rule, element, ATTR_MIRROR, "yes");
    else
        mutant_replace(sample, KIND_MIRROR, rule, whole_attribute(value), "");
}

/* ---- counts ---- */

static void mutate_whole(struct sample *sample, const struct value *value)
{
    for (long by = -1; by <= 1; by += 2)
        if (value->whole + by > 0)
            mutant_replace(
                sample, KIND_COUNT, RULE_NONE, value->span,
                arena_printf(sample->arena, "%ld", value->whole + by));
}

/* `equal` left out. */
static void mutate_equal(struct sample *sample, const struct element *element)
{
    const struct value *value = value_of(element, ATTR_EQUAL);
    if (value != NULL && value->choice == 1)
        mutant_replace(sample, KIND_LENGTH, RULE_NONE, whole_attribute(value),
                       "");
}

static void mutate_counts(struct sample *sample, const struct element *element)
{
    mutate_equal(sample, element);
    static const enum attribute_id counts[] = {
        ATTR_COUNT, ATTR_ACROSS, ATTR_DOWN, ATTR_CELLS, ATTR_TIMES};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        const struct value *value = value_of(element, counts[i]);
        if (value != NULL)
            mutate_whole(sample, value);
    }
}

/* Geese and squares in squares; what is not written is the first word. */
static void mutate_geese(struct sample *sample, const struct element *element)
{
    static const char *const ways[] = {"up", "right", "down", "left"};
    static const char *const geese[] = {"corners", "four"};
    static const char *const squares[] = {"corners", "triangles"};
    if (element->kind == ELEMENT_FLYING_GEESE) {
        mutate_choice(sample, KIND_POINTS, setting_rule(sample, element),
                      element, ATTR_POINTS_TO, "up", ways, 4);
        mutate_choice(sample, KIND_METHOD, RULE_METHOD, element,
                      ATTR_GOOSE_METHOD, "corners", geese, 2);
    }
    if (element->kind == ELEMENT_SQUARE_IN_SQUARE)
        mutate_choice(sample, KIND_METHOD, RULE_METHOD, element,
                      ATTR_SQUARE_METHOD, "corners", squares, 2);
}

/* ---- how triangles are made ---- */

static const char *const places[] = {"top-left", "top-right", "bottom-right",
                                     "bottom-left"};

static void mutate_method(struct sample *sample, const struct element *element)
{
    static const char *const methods[] = {"one", "two", "four", "eight"};
    const bool stated = value_of(element, ATTR_CUT) != NULL;
    const bool quarter = element->kind == ELEMENT_QUARTER_SQUARE;
    mutate_choice(sample, KIND_METHOD, stated ? RULE_NONE : RULE_METHOD,
                  element, quarter ? ATTR_QUARTER_METHOD : ATTR_METHOD, "two",
                  methods, quarter ? 2 : 4);
}

/* Corner c lies between side c, clockwise from the top, and the one before. */
static bool could_be_plain(const struct element *element, int corner)
{
    static const enum attribute_id sides[] = {ATTR_TOP, ATTR_RIGHT, ATTR_BOTTOM,
                                              ATTR_LEFT};
    return strcmp(text_of(element, sides[corner], ""),
                  text_of(element, sides[(corner + 3) % 4], "")) == 0;
}

static void mutate_plain(struct sample *sample, const struct element *element)
{
    const struct value *value = value_of(element, ATTR_PLAIN);
    if (value != NULL)
        mutant_replace(sample, KIND_PLAIN, RULE_PLAIN, whole_attribute(value),
                       "");
    for (int c = 0; c < 4; c++)
        if (value == NULL || value->choice != c)
            write_value(sample, KIND_PLAIN,
                        could_be_plain(element, c) ? RULE_PLAIN : RULE_NONE,
                        element, ATTR_PLAIN, places[c]);
}

/* Strips that butt and strips that are mitred show the same; pieces at the
 * corners leave no other choice. */
static void mutate_border(struct sample *sample, const struct element *element)
{
    static const char *const corners[] = {"butted", "mitred"};
    mutate_choice(sample, KIND_METHOD,
                  element->children.count > 0 ? RULE_NONE : RULE_METHOD,
                  element, ATTR_CORNERS, "butted", corners, 2);
}

/* Which way the first triangle points, as it is sewn and as it is drawn. */
static void mutate_triangles(struct sample *sample,
                             const struct element *element)
{
    static const char *const ways[] = {"up", "down"};
    if (element->kind == ELEMENT_TRIANGLES)
        mutate_choice(sample, KIND_POINTS, row_rule(sample, element), element,
                      ATTR_FIRST_POINTS, "up", ways, 2);
    if (value_of(element, ATTR_TRIANGLE_CELLS) != NULL)
        mutate_choice(sample, KIND_POINTS, RULE_NONE, element,
                      ATTR_TRIANGLE_CELLS, "up", ways, 2);
}

void mutate_attributes(struct sample *sample, const struct element *element)
{
    static const char *const lines[] = {"rising", "falling"};
    static const char *const turns[] = {"0", "90", "180", "270"};
    if (value_of(element, ATTR_AT) != NULL)
        mutate_choice(sample, KIND_CORNER, RULE_NONE, element, ATTR_AT, "",
                      places, 4);
    if (value_of(element, ATTR_LINE) != NULL)
        mutate_choice(sample, KIND_LINE, RULE_NONE, element, ATTR_LINE, "",
                      lines, 2);
    if (element->kind == ELEMENT_USE)
        mutate_choice(sample, KIND_TURN, setting_rule(sample, element), element,
                      ATTR_TURN, "0", turns, 4);
    if (element->kind == ELEMENT_HALF_SQUARE ||
        element->kind == ELEMENT_QUARTER_SQUARE)
        mutate_method(sample, element);
    if (element->kind == ELEMENT_QUARTER_SQUARE)
        mutate_plain(sample, element);
    if (element->kind == ELEMENT_USE || element->kind == ELEMENT_STEP)
        mutate_mirror(sample, element);
    if (element->kind == ELEMENT_BORDER)
        mutate_border(sample, element);
    mutate_geese(sample, element);
    mutate_triangles(sample, element);
    mutate_counts(sample, element);
}
