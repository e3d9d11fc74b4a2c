/* Parts by colorways and sizes. Where colorways need different amounts of a
 * part, as cloth is sold in other forms or widths, both are told. Read next:
 * shop_table.c. */
#include <string.h>

#include "back.h"
#include "materials.h"

struct columns {
    const struct booklet *booklet;
    struct back_rows *into;
    double part, cloth, amount; /* widths */
    size_t colorways, quilts;
};

/* Plans stand by quilt, then by colorway. */
static const struct cutplan *plan_of(const struct columns *c, size_t quilt,
                                     size_t colorway)
{
    return &c->booklet->plan->all->items.items[quilt * c->colorways + colorway];
}

/* Widths in points: parts and amounts have what their words need, cloths share
 * the rest. Many colorways or sizes leave less for all. */
static struct columns columns_of(const struct booklet *booklet,
                                 struct back_rows *into)
{
    struct columns c = {.booklet = booklet, .into = into};
    c.colorways = booklet->design->colorways.count;
    c.quilts = booklet->plan->all->sewn->quilts.count;
    const double width = booklet->flow.canvas.width;
    const bool many = c.colorways > 4;
    c.part = many ? MM(20.0) : MM(24.0);
    c.amount = c.quilts > 2 ? MM(72.0) / (double)c.quilts
               : many       ? MM(23.0)
                            : MM(27.0);
    c.cloth =
        (width - c.part - c.amount * (double)c.quilts) / (double)c.colorways;
    /* No cloth needs more; the rest goes to the amounts. */
    if (c.cloth > MM(60.0)) {
        c.cloth = MM(60.0);
        c.amount =
            (width - c.part - c.cloth * (double)c.colorways) / (double)c.quilts;
    }
    return c;
}

/* A head must not be the last line of a page. */
static void add_row(const struct columns *c, const struct row *row, bool head)
{
    const struct canvas *canvas = &c->booklet->flow.canvas;
    struct box *box = row_end(canvas, row, head);
    box->keep_with_next = head;
    *LIST_ADD(canvas->arena, &c->into->items) = box;
}

static void add_head(const struct columns *c)
{
    const struct canvas *canvas = &c->booklet->flow.canvas;
    const struct wording *w = &c->booklet->wording;
    const struct design *design = c->booklet->design;
    struct row row = row_begin(canvas, canvas->width);
    struct text_style style = style_small();
    row_text(canvas, &row, c->part,
             say(w->arena, w->phrases, "back.part", NULL), style, true);
    for (size_t i = 0; i < c->colorways; i++)
        row_text(canvas, &row, c->cloth, design->colorways.items[i].name, style,
                 true);
    style.align = ALIGN_RIGHT;
    for (size_t i = 0; i < c->quilts; i++)
        row_text(canvas, &row, c->amount,
                 plan_of(c, i, 0)->quilt->definition->name, style, true);
    add_row(c, &row, true);
}

/* The amount of each colorway for one quilt: the first in bold, and below it
 * those that differ. NULL stands for none. */
static void amount_cell(const struct columns *c, struct row *row,
                        const char *const *amounts)
{
    const struct wording *w = &c->booklet->wording;
    struct texts others = {.items = {0}};
    const char *first = amounts[0] == NULL ? "" : amounts[0];
    for (size_t i = 1; i < c->colorways; i++) {
        const char *amount = amounts[i] == NULL ? "" : amounts[i];
        if (strcmp(amount, first) != 0)
            *LIST_ADD(w->arena, &others.items) =
                say(w->arena, w->phrases, "back.other", "colorway",
                    c->booklet->design->colorways.items[i].name, "amount",
                    amount, NULL);
    }
    row_amount(&c->booklet->flow.canvas, row, c->amount, first, &others);
}

/* The first colorway stands for all: which fabrics a quilt has does not depend
 * on its cloth. */
static bool is_used(const struct columns *c, size_t fabric)
{
    for (size_t i = 0; i < c->quilts; i++)
        if (plan_of(c, i, 0)->fabrics[fabric].items.count > 0)
            return true;
    return false;
}

