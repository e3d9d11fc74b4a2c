#include "piece_list.h"

#include <ctype.h>
#include <string.h>

#include "length.h"

enum {
    MOST_SIZES = 1000,
    MOST_BESIDE_LEFTOVERS = 400,
    MOST_STEPS = 1000000,
    MOST_LEFTOVERS = 50
};

/* Of sheets, sizes times steps one way times steps the other: beyond it even
 * one sheet takes longer to fill than anybody waits. */
static const int64_t most_cells = 100000000;

/* One size as it was written. */
struct written {
    struct rational width, height;
    size_t demand;
    const char *name;
    size_t line;
};

enum keyword {
    KEYWORD_WIDTH,
    KEYWORD_HEIGHT,
    KEYWORD_FIRST_CUT,
    KEYWORD_LEFTOVER,
    KEYWORD_UNIT,
    KEYWORD_COUNT
};

static const char *const keywords[KEYWORD_COUNT] = {
    "width", "height", "first-cut", "leftover", "unit"};

/* Only the first mistake is kept: a list is short and soon mended. */
struct list_reader {
    struct arena *arena;
    LIST(struct written) sizes;
    LIST(struct written) leftovers;
    struct rational width, height;
    size_t said[KEYWORD_COUNT]; /* in which line each keyword stands, or 0 */
    enum length_unit unit;      /* of numbers without one */
    enum sheet_first_cut first_cut;
    const char *problem;
    size_t line;
};

