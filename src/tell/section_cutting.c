/* Cutting, cloth by cloth: what must be known before the first cut, the lines
 * in their order, what is joined, what is left; and a label for each heap. Read
 * next: cutting_words.c, cutting_joined.c, cutting_notes.c. */
#include "contents.h"

static const char *said(const struct wording *w, const char *key)
{
    return say(w->arena, w->phrases, key, NULL);
}

/* ---- before the first cut ---- */

/* How many layers are cut at once, and what a red line is. */
static const char *layers_text(const struct wording *w, size_t layers)
{
    return said(w, layers == 4   ? "cutting.layers-4"
                   : layers == 2 ? "cutting.layers-2"
                                 : "cutting.layers-1");
}

/* How cloth is folded, with its figure. */
static void add_intro(const struct wording *w, const struct cutplan *plan,
                      struct contents *contents)
{
    const struct pattern *pattern = w->design->pattern;
    add_figure(w, contents, PART_MAIN,
               (struct told_figure){.drawing = DRAWING_FOLD,
                                    .caption = "",
                                    .told = said(w, "cutting.fold-words")});
    add_paragraph(
        w, contents, PART_MAIN,
        word_then(w, tell_intro(w, plan),
                  said(w, pattern->units == UNIT_CM ? "cutting.unit-cm"
                                                    : "cutting.unit-in")));
    add_paragraph(w, contents, PART_MAIN, layers_text(w, pattern->layers));
}

/* Nothing is added for "", so that callers need not ask first. */
static void add_warning(const struct wording *w, struct told_cloth *cloth,
                        const char *text, enum told_weight weight)
{
    if (text[0] != '\0')
        *LIST_ADD(w->arena, &cloth->warnings) =
            (struct told_warning){text, weight};
}

/* Other layers than the pattern's, little length for squaring up, lines that
 * take all there is. */
static void add_warnings(const struct wording *w, struct told_cloth *cloth,
                         const struct fabric_plan *plan)
{
    if (plan->bolt->sold != SOLD_YARDAGE) {
        add_warning(w, cloth, tell_tight_sheets(w, plan), WEIGHT_STRONG);
        add_warning(w, cloth, tell_reserved(w, plan), WEIGHT_SMALL);
        return;
    }
    if (plan->bolt->layers != w->design->pattern->layers)
        add_warning(w, cloth, layers_text(w, plan->bolt->layers), WEIGHT_PLAIN);
    add_warning(w, cloth, tell_squaring(w, plan), WEIGHT_STRONG);
    add_warning(w, cloth, tell_tight(w, plan), WEIGHT_STRONG);
    add_warning(w, cloth, tell_reserved(w, plan), WEIGHT_SMALL);
    add_warning(w, cloth, tell_late(w, plan), WEIGHT_STRONG);
}

/* ---- lines ---- */

/* ensures: the line, to add figures to; good until the next is added. */
static struct told_cutting *add_line(const struct wording *w,
                                     struct told_cloth *cloth,
                                     struct told_line words)
{
    struct told_cutting *line = LIST_ADD(w->arena, &cloth->lines);
    line->words = words;
    return line;
}

/* All words of the line are told of its figures (ISO 32000-1, 14.9.3). */
static void show(const struct wording *w, struct told_cutting *line,
                 struct told_figure figure)
{
    figure.caption = "";
    figure.told = whole_line(w, &line->words);
    *LIST_ADD(w->arena, &line->figures) = figure;
}

/* What is cut folded, and what is opened then. */
static void add_strips(const struct wording *w, struct told_cloth *cloth,
                       const struct fabric_plan *plan)
{
    for (size_t i = 0; i < plan->strips.count; i++) {
        const struct strip *strip = &plan->strips.items[i];
        const struct strip_work work = fold_strip(w->arena, plan, strip, false);
        const bool whole = is_left_whole(plan, strip);
        const struct cut_item *item =
            &plan->items.items[strip->cuts.items[0].item];
        struct told_cutting *line =
            add_line(w, cloth, tell_strip_line(w, plan, strip));
        if (item->shaped.count > 0) {
            show(w, line,
                 (struct told_figure){.drawing = DRAWING_SHAPES,
                                      .strip = strip});
            continue;
        }
        if (whole || work.pairs.count > 0)
            show(w, line,
                 (struct told_figure){.drawing = DRAWING_FOLDED_STRIP,
                                      .strip = strip});
        if (!whole && work.singles.count > 0)
            show(w, line,
                 (struct told_figure){.drawing = DRAWING_OPENED_STRIP,
                                      .strip = strip});
    }
}