/* A backing has a row of its own, whether or not the top has the fabric. */
static bool is_backing(const struct columns *c, size_t fabric)
{
    for (size_t i = 0; i < c->quilts; i++)
        if (plan_of(c, i, 0)->backing.wanted &&
            plan_of(c, i, 0)->backing.fabric == (int)fabric)
            return true;
    return false;
}

/* What is bought of a fabric for the top, or as backing; NULL for none. */
static const char *amount_of(const struct columns *c, size_t quilt,
                             size_t colorway, size_t fabric, bool backing)
{
    const struct wording *w = &c->booklet->wording;
    const struct cutplan *plan = plan_of(c, quilt, colorway);
    if (!backing)
        return plan->fabrics[fabric].items.count == 0
                   ? NULL
                   : word_amount(w, &plan->fabrics[fabric]);
    return plan->backing.wanted && plan->backing.fabric == (int)fabric
               ? word_backing_amount(w, &plan->backing)
               : NULL;
}

/* A cloth for each colorway, an amount for each size. */
static void add_fabric(const struct columns *c, size_t fabric, bool backing)
{
    const struct canvas *canvas = &c->booklet->flow.canvas;
    const struct wording *w = &c->booklet->wording;
    const struct design *design = c->booklet->design;
    struct row row = row_begin(canvas, canvas->width);
    row_text(canvas, &row, c->part,
             backing ? say(w->arena, w->phrases, "back.backing", NULL)
                     : design->fabrics.items[fabric].name,
             style_body(), false);
    for (size_t i = 0; i < c->colorways; i++)
        row_cloth(canvas, &row, c->cloth, &design->colorways.items[i],
                  (int)fabric, style_body());
    const char **amounts = ARENA_ARRAY(w->arena, const char *, c->colorways);
    for (size_t q = 0; q < c->quilts; q++) {
        for (size_t i = 0; i < c->colorways; i++)
            amounts[i] = amount_of(c, q, i, fabric, backing);
        amount_cell(c, &row, amounts);
    }
    add_row(c, &row, false);
}

/* Batting has no color: its words take the place of all cloths. */
static void add_batting(const struct columns *c)
{
    const struct canvas *canvas = &c->booklet->flow.canvas;
    const struct wording *w = &c->booklet->wording;
    const struct texts none = {.items = {0}};
    bool wanted = false;
    for (size_t i = 0; i < c->quilts; i++)
        wanted |= plan_of(c, i, 0)->batting_wanted;
    if (!wanted)
        return;
    struct row row = row_begin(canvas, canvas->width);
    row_text(canvas, &row, c->part,
             say(w->arena, w->phrases, "materials.batting", NULL), style_body(),
             false);
    row_text(canvas, &row, c->cloth * (double)c->colorways,
             batting_words(w, c->booklet->plan), style_body(), false);
    for (size_t i = 1; i < c->colorways; i++)
        row_text(canvas, &row, 0.0, "", style_body(), false);
    for (size_t i = 0; i < c->quilts; i++) {
        const struct cutplan *plan = plan_of(c, i, 0);
        row_amount(canvas, &row, c->amount,
                   plan->batting_wanted ? word_size_unit(w, plan->batting_width,
                                                         plan->batting_height)
                                        : "",
                   &none);
    }
    add_row(c, &row, false);
}

/* Cloth of the tops first, then backings, then the batting. */
struct back_rows back_rows(const struct booklet *booklet)
{
    struct back_rows rows = {.items = {0}};
    const struct columns c = columns_of(booklet, &rows);
    add_head(&c);
    for (size_t f = 0; f < booklet->design->fabrics.count; f++)
        if (is_used(&c, f))
            add_fabric(&c, f, false);
    for (size_t f = 0; f < booklet->design->fabrics.count; f++)
        if (is_backing(&c, f))
            add_fabric(&c, f, true);
    add_batting(&c);
    return rows;
}
