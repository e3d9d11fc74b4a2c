/* Numbers that were typed into a text grow stale when the pattern changes. Each
 * measurement in the designer's words is compared with all sizes that the
 * pattern has; one that is none of them gets a remark. */
#include <string.h>

#include "buffer.h"
#include "known_sizes.h"
#include "measurement.h"

/* What all looks at one text share; the sizes are gathered once. Not changed
 * once it is made, so that the order of the texts cannot matter. */
struct checker {
    struct run *run;
    const struct pattern *pattern;
    const struct design *design;
    struct known_sizes known;
};

/* Without a sign: else a size that is too small would be the nearest of all. */
static struct rational distance(struct rational a, struct rational b)
{
    return rational_sub(rational_max(a, b), rational_min(a, b));
}

/* How far the size is from what was written: a pair either way round, a length
 * from the nearer side. */
static struct rational miss(const struct known_size *size,
                            const struct measurement *found)
{
    const struct rational w = size->width, h = size->height;
    if (!found->pair)
        return rational_min(distance(w, found->first),
                            distance(h, found->first));
    return rational_min(
        rational_max(distance(w, found->first), distance(h, found->second)),
        rational_max(distance(h, found->first), distance(w, found->second)));
}

/* How far what was written may be off: a size with roots is written as a ruler
 * has it, or in full. */
static struct rational allowed(const struct known_size *size,
                               const struct measurement *found)
{
    return rational_is_irrational(size->width) ||
                   rational_is_irrational(size->height)
               ? rational_max(found->rounding, found->on_ruler)
               : found->rounding;
}

/* Exact but for what was rounded in the other system: a pattern that says 6 1/2
 * must not be told 6.5001. */
static bool known_size(const struct checker *checker,
                       const struct measurement *found)
{
    for (size_t i = 0; i < checker->known.items.count; i++) {
        const struct known_size *size = &checker->known.items.items[i];
        const struct rational off = miss(size, found);
        if (rational_known(off) && rational_compare(off, allowed(size, found)) <= 0)
            return true;
    }
    return false;
}

/* "3 x 4" may be a layout, told in cells or in squares. */
static bool counted(const struct checker *checker,
                    const struct measurement *found)
{
    const struct design *design = checker->design;
    if (!found->pair || !found->counts)
        return false;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        const struct known_size cells = {
            .width = rational_whole((int64_t)piece->across),
            .height = rational_whole((int64_t)piece->down)};
        if (piece->kind == PIECE_GRID &&
            rational_sign(miss(&cells, found)) == 0)
            return true;
    }
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *block = design->definitions.items[i];
        const struct known_size squares = {.width = block->grid_across,
                                           .height = block->grid_down};
        if (block->gridded && rational_sign(miss(&squares, found)) == 0)
            return true;
    }
    return false;
}

/* ---- telling ---- */

/* In the unit of the pattern, as messages have it. */
static const char *plain(const struct checker *checker, struct rational value)
{
    return length_plain(checker->run->arena, value, checker->pattern->units);
}

/* What is near, as it would be written: one side, or both. */
static const char *size_words(const struct checker *checker,
                              const struct known_size *size,
                              const struct measurement *found)
{
    const bool width =
        rational_compare(distance(size->width, found->first),
                         distance(size->height, found->first)) <= 0;
    const char *unit = length_unit_name(checker->pattern->units);
    if (!found->pair)
        return arena_printf(checker->run->arena, "%s %s",
                            plain(checker, width ? size->width : size->height),
                            unit);
    return arena_printf(checker->run->arena, "%s x %s %s",
                        plain(checker, size->width),
                        plain(checker, size->height), unit);
}

/* The words of `as`. */
static const char *as_word(enum size_as as)
{
    return as == AS_FINISHED     ? "finished"
           : as == AS_UNFINISHED ? "unfinished"
                                 : "cut";
}

/* Of two that are as near: one with a name, a square (its size is one number),
 * an unfinished one, as hands measure it. */
static bool handier(const struct known_size *size,
                    const struct known_size *best)
{
    const bool square = rational_equal(size->width, size->height);
    const bool best_square = rational_equal(best->width, best->height);
    if ((size->owner == NULL) != (best->owner == NULL))
        return size->owner != NULL;
    return square != best_square ? square : size->order < best->order;
}

/* The nearest size of those that are not told yet; NULL where there is none
 * left. */
static const struct known_size *
next_nearest(const struct checker *checker, const struct measurement *found,
             const struct known_size *const *told, size_t count)
{
    const struct known_size *best = NULL;
    for (size_t i = 0; i < checker->known.items.count; i++) {
        const struct known_size *size = &checker->known.items.items[i];
        bool fits = rational_known(miss(size, found)) &&
                    (!found->pair || !size->length);
        /* A length counts once, whatever the other side is. */
        for (size_t k = 0; fits && k < count; k++)
            fits = strcmp(size_words(checker, size, found),
                          size_words(checker, told[k], found)) != 0;
        if (!fits)
            continue;
        const int nearer = best == NULL ? -1
                                        : rational_compare(miss(size, found),
                                                           miss(best, found));
        if (nearer < 0 || (nearer == 0 && handier(size, best)))
            best = size;
    }
    return best;
}

