/* Keeps what the stages report until the run is over. Stages find faults in an
 * order of their own; a writer mends a file from top to bottom. */
#include "diag.h"

#include <stdlib.h>
#include <string.h>

struct diagnostics {
    LIST(struct diagnostic *) reported;
    size_t next_order;
    /* The answer of diag_sorted, good while `sorted_from` reports are all. */
    const struct diagnostic **sorted;
    size_t sorted_count;
    size_t sorted_from;
};

/* Nothing of the source is copied: messages hold offsets into it. */
struct run *run_create(struct arena *arena, const struct source *source)
{
    struct run *run = ARENA_NEW(arena, struct run);
    run->arena = arena;
    run->source = source;
    run->diagnostics = ARENA_NEW(arena, struct diagnostics);
    return run;
}

/* Keeps a span inside the source, so that printing need not doubt it: a wrong
 * span must not turn a good message into a crash. */
static struct span clipped(const struct run *run, struct span span)
{
    const uint32_t length = (uint32_t)run->source->length;
    if (span.start > length)
        span.start = length;
    if (span.end > length)
        span.end = length;
    if (span.end < span.start)
        span.end = span.start;
    return span;
}

struct diagnostic *diag_report(struct run *run, enum diag_code code,
                               struct span span, const char *format, ...)
{
    struct diagnostics *all = run->diagnostics;
    struct diagnostic *d = ARENA_NEW(run->arena, struct diagnostic);
    d->code = code;
    d->span = clipped(run, span);
    d->order = all->next_order++;
    va_list arguments;
    va_start(arguments, format);
    d->message = arena_vprintf(run->arena, format, arguments);
    va_end(arguments);
    /* The list holds addresses, because callers go on filling `d`. */
    *LIST_ADD(run->arena, &all->reported) = d;
    return d;
}

void diag_label(struct run *run, struct diagnostic *d, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    d->label = arena_vprintf(run->arena, format, arguments);
    va_end(arguments);
}

void diag_note(struct run *run, struct diagnostic *d, struct span span,
               const char *format, ...)
{
    struct diag_note_text *note = LIST_ADD(run->arena, &d->notes);
    note->span = clipped(run, span);
    va_list arguments;
    va_start(arguments, format);
    note->text = arena_vprintf(run->arena, format, arguments);
    va_end(arguments);
}

void diag_help(struct run *run, struct diagnostic *d, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    d->help = arena_vprintf(run->arena, format, arguments);
    va_end(arguments);
}

void diag_mend(struct run *run, struct diagnostic *d, struct span span,
               const char *replacement, const char *format, ...)
{
    d->mend_span = clipped(run, span);
    /* What leads from one file into another is words only. */
    if (source_together(run->source, d->mend_span.start, d->mend_span.end))
        d->replacement =
            arena_copy(run->arena, replacement, strlen(replacement));
    va_list arguments;
    va_start(arguments, format);
    d->help = arena_vprintf(run->arena, format, arguments);
    va_end(arguments);
}

void diag_off(struct diagnostic *d, struct rational first,
              struct rational second)
{
    d->off[0] = first;
    d->off[1] = second;
}

/* Negative, 0 or positive, without the overflow that a difference has. */
static int compare_sizes(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int compare_spans(struct span a, struct span b)
{
    const int by_start = compare_sizes(a.start, b.start);
    return by_start != 0 ? by_start : compare_sizes(a.end, b.end);
}

/* By place first, so that doubles end up side by side. Equal for doubles,
 * whatever their order of reporting. */
static int compare_contents(const struct diagnostic *a,
                            const struct diagnostic *b)
{
    const int by_span = compare_spans(a->span, b->span);
    if (by_span != 0)
        return by_span;
    const int by_code = compare_sizes((size_t)a->code, (size_t)b->code);
    return by_code != 0 ? by_code : strcmp(a->message, b->message);
}

/* Doubles go with it: nobody was shown them. */
void diag_drop(struct run *run, struct diagnostic *d)
{
    struct diagnostics *all = run->diagnostics;
    size_t kept = 0;
    for (size_t i = 0; i < all->reported.count; i++)
        if (compare_contents(all->reported.items[i], d) != 0)
            all->reported.items[kept++] = all->reported.items[i];
    all->reported.count = kept;
    all->sorted = NULL;
}

/* For qsort, which is not stable: the order of reporting decides in the end,
 * so that the same source gives the same text on every machine. */
static int by_contents(const void *left, const void *right)
{
    const struct diagnostic *a = *(const struct diagnostic *const *)left;
    const struct diagnostic *b = *(const struct diagnostic *const *)right;
    const int order = compare_contents(a, b);
    return order != 0 ? order : compare_sizes(a->order, b->order);
}

/* For qsort: how messages are shown. */
static int by_place(const void *left, const void *right)
{
    const struct diagnostic *a = *(const struct diagnostic *const *)left;
    const struct diagnostic *b = *(const struct diagnostic *const *)right;
    const int order = compare_spans(a->span, b->span);
    return order != 0 ? order : compare_sizes(a->order, b->order);
}

/* Two stages may find the same fault, and a block that is used ten times is
 * checked ten times. Keeps the first of each run of doubles; gives how many are
 * left. */
static size_t drop_doubles(const struct diagnostic **list, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || compare_contents(list[kept - 1], list[i]) != 0)
            list[kept++] = list[i];
    return kept;
}

static void sort_reported(struct arena *arena, struct diagnostics *all)
{
    const size_t count = all->reported.count;
    const struct diagnostic **list =
        ARENA_ARRAY(arena, const struct diagnostic *, count);
    for (size_t i = 0; i < count; i++)
        list[i] = all->reported.items[i];
    /* Doubles need not be neighbours by place (A B A on one span), so they
     * are brought together first. */
    qsort(list, count, sizeof(struct diagnostic *), by_contents);
    const size_t kept = drop_doubles(list, count);
    qsort(list, kept, sizeof(struct diagnostic *), by_place);
    all->sorted = list;
    all->sorted_count = kept;
    all->sorted_from = count;
}

/* The list is kept for the next call, as stages ask for counts again and
 * again; a report in between makes it stale. */
size_t diag_sorted(const struct run *run, const struct diagnostic ***sorted)
{
    struct diagnostics *all = run->diagnostics;
    if (all->sorted == NULL || all->sorted_from != all->reported.count)
        sort_reported(run->arena, all);
    *sorted = all->sorted;
    return all->sorted_count;
}

size_t diag_count(const struct run *run, enum diag_level level)
{
    /* Counted without doubles, so that a closing line tells what was shown. */
    const struct diagnostic **sorted;
    const size_t all = diag_sorted(run, &sorted);
    size_t count = 0;
    for (size_t i = 0; i < all; i++)
        count += diag_entry(sorted[i]->code)->level == level;
    return count;
}
