/* Fabrics (the roles) and colorways (the real cloth in each role). A role
 * ("night", "lantern") is what pieces name; a colorway gives each role its
 * cloth. The index of a fabric in the design is its number in every later
 * table. Read next: pieces.c, which binds roles. */
#include "resolver.h"

#include <string.h>

#include "buffer.h"
#include "trade.h"

/* Unknown names of which each gets an offer or a list. */
enum { MOST_OFFERS = 200 };

/* Elements without a readable id are never the same. */
static bool same_id(const struct element *a, const struct element *b)
{
    const struct value *left = value_of(a, ATTR_ID);
    const struct value *right = value_of(b, ATTR_ID);
    return left != NULL && right != NULL &&
           strcmp(left->text, right->text) == 0;
}

/* Called with the fabric last added. reports: an id or a key that an earlier
 * one has, once. */
static void check_fabric_twice(struct resolver *resolver,
                               const struct fabric *fabric)
{
    struct run *run = resolver->run;
    for (size_t i = 0; i + 1 < resolver->design->fabrics.count; i++) {
        const struct fabric *other = &resolver->design->fabrics.items[i];
        if (same_id(fabric->element, other->element)) {
            report_second(
                resolver, fabric->element, other->element, ATTR_ID,
                arena_printf(run->arena, "a second fabric `%s`", fabric->id));
            return;
        }
        if (fabric->key == '\0' || fabric->key != other->key)
            continue;
        struct diagnostic *d = diag_report(
            run, DIAG_DOUBLE_NAME, value_span(fabric->element, ATTR_KEY),
            "the key `%c` stands for two fabrics", fabric->key);
        diag_note(run, d, value_span(other->element, ATTR_KEY),
                  "`%s` has it too", other->id);
        return;
    }
}

/* The key is one letter for pictures; '\0' where none was given. */
void resolve_fabrics(struct resolver *resolver)
{
    const struct element *root = resolver->design->pattern->root;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *group = root->children.items[i];
        for (size_t k = 0;
             group->kind == ELEMENT_FABRICS && k < group->children.count; k++) {
            const struct element *element = group->children.items[k];
            struct fabric *fabric =
                LIST_ADD(resolver->run->arena, &resolver->design->fabrics);
            fabric->element = element;
            fabric->id = text_of(element, ATTR_ID, "?");
            fabric->name = text_of(element, ATTR_NAME, fabric->id);
            fabric->key = text_of(element, ATTR_KEY, "")[0];
            fabric->one_way = choice_of(element, ATTR_PRINT, 0) == 2;
            check_fabric_twice(resolver, fabric);
        }
    }
}

/* "`a`, `b`": so many that they can be read. */
static const char *name_list(struct arena *arena, const char *const *names,
                             size_t count)
{
    enum { LISTED = 40 };
    struct buffer list = buffer_in(arena);
    for (size_t i = 0; i < count && i < LISTED; i++)
        buffer_printf(&list, "%s`%s`", i == 0 ? "" : ", ", names[i]);
    if (count > LISTED)
        buffer_printf(&list, ", and %zu more", count - LISTED);
    return buffer_string(&list);
}

/* Only a near name is a mend; a list of all names is a note, as it decides
 * nothing. */
void report_unknown(struct resolver *resolver, enum diag_code code,
                    const struct element *element, const char *text,
                    struct span span, const char *what,
                    const char *const *names, size_t count)
{
    struct run *run = resolver->run;
    /* A name that is nowhere is told where it stands first. */
    const size_t told = resolver->unknown.count;
    if (!name_table_add(run->arena, &resolver->unknown, text, told))
        return;
    struct diagnostic *d =
        report_about(resolver, element, code, span, "there is no %s %s", what,
                     quoted(run->arena, text));
    /* Behind so many, one cause is likelier than so many slips; comparing each
     * with all names would take long, and listing all names for each longer. */
    if (told >= MOST_OFFERS)
        return;
    const char *nearest = nearest_name(text, names, count);
    if (nearest != NULL)
        diag_mend(run, d, span, nearest, "did you mean %s?",
                  near_names(run->arena, text, names, count));
    else if (count > 0)
        diag_note(run, d, (struct span){0, 0}, "there is %s",
                  name_list(run->arena, names, count));
}

void report_unknown_name(struct resolver *resolver, enum diag_code code,
                         const struct element *element, enum attribute_id id,
                         const char *what, const char *const *names,
                         size_t count)
{
    const struct value *value = value_of(element, id);
    report_unknown(resolver, code, element, value->text, value->span, what,
                   names, count);
}

