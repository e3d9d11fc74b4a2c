/* The text of an attribute becomes a value of its type. May assume that libxml2
 * has resolved references and that the attribute may stand on its element. A
 * value that cannot be read is kept, marked not usable, and reported here once:
 * later stages then stay silent about all that hangs on it. */
#include "meant.h"
#include "reader.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "buffer.h"

/* More than any count in a quilt, and small enough that products of two of them
 * fit every integer type that is used. */
enum { LIMIT_WHOLE = 10000 };

struct span value_part(const struct value *value, size_t start, size_t end)
{
    /* Only where the value was written without references do offsets inside
     * it match the source; else point at the whole value. */
    if (strlen(value->text) != value->span.end - value->span.start ||
        start >= end)
        return value->span;
    return (struct span){value->span.start + (uint32_t)start,
                         value->span.start + (uint32_t)end};
}

/* reports: that the value is not what was `expected`; marks it. */
struct diagnostic *value_not_usable(struct run *run, const char *name,
                                    struct value *value, const char *expected)
{
    value->usable = false;
    return diag_report(run, DIAG_VALUE, value->span, "%s=%s is not %s", name,
                       quoted(run->arena, value->text), expected);
}

static void offer_written(struct run *run, struct diagnostic *d,
                          const struct value *value, const char *name,
                          const char *right)
{
    if (right != NULL)
        diag_mend(run, d, value->span, right, "did you mean %s=\"%s\"?", name,
                  right);
}

/* The predicate of a sentence whose subject is the attribute; see
 * report_length. */
static const char *length_problem(enum length_fault fault, bool zero)
{
    switch (fault) {
    case LENGTH_EMPTY:
        return "is empty where a length is expected";
    case LENGTH_NOT_A_NUMBER:
        return "is no length";
    case LENGTH_UNFINISHED:
        return "breaks off";
    case LENGTH_ZERO_DENOMINATOR:
        return "divides by 0";
    case LENGTH_TOO_LARGE:
        return "is too large for a quilt";
    case LENGTH_TOO_FINE:
        return "is finer than 1/10000";
    case LENGTH_UNKNOWN_UNIT:
        return "has a unit that is not known";
    case LENGTH_NEGATIVE:
        return zero ? "is less than 0" : "is not more than 0";
    case LENGTH_IMPROPER:
        return "has a fraction of one or more behind a whole number";
    case LENGTH_OK:
        break;
    }
    return "is no length";
}

/* "√5", "3 r2 -": whoever writes so means a root. */
static bool means_root(const char *text)
{
    for (const char *at = text; (at = strchr(at, 'r')) != NULL; at++)
        if (isdigit((unsigned char)at[1]))
            return true;
    return strstr(text, "\xE2\x88\x9A") != NULL;
}

/* reports: the fault, pointing at the bytes that make it. The note gives all
 * forms at once, because who writes one length wrong does not know them. */
static void report_length(struct run *run, const char *name,
                          struct value *value, enum length_fault fault,
                          size_t start, size_t end, enum length_unit units)
{
    struct diagnostic *d = diag_report(
        run, DIAG_LENGTH, value_part(value, start, end), "%s=%s %s", name,
        quoted(run->arena, value->text),
        length_problem(fault, attribute_row(value->id)->type == VALUE_ROOM));
    diag_note(
        run, d, (struct span){0, 0},
        "a length is written 2 1/2, 2-1/2, 2.5 or 5/8, with in, cm, mm, yd "
        "or m behind it if it is not in the pattern's units");
    if (means_root(value->text))
        diag_note(run, d, (struct span){0, 0},
                  "a root is of 2, 3 or 6 and is written 3\xE2\x88\x9A"
                  "2 or 3r2, a sum 1 1/2 + 3r2 or 12 - 4r3");
    if (strchr(value->text, ',') != NULL)
        diag_help(run, d, "write decimals with a point, as in 6.5");
    offer_written(run, d, value, name, meant_length(run, value, units));
    value->usable = false;
}

/* A unit stands behind its number, so a last letter means that one was written.
 * Grid squares have none (solve/sizes.c asks). */
static bool ends_with_letter(const char *text)
{
    size_t length = strlen(text);
    while (length > 0 && isspace((unsigned char)text[length - 1]))
        length--;
    return length > 0 && isalpha((unsigned char)text[length - 1]);
}

