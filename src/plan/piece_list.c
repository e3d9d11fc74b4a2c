#include "piece_list.h"

#include <ctype.h>
#include <string.h>

#include "length.h"

enum { MOST_SIZES = 400, MOST_STEPS = 1000000, MOST_LEFTOVERS = 50 };

/* Of sheets, sizes times steps one way times steps the other: beyond it even
 * one sheet takes longer to fill than anybody waits. */
static const int64_t most_cells = 100000000;

/* One size as it was written. */
struct written {
    struct rational width, height;
    size_t demand;
    const char *name;
};

/* Only the first mistake is kept: a list is short and soon mended. */
struct list_reader {
    struct arena *arena;
    LIST(struct written) sizes;
    LIST(struct written) leftovers;
    struct rational width, height;
    enum sheet_first_cut first_cut;
    const char *problem;
    size_t line;
};

/* With the line that is read at the moment. */
static void complain(struct list_reader *reader, const char *what)
{
    if (reader->problem == NULL)
        reader->problem =
            arena_printf(reader->arena, "line %zu: %s", reader->line, what);
}

/* The next word of a line, or an empty one. */
static const char *word(struct list_reader *reader, const char **at)
{
    *at += strspn(*at, " \t\r");
    const size_t length = strcspn(*at, " \t\r");
    const char *text = arena_copy(reader->arena, *at, length);
    *at += length;
    return text;
}

/* 1 stands in for a mistake, so that reading goes on. */
static struct rational number(struct list_reader *reader, const char *text)
{
    const struct length_result result =
        length_parse(text, strlen(text), UNIT_IN);
    if (result.fault != LENGTH_OK || rational_sign(result.value) <= 0) {
        complain(reader, "a length above 0 is expected, such as 2.5 or 2-1/2");
        return rational_whole(1);
    }
    return result.value;
}

/* Six digits at most. */
static size_t whole(struct list_reader *reader, const char *text)
{
    size_t value = 0;
    const size_t length = strlen(text);
    for (size_t i = 0; i < length && i < 7; i++) {
        if (!isdigit((unsigned char)text[i]))
            break;
        value = value * 10 + (size_t)(text[i] - '0');
    }
    if (length == 0 || length > 6 || strspn(text, "0123456789") != length ||
        value == 0)
        complain(reader, "a count above 0 is expected behind the two lengths");
    return value;
}

/* Two sides and a count; the first side may be read already. */
static struct written sides(struct list_reader *reader, const char *first,
                            const char **at)
{
    struct written size = {.width = number(reader, first)};
    size.height = number(reader, word(reader, at));
    size.demand = whole(reader, word(reader, at));
    return size;
}

/* A word that is no keyword begins a size. */
static void read_line(struct list_reader *reader, const char *line)
{
    const char *at = line;
    const char *first = word(reader, &at);
    if (first[0] == '\0' || first[0] == '#')
        return;
    if (strcmp(first, "width") == 0) {
        reader->width = number(reader, word(reader, &at));
    } else if (strcmp(first, "height") == 0) {
        reader->height = number(reader, word(reader, &at));
    } else if (strcmp(first, "unit") == 0) {
        word(reader, &at);
    } else if (strcmp(first, "first-cut") == 0) {
        const char *way = word(reader, &at);
        const bool down = strcmp(way, "down") == 0;
        reader->first_cut = down ? SHEET_CUT_DOWN : SHEET_CUT_ACROSS;
        if (!down && strcmp(way, "across") != 0)
            complain(reader, "first-cut is across or down");
    } else if (strcmp(first, "leftover") == 0) {
        if (reader->leftovers.count == MOST_LEFTOVERS)
            complain(reader, "more than 50 leftovers");
        else
            *LIST_ADD(reader->arena, &reader->leftovers) =
                sides(reader, word(reader, &at), &at);
    } else if (reader->sizes.count == MOST_SIZES) {
        complain(reader, "more than 400 sizes");
    } else {
        struct written size = sides(reader, first, &at);
        size.name = word(reader, &at);
        *LIST_ADD(reader->arena, &reader->sizes) = size;
    }
}

/* The largest step of which all lengths are whole multiples. */
static struct rational common_step(const struct rational *lengths, size_t count)
{
    struct rational step = lengths[0];
    for (size_t i = 1; i < count; i++) {
        const int64_t den =
            step.den / whole_common_divisor(step.den, lengths[i].den);
        const struct rational a = rational_times(step, den * lengths[i].den);
        const struct rational b =
            rational_times(lengths[i], den * lengths[i].den);
        if (!rational_known(a) || !rational_known(b))
            return rational_unknown();
        step = rational_make(whole_common_divisor(a.num, b.num),
                             den * lengths[i].den);
    }
    return step;
}

