/* The steps: what each takes, what hands do, what comes of it. Read next:
 * sewing_technique.c, sewing_join.c, sewing_border.c, section_finishing.c. */
#include <math.h>
#include <string.h>

#include "buffer.h"
#include "sewing.h"
#include "tolerance.h"
#include "trade.h"
#include "words.h"

/* ---- shared by all kinds of steps ---- */

/* Pressing first, then what to measure: trimming tells the size itself, so it
 * takes the place of the measure. */
const char *result_caption(const struct sewing *sewing,
                           const struct action *action, const char *trim)
{
    const struct wording *w = sewing->w;
    const char *press =
        word_press(w, sewing->plan->colorway, sewing->heap, action);
    return word_then(w, press,
                     trim[0] != '\0' ? trim : word_measure(w, sewing->heap));
}

/* For those who cannot see the figure: both sizes and the count, in the order
 * in which they are drawn. */
const char *result_told(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const struct heap *heap = sewing->heap;
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases, "figure.unfinished-told", "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               "count", say_count(w->arena, heap->count), NULL);
}

/* ---- where a block is measured ---- */

static bool is_measured(const struct sewing *sewing)
{
    const struct heap *heap = sewing->heap;
    bool measured = sewing->step->heap == sewing->w->quilt->top;
    for (size_t i = 0; i < heap->names.count; i++)
        measured |= is_sewn_block(heap, &heap->names.items[i]);
    return measured;
}

/* The side of more seams shows first what is wrong; it is named where the other has
 * fewer, and is off by less. */
static const char *checkpoint_key(double across, double down)
{
    const double same = 1e-6; /* sums of halves, far from it otherwise */
    return fabs(across - down) < same ? "step.checkpoint"
           : across > down            ? "step.checkpoint-across"
                                      : "step.checkpoint-down";
}

/* What is off, in steps that a ruler shows, and about how much that is in each
 * seam, in threads: less than a thread is not sewn. */
const char *checkpoint(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const enum length_unit units = w->design->pattern->units;
    const struct rational step = trade_length(TRADE_OFF_BLOCK, units);
    const struct rational thread = trade_length(TRADE_THREAD, units);
    const double across = sewing->takes[2 * sewing->step->heap];
    const double down = sewing->takes[2 * sewing->step->heap + 1];
    const double takes = fmax(across, down);
    if (!is_measured(sewing) || takes < 1)
        return "";
    const double ratio = takes * rational_double(rational_div(thread, step));
    const long steps = ratio < 1 ? 1 : lround(ratio);
    const long threads = lround((double)steps / ratio);
    return say(w->arena, w->phrases, checkpoint_key(across, down), "off",
               word_length_unit(w, rational_times(step, steps)), "each",
               word_length_unit(w, rational_times(thread, threads)), NULL);
}

/* ---- parts ---- */

/* Strips that are sewn on as they are measured have their sizes in the table of
 * the borders; mitred ones are cut to length before. */
static bool has_own_table(const struct wording *w, const struct cut_piece *cut)
{
    return cut->border > 0 &&
           !w->quilt->definition->borders.items[cut->border - 1].mitred;
}

/* The cloth of a cut piece and its size, "2⅜ in square". */
static const char *cut_words(const struct sewing *sewing,
                             const struct heap *heap)
{
    const struct wording *w = sewing->w;
    const struct cut_piece *cut = &heap->of.cut;
    const char *cloth = sewing->plan->colorway->bolts[cut->fabric].name;
    const char *size =
        patch_is_angled(cut->shape) ? word_shape(w, cut->shape, cut->height)
        : cut->shape != PATCH_WHOLE
            ? say(w->arena, w->phrases,
                  cut->shape == PATCH_HALVED ? "words.half-square"
                                             : "words.quarter-square",
                  "side", word_length(w, cut->width), "unit", word_unit(w),
                  NULL)
        : rational_equal(cut->width, cut->height)
            ? say(w->arena, w->phrases, "words.square", "side",
                  word_length(w, cut->width), "unit", word_unit(w), NULL)
            : word_cut_size(w, cut->fabric, cut->width, cut->height);
    return has_own_table(w, cut) ? cloth
                                 : say(w->arena, w->phrases, "step.part",
                                       "cloth", cloth, "size", size, NULL);
}