/* Gathered for the message, which is mostly not needed. */
static void report_unknown_fabric(struct resolver *resolver,
                                  const struct element *element,
                                  const char *text, struct span span)
{
    const struct design *design = resolver->design;
    const size_t most = fabric_numbers(design);
    const char **names =
        ARENA_ARRAY(resolver->run->arena, const char *, most + 1);
    size_t count = 0;
    for (size_t i = 0; i < most; i++)
        if (may_name_fabric(design, resolver->within, (int)i))
            names[count++] = fabric_id(design, (int)i);
    report_unknown(resolver, DIAG_UNKNOWN_FABRIC, element, text, span, "fabric",
                   names, count);
}

/* A role of the definition at work hides a fabric of its name. */
int bind_fabric_text(struct resolver *resolver, const struct element *element,
                     const char *text, struct span span)
{
    const struct design *design = resolver->design;
    const int role = role_named(design, resolver->within, text);
    if (role != NO_FABRIC) {
        use_role(resolver, role);
        return role;
    }
    for (size_t i = 0; i < design->fabrics.count; i++)
        if (strcmp(design->fabrics.items[i].id, text) == 0)
            return (int)i;
    report_unknown_fabric(resolver, element, text, span);
    return NO_FABRIC;
}

/* A missing or unreadable name was reported by the reader and stays silent
 * here. */
int bind_fabric(struct resolver *resolver, const struct element *element,
                enum attribute_id id)
{
    const struct value *value = value_of(element, id);
    return value == NULL
               ? NO_FABRIC
               : bind_fabric_text(resolver, element, value->text, value->span);
}

/* requires: a hexadecimal digit; values.c has refused all else. */
static int hex_digit(char c)
{
    return c <= '9' ? c - '0' : (c | 0x20) - 'a' + 10;
}

/* A part of #rrggbb as 0 to 1, from its two digits at `at`. */
double color_part(const char *text, size_t at)
{
    return (hex_digit(text[at]) * 16 + hex_digit(text[at + 1])) / 255.0;
}

/* Cloth that is washed first loses the same part of its width as of its length;
 * what is left is rounded down to the cutting step, so that a strip never comes
 * out short. reports: selvages that leave no cloth. */
static void measure_cloth(struct resolver *resolver, struct bolt *bolt,
                          const struct element *element)
{
    const struct pattern *pattern = resolver->design->pattern;
    const struct value *width = value_of(element, ATTR_WIDTH);
    const struct value *selvage = value_of(element, ATTR_SELVAGE);
    const struct value *shrinkage = value_of(element, ATTR_SHRINKAGE);
    const struct value *allowance = value_of(element, ATTR_ALLOWANCE);
    bolt->width = width != NULL
                      ? width->number
                      : trade_length(TRADE_CLOTH_WIDTH, pattern->units);
    bolt->selvage = selvage == NULL ? rational_whole(0) : selvage->number;
    bolt->shrinkage = shrinkage == NULL ? rational_whole(0)
                                        : rational_div(shrinkage->number,
                                                       rational_whole(100));
    bolt->allowance =
        allowance == NULL ? rational_unknown() : allowance->number;
    const struct value *reserve = value_of(element, ATTR_RESERVE);
    bolt->reserve = reserve == NULL ? pattern->reserve : reserve->number;
    bolt->layers = layers_of(element, pattern->layers);
    bolt->width = rational_sub(bolt->width, rational_times(bolt->selvage, 2));
    if (rational_known(bolt->width) && rational_sign(bolt->width) <= 0) {
        diag_report(resolver->run, DIAG_SIZE_NEGATIVE,
                    value_span(element, ATTR_SELVAGE),
                    "nothing is left of the cloth between its selvages");
        bolt->width = rational_unknown();
    }
    if (rational_known(bolt->width) && rational_sign(bolt->shrinkage) > 0)
        bolt->width = rational_times(
            pattern->cutting_step,
            rational_floor(rational_div(
                rational_mul(bolt->width,
                             rational_sub(rational_whole(1), bolt->shrinkage)),
                pattern->cutting_step)));
}