/* requires: step > 0. Rounds down: cloth that is no whole step is not used. */
static int64_t in_steps(struct rational length, struct rational step)
{
    return rational_floor(rational_div(length, step));
}

/* Can sheets of so many steps be planned in this life? */
static void check_cells(struct list_reader *reader, int64_t width,
                        int64_t height)
{
    if (width > MOST_STEPS || height > MOST_STEPS ||
        width * height > most_cells / (int64_t)reader->sizes.count)
        complain(reader, "too many sizes in steps too fine to plan sheets");
}

/* The steps that a length holds; one more than can be planned where there are
 * more. */
static int64_t sheet_steps(struct rational length, struct rational step)
{
    const struct rational steps = rational_div(length, step);
    if (!rational_known(steps) ||
        rational_compare(steps, rational_whole(MOST_STEPS)) > 0)
        return MOST_STEPS + 1;
    return rational_floor(steps);
}

/* Sheets and leftovers in whole steps; leftovers smaller than a step in one
 * way are no use. */
static void scale_sheets(struct list_reader *reader, struct piece_list *list)
{
    list->first_cut = reader->first_cut;
    list->sheet_sides[0] = reader->width;
    list->sheet_sides[1] = reader->height;
    if (rational_sign(reader->height) > 0) {
        list->sheet_height = sheet_steps(reader->height, list->step);
        check_cells(reader, list->problem.width, list->sheet_height);
        /* 0 would say that it is a roll. */
        if (list->sheet_height == 0)
            complain(reader, "a piece is larger than the sheet");
    }
    struct leftover *leftovers = ARENA_ARRAY(reader->arena, struct leftover,
                                             reader->leftovers.count + 1);
    struct rational *as_written = ARENA_ARRAY(reader->arena, struct rational,
                                              2 * reader->leftovers.count + 1);
    for (size_t i = 0; i < reader->leftovers.count; i++) {
        const struct written *from = &reader->leftovers.items[i];
        const struct leftover leftover = {sheet_steps(from->width, list->step),
                                          sheet_steps(from->height, list->step),
                                          from->demand};
        check_cells(reader, leftover.width, leftover.height);
        if (leftover.width == 0 || leftover.height == 0)
            continue;
        as_written[2 * list->leftover_count] = from->width;
        as_written[2 * list->leftover_count + 1] = from->height;
        leftovers[list->leftover_count++] = leftover;
    }
    list->leftovers = leftovers;
    list->leftover_sides = as_written;
}

/* From written lengths to whole steps. */
static void scale(struct list_reader *reader, struct piece_list *list,
                  bool turns)
{
    const size_t count = reader->sizes.count;
    struct rational *lengths =
        ARENA_ARRAY(reader->arena, struct rational, 2 * count + 2);
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        lengths[n++] = reader->sizes.items[i].width;
        lengths[n++] = reader->sizes.items[i].height;
    }
    /* The cloth itself is cut down to whole steps. */
    list->step = common_step(lengths, n);
    if (!rational_known(list->step) ||
        rational_compare(rational_div(reader->width, list->step),
                         rational_whole(MOST_STEPS)) > 0) {
        complain(reader, "the lengths have no common step to plan with");
        return;
    }
    struct roll_size *sizes =
        ARENA_ARRAY(reader->arena, struct roll_size, count);
    for (size_t i = 0; i < count; i++) {
        const struct written *size = &reader->sizes.items[i];
        sizes[i] = (struct roll_size){in_steps(size->width, list->step),
                                      in_steps(size->height, list->step),
                                      size->demand, turns, size->name};
    }
    list->problem.width = in_steps(reader->width, list->step);
    list->problem.sizes = sizes;
    list->problem.count = count;
    scale_sheets(reader, list);
}

/* Lines may stand in any order, so all are read before lengths are scaled. */
struct piece_list read_piece_list(struct arena *arena, const char *text,
                                  bool turns)
{
    struct list_reader reader = {.arena = arena,
                                 .width = rational_whole(0),
                                 .height = rational_whole(0)};
    struct piece_list list = {.step = rational_whole(1)};
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        reader.line++;
        read_line(&reader, arena_copy(arena, text, length));
        text += length + (text[length] == '\n');
    }
    const bool both =
        reader.leftovers.count > 0 && rational_sign(reader.height) > 0;
    if (both)
        complain(&reader,
                 "leftovers are used before a roll, not before sheets");
    if (rational_sign(reader.width) <= 0)
        complain(&reader, "no line says the width of the cloth: width 42");
    else if (reader.sizes.count == 0)
        complain(&reader, "the list has no pieces");
    if (reader.problem == NULL)
        scale(&reader, &list, turns);
    list.problem_text = reader.problem;
    return list;
}
