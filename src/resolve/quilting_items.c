/* The lines, areas and fillers of a quilt's quilting: each element becomes an
 * item, with its names bound and its defaults filled in. Read next: words.c. */
#include <string.h>

#include "quilting_names.h"

/* ---- places ---- */

/* `id` names a unit, block or piece, or the quilt itself. */
static void bind_place_of(struct telling_quilting *telling,
                          struct quilting_place *place,
                          const struct element *element, enum attribute_id id)
{
    const struct named named = bind_named(telling->resolver, element, id, true,
                                          "unit, block or piece");
    place->attribute = id;
    place->of = named.definition;
    place->piece = named.piece;
}

/* What is not written stays open, and does not narrow the place. */
static struct quilting_place read_place(struct telling_quilting *telling,
                                        const struct element *element)
{
    struct quilting_place place = {.element = element, .fabric = NO_FABRIC};
    bind_place_of(telling, &place, element, ATTR_OF);
    place.fabric = bind_fabric(telling->resolver, element, ATTR_FABRIC);
    place.row = (size_t)whole_of(element, ATTR_ROW);
    place.column = (size_t)whole_of(element, ATTR_COLUMN);
    place.border = (size_t)whole_of(element, ATTR_BORDER);
    return place;
}

/* ---- by kind ---- */

/* reports: an echo of nothing, or of two things. */
static void read_echo(struct telling_quilting *telling, struct told_item *item)
{
    struct resolver *resolver = telling->resolver;
    const struct element *element = item->element;
    const struct value *around = value_of(element, ATTR_AROUND);
    const bool told = written_value(element, ATTR_AROUND) != NULL;
    const bool shape = written_value(element, ATTR_FABRIC) != NULL;
    if (!element->faulty && (told == shape) && (told || item->area == NO_ITEM))
        report_about(resolver, element, DIAG_MISSING_ATTRIBUTE, element->name,
                     "`echo` needs `fabric`, a shape, or `around`, lines%s",
                     told ? ", not both" : "");
    if (around != NULL) {
        int *lines =
            ARENA_ARRAY(resolver->run->arena, int, around->names.count);
        for (size_t i = 0; i < around->names.count; i++)
            lines[i] = bind_line(telling, element, around->names.items[i].text,
                                 around->names.items[i].span);
        item->of.echo.around = lines;
        item->of.echo.around_count = around->names.count;
    }
    const struct value *times = value_of(element, ATTR_ECHO_TIMES);
    const struct value *first = value_of(element, ATTR_FIRST_ECHO);
    item->of.echo.side =
        (enum told_side)choice_of(element, ATTR_ECHO_SIDE, TOLD_INSIDE);
    item->of.echo.spacing = length_of(element, ATTR_SPACING);
    item->of.echo.first = first == NULL ? item->of.echo.spacing : first->number;
    item->of.echo.times = times == NULL ? 1 : (size_t)times->whole;
    item->of.echo.rounded = choice_of(element, ATTR_ECHO_CORNERS, 0) == 1;
}

/* Without `with`, both ends are looked for in one place. */
static void read_connect(struct telling_quilting *telling,
                         struct told_item *item)
{
    const struct element *element = item->element;
    const struct value *stop = value_of(element, ATTR_STOP);
    item->of.connect.from =
        (enum point_kind)choice_of(element, ATTR_FROM, POINT_CORNERS);
    item->of.connect.to =
        (enum point_kind)choice_of(element, ATTR_TO, POINT_CORNERS);
    item->of.connect.with = item->place;
    if (written_value(element, ATTR_WITH_PLACE) != NULL)
        bind_place_of(telling, &item->of.connect.with, element,
                      ATTR_WITH_PLACE);
    item->of.connect.pair =
        (enum told_pair)choice_of(element, ATTR_PAIR, TOLD_FACING);
    item->of.connect.stop = stop == NULL ? rational_whole(0) : stop->number;
}

/* A word for the border, the name of a line, or else of what is pieced. */
static void read_area(struct telling_quilting *telling, struct told_item *item)
{
    const struct element *element = item->element;
    const struct value *touching = value_of(element, ATTR_TOUCHING);
    const struct value *inside = value_of(element, ATTR_INSIDE);
    size_t index;
    item->of.area.line = item->of.area.inside = NO_ITEM;
    item->of.area.shape.fabric = NO_FABRIC;
    item->of.area.shape.element = element;
    if (touching != NULL && strcmp(touching->text, "border") == 0) {
        item->of.area.touching = TOUCHING_BORDER;
    } else if (touching != NULL &&
               name_table_find(&telling->lines, touching->text, &index)) {
        item->of.area.touching = TOUCHING_LINE;
        item->of.area.line = (int)index;
    } else if (touching != NULL) {
        item->of.area.touching = TOUCHING_SHAPE;
        bind_place_of(telling, &item->of.area.shape, element, ATTR_TOUCHING);
    }
    if (inside != NULL)
        item->of.area.inside =
            bind_line(telling, element, inside->text, inside->span);
}

