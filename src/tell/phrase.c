/* Sentences with gaps. Whole sentences stand in the file of a language, as
 * words come in another order elsewhere; only values are put in. Keys are few
 * hundred and looked up by halves. Read next: templates/wording/en.txt. */
#include "phrase.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "diag.h"
#include "templates.h"

/* One line of the file of a language. Both texts live as long as the arena that
 * the language was loaded into. */
struct phrase {
    const char *key, *text;
};

/* A language. `sorted` points into `list`, so nothing may be added once it is
 * made: lists move as they grow. */
struct phrases {
    const char *language;
    bool one_below_two;       /* plural: n<2 */
    LIST(struct phrase) list; /* in the order of the file */
    struct phrase **sorted;
};

/* The one place that says which languages there are. To add one is a file with
 * every key, and its name here: `say` ends the program at a key that is
 * missing. */
const char *const *phrase_languages(void)
{
    static const char *const languages[] = {"en", "de", NULL};
    return languages;
}

/* ---- reading a file ---- */

/* For qsort and bsearch. Both get pointers to pointers, so that phrases stay
 * where they are and in the order of the file. */
static int compare_keys(const void *a, const void *b)
{
    return strcmp((*(struct phrase *const *)a)->key,
                  (*(struct phrase *const *)b)->key);
}

/* One line of the file, without its end. A line that begins with a blank goes
 * on with the sentence above, so that no line of the file is too long to read.
 * The files are our own: what is wrong in them is a fault of the program, not
 * of a pattern. */
static void take_line(struct arena *arena, struct phrases *phrases,
                      const char *line, size_t length)
{
    if (length == 0 || line[0] == '#')
        return;
    const char *text = arena_copy(arena, line, length);
    if (text[0] == ' ') {
        if (phrases->list.count == 0)
            internal_error("a wording begins in the middle of a sentence");
        struct phrase *last = &phrases->list.items[phrases->list.count - 1];
        last->text =
            arena_printf(arena, "%s %s", last->text, text + strspn(text, " "));
        return;
    }
    const char *colon = strchr(text, ':');
    if (colon == NULL)
        internal_error("a wording has a line without a key");
    *LIST_ADD(arena, &phrases->list) =
        (struct phrase){arena_copy(arena, text, (size_t)(colon - text)),
                        colon + 1 + strspn(colon + 1, " ")};
}

/* Once for a booklet: the file is small. Sorted before the first sentence is
 * asked for: the rule of the plural is a line of the file, too. */
const struct phrases *phrases_load(struct arena *arena, const char *language)
{
    const struct template_file *file =
        template_find(arena_printf(arena, "wording/%s.txt", language));
    if (file == NULL)
        internal_error("there is no wording for a language");
    struct phrases *phrases = ARENA_NEW(arena, struct phrases);
    phrases->language = arena_printf(arena, "%s", language);
    const char *at = (const char *)file->bytes, *end = at + file->length;
    while (at < end) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        if (stop == NULL)
            stop = end;
        take_line(arena, phrases, at, (size_t)(stop - at));
        at = stop + 1;
    }
    phrases->sorted =
        ARENA_ARRAY(arena, struct phrase *, phrases->list.count + 1);
    for (size_t i = 0; i < phrases->list.count; i++)
        phrases->sorted[i] = &phrases->list.items[i];
    qsort(phrases->sorted, phrases->list.count, sizeof *phrases->sorted,
          compare_keys);
    phrases->one_below_two =
        strcmp(say(arena, phrases, "plural", NULL), "n<2") == 0;
    return phrases;
}

/* Of the words, which need not be that of the pattern: whoever builds the
 * booklet may ask for another. */
const char *phrases_language(const struct phrases *phrases)
{
    return phrases->language;
}

/* ---- filling a sentence ---- */

/* Names and texts in turns. */
struct values {
    LIST(const char *) list;
};

/* A page that lacks a sentence could be sewn wrong, so a missing key ends the
 * program and is not passed over. */