/* ensures: `number` in `units`, more than 0, or 0 where that says "none". All
 * else is refused here, so that no later stage divides by a length of nothing.
 */
static void read_length(struct run *run, const char *name, struct value *value,
                        enum length_unit units)
{
    const struct length_result result =
        length_parse(value->text, strlen(value->text), units);
    value->number = result.value;
    value->has_unit = ends_with_letter(value->text);
    if (result.fault != LENGTH_OK)
        report_length(run, name, value, result.fault, result.start, result.end,
                      units);
    else if (rational_sign(result.value) <= 0 &&
             attribute_row(value->id)->type != VALUE_ROOM)
        report_length(run, name, value, LENGTH_NEGATIVE, 0, 0, units);
}

/* ensures: `number` is the width, `second` the height; one length alone is
 * both, and `single` tells that it was written so. */
static void read_size(struct run *run, const char *name, struct value *value,
                      enum length_unit units)
{
    const struct size_result result =
        size_parse(value->text, strlen(value->text), units);
    value->number = result.width;
    value->second = result.height;
    value->has_unit = ends_with_letter(value->text);
    value->single = strpbrk(value->text, "xX") == NULL &&
                    strstr(value->text, "\xC3\x97") == NULL;
    if (result.fault != LENGTH_OK)
        report_length(run, name, value, result.fault, result.start, result.end,
                      units);
    else if (rational_sign(result.width) <= 0 ||
             rational_sign(result.height) <= 0)
        report_length(run, name, value, LENGTH_NEGATIVE, 0, 0, units);
}

/* Decimal digits only; -1 where it is none or beyond the limit. */
static long whole_number(const char *text, size_t length)
{
    long number = 0;
    if (length == 0 || length > 5)
        return -1;
    for (size_t i = 0; i < length; i++) {
        if (!isdigit((unsigned char)text[i]))
            return -1;
        number = number * 10 + (text[i] - '0');
    }
    return number >= 1 && number <= LIMIT_WHOLE ? number : -1;
}

/* ensures: `whole` from 1 to LIMIT_WHOLE. */
static void read_whole(struct run *run, const char *name, struct value *value)
{
    value->whole = whole_number(value->text, strlen(value->text));
    if (value->whole < 0)
        value_not_usable(run, name, value, "a whole number from 1 to 10000");
}

/* Splits "one two three" at its blanks. */
static size_t split_words(struct arena *arena, const char *words,
                          const char **list, size_t limit)
{
    size_t count = 0;
    while (*words != '\0' && count < limit) {
        const size_t length = strcspn(words, " ");
        list[count++] = arena_copy(arena, words, length);
        words += length;
        words += strspn(words, " ");
    }
    return count;
}

/* ensures: `choice` is the word's place in the list, which enums follow.
 * reports: the whole list, and the nearest word as a mend. */
static void read_choice(struct run *run, const char *name, struct value *value,
                        const char *choices)
{
    /* The longest list of pattern.h has six words. */
    const char *words[16];
    const size_t count = split_words(run->arena, choices, words, 16);
    for (size_t i = 0; i < count; i++) {
        if (strcmp(words[i], value->text) == 0) {
            value->choice = (int)i;
            return;
        }
    }
    value->usable = false;
    struct diagnostic *d =
        diag_report(run, DIAG_VALUE, value->span, "%s=%s is not one of: %s",
                    name, quoted(run->arena, value->text), choices);
    const char *near = nearest_name(value->text, words, count);
    if (near != NULL)
        diag_mend(run, d, value->span, near, "did you mean %s=\"%s\"?", name,
                  near);
}

/* As words of the list, each once. */
static void read_choices(struct run *run, const char *name, struct value *value,
                         const char *choices)
{
    const char *words[16];
    const size_t count = split_words(run->arena, choices, words, 16);
    read_names(run, name, value);
    for (size_t i = 0; value->usable && i < value->names.count; i++) {
        const struct name_text *found = &value->names.items[i];
        size_t k = 0;
        while (k < count && strcmp(words[k], found->text) != 0)
            k++;
        if (k < count) {
            value->choices |= 1u << k;
            continue;
        }
        value->usable = false;
        struct diagnostic *d =
            diag_report(run, DIAG_VALUE, found->span, "%s is no word of %s",
                        quoted(run->arena, found->text), name);
        diag_note(run, d, (struct span){0, 0}, "its words are: %s", choices);
        const char *near = nearest_name(found->text, words, count);
        if (near != NULL)
            diag_mend(run, d, found->span, near, "did you mean %s?", near);
    }
}