/* Cut pieces lead back to the cutting plan and show a swatch; sewn parts lead
 * to their step and show a small picture of the cloth. */
static struct told_entry part_entry(const struct sewing *sewing,
                                    const struct told_part *part)
{
    const struct wording *w = sewing->w;
    const struct heap *heap = &w->quilt->heaps.items[part->heap];
    const bool cut = heap->technique == TECHNIQUE_CUT;
    const struct told_text label =
        cut ? link_to_cutting(w, part->heap) : link_to_step(w, part->heap);
    const char *words = cut ? cut_words(sewing, heap)
                            : say(w->arena, w->phrases, "part.step", "step",
                                  say_count(w->arena, heap->step), NULL);
    return (struct told_entry){
        .picture = cut ? PICTURE_SWATCH : PICTURE_CLOTH,
        .fabric = cut ? heap->of.cut.fabric : 0,
        .heap = part->heap,
        .label = label,
        /* What has no name is told by its step. */
        .words = strcmp(label.text, words) == 0 ? "" : words,
        .count = say(w->arena, w->phrases, "step.part-count", "count",
                     say_count(w->arena, part->count), NULL)};
}

/* Casts that take the same piece, each for another role, lay it out once. */
static void lay_out(const struct wording *w, struct told_parts *parts,
                    const struct told_part *part)
{
    for (size_t i = 0; i < parts->items.count; i++) {
        struct told_part *there = &parts->items.items[i];
        if (there->heap == part->heap) {
            there->count += part->count;
            return;
        }
    }
    *LIST_ADD(w->arena, &parts->items) = *part;
}

/* The parts of all casts of a step, as its count is that of all of them, too:
 * what fills one role in one cast stands before what fills it in the others. */
static struct told_parts all_parts(const struct sewing *sewing)
{
    const struct told_step *step = sewing->step;
    struct told_parts parts = {.items = {0}};
    for (size_t i = 0; i < step->parts.items.count; i++) {
        const struct told_part *own = &step->parts.items.items[i];
        lay_out(sewing->w, &parts, own);
        for (size_t k = 0; !own->shared && k < step->sizes.count; k++) {
            const struct told_parts *others = &step->sizes.items[k].parts;
            if (i < others->items.count)
                lay_out(sewing->w, &parts, &others->items.items[i]);
        }
    }
    return parts;
}

/* What lies on the table before the step begins, each kind with its count.
 * Other sizes have their parts in a table of their own. */
static void add_parts(const struct sewing *sewing)
{
    const struct told_parts parts =
        are_casts(sewing) ? all_parts(sewing) : sewing->step->parts;
    for (size_t i = 0; i < parts.items.count; i++)
        *LIST_ADD(sewing->w->arena, &sewing->work->parts) =
            part_entry(sewing, &parts.items.items[i]);
}

/* ---- the designer's words ---- */

/* What the designer says, with counts and sizes of the heap that it is said of.
 */
static const char *said_of(const struct sewing *sewing, size_t heap,
                           const struct words *words)
{
    const struct wording *w = sewing->w;
    return word_words(w, sewing->plan->colorway, words,
                      &w->quilt->heaps.items[heap]);
}

/* Two texts that differ in one number as one, which tells both: "not 8½ in
 * (Star 24 in: 24½ in) square". NULL where they differ in more. */
static const char *both_texts(const struct wording *w, const char *own,
                              const char *other, const char *name)
{
    enum { MOST = 24 }; /* bytes of a size with its unit */
    size_t from = 0, behind = 0;
    const size_t length = strlen(own), others = strlen(other);
    for (size_t i = 0; own[i] != '\0' && own[i] == other[i]; i++)
        if (own[i] == ' ')
            from = i + 1;
    for (size_t i = 1; i <= length - from && i <= others - from &&
                       own[length - i] == other[others - i];
         i++)
        if (own[length - i] == ' ')
            behind = i;
    const size_t differs = length - behind - from;
    const size_t otherwise = others - behind - from;
    if (differs > MOST || otherwise > MOST)
        return NULL;
    const char *both =
        say(w->arena, w->phrases, "step.in-size", "own",
            arena_printf(w->arena, "%.*s", (int)differs, own + from), "name",
            name, "other",
            arena_printf(w->arena, "%.*s", (int)otherwise, other + from), NULL);
    return arena_printf(w->arena, "%.*s%s%s", (int)from, own, both,
                        own + length - behind);
}