/* With the line that is read at the moment. */
static void complain(struct list_reader *reader, const char *what)
{
    if (reader->problem == NULL)
        reader->problem = reader->line == 0
                              ? what
                              : arena_printf(reader->arena, "line %zu: %s",
                                             reader->line, what);
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

static bool is_whole(const char *text)
{
    return text[0] != '\0' && strspn(text, "0123456789") == strlen(text);
}

/* "1/2". */
static bool is_fraction(const char *text)
{
    const size_t above = strspn(text, "0123456789");
    return above > 0 && text[above] == '/' && is_whole(text + above + 1);
}

/* A length: one word, or a mixed number as it is written elsewhere, in two. 1
 * stands in for a mistake, so that reading goes on. */
static struct rational side_after(struct list_reader *reader, const char *first,
                                  const char **at)
{
    const char *text = first, *ahead = *at;
    const char *second = word(reader, &ahead);
    if (is_whole(first) && is_fraction(second)) {
        text = arena_printf(reader->arena, "%s %s", first, second);
        *at = ahead;
    }
    const struct length_result result =
        length_parse(text, strlen(text), reader->unit);
    if (result.fault != LENGTH_OK || rational_sign(result.value) <= 0) {
        complain(reader, text[0] == '\0'
                             ? "a length is missing, such as 2.5 or 2 1/2"
                             : arena_printf(reader->arena,
                                            "`%s` is no length above 0, such "
                                            "as 2.5, 2 1/2 or 2-1/2",
                                            text));
        return rational_whole(1);
    }
    return result.value;
}

static struct rational side(struct list_reader *reader, const char **at)
{
    const char *first = word(reader, at);
    return side_after(reader, first, at);
}

/* Six digits at most. */
static size_t count_after(struct list_reader *reader, const char **at)
{
    const char *text = word(reader, at);
    if (!is_whole(text) || strspn(text, "0") == strlen(text))
        complain(reader,
                 text[0] == '\0'
                     ? "behind the two lengths, a count is missing"
                     : arena_printf(reader->arena,
                                    "behind the two lengths, `%s` is no count "
                                    "above 0",
                                    text));
    else if (strlen(text) > 6)
        complain(reader, "a count of more than 999999 pieces");
    size_t value = 0;
    for (size_t i = 0; i < 6 && isdigit((unsigned char)text[i]); i++)
        value = value * 10 + (size_t)(text[i] - '0');
    return value;
}

/* What is left of the line, without the blanks around it. */
static const char *rest_of(struct list_reader *reader, const char *at)
{
    at += strspn(at, " \t\r");
    size_t length = strlen(at);
    while (length > 0 && strchr(" \t\r", at[length - 1]) != NULL)
        length--;
    return arena_copy(reader->arena, at, length);
}

static void expect_end(struct list_reader *reader, const char *at)
{
    const char *rest = rest_of(reader, at);
    if (rest[0] != '\0')
        complain(reader, arena_printf(reader->arena,
                                      "nothing is expected here: `%s`", rest));
}

/* Two sides and a count; the first word is read already. */
static struct written sides(struct list_reader *reader, const char *first,
                            const char **at)
{
    struct written size = {.width = side_after(reader, first, at),
                           .line = reader->line};
    size.height = side(reader, at);
    size.demand = count_after(reader, at);
    return size;
}

/* The name is all that stands behind. One that begins like a number is rather a
 * number too many. */
static void read_size(struct list_reader *reader, const char *first,
                      const char *at)
{
    if (reader->sizes.count == MOST_SIZES) {
        complain(reader, "more than 1,000 sizes");
        return;
    }
    struct written size = sides(reader, first, &at);
    size.name = rest_of(reader, at);
    if (isdigit((unsigned char)size.name[0]))
        complain(reader,
                 arena_printf(reader->arena,
                              "a size is two lengths, a count and a name, "
                              "which does not begin with a digit: `%s`",
                              size.name));
    *LIST_ADD(reader->arena, &reader->sizes) = size;
}

static void read_leftover(struct list_reader *reader, const char *at)
{
    if (reader->leftovers.count == MOST_LEFTOVERS) {
        complain(reader, "more than 50 leftovers");
        return;
    }
    const char *first = word(reader, &at);
    *LIST_ADD(reader->arena, &reader->leftovers) = sides(reader, first, &at);
    expect_end(reader, at);
}

static void read_first_cut(struct list_reader *reader, const char *at)
{
    const char *way = word(reader, &at);
    const bool down = strcmp(way, "down") == 0;
    reader->first_cut = down ? SHEET_CUT_DOWN : SHEET_CUT_ACROSS;
    if (!down && strcmp(way, "across") != 0)
        complain(reader, "first-cut is across or down");
    expect_end(reader, at);
}

/* Said once, but leftovers. */
static void read_keyword(struct list_reader *reader, enum keyword keyword,
                         const char *at)
{
    if (keyword != KEYWORD_LEFTOVER && reader->said[keyword] > 0)
        complain(reader,
                 arena_printf(reader->arena, "`%s` stands in line %zu already",
                              keywords[keyword], reader->said[keyword]));
    reader->said[keyword] = reader->line;
    switch (keyword) {
    case KEYWORD_WIDTH:
        reader->width = side(reader, &at);
        expect_end(reader, at);
        break;
    case KEYWORD_HEIGHT:
        reader->height = side(reader, &at);
        expect_end(reader, at);
        break;
    case KEYWORD_FIRST_CUT:
        read_first_cut(reader, at);
        break;
    case KEYWORD_LEFTOVER:
        read_leftover(reader, at);
        break;
    case KEYWORD_UNIT: /* lengths are exact: a ruler's steps are not needed */
    case KEYWORD_COUNT:
        break;
    }
}

/* A word that is no keyword begins a size. */
static void read_line(struct list_reader *reader, const char *line)
{
    const char *at = line;
    const char *first = word(reader, &at);
    if (first[0] == '\0' || first[0] == '#')
        return;
    for (int i = 0; i < KEYWORD_COUNT; i++)
        if (strcmp(first, keywords[i]) == 0) {
            read_keyword(reader, (enum keyword)i, at);
            return;
        }
    read_size(reader, first, at);
}

/* A width in centimetres says that the list is in centimetres. */
static enum length_unit unit_of(struct list_reader *reader, const char *text)
{
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        const char *line = arena_copy(reader->arena, text, length);
        if (strcmp(word(reader, &line), "width") == 0) {
            const char *written = rest_of(reader, line);
            const size_t size = strlen(written);
            return size > 2 && strcmp(written + size - 2, "cm") == 0 ? UNIT_CM
                                                                     : UNIT_IN;
        }
        text += length + (text[length] == '\n');
    }
    return UNIT_IN;
}

