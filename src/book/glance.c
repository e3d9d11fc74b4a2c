/* At a glance, on one page: the parts of a block by their names, the borders,
 * the way through, what to buy, tools, words, cautions. The words are measured
 * first; the figures take what they leave. Read next: materials.c. */
#include <math.h>
#include <string.h>

#include "materials.h"
#include "overview.h"
#include "structure.h"

/* The figures are no lower than that; else the page runs over. */
#define FIGURE_LEAST MM(38.0)
#define FIGURE_MOST MM(92.0)
#define MAP_MOST MM(56.0)

/* ---- figures ---- */

/* `told` says in words what is drawn, for those who do not see it. */
static struct box *headed_figure(struct booklet *booklet, const char *title,
                                 const struct box *figure, const char *told)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *head =
        box_heading(canvas, title, style_bold(), figure->width, "H2");
    struct box *box = box_new(canvas, figure->width,
                              head->height + SPACE_HALF + figure->height);
    box_put(canvas, box, head, 0.0, 0.0);
    put_figure(booklet, box, figure, 0.0, head->height + SPACE_HALF, told);
    return box;
}

/* Where two blocks are shown apart, the heading says that parts are named;
 * another block has its size alone. */
static struct box *block_figure(struct booklet *booklet,
                                const struct heap *block, double width,
                                double height)
{
    const struct wording *w = &booklet->wording;
    const char *name =
        block->named == NULL
            ? word_heap(w, (size_t)(block - booklet->quilt->heaps.items))
            : word_kind(w, block, block->named, block->named_mirror);
    return headed_figure(
        booklet,
        block == sewn_block(booklet, 0) || block == sewn_block(booklet, 1)
            ? say(w->arena, w->phrases, "glance.block-parts", "name", name,
                  "size", word_size_unit(w, block->width, block->height), NULL)
            : say(w->arena, w->phrases, "cover.size", "quilt", name, "size",
                  word_size_unit(w, block->width, block->height), NULL),
        exploded_block(booklet, block, width, height),
        say(w->arena, w->phrases, "glance.block-told", "name", name, NULL));
}

/* With its borders, which are numbered from the inside as they are sewn. */
static struct box *quilt_figure(struct booklet *booklet, double width,
                                double height)
{
    const struct wording *w = &booklet->wording;
    const struct sewn_quilt *quilt = booklet->quilt;
    const char *size = word_size_unit(w, quilt->width, quilt->height);
    return headed_figure(booklet,
                         say(w->arena, w->phrases, "cover.size", "quilt",
                             quilt->definition->name, "size", size, NULL),
                         bordered_quilt(booklet, width, height),
                         say(w->arena, w->phrases, "figure.whole", "quilt",
                             quilt->definition->name, "colorway",
                             booklet->plan->colorway->name, "size", size,
                             NULL));
}

/* Side by side; the last one ends at the edge. */
static struct box *side_figures(struct booklet *booklet,
                                struct box *const *figures, size_t count)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box = box_new(canvas, canvas->width, 0.0);
    for (size_t i = 0; i < count; i++) {
        box_put(canvas, box, figures[i],
                i == 0 ? 0.0 : canvas->width - figures[i]->width, 0.0);
        box->height = fmax(box->height, figures[i]->height);
    }
    return box;
}

/* Two blocks, the quilt then is in the map alone; or the block, without one the
 * center, and the quilt. */
static struct box *figures_box(struct booklet *booklet, double height)
{
    const struct heap *first = sewn_block(booklet, 0);
    const struct heap *second = sewn_block(booklet, 1);
    struct box *figures[2];
    size_t count = 0;
    if (first == NULL)
        first = &booklet->quilt->heaps.items[booklet->quilt->top];
    if (first->step > 0)
        figures[count++] = block_figure(
            booklet, first, columns_wide(second == NULL ? 8 : 6), height);
    figures[count] =
        second != NULL
            ? block_figure(booklet, second, columns_wide(6), height)
            : quilt_figure(booklet, columns_wide(count == 0 ? 12 : 4), height);
    return side_figures(booklet, figures, count + 1);
}

/* ---- the way through ---- */

/* Where the quilt has no figure of its own, its borders are told at the right
 * of the head. */
static struct box *map_box(struct booklet *booklet, double height)
{
    const struct wording *w = &booklet->wording;
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *box =
        headed_figure(booklet, say(w->arena, w->phrases, "glance.steps", NULL),
                      step_map(booklet, canvas->width, height),
                      say(w->arena, w->phrases, "glance.steps-told", NULL));
    struct texts borders = {.items = {0}};
    for (size_t i = 0; i < booklet->quilt->borders.count; i++)
        *LIST_ADD(w->arena, &borders.items) = border_words(booklet, i);
    if (sewn_block(booklet, 1) == NULL || borders.items.count == 0)
        return box;
    struct text_style style = style_figure();
    style.align = ALIGN_RIGHT;
    box_put(canvas, box,
            box_text(canvas, texts_listed(w, &borders), style, columns_wide(6)),
            canvas->width - columns_wide(6), 1.5);
    return box;
}

