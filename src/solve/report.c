/* Sums that do not come out, told with all their terms. May assume that what it
 * is given is wrong: system.c has found that out. All text is for the designer:
 * numbers as they were written, and the line of each. */
#include "solver.h"

#include "buffer.h"

char *local_length(struct system *system, struct rational value)
{
    return length_plain(system->run->arena, value,
                        system->design->pattern->units);
}

char *local_written(struct system *system, struct rational value)
{
    return length_written(system->run->arena, value,
                          system->design->pattern->units);
}

/* A number, as a designer has the source open and not its bytes. */
static size_t line_of(const struct system *system,
                      const struct element *element)
{
    return source_line(system->run->source, element->name.start);
}

/* A factor is a bare number; inches only choose fractions for its print. */
static const char *factor_text(struct system *system, struct rational factor)
{
    if (rational_equal(factor, rational_whole(1)))
        return "";
    return arena_printf(system->run->arena, "%s x ",
                        length_plain(system->run->arena, factor, UNIT_IN));
}

/* "1 1/2 + 1 + 4 = 6 1/2", open parts as ?. Twelve terms fill a line of a
 * terminal; the rest is dots. */
const char *sum_text(struct system *system, const struct sum *sum,
                     struct rational found)
{
    struct buffer text = buffer_in(system->run->arena);
    enum { MOST = 12 };
    for (size_t i = 0; i < sum->terms.count && i < MOST; i++) {
        const struct term *term = &sum->terms.items[i];
        const bool minus = rational_sign(term->factor) < 0;
        const struct rational size =
            minus ? rational_sub(rational_whole(0), term->factor)
                  : term->factor;
        const struct rational value = system_value(system, term->of);
        buffer_printf(&text, "%s%s%s",
                      i == 0  ? ""
                      : minus ? " - "
                              : " + ",
                      factor_text(system, size),
                      rational_known(value) ? local_length(system, value)
                                            : "?");
    }
    if (sum->terms.count > MOST)
        buffer_text(&text, " + ...");
    buffer_printf(&text, " = %s",
                  rational_known(found) ? local_length(system, found) : "?");
    return buffer_string(&text);
}

/* The lines of the source where the terms stand, each once in a row. They are
 * of one definition, so of one file, which the caret may not stand in. */
static const char *lines_text(struct system *system, const struct sum *sum,
                              struct span caret)
{
    struct buffer text = buffer_in(system->run->arena);
    size_t last = 0;
    for (size_t i = 0; i < sum->terms.count && i < 12; i++) {
        const size_t line = line_of(system, sum->terms.items[i].element);
        if (line != last)
            buffer_printf(&text, "%s%zu", last == 0 ? "" : ", ", line);
        last = line;
    }
    if (sum->terms.count > 0)
        buffer_text(&text,
                    source_of_other(system->run->arena, system->run->source,
                                    sum->terms.items[0].element->name.start,
                                    caret.start));
    return buffer_string(&text);
}

void note_sum(struct system *system, struct diagnostic *d,
              const struct sum *sum, struct rational found)
{
    diag_note(system->run, d, (struct span){0, 0}, "%s (line %s)",
              sum_text(system, sum, found), lines_text(system, sum, d->span));
}

/* The written value that fixed the class of `v`, or NULL where a sum did. */
static const struct fact *fact_of(struct system *system, variable v)
{
    const long fact = system->first_fact[system_root(system, v)];
    return fact < 0 ? NULL : &system->facts.items[fact];
}

/* How often the class of this term stands in the sum, factors counted. Four
 * equal patches are one class: a mend changes all four, so the error is divided
 * by this. */
static struct rational class_factor(struct system *system,
                                    const struct sum *sum, variable of)
{
    struct rational factor = rational_whole(0);
    for (size_t i = 0; i < sum->terms.count; i++)
        if (system_root(system, sum->terms.items[i].of) ==
            system_root(system, of))
            factor = rational_add(factor, sum->terms.items[i].factor);
    return factor;
}

/* A value that a ruler cuts is a likely mend. A size of 1.37 would make the sum
 * come out, too, but nobody meant it. */
static bool likely(const struct system *system, struct rational value)
{
    const struct rational steps =
        rational_div(value, system->design->pattern->cutting_step);
    return rational_known(steps) && steps.den == 1 && rational_sign(value) > 0;
}

static bool told_before(struct system *system, const struct sum *sum,
                        size_t index, const struct fact *fact)
{
    for (size_t i = 0; i < index; i++)
        if (fact_of(system, sum->terms.items[i].of) == fact)
            return true;
    return false;
}

/* Squares across and down are one value: a mend of a side would lose the other.
 */
