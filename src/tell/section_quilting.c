/* How the quilt is quilted: a map of its areas, the stages, how each line is
 * found, the path in each kind of area, threads. Read next:
 * section_quilting_before.c. */
#include "quilting_words.h"

#include <math.h>
#include <string.h>

/* ---- cells ---- */

/* A plain number. */
static void add_count_cell(const struct wording *w, struct told_row *row,
                           size_t count)
{
    add_words_cell(w, row, say_count(w->arena, count));
}

/* A sample of it, its name, and below that its color. */
static void add_thread_cell(const struct teller *t, struct told_row *row,
                            size_t thread)
{
    const struct wording *w = t->w;
    struct told_cell *cell =
        add_words_cell(w, row, t->plan->told->threads.items[thread].id);
    cell->colorway = t->cut->colorway;
    cell->quilting = t->plan;
    cell->thread = thread;
}

/* ---- stages ---- */

/* In the colors of the booklet's colorway; what its kind of drawing asks for
 * is set by who calls. */
static struct told_figure figure_for(const struct teller *t,
                                     enum drawing_kind drawing,
                                     const char *caption, const char *told)
{
    return (struct told_figure){.drawing = drawing,
                                .quilting = t->plan,
                                .colorway = t->cut->colorway,
                                .caption = caption,
                                .told = told};
}

/* Why stages have this order stands with them in quilting.h; here it is told in
 * a sentence. */
static const char *stage_words(const struct wording *w,
                               enum quilting_stage stage)
{
    switch (stage) {
    case STAGE_DITCH:
        return say(w->arena, w->phrases, "quilting.stage-ditch", NULL);
    case STAGE_LINES:
        return say(w->arena, w->phrases, "quilting.stage-lines", NULL);
    case STAGE_ECHOES:
        return say(w->arena, w->phrases, "quilting.stage-echoes", NULL);
    case STAGE_FILLERS:
    case QUILTING_STAGES:
        break;
    }
    return say(w->arena, w->phrases, "quilting.stage-fillers", NULL);
}

/* The path of each thread of the stage. */
static const char *route_words(const struct teller *t,
                               enum quilting_stage stage)
{
    const struct wording *w = t->w;
    const char *text = "";
    for (size_t i = 0; i < t->plan->routes.count; i++) {
        const struct quilted_route *route = &t->plan->routes.items[i];
        if (route->stage != stage)
            continue;
        text = word_then(w, text,
                         say(w->arena, w->phrases, "quilting.path", "thread",
                             t->plan->told->threads.items[route->thread].id,
                             "length", word_measured(w, route->stitched),
                             "starts", say_count(w->arena, route->starts),
                             "turns", say_count(w->arena, route->turns), NULL));
    }
    return text;
}

/* The signs of figures, and how long lines are begun. Customs differ in that:
 * the booklet follows what the source asks for, and says nothing against the
 * other way. */
static const char *order_words(const struct teller *t)
{
    const struct wording *w = t->w;
    const char *dots = say(w->arena, w->phrases, "quilting.dots", NULL);
    if (!quilting_has_lines(t->plan))
        return dots;
    return word_then(
        w, dots,
        t->plan->told->center_out
            ? say(w->arena, w->phrases, "quilting.order-center", NULL)
            : say(w->arena, w->phrases, "quilting.order-across", NULL));
}

/* Is a path shown turn by turn? */
static bool has_way(const struct teller *t)
{
    return quilting_has_stage(t->plan, STAGE_DITCH) ||
           quilting_has_stage(t->plan, STAGE_LINES);
}

/* The signs of a path, before the others. */
static const char *way_words(const struct teller *t)
{
    const struct wording *w = t->w;
    return has_way(t)
               ? word_then(w, say(w->arena, w->phrases, "quilting.way", NULL),
                           order_words(t))
               : order_words(t);
}

static void add_stage(const struct teller *t, enum quilting_stage stage,
                      const char *caption, const char *path)
{
    const struct wording *w = t->w;
    struct told_figure figure =
        figure_for(t, DRAWING_QUILTING_STAGE, word_then(w, caption, path),
                   say(w->arena, w->phrases, "quilting.stage-told", "stage",
                       title_of_stage(w, stage), NULL));
    figure.stage = stage;
    add_figure(w, t->contents, PART_STAGES, figure);
}

/* A plan of one stage is its own map, which tells all of it, unless its path is
 * too long for that. */