static const char *find_text(const struct phrases *phrases, const char *key)
{
    struct phrase wanted = {key, NULL};
    struct phrase *pointer = &wanted;
    struct phrase **found =
        bsearch(&pointer, phrases->sorted, phrases->list.count,
                sizeof *phrases->sorted, compare_keys);
    if (found == NULL)
        internal_error("there is no wording for `%s`", key);
    return (*found)->text;
}

/* By name and not by place: a translation may have its values in another order,
 * or one of them twice. They are too few to be sorted. */
static const char *value_named(const struct values *values, const char *name,
                               size_t length)
{
    for (size_t i = 0; i + 1 < values->list.count; i += 2)
        if (strlen(values->list.items[i]) == length &&
            strncmp(values->list.items[i], name, length) == 0)
            return values->list.items[i + 1];
    internal_error("a wording asks for a value that is not there");
}

/* Fractions and words take the second form, as most languages have it. */
static bool first_form(const struct phrases *phrases, const char *number)
{
    return strcmp(number, "1") == 0 ||
           (phrases->one_below_two && strcmp(number, "0") == 0);
}

/* The text between { and }. With bars the value only chooses the form; where
 * the number is to be read as well, the sentence has a gap for it. */
static void put_gap(struct buffer *out, const struct phrases *phrases,
                    const struct values *values, const char *gap, size_t length)
{
    const char *bar = memchr(gap, '|', length);
    const char *value =
        value_named(values, gap, bar == NULL ? length : (size_t)(bar - gap));
    if (bar == NULL) {
        buffer_text(out, value);
        return;
    }
    const char *one = bar + 1, *end = gap + length;
    const char *second = memchr(one, '|', (size_t)(end - one));
    if (second == NULL)
        internal_error("a wording has one form of two");
    const bool first = first_form(phrases, value);
    const char *from = first ? one : second + 1;
    const char *to = first ? second : end;
    buffer_printf(out, "%.*s", (int)(to - from), from);
}

/* The sentence is scanned, never what was put into it: a brace in the name of a
 * cloth is a brace, and no gap. */
const char *say(struct arena *arena, const struct phrases *phrases,
                const char *key, ...)
{
    struct values values = {0};
    va_list arguments;
    va_start(arguments, key);
    for (const char *next = va_arg(arguments, const char *); next != NULL;
         next = va_arg(arguments, const char *))
        *LIST_ADD(arena, &values.list) = next;
    va_end(arguments);
    const char *text = find_text(phrases, key);
    /* Labels are asked for again and again while a place is looked for. */
    if (strchr(text, '{') == NULL)
        return text;
    struct buffer out = buffer_in(arena);
    for (const char *open; (open = strchr(text, '{')) != NULL;) {
        const char *close = strchr(open, '}');
        if (close == NULL)
            internal_error("a wording has a gap without an end");
        buffer_printf(&out, "%.*s", (int)(open - text), text);
        put_gap(&out, phrases, &values, open + 1, (size_t)(close - open - 1));
        text = close + 1;
    }
    buffer_text(&out, text);
    return buffer_string(&out);
}

/* Digits alone: first_form compares them as text, so nothing may group them. */
const char *say_count(struct arena *arena, size_t count)
{
    return arena_printf(arena, "%zu", count);
}

/* ---- for tests ---- */

/* By index, in the order of the file: a test lays the languages beside each
 * other and finds what one of them lacks. */
size_t phrases_count(const struct phrases *phrases)
{
    return phrases->list.count;
}

/* By index, in the order of the file; the index runs below the count of the
 * list. For programs that look at all phrases, as the tests do. */
const char *phrases_key(const struct phrases *phrases, size_t index)
{
    return phrases->list.items[index].key;
}

/* The pattern with its gaps still open, of the same index as its key. */
const char *phrases_text(const struct phrases *phrases, size_t index)
{
    return phrases->list.items[index].text;
}
