/* At a glance: what a buyer asks first. Sizes and colorways of the whole
 * pattern, with those of this booklet marked; how much there is to make; tools.
 * Materials and cautions follow on the same page. Read next: materials.c. */
#include <string.h>

#include "section.h"

/* The names of the facts stand in a column of their own: longer ones at the
 * left of the page, shorter ones in the second column of facts. */
enum {
    NAME_WIDTH = 84,
    NAME_SECOND = 54,
    PICTURE_WIDTH = 112,
    COLUMN_GAP = 16,
    FACT_GAP = 5
};

/* A name and what it tells, side by side; both at the top. A name that wraps
 * may be higher than its fact. */
static struct box *fact_box(struct booklet *booklet, const char *name,
                            double name_width, struct box *const *lines,
                            size_t count, double width)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct box *all = box_stack(canvas, lines, count, 1.0);
    struct box *head = box_text(canvas, name, style_bold(), name_width - 6.0);
    struct box *box = box_new(canvas, width, all->height);
    if (head->height > box->height)
        box->height = head->height;
    box_put(canvas, box, head, 0.0, 0.0);
    box_put(canvas, box, all, name_width, 0.0);
    return box;
}

/* The lines of one fact, and the width that they have. */
struct fact {
    struct booklet *booklet;
    double width; /* with the name */
    double name_width;
    LIST(struct box *) lines;
};

/* One line of a fact; it wraps where it must. */
static void add_line(struct fact *fact, const char *text,
                     struct text_style style)
{
    const struct canvas *canvas = &fact->booklet->flow.canvas;
    *LIST_ADD(canvas->arena, &fact->lines) =
        box_text(canvas, text, style, fact->width - fact->name_width);
}

/* ensures: the whole fact, its name from the wording. */
static struct box *fact_end(const struct fact *fact, const char *key)
{
    const struct wording *w = &fact->booklet->wording;
    return fact_box(fact->booklet, say(w->arena, w->phrases, key, NULL),
                    fact->name_width, fact->lines.items, fact->lines.count,
                    fact->width);
}

/* All quilts of the pattern, as a buyer chooses among them. This booklet's own
 * is bold, and says so: bold alone is easily missed. The only one of a pattern
 * needs no mark. */
static struct box *sizes_box(struct booklet *booklet, double width)
{
    const struct wording *w = &booklet->wording;
    struct fact fact = {booklet, width, NAME_WIDTH, {0}};
    const struct sewn *all = booklet->quilt->all;
    for (size_t i = 0; i < all->quilts.count; i++) {
        const struct sewn_quilt *quilt = &all->quilts.items[i];
        const bool own = quilt == booklet->quilt && all->quilts.count > 1;
        add_line(&fact,
                 say(w->arena, w->phrases,
                     own ? "glance.this-size" : "glance.size", "name",
                     quilt->definition->name, "size",
                     word_size_unit(w, quilt->width, quilt->height), NULL),
                 own ? style_bold() : style_body());
    }
    return fact_end(&fact, "glance.sizes");
}

/* Swatches carry letters, so that colorways can be compared cloth by cloth;
 * behind them the name. Many fabrics run on in a second line of swatches, and
 * the name then stands in a column of its own. */
static struct box *colorway_box(const struct fact *fact,
                                const struct colorway *colorway, bool own)
{
    const struct wording *w = &fact->booklet->wording;
    const struct canvas *canvas = &fact->booklet->flow.canvas;
    const double width = fact->width - fact->name_width;
    const double side = 14.0, step = 25.0;
    struct box *box = box_new(canvas, width, 0.0);
    double x = 0.0, y = 0.0;
    for (size_t i = 0; i < fact->booklet->design->fabrics.count; i++) {
        if (x + step > width * 0.62) {
            x = 0.0;
            y += side + 3.0;
        }
        box_put(canvas, box, swatch_of(canvas, colorway, (int)i, side), x, y);
        x += step;
    }
    const double left = y > 0.0 ? width * 0.62 + 6.0 : x + 6.0;
    const struct box *name =
        box_text(canvas,
                 own ? say(w->arena, w->phrases, "glance.this-colorway", "name",
                           colorway->name, NULL)
                     : colorway->name,
                 own ? style_bold() : style_body(), width - left);
    box_put(canvas, box, name, left, 1.5);
    box->height = y + side + 1.0;
    if (name->height + 2.0 > box->height)
        box->height = name->height + 2.0;
    return box;
}

/* Cloths by name stand on the cover and in the table of materials: here are
 * only their colors. */
static struct box *colorways_box(struct booklet *booklet, double width)
{
    struct fact fact = {booklet, width, NAME_WIDTH, {0}};
    const struct design *design = booklet->design;
    for (size_t i = 0; i < design->colorways.count; i++) {
        const struct colorway *colorway = &design->colorways.items[i];
        const bool own =
            colorway == booklet->plan->colorway && design->colorways.count > 1;
        *LIST_ADD(booklet->wording.arena, &fact.lines) =
            colorway_box(&fact, colorway, own);
    }
    return fact_end(&fact, "glance.colorways");
}

/* Pieces of the center, each counted as it is cut. Borders and binding are
 * strips, which nobody counts. */
static size_t piece_count(const struct booklet *booklet)
{
    size_t count = 0;
    for (size_t f = 0; f < booklet->design->fabrics.count; f++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[f];
        for (size_t i = 0; i < plan->items.count; i++)
            if (plan->items.items[i].use == CUT_PIECE)
                count += plan->items.items[i].count;
    }
    return count;
}