static void add_stages(const struct teller *t)
{
    const struct wording *w = t->w;
    enum quilting_stage only;
    const size_t stages = quilting_stages(t->plan, &only);
    if (stages == 1 && quilting_way_is_long(t->plan, only)) {
        add_heading(w, t->contents, PART_STAGES,
                    say(w->arena, w->phrases, "quilting.whole-way", NULL));
        add_paragraph(w, t->contents, PART_STAGES,
                      word_then(w, route_words(t, only), way_words(t)));
        add_stage(t, only,
                  say(w->arena, w->phrases, "quilting.way-close", NULL), "");
    }
    if (stages <= 1)
        return;
    add_heading(w, t->contents, PART_STAGES,
                say(w->arena, w->phrases, "quilting.stages", NULL));
    add_paragraph(w, t->contents, PART_STAGES,
                  word_then(w,
                            say(w->arena, w->phrases, "quilting.strong", NULL),
                            way_words(t)));
    for (int i = 0; i < QUILTING_STAGES; i++) {
        const enum quilting_stage stage = (enum quilting_stage)i;
        if (quilting_has_stage(t->plan, stage))
            add_stage(t, stage, stage_words(w, stage), route_words(t, stage));
    }
}

/* ---- areas ---- */

/* Kinds that are told in one row: filled by one element, with nothing to tell
 * of their paths. ensures: behind the last of them. */
static size_t row_end(const struct quilting_plan *plan, size_t first)
{
    const struct quilted_kind *kinds = plan->kinds.items;
    size_t end = first + 1;
    while (end < plan->kinds.count && quilting_kind_shown(plan, end) &&
           kinds[first].fill != NULL && kinds[end].fill == kinds[first].fill &&
           quilting_path_plain(&kinds[first]) &&
           quilting_path_plain(&kinds[end]))
        end++;
    return end;
}

/* "a", or "b–e". */
static const char *row_letters(const struct wording *w,
                               const struct quilted_kind *first,
                               const struct quilted_kind *last)
{
    return first == last
               ? first->letter
               : say(w->arena, w->phrases, "quilting.letters", "first",
                     first->letter, "last", last->letter, NULL);
}

/* "4½ in", or "4½ in to 30 in". */
static const char *row_lengths(const struct wording *w,
                               const struct quilted_kind *first,
                               const struct quilted_kind *last)
{
    double least = first->filled, most = first->filled;
    for (const struct quilted_kind *kind = first; kind <= last; kind++) {
        least = fmin(least, kind->filled);
        most = fmax(most, kind->filled);
    }
    if (!(most > 0))
        return "";
    return first == last ? word_measured(w, most)
                         : say(w->arena, w->phrases, "quilting.lengths",
                               "least", word_measured(w, least), "most",
                               word_measured(w, most), NULL);
}

/* Letters, cloth, filler and its thread; how many there are, and how much is
 * stitched for each of them alone. */
static void add_kind_row(const struct teller *t, struct told_table *table,
                         size_t first, size_t end)
{
    const struct wording *w = t->w;
    const struct quilted_kind *kind = &t->plan->kinds.items[first];
    const struct quilted_kind *last = &t->plan->kinds.items[end - 1];
    struct told_row *row = add_row(w, table);
    size_t count = 0;
    bool several = false;
    for (size_t i = first; i < end; i++) {
        count += t->plan->kinds.items[i].count;
        several |= t->plan->kinds.items[i].fabric != kind->fabric;
    }
    add_words_cell(w, row, row_letters(w, kind, last));
    if (several || kind->fabric == NO_FABRIC)
        add_words_cell(w, row,
                       say(w->arena, w->phrases, "quilting.several", NULL));
    else
        add_cloth_cell(w, row, t->cut->colorway, kind->fabric);
    add_words_cell(w, row, word_filler(w, kind));
    if (kind->fill != NULL && kind->fill->of.fill.with != TOLD_NONE)
        add_thread_cell(t, row, (size_t)kind->fill->thread);
    else
        add_words_cell(w, row, "");
    add_count_cell(w, row, count);
    add_words_cell(w, row, row_lengths(w, kind, last));
}

