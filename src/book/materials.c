/* Materials, cautions and how to read the booklet. What a shop needs to
 * know, then what the table needs. Amounts come from the plan; widths of
 * columns are points. Read next: cutting.c. */
#include "buffer.h"
#include "section.h"
#include "structure.h"
#include "trade.h"

/* Points: swatch, letter, fabric, cloth, amount; together the column of a
 * letter page. */
static const double column_widths[5] = {36.0, 22.0, 100.0, 262.0, 80.0};

/* A head stays with the row behind it. */
static void add_row(struct booklet *booklet, const char *const *cells,
                    bool head, const struct path_item *swatch)
{
    const struct table_row row = {cells, column_widths, 5, head, swatch};
    struct box *box = table_row(&booklet->flow.canvas, &row);
    box->keep_with_next = head;
    flow_add(&booklet->flow, box, 0.0);
}

/* The maker's number, where there is one, finds the cloth again. */
static const char *bolt_text(const struct booklet *booklet,
                             const struct bolt *bolt)
{
    return bolt->code[0] == '\0'
               ? bolt->name
               : arena_printf(booklet->wording.arena, "%s (%s)", bolt->name,
                              bolt->code);
}

/* What of the cloth is counted on: its width, and all that is taken off. */
static const char *cloth_text(const struct booklet *booklet,
                              const struct fabric_plan *plan)
{
    const struct wording *w = &booklet->wording;
    const struct bolt *bolt = plan->bolt;
    const char *cloth = bolt_text(booklet, bolt);
    const char *text =
        bolt->sold == SOLD_YARDAGE && rational_sign(plan->allowance) == 0
            ? say(w->arena, w->phrases, "materials.yardage-whole", "cloth",
                  cloth, "width", word_length_unit(w, bolt->width), NULL)
        : bolt->sold == SOLD_YARDAGE
            ? say(w->arena, w->phrases, "materials.yardage", "cloth", cloth,
                  "width", word_length_unit(w, bolt->width), "allowance",
                  word_length_unit(w, plan->allowance), NULL)
            : say(w->arena, w->phrases, "materials.sheet", "cloth", cloth,
                  "size",
                  word_size_unit(w, plan->strip_length, plan->sheet_height),
                  NULL);
    if (rational_sign(bolt->selvage) > 0)
        text = say(w->arena, w->phrases, "materials.selvage", "cloth", text,
                   "width", word_length_unit(w, bolt->selvage), NULL);
    if (rational_sign(bolt->shrinkage) > 0)
        text = say(
            w->arena, w->phrases, "materials.shrinkage", "cloth", text,
            "percent",
            word_decimal(w, rational_times(bolt->shrinkage, 100), 1), NULL);
    return text;
}

/* Binding and border share the cloth of a role, so its amount holds both. */
static const char *uses_text(const struct booklet *booklet,
                             const struct fabric_plan *plan)
{
    bool border = false, binding = false;
    for (size_t i = 0; i < plan->items.count; i++) {
        border |= plan->items.items[i].use == CUT_BORDER;
        binding |= plan->items.items[i].use == CUT_BINDING;
    }
    const char *name = booklet->design->fabrics.items[plan->fabric].name;
    if (!border && !binding)
        return name;
    return say(booklet->wording.arena, booklet->wording.phrases,
               !binding  ? "materials.with-border"
               : !border ? "materials.with-binding"
                         : "materials.with-both",
               "fabric", name, NULL);
}

/* Roles that no piece needs are left out, unless the backing names them. */
static void add_fabrics(struct booklet *booklet)
{
    struct arena *arena = booklet->wording.arena;
    const struct wording *w = &booklet->wording;
    const char *head[5] = {"", "",
                           say(arena, w->phrases, "materials.fabric", NULL),
                           say(arena, w->phrases, "materials.cloth", NULL),
                           say(arena, w->phrases, "materials.amount", NULL)};
    add_row(booklet, head, true, NULL);
    for (size_t i = 0; i < booklet->design->fabrics.count; i++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[i];
        if (plan->items.count == 0)
            continue;
        const struct path_item swatch =
            face_fill(booklet->plan->colorway, plan->fabric, false);
        const char *cells[5] = {
            "", fabric_letter(arena, plan->fabric), uses_text(booklet, plan),
            cloth_text(booklet, plan), word_amount(w, plan)};
        add_row(booklet, cells, false, &swatch);
    }
}

/* Backing is bought apart from the same cloth in the top, or is in its
 * amount. */