/* reports: what a filler lacks, or cannot have. */
static void check_fill(struct telling_quilting *telling,
                       const struct told_item *item)
{
    static const enum attribute_id all[] = {ATTR_SPACING, ATTR_THREAD,
                                            ATTR_ALONG};
    const struct element *element = item->element;
    const struct value *with = value_of(element, ATTR_FILL_WITH);
    const bool none = item->of.fill.with == TOLD_NONE;
    const bool runs =
        item->of.fill.with == TOLD_LINES || item->of.fill.with == TOLD_GRID;
    for (size_t i = 0; with != NULL && i < 3; i++) {
        const bool written = written_value(element, all[i]) != NULL;
        if (written && (none || (all[i] == ATTR_ALONG && !runs)))
            report_about(telling->resolver, element, DIAG_UNKNOWN_ATTRIBUTE,
                         value_span(element, all[i]),
                         "a fill with %s has no `%s`", with->text,
                         attribute_name(all[i]));
        else if (!written && !none && all[i] != ATTR_ALONG && !element->faulty)
            report_about(telling->resolver, element, DIAG_MISSING_ATTRIBUTE,
                         element->name, "a fill with %s needs `%s`", with->text,
                         attribute_name(all[i]));
    }
}

/* A word for a direction, or else the name of a line. */
static void read_fill(struct telling_quilting *telling, struct told_item *item)
{
    static const char *const words[] = {"across", "down", "rising", "falling"};
    const struct element *element = item->element;
    const struct value *along = value_of(element, ATTR_ALONG);
    item->of.fill.with =
        (enum told_fill)choice_of(element, ATTR_FILL_WITH, TOLD_NONE);
    item->of.fill.spacing = length_of(element, ATTR_SPACING);
    item->of.fill.along = ALONG_ACROSS;
    item->of.fill.line = NO_ITEM;
    check_fill(telling, item);
    if (along == NULL)
        return;
    for (int i = 0; i < 4; i++) {
        if (strcmp(along->text, words[i]) != 0)
            continue;
        item->of.fill.along = (enum fill_along)i;
        return;
    }
    item->of.fill.along = ALONG_LINE;
    item->of.fill.line = bind_line(telling, element, along->text, along->span);
}

/* ---- one item ---- */

/* What only this kind of element has. */
static void read_kind(struct telling_quilting *telling, struct told_item *item)
{
    switch (item->kind) {
    case TOLD_DITCH:
        break;
    case TOLD_EXTEND:
        item->of.until = (enum told_until)choice_of(item->element, ATTR_UNTIL,
                                                    TOLD_UNTIL_SEAM);
        break;
    case TOLD_ECHO:
        read_echo(telling, item);
        break;
    case TOLD_CONNECT:
        read_connect(telling, item);
        break;
    case TOLD_AREA:
        read_area(telling, item);
        break;
    case TOLD_FILL:
        read_fill(telling, item);
        break;
    }
}

/* requires: a child of `quilting` that is no thread, or of an `area`. */
static enum told_kind kind_of(enum element_kind kind)
{
    return kind == ELEMENT_DITCH     ? TOLD_DITCH
           : kind == ELEMENT_EXTEND  ? TOLD_EXTEND
           : kind == ELEMENT_ECHO    ? TOLD_ECHO
           : kind == ELEMENT_CONNECT ? TOLD_CONNECT
           : kind == ELEMENT_AREA    ? TOLD_AREA
                                     : TOLD_FILL;
}

/* Behind the item come those inside of it, so that they stand together. */
void read_item(struct telling_quilting *telling, const struct element *element,
               int area)
{
    struct resolver *resolver = telling->resolver;
    struct told_item item = {.kind = kind_of(element->kind),
                             .element = element,
                             .id = text_of(element, ATTR_ID, NULL),
                             .index = telling->quilting->items.count,
                             .area = area};
    item.thread = bind_thread(telling, element, ATTR_THREAD);
    item.place = read_place(telling, element);
    bind_two_fabrics(resolver, element, ATTR_BETWEEN, item.between);
    item.limit = stated_of(element, item.kind == TOLD_ECHO ? ATTR_ECHO_TIMES
                                                           : ATTR_UNTIL);
    item.outline = choice_of(element, ATTR_OUTLINE, 0) == 1;
    item.into = bind_fabric(resolver, element, ATTR_INTO);
    read_kind(telling, &item);
    *LIST_ADD(resolver->run->arena, &telling->quilting->items) = item;
    if (item.id != NULL)
        note_line(telling, &item);
    for (size_t i = 0; i < element->children.count; i++)
        read_item(telling, element->children.items[i], (int)item.index);
}
