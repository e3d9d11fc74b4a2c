/* The sample order with one slip at a time, at each place where it can be made:
 * what the program says of it. The first error must lie at the slip, and where
 * one thing alone can be meant, its mend must give the sample back. Patterns
 * are compiled once, as what is kept of them serves all the others. */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../unit.h"
#include "buffer.h"
#include "diag.h"
#include "kitting.h"

#define SAMPLE "samples/harbor-market.kits"

/* An attribute as it stands in the text. */
struct written {
    const char *name; /* its first letter */
    size_t name_length;
    const char *value; /* behind the quote */
    size_t value_length;
    const char *element; /* its `<` */
};

struct judged {
    struct arena *arena;
    struct kept_facts *kept;
    const char *text;
    size_t made, wrong;
};

/* The next attribute behind `at`, in a tag. Comments are passed over. */
static bool next_attribute(const char **at, struct written *found)
{
    const char *c = *at;
    for (; *c != '\0'; c++) {
        if (strncmp(c, "<!--", 4) == 0)
            c = strstr(c, "-->");
        if (*c == '<')
            found->element = c;
        if (*c != '=' || c[1] != '"')
            continue;
        const char *name = c;
        while (isalnum((unsigned char)name[-1]) || name[-1] == '-')
            name--;
        found->name = name;
        found->name_length = (size_t)(c - name);
        found->value = c + 2;
        found->value_length = strcspn(c + 2, "\"");
        *at = found->value + found->value_length + 1;
        if (found->element[1] != '?' && strncmp(name, "xmlns", 5) != 0)
            return true;
        c = *at;
    }
    return false;
}

static bool is_called(const struct written *a, const char *const *names)
{
    for (; *names != NULL; names++)
        if (strlen(*names) == a->name_length &&
            strncmp(a->name, *names, a->name_length) == 0)
            return true;
    return false;
}

/* The text with other bytes in the place of some. */
static const char *changed(const struct judged *j, const char *at,
                           size_t length, const char *by)
{
    struct buffer out = buffer_in(j->arena);
    buffer_add(&out, j->text, (size_t)(at - j->text));
    buffer_text(&out, by);
    buffer_text(&out, at + length);
    return buffer_string(&out);
}

static const struct diagnostic *first_error(const struct run *run)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR)
            return sorted[i];
    return NULL;
}

/* Is the sample back where the mend is applied? */
static bool mends(const struct judged *j, const char *text,
                  const struct diagnostic *d)
{
    if (d->replacement == NULL)
        return false;
    struct buffer out = buffer_in(j->arena);
    buffer_add(&out, text, d->mend_span.start);
    buffer_text(&out, d->replacement);
    buffer_text(&out, text + d->mend_span.end);
    return strcmp(buffer_string(&out), j->text) == 0;
}

/* What may lie on the shelf of another order is no error here. */
static const struct diagnostic *first_message(const struct run *run)
{
    const struct diagnostic **sorted;
    return diag_sorted(run, &sorted) > 0 ? sorted[0] : NULL;
}

/* The error must lie between the two places of the text, and be mended where it
 * is asked. */
static void judge(struct judged *j, const char *what, const char *text,
                  const char *from, const char *to, bool mended)
{
    struct run *run = run_create(
        j->arena, source_create(j->arena, SAMPLE, text, strlen(text)));
    plan_order(run, j->kept);
    const struct diagnostic *d = first_error(run);
    if (d == NULL)
        d = first_message(run);
    const char *wrong = NULL;
    if (d == NULL)
        wrong = "nothing is told";
    else if (d->span.start < (size_t)(from - j->text) ||
             d->span.start > (size_t)(to - j->text))
        wrong = "told elsewhere";
    else if (mended && !mends(j, text, d))
        wrong = "not mended";
    j->made++;
    if (wrong == NULL)
        return;
    j->wrong++;
    const int length = (int)strcspn(from, "\n>");
    print_message("# %s: %.*s: %s: %s\n", what, length < 60 ? length : 60, from,
                  wrong, d == NULL ? "" : d->message);
}

/* A name or word that lost a letter in its midst. */
static const char *misspelt(const struct judged *j, const char *name,
                            size_t length)
{
    return changed(j, name + length / 2, 1, "");
}

/* ---- the slips ---- */

static void slip_in_names(struct judged *j, const struct written *a)
{
    judge(j, "name misspelt", misspelt(j, a->name, a->name_length), a->element,
          a->value + a->value_length, true);
}