/* A block of several sizes has its size in its name (wording.c). */
static bool sewn_in_sizes(const struct booklet *booklet,
                          const struct heap *heap,
                          const struct definition *block)
{
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *other = &booklet->quilt->heaps.items[i];
        if (heap_is(other, block) &&
            !rational_equal(other->factor, heap->factor))
            return true;
    }
    return false;
}

/* The size once: where a block is sewn in several, its name tells it. */
static const char *block_text(struct booklet *booklet, const struct heap *heap,
                              const struct heap_name *block)
{
    const struct wording *w = &booklet->wording;
    const char *count = say_count(w->arena, block->count);
    const char *name = word_name(w, heap, block->definition, block->mirror);
    return sewn_in_sizes(booklet, heap, block->definition)
               ? say(w->arena, w->phrases, "glance.block-named", "count", count,
                     "name", name, NULL)
               : say(w->arena, w->phrases, "glance.block", "count", count,
                     "name", name, "size",
                     word_size_unit(w, heap->width, heap->height), NULL);
}

/* What there is to make: each block with its count, and the pieces. A block
 * that is sewn in two sizes, or mirrored too, is told once for each: that is
 * how it is made. One that is a patch is cut. */
static struct box *work_box(struct booklet *booklet, double width,
                            double name_width)
{
    const struct wording *w = &booklet->wording;
    struct fact fact = {booklet, width, name_width, {0}};
    for (size_t i = 0; i < booklet->quilt->heaps.count; i++) {
        const struct heap *heap = &booklet->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]))
                add_line(&fact,
                         block_text(booklet, heap, &heap->names.items[k]),
                         style_body());
    }
    add_line(&fact,
             say(w->arena, w->phrases, "glance.pieces", "count",
                 say_count(w->arena, piece_count(booklet)), NULL),
             style_body());
    return fact_end(&fact, "glance.work");
}

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

/* The same words as on the cover. */
static struct box *skill_box(struct booklet *booklet, double width,
                             double name_width)
{
    struct fact fact = {booklet, width, name_width, {0}};
    add_line(&fact, skill_text(booklet), style_body());
    return fact_end(&fact, "glance.skill");
}

/* No brand, and nothing that a step does not use. */
static struct box *tools_box(struct booklet *booklet, double width)
{
    static const char *const keys[] = {"tools.machine", "tools.cutter",
                                       "tools.marker"};
    const struct wording *w = &booklet->wording;
    struct fact fact = {booklet, width, NAME_WIDTH, {0}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        add_line(&fact, say(w->arena, w->phrases, keys[i], NULL), style_body());
    return fact_end(&fact, "glance.tools");
}

/* Two columns of facts, their foot as even as can be: the skill goes where
 * there is room. */
static struct box *two_columns(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double left = (canvas->width - COLUMN_GAP) * 0.54;
    const double right = canvas->width - COLUMN_GAP - left;
    struct box *first[3], *second[3];
    size_t firsts = 0, seconds = 0;
    first[firsts++] = sizes_box(booklet, left);
    first[firsts++] = colorways_box(booklet, left);
    second[seconds++] = work_box(booklet, right, NAME_SECOND);
    const double lead = first[0]->height + FACT_GAP + first[1]->height;
    const bool skilled = booklet->design->skill[0] != '\0';
    if (skilled && lead < second[0]->height)
        first[firsts++] = skill_box(booklet, left, NAME_WIDTH);
    else if (skilled)
        second[seconds++] = skill_box(booklet, right, NAME_SECOND);
    /* The right column begins in one place, however short the left is. */
    struct box *columns[2] = {box_stack(canvas, first, firsts, FACT_GAP),
                              box_stack(canvas, second, seconds, FACT_GAP)};
    columns[0]->width = left;
    return box_row(canvas, columns, 2, COLUMN_GAP);
}

/* Beside a photo on the cover the drawing would be lost; it stands here, with
 * one column of facts. */
static struct box *column_and_quilt(struct booklet *booklet)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const double width = canvas->width - PICTURE_WIDTH - COLUMN_GAP;
    struct box *facts[4];
    size_t count = 0;
    facts[count++] = sizes_box(booklet, width);
    facts[count++] = colorways_box(booklet, width);
    facts[count++] = work_box(booklet, width, NAME_WIDTH);
    if (booklet->design->skill[0] != '\0')
        facts[count++] = skill_box(booklet, width, NAME_WIDTH);
    struct box *parts[2];
    parts[0] = box_stack(canvas, facts, count, FACT_GAP);
    parts[0]->width = width;
    parts[1] =
        figure_cloth(canvas, booklet->plan->colorway, booklet->quilt->cloth,
                     PICTURE_WIDTH, PICTURE_WIDTH * 1.1);
    return box_row(canvas, parts, 2, COLUMN_GAP);
}

/* Facts and tools keep together; the materials that follow may go on to the
 * next page. */
void section_glance(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const struct wording *w = &booklet->wording;
    flow_section(flow, say(w->arena, w->phrases, "glance.title", NULL), "",
                 true);
    struct box *facts = booklet->design->photo != NULL
                            ? column_and_quilt(booklet)
                            : two_columns(booklet);
    facts->keep_with_next = true;
    flow_add(flow, facts, 4.0);
    flow_add(flow, tools_box(booklet, flow->canvas.width), FACT_GAP);
}