/* ---- materials, tools, words ---- */

static struct box *side_box(const struct booklet *booklet, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct texts tools = tools_needed(booklet);
    const char *terms =
        word_then(w, say(w->arena, w->phrases, "words.sizes", NULL),
                  say(w->arena, w->phrases, "words.seam", "seam",
                      word_length_unit(w, w->design->pattern->seam), NULL));
    struct box *parts[2] = {
        headed_box(canvas, say(w->arena, w->phrases, "glance.tools", NULL),
                   style_step(), texts_box(canvas, &tools, width)),
        headed_box(canvas, say(w->arena, w->phrases, "words.title", NULL),
                   style_step(), box_text(canvas, terms, style_body(), width))};
    return box_stack(canvas, parts, 2, SPACE_HALF);
}

/* Few cloths: the table at the left, tools and words beside it. */
static struct box *side_by_side(const struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    const struct materials materials = materials_of(booklet, columns_wide(8));
    struct box *parts[2] = {
        table_box(canvas, materials.rows.items, materials.rows.count),
        materials.notes};
    struct box *left =
        headed_box(canvas, say(w->arena, w->phrases, "materials.title", NULL),
                   style_step(), box_stack(canvas, parts, 2, SPACE_QUARTER));
    left->width = columns_wide(8);
    struct box *columns[2] = {left, side_box(booklet, columns_wide(4))};
    return box_row(canvas, columns, 2, GRID_GUTTER);
}

/* ---- cautions ---- */

/* How many bytes of a text, whole words, one line of that width holds. */
static size_t words_within(const struct canvas *canvas, const char *text,
                           struct text_style style, double width)
{
    size_t fits = 0;
    for (size_t end = strcspn(text, " ");;
         end += 1 + strcspn(text + end + 1, " ")) {
        const char *part = arena_printf(canvas->arena, "%.*s", (int)end, text);
        if (typeset_measure(canvas->typeset, part, style, 0.0).width > width)
            return fits;
        fits = end;
        if (text[end] == '\0')
            return fits;
    }
}

/* Its head in bold, as the label of an item; the text begins on the same line.
 * ensures: how far down it reaches. */
static double put_caution(const struct booklet *booklet, struct box *box,
                          double x, double y, const char *head,
                          const char *text)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct text_style style = style_body();
    const double width = columns_wide(4);
    const struct text_extent extent =
        typeset_measure(canvas->typeset, head, style_bold(), 0.0);
    const double left = extent.width + 3.6;
    const size_t first = words_within(canvas, text, style, width - left);
    begin_list_item(canvas, box, x, y, head, style_bold());
    box_label(canvas, box, x + left, y,
              arena_printf(canvas->arena, "%.*s", (int)first, text), style, 0.0,
              false);
    y += extent.height;
    if (text[first] != '\0')
        y += box_words(canvas, box, x, y, text + first + (first > 0), style,
                       width);
    end_list_item(canvas, box);
    return y;
}

/* Cautions with their published grounds. Rotary cutter and iron: Texas 4-H
 * (Texas A&M AgriLife), Duds to Dazzle safety guide. Sewing machine: J. Black,
 * class rules. Bedding for infants: US CPSC, 8 April 1999, and the statement
 * of the American Academy of Pediatrics, Pediatrics 150(1), 2022. */
static struct box *cautions_box(const struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct wording *w = &booklet->wording;
    static const char *const keys[][2] = {
        {"cautions.cutter-head", "cautions.cutter"},
        {"cautions.iron-head", "cautions.iron"},
        {"cautions.machine-head", "cautions.machine"},
        {"cautions.infants-head", "cautions.infants"},
        {"cautions.makers-head", "cautions.makers"}};
    double y[3] = {0.0, 0.0, 0.0};
    struct box *list = box_new(canvas, canvas->width, 0.0);
    box_tag(canvas, list, "L", NULL);
    /* Each in the column that is shortest so far. */
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        int column = 0;
        for (int k = 1; k < 3; k++)
            column = y[k] < y[column] - 1.0 ? k : column;
        y[column] =
            put_caution(booklet, list, (columns_wide(4) + GRID_GUTTER) * column,
                        y[column], say(w->arena, w->phrases, keys[i][0], NULL),
                        say(w->arena, w->phrases, keys[i][1], NULL)) +
            SPACE_QUARTER;
        list->height = fmax(list->height, y[column]);
    }
    box_tag_end(canvas, list, "L");
    struct box *box =
        headed_box(canvas, say(w->arena, w->phrases, "cautions.title", NULL),
                   style_step(), list);
    struct box *ruled =
        box_new(canvas, canvas->width, box->height + SPACE_HALF);
    box_stroke(canvas, ruled, 0.0, 0.0, canvas->width, 0.0, outline_wide());
    box_put(canvas, ruled, box, 0.0, SPACE_HALF);
    return ruled;
}