/* Words that tell a size are told for each size: in one note where they differ
 * in that alone, else in a note behind its name. requires: the note of the
 * step's own size is the last. */
static void say_of_sizes(const struct sewing *sewing, const struct words *words)
{
    const struct wording *w = sewing->w;
    const struct told_step *step = sewing->step;
    const char *first = said_of(sewing, sewing->step->heap, words);
    if (step->sizes.count == 1 && first[0] != '\0') {
        const size_t heap = step->sizes.items[0].heap;
        const char *text = said_of(sewing, heap, words);
        const char *both = strcmp(text, first) == 0
                               ? first
                               : both_texts(w, first, text, word_part(w, heap));
        if (both != NULL) {
            struct told_note *notes = sewing->work->before.items;
            notes[sewing->work->before.count - 1].text = both;
            return;
        }
    }
    for (size_t k = 0; k < sewing->step->sizes.count; k++) {
        const size_t heap = sewing->step->sizes.items[k].heap;
        const char *text = said_of(sewing, heap, words);
        if (strcmp(text, first) != 0)
            *LIST_ADD(w->arena, &sewing->work->before) =
                (struct told_note){word_part(w, heap), text};
    }
}

/* A mirrored unit does not repeat what was said of the plain one: left and
 * right would be wrong. */
static bool said_of_plain(const struct sewing *sewing, const struct heap *heap,
                          const struct words *say)
{
    const struct sewn_quilt *quilt = sewing->w->quilt;
    for (size_t i = 0; heap->named_mirror && i < quilt->heaps.count; i++) {
        const struct heap *plain = &quilt->heaps.items[i];
        for (size_t k = 0; plain->step > 0 && !plain->named_mirror &&
                           plain->named == heap->named && k < plain->says.count;
             k++)
            if (plain->says.items[k] == say)
                return true;
    }
    return false;
}

/* Of all heaps of the step, as rows on the way to a unit may have words of
 * their own. Words that the plain telling has already are left out. */
static void add_says(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    for (size_t h = 0; h < sewing->step->heaps.count; h++) {
        const size_t heap = sewing->step->heaps.items[h];
        const struct heap *made = &w->quilt->heaps.items[heap];
        for (size_t i = 0; i < made->says.count; i++) {
            if (said_of_plain(sewing, made, made->says.items[i]))
                continue;
            const char *text = said_of(sewing, heap, made->says.items[i]);
            if (text[0] != '\0')
                *LIST_ADD(w->arena, &sewing->work->before) =
                    (struct told_note){"", text};
            if (heap == sewing->step->heap)
                say_of_sizes(sewing, made->says.items[i]);
        }
    }
}

/* ---- a step ---- */

/* Which step tells how a technique is done, for those that come after. */
static size_t teller_of(const struct told_steps *steps,
                        const struct sewn_quilt *quilt, size_t index)
{
    const struct heap *heap =
        &quilt->heaps.items[steps->items.items[index].heap];
    if (heap->technique == TECHNIQUE_JOIN ||
        heap->technique == TECHNIQUE_BORDER)
        return 0;
    for (size_t i = 0; i < index; i++) {
        const struct heap *other =
            &quilt->heaps.items[steps->items.items[i].heap];
        if (told_alike(heap, other))
            return steps->items.items[i].number;
    }
    return steps->items.items[index].number;
}

/* The step of the earlier of two mirror images; 0 for none. */
static size_t mirrored_step(const struct wording *w, size_t heap)
{
    for (size_t i = 0; i < heap; i++) {
        const struct heap *other = &w->quilt->heaps.items[i];
        if (other->step > 0 && other->within == i &&
            are_mirrored(&w->quilt->heaps.items[heap], other))
            return other->step;
    }
    return 0;
}

/* The later of two mirror images tells of the earlier: at length where that
 * comes up first. */