/* "6 1/2 (`wing`, unfinished), 6 (`wing`, finished)". */
static void note_nearest(const struct checker *checker, struct diagnostic *d,
                         const struct measurement *found,
                         const struct known_size *const *near, size_t count)
{
    struct buffer text = buffer_in(checker->run->arena);
    for (size_t i = 0; i < count; i++) {
        buffer_printf(&text, "%s%s", i == 0 ? "" : ", ",
                      size_words(checker, near[i], found));
        if (near[i]->owner != NULL)
            buffer_printf(&text, " (`%s` %s)", near[i]->owner,
                          as_word(near[i]->as));
    }
    if (count > 0)
        diag_note(checker->run, d, (struct span){0, 0},
                  "the nearest sizes are %s", buffer_string(&text));
}

/* A reference prints the size of the day. */
static void help_reference(const struct checker *checker, struct diagnostic *d,
                           const struct known_size *size)
{
    const char *as = size->as == AS_UNFINISHED ? ""
                     : size->as == AS_FINISHED ? " as=\"finished\""
                                               : " as=\"cut\"";
    const char *unit = length_unit_name(checker->pattern->units);
    const char *printed =
        rational_equal(size->width, size->height)
            ? arena_printf(checker->run->arena, "%s %s square",
                           plain(checker, size->width), unit)
            : arena_printf(checker->run->arena, "%s x %s %s",
                           plain(checker, size->width),
                           plain(checker, size->height), unit);
    diag_help(checker->run, d,
              "<size of=\"%s\"%s/> prints %s, and follows the pattern",
              size->owner, as, printed);
}

/* The bytes of the source from the first to behind the last character. A
 * reference to a character is marked whole, up to its semicolon. */
static struct span source_span(const struct checker *checker,
                               const struct text_run *run,
                               const struct measurement *found)
{
    const char *bytes = checker->run->source->bytes;
    const uint32_t last = run->places[found->end - 1];
    const uint32_t size =
        bytes[last] == '&' ? (uint32_t)strcspn(bytes + last, ";") + 1 : 1;
    return (struct span){run->places[found->start], last + size};
}

/* Three at most: more would not be read. A reference is offered only where the
 * nearest size of all has a name, else it would print another size. */
static void report(const struct checker *checker, const struct text_run *run,
                   const struct measurement *found)
{
    enum { MOST = 3 };
    const struct known_size *near[MOST] = {NULL};
    size_t count = 0;
    while (count < MOST &&
           (near[count] = next_nearest(checker, found, near, count)) != NULL)
        count++;
    struct arena *arena = checker->run->arena;
    struct diagnostic *d = diag_report(
        checker->run, DIAG_STALE_NUMBER, source_span(checker, run, found),
        "nothing in the pattern measures %s",
        quoted(arena, arena_copy(arena, run->text + found->start,
                                 found->end - found->start)));
    note_nearest(checker, d, found, near, count);
    if (count > 0 && near[0]->owner != NULL)
        help_reference(checker, d, near[0]);
}

/* What is done with a measurement that the pattern has not. False ends it. */
typedef bool on_unknown(const struct checker *checker,
                        const struct text_run *run,
                        const struct measurement *found);

static bool report_and_go_on(const struct checker *checker,
                             const struct text_run *run,
                             const struct measurement *found)
{
    report(checker, run, found);
    return true;
}

static bool stop(const struct checker *checker, const struct text_run *run,
                 const struct measurement *found)
{
    (void)checker;
    (void)run;
    (void)found;
    return false;
}

/* A measurement does not reach over a reference: that stands for a fact of its
 * own. Quotation marks do. */
static bool check_words(const struct checker *checker,
                        const struct words *words, on_unknown *act)
{
    struct scanner scanner = {.units = checker->pattern->units};
    for (size_t i = 0; i < words->element->runs.count; i++) {
        const struct text_run *run = &words->element->runs.items[i];
        struct measurement found;
        scanner.run = run;
        scanner.at = 0;
        while (next_measurement(&scanner, &found))
            if (!known_size(checker, &found) && !counted(checker, &found) &&
                !act(checker, run, &found))
                return false;
    }
    return true;
}

/* ensures: false where `act` ended it. */
static bool check_all(struct run *run, const struct cutplans *plans,
                      on_unknown *act)
{
    const struct design *design = plans->sewn->sized->design;
    if (design->words.count == 0)
        return true;
    const struct checker checker = {.run = run,
                                    .pattern = design->pattern,
                                    .design = design,
                                    .known =
                                        find_known_sizes(run->arena, plans)};
    for (size_t i = 0; i < design->words.count; i++)
        if (!check_words(&checker, design->words.items[i], act))
            return false;
    return true;
}

/* After planning, as strips and amounts are sizes too; only a pattern without
 * errors has all of them. */
void check_numbers(struct run *run, const struct cutplans *plans)
{
    check_all(run, plans, report_and_go_on);
}

bool numbers_known(struct run *run, const struct cutplans *plans)
{
    return check_all(run, plans, stop);
}