static struct told_line sheet_line(const struct wording *w,
                                   const struct fabric_plan *plan,
                                   const struct sheet *sheet)
{
    return plan->bolt->sold != SOLD_YARDAGE ? tell_sheet_line(w, plan, sheet)
           : sheet->kind == SHEET_REST      ? tell_rest_line(w, plan, sheet)
                                       : tell_lengthwise_line(w, plan, sheet);
}

/* Those of one kind. */
static void add_sheets(const struct wording *w, struct told_cloth *cloth,
                       const struct fabric_plan *plan, enum sheet_kind kind)
{
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet *sheet = &plan->sheets.items[i];
        if (sheet->kind != kind)
            continue;
        struct told_cutting *line =
            add_line(w, cloth, sheet_line(w, plan, sheet));
        show(w, line,
             (struct told_figure){.drawing = kind == SHEET_LENGTHWISE
                                                 ? DRAWING_LENGTHWISE
                                                 : DRAWING_SHEET,
                                  .sheet = sheet});
    }
}

/* ---- a cloth ---- */

/* The step that sews a heap, or 0. */
static size_t step_taking(const struct wording *w, size_t heap)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *taker = &w->quilt->heaps.items[i];
        for (size_t k = 0; k < taker->inputs.count; k++)
            if (taker->inputs.items[k].heap == heap && taker->step > 0)
                return taker->step;
    }
    return 0;
}

/* Squares for triangles stay whole until they are sewn: cut edges on the bias
 * stretch where they lie about. */
static void add_diagonals(const struct wording *w, struct told_cloth *cloth)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_CUT || heap->count == 0 ||
            heap->of.cut.fabric != cloth->fabric ||
            (heap->of.cut.shape != PATCH_HALVED &&
             heap->of.cut.shape != PATCH_QUARTERED))
            continue;
        *LIST_ADD(w->arena, &cloth->joined) =
            say(w->arena, w->phrases,
                heap->of.cut.shape == PATCH_HALVED ? "cutting.diagonal"
                                                   : "cutting.diagonals",
                "label", heap->of.cut.label, "step",
                say_count(w->arena, step_taking(w, i)), NULL);
    }
}

/* The count closes the lines; then what is joined, and what is known of the
 * plan. */
static void add_end(const struct wording *w, struct told_cloth *cloth,
                    const struct cutplan *plan)
{
    const struct fabric_plan *fabric = &plan->fabrics[cloth->fabric];
    cloth->count = tell_count(w, fabric);
    for (size_t i = 0; i < fabric->items.count; i++) {
        const struct cut_item *item = &fabric->items.items[i];
        if (item->lengths.count > 0)
            *LIST_ADD(w->arena, &cloth->joined) =
                word_then(w, tell_joined(w, plan, item),
                          tell_tight_join(w, fabric, item));
    }
    add_diagonals(w, cloth);
    cloth->notes = word_then(
        w, word_then(w, tell_left_over(w, fabric), tell_simply(w, fabric)),
        tell_offer(w, fabric));
}

/* A cloth with all that is cut from it: first what could go wrong, then its
 * lines in the order in which hands cut them, then what is joined, kept and
 * counted. */