/* The thread that it plays is looked for when all quilts are known. */
static void add_spool(struct resolver *resolver, struct colorway *colorway,
                      const struct element *element)
{
    struct spool *spool = LIST_ADD(resolver->run->arena, &colorway->spools);
    spool->element = element;
    spool->thread = text_of(element, ATTR_THREAD, "?");
    spool->name = text_of(element, ATTR_NAME, "");
    spool->length = length_of(element, ATTR_LENGTH);
    spool->spools = amounts_of(element, ATTR_SPOOLS);
    const struct value *color = value_of(element, ATTR_COLOR);
    spool->colored = color != NULL;
    if (color != NULL) {
        spool->red = color_part(color->text, 1);
        spool->green = color_part(color->text, 3);
        spool->blue = color_part(color->text, 5);
    }
}

/* ensures: every field set, with the trade's default where nothing is written.
 * Width is a real length in the pattern's unit. */
static void fill_bolt(struct resolver *resolver, struct bolt *bolt,
                      const struct element *element, int fabric)
{
    const struct design *design = resolver->design;
    bolt->element = element;
    bolt->fabric = fabric;
    bolt->name =
        text_of(element, ATTR_NAME, design->fabrics.items[fabric].name);
    bolt->code = text_of(element, ATTR_CODE, "");
    const struct value *color = value_of(element, ATTR_COLOR);
    if (color != NULL) {
        bolt->red = color_part(color->text, 1);
        bolt->green = color_part(color->text, 3);
        bolt->blue = color_part(color->text, 5);
    }
    measure_cloth(resolver, bolt, element);
    bolt->sold = (enum sold_as)choice_of(element, ATTR_SOLD, SOLD_YARDAGE);
    bolt->price = length_of(element, ATTR_PRICE);
    bolt->yards = amounts_of(element, ATTR_YARDS);
    bolt->fat_quarters = amounts_of(element, ATTR_FAT_QUARTERS);
    bolt->sheets = amounts_of(element, ATTR_SHEETS);
}

/* reports: each role without cloth. Every colorway must dress the whole quilt,
 * as every one becomes a booklet. */
static void report_missing_bolts(struct resolver *resolver,
                                 const struct colorway *colorway)
{
    const struct design *design = resolver->design;
    for (size_t i = 0; i < design->fabrics.count; i++)
        if (colorway->bolts[i].element == NULL && !colorway->element->faulty)
            diag_report(resolver->run, DIAG_MISSING_CLOTH,
                        value_span(colorway->element, ATTR_ID),
                        "the colorway `%s` has no cloth for the fabric `%s`",
                        colorway->id, design->fabrics.items[i].id);
}

/* Bolts are an array by fabric index; one without an element is missing. */
static void resolve_colorway(struct resolver *resolver,
                             const struct element *element)
{
    struct run *run = resolver->run;
    struct design *design = resolver->design;
    struct bolt *bolts =
        ARENA_ARRAY(run->arena, struct bolt, design->fabrics.count + 1);
    struct colorway *colorway = LIST_ADD(run->arena, &design->colorways);
    bool sound = true;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (child->kind == ELEMENT_SPOOL) {
            add_spool(resolver, colorway, child);
            continue;
        }
        const int fabric = bind_fabric(resolver, child, ATTR_FABRIC);
        if (fabric == NO_FABRIC) {
            sound = false; /* perhaps the one that would be missed */
        } else if (bolts[fabric].element != NULL) {
            /* The first one plays the role; a second says nothing more. */
            report_second(resolver, child, bolts[fabric].element, ATTR_FABRIC,
                          arena_printf(run->arena,
                                       "a second cloth for the fabric `%s`",
                                       design->fabrics.items[fabric].id));
        } else {
            fill_bolt(resolver, &bolts[fabric], child, fabric);
        }
    }
    colorway->element = element;
    colorway->id = text_of(element, ATTR_ID, "?");
    colorway->name = text_of(element, ATTR_NAME, colorway->id);
    colorway->bolts = bolts;
    if (sound)
        report_missing_bolts(resolver, colorway);
}

/* reports: an id that an earlier colorway has: it becomes a file's name. */
void resolve_colorways(struct resolver *resolver)
{
    const struct element *root = resolver->design->pattern->root;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *element = root->children.items[i];
        if (element->kind != ELEMENT_COLORWAY)
            continue;
        for (size_t k = 0; k < i; k++) {
            const struct element *other = root->children.items[k];
            if (other->kind == ELEMENT_COLORWAY && same_id(element, other)) {
                report_second(resolver, element, other, ATTR_ID,
                              arena_printf(resolver->run->arena,
                                           "a second colorway `%s`",
                                           text_of(element, ATTR_ID, "?")));
                break;
            }
        }
        resolve_colorway(resolver, element);
    }
}
