#include "piece_list.h"

#include <ctype.h>
#include <string.h>

#include "length.h"

enum { MOST_SIZES = 400, MOST_STEPS = 1000000 };

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
    struct rational width, height;
    const char *problem;
    size_t line;
};

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
    } else if (reader->sizes.count == MOST_SIZES) {
        complain(reader, "more than 400 sizes");
    } else {
        struct written *size = LIST_ADD(reader->arena, &reader->sizes);
        size->width = number(reader, first);
        size->height = number(reader, word(reader, &at));
        size->demand = whole(reader, word(reader, &at));
        size->name = word(reader, &at);
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
    if (rational_sign(reader->height) > 0)
        list->sheet_height = in_steps(reader->height, list->step);
}

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
    if (rational_sign(reader.width) <= 0)
        complain(&reader, "no line says the width of the cloth: width 42");
    else if (reader.sizes.count == 0)
        complain(&reader, "the list has no pieces");
    if (reader.problem == NULL)
        scale(&reader, &list, turns);
    list.problem_text = reader.problem;
    return list;
}