static void add_layers(struct booklet *booklet)
{
    const struct cutplan *plan = booklet->plan;
    const struct wording *w = &booklet->wording;
    if (plan->backing.wanted) {
        const struct path_item swatch =
            face_fill(plan->colorway, plan->backing.fabric, false);
        const char *cells[5] = {
            "", fabric_letter(w->arena, plan->backing.fabric),
            say(w->arena, w->phrases, "materials.backing", "size",
                word_size_unit(w, plan->backing.width, plan->backing.height),
                NULL),
            bolt_text(booklet, plan->backing.bolt),
            plan->backing.together
                ? say(w->arena, w->phrases, "materials.together", "letter",
                      fabric_letter(w->arena, plan->backing.fabric), NULL)
                : word_yardage(w, plan->backing.bought)};
        add_row(booklet, cells, false, &swatch);
    }
    if (plan->batting_wanted) {
        const char *cells[5] = {
            "", "", say(w->arena, w->phrases, "materials.batting", NULL),
            rational_known(plan->batting_gap)
                ? say(w->arena, w->phrases, "materials.batting-gap", "gap",
                      word_length_unit(w, plan->batting_gap), NULL)
                : say(w->arena, w->phrases, "materials.batting-maker", NULL),
            word_size_unit(w, plan->batting_width, plan->batting_height)};
        add_row(booklet, cells, false, NULL);
    }
}

/* How amounts were reckoned, so that a reader can check or change them. */
static void add_bases(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const struct pattern *pattern = booklet->design->pattern;
    flow_paragraph(
        &booklet->flow,
        say(w->arena, w->phrases, "materials.bases", "step",
            word_yardage(w, trade_length(TRADE_SOLD_STEP, pattern->units)),
            NULL));
}

/* A bullet, and text that hangs behind it. Of all values, only the seam is
 * told in lists. */
static void add_list(struct booklet *booklet, const char *title,
                     const char *const *keys, size_t count)
{
    const struct wording *w = &booklet->wording;
    const char *seam = word_length_unit(w, w->design->pattern->seam);
    flow_heading(&booklet->flow, say(w->arena, w->phrases, title, NULL));
    for (size_t i = 0; i < count; i++) {
        const struct canvas *canvas = &booklet->flow.canvas;
        struct box *box = box_new(canvas, canvas->width, 0.0);
        const struct box *text = box_text(
            canvas, say(w->arena, w->phrases, keys[i], "seam", seam, NULL),
            style_body(), canvas->width - 14.0);
        box_in_list(box, ROLE_BULLETED, i == 0);
        begin_list_item(canvas, box, 2.0, 0.0, "•", style_body());
        box_put(canvas, box, text, 14.0, 0.0);
        end_list_item(canvas, box);
        box->height = text->height;
        box->keep_with_next = i == 0 || i + 2 == count;
        flow_add(&booklet->flow, box, 2.0);
    }
}

/* Cautions with their published grounds. Rotary cutter and iron: Texas 4-H
 * (Texas A&M AgriLife), Duds to Dazzle safety guide. Sewing machine: J. Black,
 * class rules. Bedding for infants: US CPSC, 8 April 1999, and the statement
 * of the American Academy of Pediatrics, Pediatrics 150(1), 2022. */
static void add_cautions(struct booklet *booklet)
{
    static const char *const keys[] = {
        "cautions.cutter", "cautions.iron", "cautions.machine",
        "cautions.infants", "cautions.makers"};
    add_list(booklet, "cautions.title", keys, sizeof keys / sizeof keys[0]);
}

/* The words that every other page relies on. */
static void add_terms(struct booklet *booklet)
{
    static const char *const keys[] = {"words.seam", "words.sizes",
                                       "words.lines", "words.labels"};
    add_list(booklet, "words.title", keys, sizeof keys / sizeof keys[0]);
}

/* Behind the facts at a glance, on their page. Cautions come before anything
 * sharp or hot is taken up. */
void section_materials(struct booklet *booklet)
{
    struct flow *flow = &booklet->flow;
    const char *title = say(booklet->wording.arena, booklet->wording.phrases,
                            "materials.title", NULL);
    flow_heading(flow, title);
    struct box *heading = flow->boxes.items[flow->boxes.count - 1];
    heading->outline = title;
    heading->outline_depth = 1;
    add_fabrics(booklet);
    add_layers(booklet);
    add_bases(booklet);
    add_cautions(booklet);
    /* Words close it, as cutting begins with them. */
    add_terms(booklet);
}