static void add_fabric(const struct wording *w, struct contents *contents,
                       const struct cutplan *plan, int fabric)
{
    const struct fabric_plan *one = &plan->fabrics[fabric];
    struct told_cloth *cloth = add_cloth(w, contents);
    cloth->fabric = one->fabric;
    cloth->place = place_cloth(w->arena, one->fabric);
    cloth->name = w->design->fabrics.items[one->fabric].one_way
                      ? say(w->arena, w->phrases, "cutting.one-way", "name",
                            one->bolt->name, NULL)
                      : one->bolt->name;
    cloth->amount = word_amount(w, one);
    add_warnings(w, cloth, one);
    if (one->bolt->sold == SOLD_YARDAGE) {
        add_sheets(w, cloth, one, SHEET_LENGTHWISE);
        add_sheets(w, cloth, one, SHEET_REST);
        add_strips(w, cloth, one);
    } else {
        add_sheets(w, cloth, one, SHEET_BOUGHT);
    }
    add_end(w, cloth, plan);
}

/* ---- labels ---- */

/* Does it have no length yet, as the top is not measured? */
static bool is_cut_late(const struct fabric_plan *plan,
                        const struct cut_item *item)
{
    return item->joined ||
           (item->use == CUT_BORDER && !item->lengthwise &&
            plan->bolt->sold == SOLD_YARDAGE);
}

/* The label, how many of which size, what for. */
static void add_label(const struct wording *w, struct told_table *table,
                      const struct name_table *steps,
                      const struct fabric_plan *plan,
                      const struct cut_item *item)
{
    struct told_row *row = add_row(w, table);
    add_words_cell(w, row, "")->text = link_to_use(w, steps, item);
    add_words_cell(
        w, row,
        is_cut_late(plan, item)
            ? say(w->arena, w->phrases, "cutting.label-strips", "count",
                  say_count(w->arena, item->count), "width",
                  word_length_unit(w, item->height), NULL)
            : say(w->arena, w->phrases, "cutting.label-pieces", "count",
                  say_count(w->arena, item->count), "size",
                  word_cut_size(w, plan->fabric, item->width, item->height),
                  NULL));
    add_words_cell(w, row, word_purpose(w, item));
}

/* Of each shape that is cut from the strips of an item. */
static void add_shape_labels(const struct wording *w, struct told_table *table,
                             const struct name_table *steps,
                             const struct cut_item *item)
{
    for (size_t i = 0; i < item->shaped.count; i++) {
        const struct shaped_piece *piece = &item->shaped.items[i];
        const struct cut_item one = {.use = item->use, .label = piece->label};
        struct told_row *row = add_row(w, table);
        add_words_cell(w, row, "")->text = link_to_use(w, steps, &one);
        add_words_cell(w, row,
                       say(w->arena, w->phrases, "cutting.label-shapes",
                           "count", say_count(w->arena, piece->count), "shape",
                           word_shape(w, piece->shape, item->height), NULL));
        add_words_cell(w, row, word_purpose(w, item));
    }
}

/* A strip to cut out for each heap: cut pieces of one size look alike, and two
 * heaps are soon mixed. */
static void add_labels(const struct wording *w, struct contents *contents,
                       const struct cutplan *plan)
{
    struct told_table table = {.rows = {0}};
    const struct name_table steps = steps_using(w);
    for (int i = 0; i < 3; i++)
        add_column(w, &table, COLUMN_WORDS, "");
    for (size_t f = 0; f < w->design->fabrics.count; f++)
        for (size_t i = 0; i < plan->fabrics[f].items.count; i++) {
            const struct cut_item *item = &plan->fabrics[f].items.items[i];
            if (item->shaped.count > 0)
                add_shape_labels(w, &table, &steps, item);
            else
                add_label(w, &table, &steps, &plan->fabrics[f], item);
        }
    add_heading(w, contents, PART_LABELS, said(w, "cutting.labels"));
    add_paragraph(w, contents, PART_LABELS, said(w, "cutting.labels-intro"));
    add_table(w, contents, PART_LABELS, table);
}

/* Cloth by cloth, as they lie on the table; what is not used is not there. */
struct contents tell_cutting(const struct wording *w,
                             const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    add_title(w, &contents, said(w, "cutting.title"), "");
    add_intro(w, plan, &contents);
    for (size_t i = 0; i < w->design->fabrics.count; i++)
        if (plan->fabrics[i].items.count > 0)
            add_fabric(w, &contents, plan, (int)i);
    add_labels(w, &contents, plan);
    return contents;
}