/* ---- the page ---- */

/* The choices of skill= as sentences. */
const char *skill_text(const struct booklet *booklet)
{
    static const char *const skills[][2] = {
        {"beginner", "skill.beginner"},
        {"confident", "skill.confident"},
        {"experienced", "skill.experienced"}};
    const struct wording *w = &booklet->wording;
    for (size_t i = 0; i < sizeof skills / sizeof skills[0]; i++)
        if (strcmp(booklet->design->skill, skills[i][0]) == 0)
            return say(w->arena, w->phrases, skills[i][1], NULL);
    return "";
}

/* What there is to make, in one line; the steps tell which blocks. */
static const char *lead_text(const struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    struct texts all = {.items = {0}};
    const size_t blocks = blocks_counted(booklet);
    const size_t borders = booklet->quilt->borders.count;
    if (blocks > 0)
        *LIST_ADD(w->arena, &all.items) =
            say(w->arena, w->phrases, "glance.blocks", "count",
                say_count(w->arena, blocks), NULL);
    *LIST_ADD(w->arena, &all.items) =
        say(w->arena, w->phrases, "glance.pieces", "count",
            say_count(w->arena, pieces_cut(booklet)), NULL);
    if (borders > 0)
        *LIST_ADD(w->arena, &all.items) =
            say(w->arena, w->phrases, "technique.borders", "count",
                say_count(w->arena, borders), NULL);
    return word_then(w, arena_printf(w->arena, "%s.", texts_listed(w, &all)),
                     skill_text(booklet)[0] == '\0'
                         ? ""
                         : arena_printf(w->arena, "%s.", skill_text(booklet)));
}

static bool many_cloths(const struct booklet *booklet)
{
    enum { FEW = 7 };
    size_t used = 0;
    for (size_t i = 0; i < booklet->design->fabrics.count; i++)
        used += booklet->plan->fabrics[i].items.count > 0;
    return used > FEW;
}

/* The table row by row, over as many pages as it takes; tools and words below
 * it. */
static void add_long_table(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct wording *w = &booklet->wording;
    const struct materials materials =
        materials_of(booklet, flow->canvas.width);
    flow_heading(flow, say(w->arena, w->phrases, "materials.title", NULL));
    for (size_t i = 0; i < materials.rows.count; i++)
        flow_add(flow, materials.rows.items[i], 0.0);
    flow_add(flow, materials.notes, SPACE_QUARTER);
    flow_add(flow, side_box(booklet, columns_wide(8)), SPACE_LINE);
}

/* Materials have a bookmark of their own. */
static void mark_materials(struct booklet *booklet, size_t box)
{
    const struct wording *w = &booklet->wording;
    struct box *heading = booklet->flow.boxes.items[box];
    heading->outline = say(w->arena, w->phrases, "materials.title", NULL);
    heading->outline_depth = 1;
}

/* Figures as high as the page leaves them; the map is made first. */
void section_glance(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct wording *w = &booklet->wording;
    const bool many = many_cloths(booklet);
    flow_section(flow, say(w->arena, w->phrases, "glance.title", NULL),
                 lead_text(booklet), true);
    const double head = flow->boxes.items[flow->boxes.count - 1]->height;
    struct box *below = many ? NULL : side_by_side(booklet);
    struct box *cautions = cautions_box(booklet);
    /* Two figures with their heads, and the spaces between the boxes. */
    const double heads = 2.0 * (style_bold().size * 1.3 + SPACE_HALF);
    const double room = flow_page_height(flow) - head - heads -
                        4.0 * SPACE_LINE - 2.0 -
                        (many ? 0.0 : below->height + cautions->height);
    struct box *map =
        map_box(booklet, fmin(fmax(room - FIGURE_LEAST, MM(24.0)), MAP_MOST));
    const double figure =
        fmin(fmax(room + heads / 2.0 - map->height, FIGURE_LEAST), FIGURE_MOST);
    struct box *figures = figures_box(booklet, figure);
    figures->keep_with_next = true;
    flow_add(flow, figures, SPACE_LINE);
    flow_add(flow, map, SPACE_LINE);
    const size_t materials = flow->boxes.count;
    if (many)
        add_long_table(booklet);
    else
        flow_add(flow, below, SPACE_LINE);
    mark_materials(booklet, materials);
    flow_add(flow, cautions, SPACE_LINE);
}