/* The largest step of which all lengths are whole multiples; unknown where 64
 * bits do not hold it. */
static struct rational common_step(const struct rational *lengths, size_t count)
{
    struct rational step = lengths[0];
    for (size_t i = 0; i < count; i++)
        if (!rational_is_fraction(lengths[i]))
            return rational_unknown();
    for (size_t i = 1; i < count; i++) {
        const int64_t den =
            step.den / whole_common_divisor(step.den, lengths[i].den);
        const struct rational a = rational_times(step, den * lengths[i].den);
        const struct rational b =
            rational_times(lengths[i], den * lengths[i].den);
        if (!rational_is_fraction(a) || !rational_is_fraction(b))
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

/* reports: the first piece that no cloth holds; the longer side may be laid
 * along only where pieces may be turned. requires: whole steps. */
static void check_fits(struct list_reader *reader,
                       const struct piece_list *list, bool turns)
{
    const int64_t room = list->problem.width;
    const bool sheets = rational_sign(reader->height) > 0;
    const int64_t high = sheets ? list->sheet_height : INT64_MAX;
    for (size_t i = 0; i < list->problem.count; i++) {
        const struct roll_size *size = &list->problem.sizes[i];
        const bool fits =
            (size->width <= room && size->height <= high) ||
            (turns && size->height <= room && size->width <= high);
        const struct written *from = &reader->sizes.items[i];
        reader->line = from->line;
        if (!fits)
            complain(
                reader,
                arena_printf(
                    reader->arena, "%s%s%s%s by %s is %s",
                    from->name[0] == '\0' ? "" : "`", from->name,
                    from->name[0] == '\0' ? "a piece of " : "`, ",
                    length_plain(reader->arena, from->width, reader->unit),
                    length_plain(reader->arena, from->height, reader->unit),
                    sheets ? "larger than the sheet" : "wider than the cloth"));
    }
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
    if (reader->problem == NULL)
        check_fits(reader, list, turns);
}

/* Lines may stand in any order, so all are read before lengths are scaled. */
struct piece_list read_piece_list(struct arena *arena, const char *text,
                                  bool turns)
{
    struct list_reader reader = {.arena = arena,
                                 .width = rational_whole(0),
                                 .height = rational_whole(0)};
    /* Some editors begin a text with U+FEFF. */
    if (strncmp(text, "\xEF\xBB\xBF", 3) == 0)
        text += 3;
    reader.unit = unit_of(&reader, text);
    struct piece_list list = {.step = rational_whole(1), .unit = reader.unit};
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        reader.line++;
        read_line(&reader, arena_copy(arena, text, length));
        text += length + (text[length] == '\n');
    }
    reader.line = 0; /* what is missing stands in no line */
    const bool both =
        reader.leftovers.count > 0 && rational_sign(reader.height) > 0;
    if (both)
        complain(&reader,
                 "leftovers are used before a roll, not before sheets");
    /* What leftovers are worth is found for so many only. */
    if (reader.leftovers.count > 0 &&
        reader.sizes.count > MOST_BESIDE_LEFTOVERS)
        complain(&reader, "more than 400 sizes beside leftovers");
    if (rational_sign(reader.width) <= 0)
        complain(&reader, "no line says the width of the cloth: width 42");
    else if (reader.sizes.count == 0)
        complain(&reader, "the list has no pieces");
    if (reader.problem == NULL)
        scale(&reader, &list, turns);
    list.problem_text = reader.problem;
    return list;
}
