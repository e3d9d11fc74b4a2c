/* What may have been meant by a value that cannot be read: the same text
 * without the marks that the language does not write. Read next: values.c. */
#include "meant.h"

#include <ctype.h>
#include <string.h>

#include "buffer.h"

/* The text without any of these marks, whatever their length in bytes. */
static char *without(struct arena *arena, const char *text,
                     const char *const *marks, size_t count)
{
    char *bare = arena_copy(arena, text, strlen(text));
    for (size_t i = 0; i < count; i++)
        for (char *at; (at = strstr(bare, marks[i])) != NULL;)
            memmove(at, at + strlen(marks[i]),
                    strlen(at + strlen(marks[i])) + 1);
    return bare;
}

/* The sign between two lengths, for "by" and "*". */
static void write_times(char *text)
{
    char *by = strstr(text, "by");
    if (by != NULL)
        memmove(by, by + 1, strlen(by));
    char *sign = by != NULL ? by : strchr(text, '*');
    if (sign != NULL)
        *sign = 'x';
}

const char *meant_length(struct run *run, const struct value *value,
                         enum length_unit units)
{
    static const char *const marks[] = {
        "\"",           "''",           "\xE2\x80\x9C", "\xE2\x80\x9D",
        "\xE2\x80\xB3", "\xE2\x80\x9E", "\xE2\x80\x9F"};
    const bool list = attribute_row(value->id)->type == VALUE_SIZE;
    char *text =
        without(run->arena, value->text, marks, sizeof marks / sizeof marks[0]);
    const bool marked = strlen(text) < strlen(value->text);
    for (char *at = text; (at = strchr(at, ',')) != NULL;)
        *at = '.';
    if (list)
        write_times(text);
    const char *meant = marked && units != UNIT_IN
                            ? arena_printf(run->arena, "%s in", text)
                            : text;
    if (strcmp(meant, value->text) == 0)
        return NULL;
    const struct length_result one = length_parse(meant, strlen(meant), units);
    const struct size_result two = size_parse(meant, strlen(meant), units);
    const bool good =
        list ? two.fault == LENGTH_OK && rational_sign(two.width) > 0 &&
                   rational_sign(two.height) > 0
             : one.fault == LENGTH_OK && rational_sign(one.value) > 0;
    return good ? meant : NULL;
}

const char *meant_color(struct arena *arena, const char *text)
{
    const char *digits = text + (text[0] == '#');
    const size_t length = strlen(digits);
    if (strspn(digits, "0123456789abcdefABCDEF") != length)
        return NULL;
    if (length == 3)
        return arena_printf(arena, "#%c%c%c%c%c%c", digits[0], digits[0],
                            digits[1], digits[1], digits[2], digits[2]);
    return length == 6 ? arena_printf(arena, "#%s", digits) : NULL;
}

const char *meant_date(struct arena *arena, const char *text)
{
    long numbers[3] = {0, 0, 0};
    const char *at = text;
    for (int i = 0; i < 3; i++) {
        if (!isdigit((unsigned char)*at))
            return NULL;
        for (; isdigit((unsigned char)*at) && numbers[i] < 10000; at++)
            numbers[i] = numbers[i] * 10 + (*at - '0');
        if (i < 2 && (*at == '\0' || strchr("-/. ", *at) == NULL))
            return NULL;
        at += i < 2 ? 1 + strspn(at + 1, " ") : 0;
    }
    if (*at != '\0')
        return NULL;
    const bool first = numbers[0] > 999;
    if (!first && (numbers[2] < 1000 || strchr(text, '.') == NULL))
        return NULL;
    return arena_printf(arena, "%04ld-%02ld-%02ld", numbers[first ? 0 : 2],
                        numbers[1], numbers[first ? 2 : 0]);
}

const char *meant_number(struct arena *arena, const char *text)
{
    struct buffer number = buffer_in(arena);
    size_t points = 0;
    for (const char *c = text; *c != '\0'; c++) {
        const bool point = *c == ',' || *c == '.';
        points += point;
        if (isdigit((unsigned char)*c) || point)
            buffer_char(&number, point ? '.' : *c);
    }
    const char *bytes = buffer_string(&number);
    return points < 2 && isdigit((unsigned char)bytes[0]) &&
                   isdigit((unsigned char)bytes[strlen(bytes) - 1]) &&
                   strcmp(bytes, text) != 0
               ? bytes
               : NULL;
}