/* Areas that have no letter, in one row. */
static void add_other_row(const struct teller *t, struct told_table *table)
{
    const struct wording *w = t->w;
    const char *filler = NULL;
    size_t count = 0;
    for (size_t i = 0; i < t->plan->kinds.count; i++)
        if (!quilting_kind_shown(t->plan, i)) {
            filler = word_filler(w, &t->plan->kinds.items[i]);
            count += t->plan->kinds.items[i].count;
        }
    if (filler == NULL)
        return;
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row, say(w->arena, w->phrases, "quilting.others", NULL));
    add_words_cell(w, row, "");
    add_words_cell(w, row, filler);
    add_words_cell(w, row, "");
    add_count_cell(w, row, count);
    add_words_cell(w, row, "");
}

/* What the map shows; of a plan of one stage also how it is stitched. That
 * comes first of what there is, so that nothing is said of an order of stages.
 */
static const char *map_caption(const struct teller *t, size_t shown)
{
    const struct wording *w = t->w;
    enum quilting_stage only;
    const char *text =
        shown > 0 ? say(w->arena, w->phrases, "quilting.map", NULL)
                  : say(w->arena, w->phrases, "quilting.map-lines", NULL);
    if (quilting_stages(t->plan, &only) != 1)
        return text;
    if (quilting_way_is_long(t->plan, only))
        return word_then(w, text,
                         say(w->arena, w->phrases, "quilting.dots", NULL));
    text = word_then(w, text, route_words(t, only));
    return word_then(w, text,
                     quilting_way_is_short(t->plan, only) ? way_words(t)
                                                          : order_words(t));
}

/* The map tells where each letter is, the table what it stands for. Lines that
 * fill nothing leave nothing to tell in a table. */
static void add_areas(const struct teller *t)
{
    const struct wording *w = t->w;
    struct told_table table = {.columns = {0}};
    enum quilting_stage only;
    size_t shown = 0;
    for (size_t i = 0; i < t->plan->kinds.count; i++)
        shown += quilting_kind_shown(t->plan, i);
    /* The figure of its path shows all that a map could. */
    if (shown == 0 && quilting_stages(t->plan, &only) == 1 &&
        quilting_way_is_long(t->plan, only))
        return;
    add_figure(w, t->contents, PART_AREAS,
               figure_for(t, DRAWING_QUILTING_MAP, map_caption(t, shown),
                          say(w->arena, w->phrases, "quilting.map-told",
                              "count", say_count(w->arena, shown), NULL)));
    if (shown == 0)
        return;
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "quilting.area", NULL));
    add_column(w, &table, COLUMN_CLOTH,
               say(w->arena, w->phrases, "quilting.cloth", NULL));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "quilting.filler", NULL));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "quilting.thread", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.count", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.each", NULL));
    for (size_t i = 0, end = 0; i < t->plan->kinds.count; i = end) {
        end = row_end(t->plan, i);
        if (quilting_kind_shown(t->plan, i))
            add_kind_row(t, &table, i, end);
    }
    add_other_row(t, &table);
    add_table(w, t->contents, PART_AREAS, table);
}

/* ---- lines ---- */

/* Do two rows say the same of other lines? */
static bool same_words(const struct teller *t, const struct quilted_row *a,
                       const struct quilted_row *b)
{
    return strcmp(word_line_of(t->w, t->plan, a->item),
                  word_line_of(t->w, t->plan, b->item)) == 0 &&
           strcmp(quilting_found(t, a), quilting_found(t, b)) == 0;
}

/* What is stitched by eye has areas, and no longest line. Rows that nobody
 * could tell apart are one: ensures nothing for all but the first of them. */
static void add_line_row(const struct teller *t, struct told_table *table,
                         size_t index)
{
    const struct wording *w = t->w;
    const struct quilted_row *rows = t->plan->rows.items;
    struct quilted_row all = rows[index];
    const struct quilted_row *line = &all;
    const bool free = all.found == FOUND_FREE;
    for (size_t i = 0; i < t->plan->rows.count; i++) {
        if (i == index || !same_words(t, &rows[i], &rows[index]))
            continue;
        if (i < index)
            return;
        all.lines += rows[i].lines;
        all.longest = fmax(all.longest, rows[i].longest);
        all.length += rows[i].length;
    }
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row, word_line_of(w, t->plan, line->item));
    add_words_cell(w, row, quilting_found(t, line));
    add_count_cell(w, row, line->lines);
    add_words_cell(w, row, free ? "" : word_measured(w, line->longest));
    add_words_cell(w, row, word_measured(w, line->length));
}

