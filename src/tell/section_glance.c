/* At a glance: the parts of a block by their names, the borders, the way
 * through, what to buy, tools, terms, cautions. Read next: section_back.c. */
#include "contents.h"
#include "words.h"

/* ---- head ---- */

/* What there is to make, in one line; the steps tell which blocks. */
static const char *lead_text(const struct wording *w,
                             const struct cutplan *plan)
{
    struct texts all = {.items = {0}};
    const size_t blocks = blocks_counted(w);
    const size_t borders = w->quilt->borders.count;
    const char *skill = skill_text(w);
    if (blocks > 0)
        texts_add(w, &all,
                  say(w->arena, w->phrases, "glance.blocks", "count",
                      say_count(w->arena, blocks), NULL));
    texts_add(w, &all,
              say(w->arena, w->phrases, "glance.pieces", "count",
                  say_count(w->arena, pieces_cut(w, plan)), NULL));
    if (borders > 0)
        texts_add(w, &all,
                  say(w->arena, w->phrases, "technique.borders", "count",
                      say_count(w->arena, borders), NULL));
    return word_then(w, arena_printf(w->arena, "%s.", texts_listed(w, &all)),
                     skill[0] == '\0' ? ""
                                      : arena_printf(w->arena, "%s.", skill));
}

/* ---- figures ---- */

/* Where two blocks are shown apart, the heading says that parts are named;
 * another block has its size alone. */
static void add_block(const struct wording *w, struct contents *contents,
                      const struct heap *block)
{
    const size_t heap = (size_t)(block - w->quilt->heaps.items);
    const char *name = block->named == NULL ? word_heap(w, heap)
                                            : word_kind(w, block, block->named,
                                                        block->named_mirror);
    const char *size = word_size_unit(w, block->width, block->height);
    const bool parts = block == sewn_block(w, 0) || block == sewn_block(w, 1);
    add_figure(
        w, contents, PART_FIGURES,
        (struct told_figure){
            .drawing = DRAWING_BLOCK,
            .heap = heap,
            .caption = parts ? say(w->arena, w->phrases, "glance.block-parts",
                                   "name", name, "size", size, NULL)
                             : say(w->arena, w->phrases, "cover.size", "quilt",
                                   name, "size", size, NULL),
            .told = say(w->arena, w->phrases, "glance.block-told", "name", name,
                        NULL)});
}

/* "Border 1, Oat cotton, 1½ in"; from 0, the innermost. */
static const char *border_words(const struct wording *w,
                                const struct cutplan *plan, size_t index)
{
    const struct border *border = w->quilt->borders.items[index].border;
    return say(w->arena, w->phrases, "glance.border", "number",
               say_count(w->arena, border->number), "cloth",
               plan->colorway->bolts[border->fabric].name, "width",
               word_length_unit(w, border->width), NULL);
}

/* With its borders, which are numbered from the inside as they are sewn. */
static void add_quilt(const struct wording *w, struct contents *contents,
                      const struct cutplan *plan)
{
    const struct sewn_quilt *quilt = w->quilt;
    const char *name = quilt->definition->name;
    const char *size = word_size_unit(w, quilt->width, quilt->height);
    struct told_figure *figure = add_figure(
        w, contents, PART_FIGURES,
        (struct told_figure){
            .drawing = DRAWING_BORDERS,
            .caption = say(w->arena, w->phrases, "cover.size", "quilt", name,
                           "size", size, NULL),
            .told = say(w->arena, w->phrases, "figure.whole", "quilt", name,
                        "colorway", plan->colorway->name, "size", size, NULL)});
    for (size_t i = 0; i < quilt->borders.count; i++)
        *LIST_ADD(w->arena, &figure->labels) = border_words(w, plan, i);
}

/* Two blocks, the quilt then is in the way through alone; or the block, without
 * one the center, and the quilt. */
static void add_figures(const struct wording *w, struct contents *contents,
                        const struct cutplan *plan)
{
    const struct heap *first = sewn_block(w, 0);
    const struct heap *second = sewn_block(w, 1);
    if (first == NULL)
        first = &w->quilt->heaps.items[w->quilt->top];
    if (first->step > 0)
        add_block(w, contents, first);
    if (second != NULL)
        add_block(w, contents, second);
    else
        add_quilt(w, contents, plan);
}

/* Where the quilt has no figure of its own, its borders are told here. */
static void add_way(const struct wording *w, struct contents *contents,
                    const struct cutplan *plan)
{
    struct texts borders = {.items = {0}};
    struct told_figure *figure = add_figure(
        w, contents, PART_WAY,
        (struct told_figure){
            .drawing = DRAWING_STEPS,
            .caption = say(w->arena, w->phrases, "glance.steps", NULL),
            .told = say(w->arena, w->phrases, "glance.steps-told", NULL)});
    for (size_t i = 0; i < w->quilt->borders.count; i++)
        texts_add(w, &borders, border_words(w, plan, i));
    if (sewn_block(w, 1) != NULL && borders.items.count > 0)
        *LIST_ADD(w->arena, &figure->labels) =
            say(w->arena, w->phrases, "glance.borders", "borders",
                texts_listed(w, &borders), NULL);
}

/* ---- lists ---- */

static void add_terms(const struct wording *w, struct contents *contents)
{
    add_heading(w, contents, PART_TERMS,
                say(w->arena, w->phrases, "words.title", NULL));
    add_paragraph(
        w, contents, PART_TERMS,
        word_then(w, say(w->arena, w->phrases, "words.sizes", NULL),
                  say(w->arena, w->phrases, "words.seam", "seam",
                      word_length_unit(w, w->design->pattern->seam), NULL)));
}

/* Cautions with their published grounds. Rotary cutter and iron: Texas 4-H
 * (Texas A&M AgriLife), Duds to Dazzle safety guide. Sewing machine: J. Black,
 * class rules. Bedding for infants: US CPSC, 8 April 1999, and the statement
 * of the American Academy of Pediatrics, Pediatrics 150(1), 2022. */
static void add_cautions(const struct wording *w, struct contents *contents)
{
    static const char *const keys[][2] = {
        {"cautions.cutter-head", "cautions.cutter"},
        {"cautions.iron-head", "cautions.iron"},
        {"cautions.machine-head", "cautions.machine"},
        {"cautions.infants-head", "cautions.infants"},
        {"cautions.makers-head", "cautions.makers"}};
    const struct texts none = {.items = {0}};
    add_heading(w, contents, PART_CAUTIONS,
                say(w->arena, w->phrases, "cautions.title", NULL));
    struct told_list *list = add_list(w, contents, PART_CAUTIONS, &none);
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        *LIST_ADD(w->arena, &list->items) = (struct told_point){
            .label = say(w->arena, w->phrases, keys[i][0], NULL),
            .text = say(w->arena, w->phrases, keys[i][1], NULL)};
}

/* ---- the section ---- */

struct contents tell_glance(const struct wording *w, const struct cutplan *plan)
{
    struct contents contents = {.items = {0}};
    const struct texts tools = tools_needed(w);
    add_title(w, &contents, say(w->arena, w->phrases, "glance.title", NULL),
              lead_text(w, plan));
    add_figures(w, &contents, plan);
    add_way(w, &contents, plan);
    add_materials(w, &contents, plan);
    add_heading(w, &contents, PART_TOOLS,
                say(w->arena, w->phrases, "glance.tools", NULL));
    add_list(w, &contents, PART_TOOLS, &tools);
    add_terms(w, &contents);
    add_cautions(w, &contents);
    return contents;
}