static bool is_grid(const struct system *system, const struct fact *fact)
{
    const struct definition *owner = owner_of(system->design, fact->of);
    return owner->gridded &&
           fact->span.start == value_span(owner->element, ATTR_GRID).start;
}

/* A written term that a change would mend: the only one, or the only one that
 * is no whole number. `wanted` gets what it should be. `over` is how much too
 * large the sum is. A lone fraction among whole numbers is the likelier slip.
 */
static const struct fact *term_to_mend(struct system *system,
                                       const struct sum *sum,
                                       struct rational over,
                                       struct rational *wanted)
{
    const struct fact *only = NULL, *uneven = NULL;
    struct rational only_value = rational_unknown(),
                    uneven_value = rational_unknown();
    size_t written = 0, fractions = 0;
    for (size_t i = 0; i < sum->terms.count; i++) {
        const struct term *term = &sum->terms.items[i];
        const struct fact *fact = fact_of(system, term->of);
        /* Neighbors that are equal are one written size. */
        if (fact == NULL || told_before(system, sum, i, fact))
            continue;
        const struct rational value = rational_sub(
            fact->value,
            rational_div(over, class_factor(system, sum, term->of)));
        written++;
        only = fact;
        only_value = value;
        if (fact->value.den != 1) {
            fractions++;
            uneven = fact;
            uneven_value = value;
        }
    }
    *wanted = fractions == 1 ? uneven_value : only_value;
    const struct fact *mend = fractions == 1 ? uneven
                              : written == 1 ? only
                                             : NULL;
    return mend != NULL && likely(system, *wanted) && !is_grid(system, mend)
               ? mend
               : NULL;
}

/* The same slip seen in the other dimension of the same piece. A square that is
 * wrong is wrong in width and height alike. */
static bool told_already(struct system *system, const struct sum *sum)
{
    const struct fact *ours =
        sum->terms.count == 0 ? NULL : fact_of(system, sum->terms.items[0].of);
    for (size_t i = 0; ours != NULL && i < system->sums.count; i++) {
        const struct sum *other = &system->sums.items[i];
        if (!other->reported || other->element != sum->element ||
            other->terms.count == 0)
            continue;
        const struct fact *theirs = fact_of(system, other->terms.items[0].of);
        if (theirs != NULL && theirs->span.start == ours->span.start)
            return true;
    }
    return false;
}

/* Where the other side of the contradiction stands: a written size, or the sum
 * that gave it. */
static void note_total(struct system *system, struct diagnostic *d,
                       const struct sum *sum, const char *wanted)
{
    const variable total = system_root(system, sum->total);
    const struct fact *fact = fact_of(system, total);
    if (fact != NULL) {
        diag_note(system->run, d, fact->span, "%s makes it %s %s", fact->what,
                  wanted, sum->dimension);
    } else if (system->from_sum[total] != NOT_FROM_SUM) {
        const struct sum *other = &system->sums.items[system->from_sum[total]];
        diag_note(system->run, d, other->element->name, "`%s` makes it %s %s",
                  element_name(other->element->kind), wanted, sum->dimension);
    }
}

/* Is it the side of a cell that `equal` of the container is about? */
static bool equals_side(struct system *system, const struct piece *container,
                        variable v)
{
    if (!container->equal || container->cells.count == 0)
        return false;
    const struct cell *cell = &container->cells.items[0];
    const bool turned = cell->orientation.turn % 2 == 1;
    const variable wide =
        turned ? height_of(cell->piece) : width_of(cell->piece);
    const variable high =
        turned ? width_of(cell->piece) : height_of(cell->piece);
    const variable root = system_root(system, v);
    return (container->kind != PIECE_COLUMN &&
            system_root(system, wide) == root) ||
           (container->kind != PIECE_ROW && system_root(system, high) == root);
}

/* The container of the piece itself, else any. */
void note_equal(struct system *system, struct diagnostic *d, variable v)
{
    const struct design *design = system->design;
    const struct piece *found = NULL;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *one = design->pieces.items[i];
        if (one->first != one || !equals_side(system, one, v))
            continue;
        if (found == NULL ||
            piece_of(design, v)->element->parent == one->element)
            found = one;
    }
    if (found != NULL)
        diag_note(system->run, d, value_span(found->element, ATTR_EQUAL),
                  "`equal` makes all cells of this `%s` equally %s",
                  element_name(found->element->kind),
                  found->kind == PIECE_ROW      ? "wide"
                  : found->kind == PIECE_COLUMN ? "high"
                                                : "wide, and equally high");
}