static void add_mirror_note(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const size_t other = mirrored_step(w, sewing->step->heap);
    bool known = false;
    for (size_t i = 0; i < sewing->step->heap; i++)
        known |= w->quilt->heaps.items[i].step > 0 &&
                 w->quilt->heaps.items[i].within == i &&
                 mirrored_step(w, i) > 0;
    if (other > 0)
        *LIST_ADD(w->arena, &sewing->work->before) = (struct told_note){
            "", say(w->arena, w->phrases,
                    known ? "step.mirror-again" : "step.mirror-of", "number",
                    say_count(w->arena, other), NULL)};
}

/* "16, 2 of each kind" where all are of one size. */
static const char *casts_in_all(const struct wording *w,
                                const struct told_step *step)
{
    size_t total = step->count;
    bool equal = true;
    for (size_t i = 0; i < step->sizes.count; i++) {
        total += step->sizes.items[i].count;
        equal &= step->sizes.items[i].count == step->count;
    }
    const char *kinds = say_count(w->arena, step->sizes.count + 1);
    return equal ? say(w->arena, w->phrases, "step.casts-each", "total",
                       say_count(w->arena, total), "count",
                       say_count(w->arena, step->count), "kinds", kinds, NULL)
                 : say(w->arena, w->phrases, "step.casts", "total",
                       say_count(w->arena, total), "kinds", kinds, NULL);
}

/* "80", or "80 + 4" where other sizes are made in the same step. */
static const char *made_in_all(const struct sewing *sewing)
{
    const struct wording *w = sewing->w;
    const struct told_step *step = sewing->step;
    if (are_casts(sewing))
        return casts_in_all(w, step);
    struct buffer text = buffer_in(w->arena);
    buffer_printf(&text, "%s", say_count(w->arena, step->count));
    for (size_t i = 0; i < step->sizes.count; i++)
        buffer_printf(&text, "\u00a0+\u00a0%s",
                      say_count(w->arena, step->sizes.items[i].count));
    return buffer_string(&text);
}

/* Borders that are mitred as one are one heap, but several borders. */
static size_t borders_added(const struct wording *w,
                            const struct told_step *step)
{
    size_t count = 0;
    for (size_t i = 0; i < w->quilt->borders.count; i++)
        for (size_t k = 0; k < step->heaps.count; k++)
            count += w->quilt->borders.items[i].heap == step->heaps.items[k];
    return count;
}

/* A step is told once, whatever size its figures get on the page. */
static void add_step(const struct wording *w, struct contents *contents,
                     const struct cutplan *plan, const struct told_steps *steps,
                     const double *takes, size_t index)
{
    const struct told_step *step = &steps->items.items[index];
    struct told_work *work =
        add_work(w, contents, PART_STEPS, step->number, step->title);
    const struct sewing sewing = {
        w, plan, step, &w->quilt->heaps.items[step->heap], work, takes};
    work->step = step;
    work->told_in = teller_of(steps, w->quilt, index);
    work->place = place_step(w->arena, step->number);
    work->made = sewing.heap->technique == TECHNIQUE_BORDER
                     ? say(w->arena, w->phrases, "step.add", "count",
                           say_count(w->arena, borders_added(w, step)), NULL)
                     : say(w->arena, w->phrases, "step.make", "count",
                           made_in_all(&sewing), NULL);
    add_parts(&sewing);
    add_says(&sewing);
    add_mirror_note(&sewing);
    if (is_border_step(&sewing))
        add_border_frames(&sewing);
    else if (sewing.heap->technique == TECHNIQUE_JOIN)
        add_join_frames(&sewing);
    else
        add_technique_frames(&sewing);
    add_sizes(&sewing);
}

/* All steps in the order of their numbers, which is an order in which each part
 * is made before it is taken. */
struct contents tell_sewing(const struct wording *w, const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    struct told_steps *steps = ARENA_NEW(w->arena, struct told_steps);
    *steps = tell_steps(w);
    const double *takes = seams_take(w->arena, w->design->pattern, w->quilt);
    add_title(w, &contents, say(w->arena, w->phrases, "step.title", NULL),
              say(w->arena, w->phrases, "step.lead", "seam",
                  word_length_unit(w, w->design->pattern->seam), NULL));
    add_legend(w, &contents);
    for (size_t i = 0; i < steps->items.count; i++)
        add_step(w, &contents, plan, steps, takes, i);
    return contents;
}