/* The share is rounded down: it is what a reader may rely on. That a line lies
 * a quarter of an inch beside the edge of the ruler is published (A favorite
 * tool, quiltskipper.com, April 2017; Cross hatching,
 * alwaysquilting.wordpress.com); as feet differ, the foot of the source is
 * told.
 */
static void add_lines(const struct teller *t)
{
    const struct wording *w = t->w;
    struct told_table table = {.columns = {0}};
    if (!quilting_has_lines(t->plan))
        return;
    add_heading(w, t->contents, PART_LINES,
                say(w->arena, w->phrases, "quilting.lines", NULL));
    const size_t percent = (size_t)floor(100.0 * quilting_unmarked(t->plan));
    add_paragraph(
        w, t->contents, PART_LINES,
        word_then(w,
                  say(w->arena, w->phrases, "quilting.unmarked", "percent",
                      say_count(w->arena, percent), NULL),
                  say(w->arena, w->phrases, "quilting.ruler", "edge",
                      word_length_unit(w, t->plan->told->foot), NULL)));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "quilting.line", NULL));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "quilting.found", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.line-count", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.longest", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.total", NULL));
    for (size_t i = 0; i < t->plan->rows.count; i++)
        add_line_row(t, &table, i);
    add_table(w, t->contents, PART_LINES, table);
}

/* ---- sequences ---- */

/* All threads of the area together. */
static const char *sequence_caption(const struct teller *t,
                                    const struct quilted_kind *kind)
{
    const struct wording *w = t->w;
    size_t starts = 0, turns = 0;
    for (size_t i = 0; i < kind->sequences.count; i++) {
        starts += kind->sequences.items[i].starts;
        turns += kind->sequences.items[i].turns;
    }
    return say(w->arena, w->phrases, "quilting.sequence", "letter",
               kind->letter, "filler", word_filler(w, kind), "starts",
               say_count(w->arena, starts), "turns", say_count(w->arena, turns),
               NULL);
}

/* Areas in which nothing is stitched for them alone have no path. How a path
 * begins is published (Machine-quilting basics, allpeoplequilt.com), as is that
 * ends off the quilt need no knot (christaquilts.com, 30 September 2015). */
static void add_sequences(const struct teller *t)
{
    const struct wording *w = t->w;
    bool headed = false;
    for (size_t i = 0; i < t->plan->kinds.count; i++) {
        const struct quilted_kind *kind = &t->plan->kinds.items[i];
        if (quilting_path_plain(kind))
            continue;
        if (!headed) {
            add_heading(w, t->contents, PART_SEQUENCES,
                        say(w->arena, w->phrases, "quilting.sequences", NULL));
            add_paragraph(
                w, t->contents, PART_SEQUENCES,
                word_then(w, say(w->arena, w->phrases, "quilting.signs", NULL),
                          quilting_plain_areas(t)));
        }
        headed = true;
        struct told_figure figure =
            figure_for(t, DRAWING_QUILTING_SEQUENCE, sequence_caption(t, kind),
                       title_of_area(w, kind, true));
        figure.kind = i;
        add_figure(w, t->contents, PART_SEQUENCES, figure);
    }
}

/* ---- threads ---- */

/* "blends with Night sky; shows on Flame": the cloths that it runs on. */
static const char *shown_on(const struct teller *t, size_t thread)
{
    const struct wording *w = t->w;
    const size_t count = t->plan->told->threads.count;
    const struct thread_dress *dress =
        &t->plan->dresses[t->colorway * count + thread];
    struct texts blends = {.items = {0}}, shows = {.items = {0}};
    for (size_t f = 0; f < w->design->fabrics.count; f++)
        if (t->plan->amounts[thread].over[f] > 0)
            texts_add(w, dress->shows[f] ? &shows : &blends,
                      t->cut->colorway->bolts[f].name);
    const char *text = "";
    if (blends.items.count > 0)
        text = say(w->arena, w->phrases, "quilting.blends", "cloths",
                   texts_listed(w, &blends), NULL);
    if (shows.items.count > 0)
        text = word_then(w, text,
                         say(w->arena, w->phrases, "quilting.shows", "cloths",
                             texts_listed(w, &shows), NULL));
    return text;
}

/* Does a thread of the colorway say how long its spool is? */
static bool spools_told(const struct teller *t)
{
    const size_t count = t->plan->told->threads.count;
    for (size_t i = 0; i < count; i++)
        if (t->plan->dresses[t->colorway * count + i].spools > 0)
            return true;
    return false;
}