/* What equal cells of the whole would be. */
static void note_equal_sum(struct system *system, struct diagnostic *d,
                           const struct sum *sum)
{
    const struct piece *piece = piece_of(system->design, sum->total);
    const size_t count = sum->terms.count;
    const struct rational wanted = system_value(system, sum->total);
    if (!piece->equal || piece->element != sum->element || count == 0)
        return;
    diag_note(system->run, d, value_span(piece->element, ATTR_EQUAL),
              "`equal`: %zu cells %s %s are %s each", count,
              sum->dimension[0] == 'w' ? "across" : "down",
              local_length(system, wanted),
              local_length(system, rational_div(wanted, rational_whole(
                                                            (int64_t)count))));
}

/* Points at the one written size that a change of would mend, where there is
 * one, else at the piece whose parts do not fit. The note adds the parts up,
 * and the next one says who wants another total. */
void report_sum(struct system *system, struct sum *sum, struct rational found)
{
    struct run *run = system->run;
    if (told_already(system, sum))
        return;
    sum->reported = true;
    const struct rational wanted = system_value(system, sum->total);
    const char *wanted_text = local_length(system, wanted);
    struct rational value;
    const struct fact *mend =
        term_to_mend(system, sum, rational_sub(found, wanted), &value);
    struct diagnostic *d = report_in(
        run, system->sound,
        owner_of(system->design, mend == NULL ? sum->total : mend->of),
        DIAG_SEAM_SUM, mend == NULL ? sum->element->name : mend->span,
        "`%s` is %s %s, but %s is asked for", element_name(sum->element->kind),
        local_length(system, found), sum->dimension, wanted_text);
    diag_off(d, rational_sub(found, wanted), rational_unknown());
    d->about = sum->element->name;
    if (mend != NULL)
        diag_label(run, d, "%s", local_length(system, mend->value));
    note_sum(system, d, sum, found);
    note_total(system, d, sum, wanted_text);
    note_equal_sum(system, d, sum);
    if (mend != NULL)
        diag_mend(run, d, mend->span, local_written(system, value),
                  "%s here makes the sum %s", local_length(system, value),
                  wanted_text);
}

/* Told as a limit of the program, as nothing is wrong with the source. */
void report_fine_sum(struct system *system, const struct sum *sum)
{
    report_in(system->run, system->sound, owner_of(system->design, sum->total),
              DIAG_LIMIT, sum->element->name,
              "the sizes in `%s` are too fine to be added exactly",
              element_name(sum->element->kind));
}

/* A use of a block that stands in the sum as a part of it. */
static bool is_block(const struct system *system, const struct term *term)
{
    const struct piece *piece = piece_of(system->design, term->of);
    return piece->element == term->element && piece->target != NULL &&
           piece->target->kind == DEFINE_BLOCK;
}

/* What lacks is mostly the size of a block: then the place to write it is the
 * use. */
static bool report_open_block(struct system *system, const struct sum *sum)
{
    for (size_t i = 0; i < sum->terms.count; i++) {
        const struct term *term = &sum->terms.items[i];
        if (rational_known(system_value(system, term->of)) ||
            !is_block(system, term))
            continue;
        struct diagnostic *d = report_in(
            system->run, system->sound, owner_of(system->design, term->of),
            DIAG_SIZE_OPEN, term->element->name,
            "nothing fixes the size of the block `%s` here",
            piece_of(system->design, term->of)->target->id);
        diag_help(system->run, d,
                  "write finished=\"...\" for the size of the block");
        return true;
    }
    return false;
}

/* Shows the sum with "?" in it, so that a reader sees which number to give. */
void report_open_sum(struct system *system, struct sum *sum)
{
    if (report_open_block(system, sum))
        return;
    struct run *run = system->run;
    const struct rational total = system_value(system, sum->total);
    const char *dimension = sum->dimension[0] == 'w' ? "width" : "height";
    struct diagnostic *d = report_in(
        run, system->sound, owner_of(system->design, sum->total),
        DIAG_SIZE_OPEN, sum->element->name, "nothing fixes each %s in `%s`",
        dimension, element_name(sum->element->kind));
    note_sum(system, d, sum, total);
    /* Three places are enough to see the pattern. */
    for (size_t i = 0, told = 0; i < sum->terms.count && told < 3; i++) {
        const struct term *term = &sum->terms.items[i];
        if (rational_known(system_value(system, term->of)))
            continue;
        /* One element may stand in the sum several times in a row. */
        if (i > 0 && sum->terms.items[i - 1].element == term->element)
            continue;
        told++;
        diag_note(run, d, term->element->name, "the %s of `%s` is open",
                  dimension, element_name(term->element->kind));
    }
    diag_help(run, d, "one %s can be left out of a sum, not more", dimension);
}