static void read_words(struct run *run, const struct attribute_row *row,
                       struct value *value)
{
    if (row->type == VALUE_NAMES)
        read_names(run, row->name, value);
    else
        read_choices(run, row->name, value, row->choices);
}

/* ensures: `whole`, 0 for "all". */
static void read_times(struct run *run, const char *name, struct value *value)
{
    const bool all = strcmp(value->text, "all") == 0;
    value->whole = all ? 0 : whole_number(value->text, strlen(value->text));
    if (value->whole < 0)
        value_not_usable(run, name, value,
                         "a whole number from 1 to 10000, or `all`");
}

/* Six digits: three would be shorter, but two ways of writing one thing. */
static bool is_color(const char *text)
{
    return text[0] == '#' && strlen(text) == 7 &&
           strspn(text + 1, "0123456789abcdefABCDEF") == 6;
}

/* Shape and range only. The thirty-first of every month passes: the date is
 * printed, never reckoned with. */
static bool is_date(const char *text)
{
    static const char shape[] = "dddd-dd-dd";
    if (strlen(text) != sizeof shape - 1)
        return false;
    for (size_t i = 0; i < sizeof shape - 1; i++)
        if (shape[i] == 'd' ? !isdigit((unsigned char)text[i]) : text[i] != '-')
            return false;
    const int month = (text[5] - '0') * 10 + text[6] - '0';
    const int day = (text[8] - '0') * 10 + text[9] - '0';
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1];
}

/* A plain decimal number; the reader of lengths does the work, and what only a
 * length may have (a unit, a slash) is refused. ensures: false for what is
 * none.
 */
static bool read_decimal(struct value *value)
{
    const struct length_result result =
        length_parse(value->text, strlen(value->text), UNIT_IN);
    value->number = result.value;
    return result.fault == LENGTH_OK && !ends_with_letter(value->text) &&
           strchr(value->text, '/') == NULL;
}

static void read_date(struct run *run, const char *name, struct value *value)
{
    if (!is_date(value->text))
        offer_written(
            run,
            value_not_usable(run, name, value, "a date such as 2026-11-02"),
            value, name, meant_date(run->arena, value->text));
}

static void read_price(struct run *run, const char *name, struct value *value)
{
    if (!read_decimal(value))
        offer_written(
            run, value_not_usable(run, name, value, "a price such as 11.80"),
            value, name, meant_number(run->arena, value->text));
}

/* Half of a cloth is never lost in the wash; more than that is a slip. */
static void read_percent(struct run *run, const char *name, struct value *value)
{
    if (!read_decimal(value) ||
        rational_compare(value->number, rational_whole(50)) >= 0)
        value_not_usable(run, name, value,
                         "percent below 50, such as 3 or 2.5");
}

static void read_number(struct run *run, const char *name, struct value *value)
{
    if (!read_decimal(value) || rational_sign(value->number) <= 0)
        offer_written(run,
                      value_not_usable(run, name, value,
                                       "a number above 0 such as 150 or 12.5"),
                      value, name, meant_number(run->arena, value->text));
}

/* Numbers without a unit. */
static void read_decimals(struct run *run, const struct attribute_row *row,
                          struct value *value)
{
    if (row->type == VALUE_PRICE)
        read_price(run, row->name, value);
    else if (row->type == VALUE_PERCENT)
        read_percent(run, row->name, value);
    else
        read_number(run, row->name, value);
}

/* How far something lies off its place: a length with or without a minus before
 * it, a hyphen or U+2212. */
static void read_shift(struct run *run, const char *name, struct value *value,
                       enum length_unit units)
{
    static const char minus[] = "\xE2\x88\x92";
    const char *text = value->text;
    const size_t sign = text[0] == '-'                        ? 1
                        : strncmp(text, minus, strlen(minus)) == 0 ? strlen(minus)
                                                              : 0;
    const struct length_result result =
        length_parse(text + sign, strlen(text + sign), units);
    if (result.fault != LENGTH_OK)
        report_length(run, name, value, result.fault, sign + result.start,
                      sign + result.end, units);
    value->number = sign > 0 ? rational_times(result.value, -1) : result.value;
}

/* One entry of a list with commas. Yards are stated as yards even in a pattern
 * in centimetres, as the attribute's name says. */