/* Where the name of something else is wanted, or one of several words. */
static void slip_in_words(struct judged *j, const struct written *a)
{
    static const char *const words[] = {"style", "binding",  "sold", "paper",
                                        "quilt", "colorway", "of",   NULL};
    static const char *const files[] = {"pattern", "date", NULL};
    if (is_called(a, words) || is_called(a, files))
        judge(j, "word misspelt", misspelt(j, a->value, a->value_length),
              a->value, a->value + a->value_length, is_called(a, words));
}

/* The letter O for a digit, and a comma that is none. */
static void slip_in_numbers(struct judged *j, const struct written *a)
{
    static const char *const numbers[] = {
        "over",  "spare", "end-loss",    "keep",   "layers", "kits", "price",
        "cost",  "bolt",  "width",       "grams",  "length", "from", "to",
        "count", "rows",  "columns",     "height", "left",   "top",  "across",
        "down",  "color", "grams-error", NULL};
    if (!is_called(a, numbers))
        return;
    judge(j, "letter for a digit", changed(j, a->value, 1, "O"), a->value,
          a->value + a->value_length, false);
    judge(j, "sign before it", changed(j, a->value, 0, "~"), a->value,
          a->value + a->value_length, false);
}

static void slip_of_nothing(struct judged *j, const struct written *a)
{
    judge(j, "empty value", changed(j, a->value, a->value_length, ""), a->name,
          a->value, false);
}

static void slip_of_a_dropped_one(struct judged *j, const struct written *a)
{
    static const char *const required[] = {
        "id",     "title", "pattern", "quilt",  "colorway", "kits", "of",
        "length", "from",  "to",      "count",  "columns",  "rows", "left",
        "top",    "down",  "across",  "height", NULL};
    if (is_called(a, required))
        judge(j, "left out",
              changed(j, a->name,
                      (size_t)(a->value + a->value_length + 1 - a->name), ""),
              a->element, a->value + a->value_length, false);
}

static void slip_of_two(struct judged *j, const struct written *a)
{
    const size_t length = (size_t)(a->value + a->value_length + 1 - a->name);
    judge(j, "written twice",
          changed(j, a->name, 0,
                  arena_printf(j->arena, "%.*s ", (int)length, a->name)),
          a->element, a->name + 2 * length + 1, false);
}

/* Tags that close themselves: another one would miss its end. */
static void slips_in_elements(struct judged *j)
{
    for (const char *tag = strchr(j->text, '<'); tag != NULL;
         tag = strchr(tag + 1, '<')) {
        const size_t length = strcspn(tag + 1, " >");
        const char *end = strchr(tag, '>');
        if (!isalpha((unsigned char)tag[1]) || end[-1] != '/')
            continue;
        judge(j, "element misspelt", misspelt(j, tag + 1, length), tag, end,
              true);
    }
}

static int start(void **state)
{
    struct judged *j = calloc(1, sizeof *j);
    j->arena = arena_create();
    j->kept = kept_facts_open(j->arena, "nowhere");
    const struct file_content file = file_read(j->arena, SAMPLE);
    j->text = file.bytes;
    *state = j;
    return file.fault == FILE_OK ? 0 : -1;
}

static int stop(void **state)
{
    struct judged *j = *state;
    arena_destroy(j->arena);
    free(j);
    return 0;
}

static void test_the_sample_is_sound(void **state)
{
    struct judged *j = *state;
    struct run *run = run_create(
        j->arena, source_create(j->arena, SAMPLE, j->text, strlen(j->text)));
    assert_non_null(plan_order(run, j->kept));
    assert_null(first_message(run));
}

static void test_each_slip_is_told_in_its_place(void **state)
{
    static void (*const slips[])(struct judged *, const struct written *) = {
        slip_in_names,   slip_in_words,         slip_in_numbers,
        slip_of_nothing, slip_of_a_dropped_one, slip_of_two};
    struct judged *j = *state;
    struct written found = {.element = j->text};
    for (const char *at = j->text; next_attribute(&at, &found);)
        for (size_t i = 0; i < UNIT_COUNT(slips); i++)
            slips[i](j, &found);
    slips_in_elements(j);
    print_message("# %zu slips, %zu not told well\n", j->made, j->wrong);
    assert_true(j->made > 500);
    assert_int_equal(j->wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_sample_is_sound),
        cmocka_unit_test(test_each_slip_is_told_in_its_place),
    };
    return cmocka_run_group_tests(tests, start, stop);
}