/* "853 yd: 2 spools"; where no spool is told, the length, which among others
 * says why it stands alone. */
static const char *bought_text(const struct teller *t, size_t thread)
{
    const struct wording *w = t->w;
    const size_t count = t->plan->told->threads.count;
    const struct thread_dress *dress =
        &t->plan->dresses[t->colorway * count + thread];
    const char *length = word_thread_length(w, t->plan->amounts[thread].bought);
    if (dress->spools == 0)
        return spools_told(t)
                   ? say(w->arena, w->phrases, "quilting.spool-untold",
                         "length", length, NULL)
                   : length;
    return say(w->arena, w->phrases, "quilting.spools", "length", length,
               "count", say_count(w->arena, dress->spools), NULL);
}

/* With the name of the thread in the bobbin, where that is another one: it is
 * bought and wound of that one. */
static const char *below_text(const struct teller *t, size_t thread)
{
    const struct wording *w = t->w;
    const struct quilting *told = t->plan->told;
    const size_t below = told->threads.items[thread].below;
    const char *length = word_thread_length(w, t->plan->amounts[thread].below);
    return below == thread
               ? length
               : say(w->arena, w->phrases, "quilting.below-of", "length",
                     length, "thread", told->threads.items[below].id, NULL);
}

/* Bobbins of a thread are those wound with it, whatever lies above. */
static void add_thread_row(const struct teller *t, struct told_table *table,
                           size_t thread)
{
    const struct wording *w = t->w;
    const struct thread_amount *amount = &t->plan->amounts[thread];
    struct told_row *row = add_row(w, table);
    add_thread_cell(t, row, thread);
    add_words_cell(
        w, row,
        word_then(w,
                  say(w->arena, w->phrases, "quilting.thread-color", "color",
                      word_thread_color(w, t->plan, t->colorway, thread), NULL),
                  shown_on(t, thread)));
    add_words_cell(w, row, word_measured(w, amount->line));
    add_words_cell(w, row, word_measured(w, amount->travel));
    add_count_cell(w, row, amount->starts);
    add_words_cell(w, row, word_thread_length(w, amount->above));
    add_words_cell(w, row, below_text(t, thread));
    add_count_cell(w, row, amount->bobbins);
    add_words_cell(w, row, bought_text(t, thread));
}

/* As the amounts count them: tails to hold and to bury, our choice. */
static void add_threads(const struct teller *t)
{
    const struct wording *w = t->w;
    const int64_t tail = w->design->pattern->units == UNIT_CM ? 15 : 6;
    struct told_table table = {.columns = {0}};
    add_heading(w, t->contents, PART_THREADS,
                say(w->arena, w->phrases, "quilting.threads", "colorway",
                    t->cut->colorway->name, NULL));
    add_column(w, &table, COLUMN_CLOTH,
               say(w->arena, w->phrases, "quilting.thread", NULL));
    add_column(w, &table, COLUMN_WORDS,
               say(w->arena, w->phrases, "quilting.color", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.length", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.travel", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.starts", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.above", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.below", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.bobbins", NULL));
    add_column(w, &table, COLUMN_AMOUNT,
               say(w->arena, w->phrases, "quilting.buy", NULL));
    for (size_t i = 0; i < t->plan->told->threads.count; i++)
        add_thread_row(t, &table, i);
    add_table(w, t->contents, PART_THREADS, table);
    add_paragraph(w, t->contents, PART_THREADS,
                  say(w->arena, w->phrases, "quilting.thread-note", "tail",
                      word_length_unit(w, rational_whole(tail)), "bobbin",
                      word_yardage(w, t->plan->told->bobbin), NULL));
}

struct contents tell_quilting(const struct wording *w,
                              const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    if (plan->quilting == NULL || plan->quilting->told == NULL)
        return contents;
    const struct teller t = {
        w, &contents, plan, plan->quilting,
        (size_t)(plan->colorway - w->design->colorways.items)};
    enum quilting_stage only;
    add_title(w, &contents, say(w->arena, w->phrases, "quilting.title", NULL),
              quilting_stages(plan->quilting, &only) > 1
                  ? say(w->arena, w->phrases, "quilting.lead", NULL)
                  : say(w->arena, w->phrases, "quilting.lead-one", NULL));
    add_areas(&t);
    quilting_add_facts(&t);
    quilting_add_cautions(&t);
    add_stages(&t);
    add_lines(&t);
    add_sequences(&t);
    add_threads(&t);
    return contents;
}