static bool read_entry(struct rational *number, const char *text, size_t length,
                       enum value_type type)
{
    if (type == VALUE_WHOLES) {
        while (length > 0 && text[length - 1] == ' ')
            length--;
        const long whole = whole_number(text, length);
        *number = rational_whole(whole);
        return whole > 0;
    }
    const struct length_result result = length_parse(text, length, UNIT_YD);
    *number = result.value;
    return result.fault == LENGTH_OK && rational_sign(result.value) > 0;
}

/* One entry a quilt, in the order of the quilts; cut/cut.c compares the number
 * of them. */
static void read_list(struct run *run, const char *name, struct value *value,
                      enum value_type type)
{
    const char *at = value->text;
    for (;;) {
        at += strspn(at, " ");
        const size_t length = strcspn(at, ",");
        struct rational number;
        if (!read_entry(&number, at, length, type)) {
            value_not_usable(
                run, name, value,
                type == VALUE_WHOLES
                    ? "a whole number for each quilt, with commas between"
                    : "a length in yards for each quilt, with commas between");
            return;
        }
        *LIST_ADD(run->arena, &value->list) = number;
        if (at[length] == '\0')
            return;
        at += length + 1;
    }
}

/* "0,0 6,0 3,6": pairs of plain numbers. ensures: x and y in turns in `list`,
 * three points at least. Grid squares, so no units. */
static void read_points(struct run *run, const char *name, struct value *value)
{
    static const char blanks[] = " \t\r\n";
    const char *at = value->text;
    for (size_t i = 0;; i++) {
        at += strspn(at, blanks);
        if (*at == '\0' && i % 2 == 0 && i >= 6)
            return;
        const size_t length = strcspn(at, i % 2 == 0 ? "," : " \t\r\n,");
        const struct length_result result = length_parse(at, length, UNIT_IN);
        if (result.fault != LENGTH_OK || (i % 2 == 0 && at[length] != ',') ||
            (length > 0 && isalpha((unsigned char)at[length - 1]))) {
            value_not_usable(run, name, value,
                             "three or more points such as 0,0 6,0 3,6");
            return;
        }
        *LIST_ADD(run->arena, &value->list) = result.value;
        at += length + (i % 2 == 0);
    }
}

static void read_color(struct run *run, const char *name, struct value *value)
{
    if (!is_color(value->text))
        offer_written(
            run, value_not_usable(run, name, value, "a color such as #d9552b"),
            value, name, meant_color(run->arena, value->text));
}

static void read_key(struct run *run, const char *name, struct value *value)
{
    if (strlen(value->text) != 1 || !isalnum((unsigned char)value->text[0]))
        value_not_usable(run, name, value, "one letter or digit");
}

/* The switch has no default: a new type of value stops the build until it is
 * read here. */
void read_value(struct run *run, struct value *value, enum length_unit units)
{
    const struct attribute_row *row = attribute_row(value->id);
    value->usable = true;
    switch (row->type) {
    case VALUE_TEXT:
        read_line_of_text(run, row->name, value);
        break;
    case VALUE_ID:
        read_identifier(run, row->name, value);
        break;
    case VALUE_KEY:
        read_key(run, row->name, value);
        break;
    case VALUE_LENGTH:
    case VALUE_ROOM:
        read_length(run, row->name, value, units);
        break;
    case VALUE_SIZE:
        read_size(run, row->name, value, units);
        break;
    case VALUE_WHOLE:
        read_whole(run, row->name, value);
        break;
    case VALUE_CHOICE:
        read_choice(run, row->name, value, row->choices);
        break;
    case VALUE_COLOR:
        read_color(run, row->name, value);
        break;
    case VALUE_DATE:
        read_date(run, row->name, value);
        break;
    case VALUE_PRICE:
    case VALUE_PERCENT:
    case VALUE_NUMBER:
        read_decimals(run, row, value);
        break;
    case VALUE_POINTS:
        read_points(run, row->name, value);
        break;
    case VALUE_CASTS:
        read_casts(run, row->name, value);
        break;
    case VALUE_NAMES:
    case VALUE_CHOICES:
        read_words(run, row, value);
        break;
    case VALUE_SHIFT:
        read_shift(run, row->name, value, units);
        break;
    case VALUE_TIMES:
        read_times(run, row->name, value);
        break;
    case VALUE_LENGTHS:
    case VALUE_WHOLES:
        read_list(run, row->name, value, row->type);
        break;
    }
}
