/* Materials, tools, cautions and how to read the booklet. What a shop needs to
 * know, then what the table needs. Amounts come from the plan; widths of
 * columns are points. Read next: cutting.c. */
#include "buffer.h"
#include "section.h"

/* Points: swatch, letter, fabric, cloth, amount; together the column of a
 * letter page. */
static const double column_widths[5] = {40.0, 34.0, 140.0, 190.0, 108.0};

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
    struct buffer text = buffer_in(w->arena);
    buffer_printf(&text, "%s, ", bolt_text(booklet, bolt));
    if (bolt->sold == SOLD_YARDAGE)
        buffer_printf(&text, "%s %s wide, %s %s to square up",
                      word_length(w, bolt->width), word_unit(w),
                      word_length(w, plan->allowance), word_unit(w));
    else
        buffer_printf(&text, "%s each",
                      word_size_unit(w, plan->strip_length,
                                     plan->sheet_height));
    if (rational_sign(bolt->selvage) > 0)
        buffer_printf(&text, "; selvages of %s %s cut off",
                      word_length(w, bolt->selvage), word_unit(w));
    if (rational_sign(bolt->shrinkage) > 0)
        buffer_printf(&text, "; %s %% for shrinkage",
                      rational_decimal(w->arena,
                                       rational_times(bolt->shrinkage, 100), 1));
    return buffer_string(&text);
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
    return arena_printf(
        booklet->wording.arena, "%s%s%s", name, border ? ", with border" : "",
        binding ? (border ? " and binding" : ", with binding") : "");
}

/* Roles that no piece needs are left out, unless the backing names them. */
static void add_fabrics(struct booklet *booklet)
{
    struct arena *arena = booklet->wording.arena;
    const char *head[5] = {"", "", "Fabric", "Cloth", "Amount"};
    add_row(booklet, head, true, NULL);
    for (size_t i = 0; i < booklet->design->fabrics.count; i++) {
        const struct fabric_plan *plan = &booklet->plan->fabrics[i];
        if (plan->items.count == 0)
            continue;
        const struct path_item swatch =
            face_fill(booklet->plan->colorway, plan->fabric, false);
        const char *cells[5] = {
            "", fabric_letter(arena, plan->fabric), uses_text(booklet, plan),
            cloth_text(booklet, plan),
            amount_text(arena, booklet->design->pattern, plan, true)};
        add_row(booklet, cells, false, &swatch);
    }
}

/* Backing is bought apart from the same cloth in the top: panels need whole
 * widths. */
static void add_layers(struct booklet *booklet)
{
    const struct cutplan *plan = booklet->plan;
    const struct wording *w = &booklet->wording;
    if (plan->backing.wanted) {
        const struct path_item swatch =
            face_fill(plan->colorway, plan->backing.fabric, false);
        const char *cells[5] = {
            "", fabric_letter(w->arena, plan->backing.fabric),
            arena_printf(
                w->arena, "Backing, %s",
                word_size_unit(w, plan->backing.width, plan->backing.height)),
            bolt_text(booklet, plan->backing.bolt),
            yardage_text(w->arena, booklet->design->pattern,
                         plan->backing.bought, true)};
        add_row(booklet, cells, false, &swatch);
    }
    if (plan->batting_wanted) {
        const char *cells[5] = {
            "", "", "Batting",
            rational_known(plan->batting_gap)
                ? arena_printf(w->arena, "quilted at most %s %s apart",
                               word_length(w, plan->batting_gap), word_unit(w))
                : "as its maker allows",
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
        arena_printf(
            w->arena,
            "Amounts count the cuts of the cutting plan, add what squaring up "
            "and shrinkage take where a cloth says so, and round up to the "
            "next %s. Widths of cloth are between the selvages: measure yours, "
            "as a narrower one gives fewer pieces a strip.",
            pattern->units == UNIT_CM ? "0.1 m" : "⅛ yd"));
}

/* A bullet, and text that hangs behind it. */
static void add_list(struct booklet *booklet, const char *title,
                     const char *const *lines, size_t count)
{
    flow_heading(&booklet->flow, title);
    for (size_t i = 0; i < count; i++) {
        const struct canvas *canvas = &booklet->flow.canvas;
        struct box *box = box_new(canvas, canvas->width, 0.0);
        const struct box *text =
            box_text(canvas, lines[i], style_body(), canvas->width - 14.0);
        box_label(canvas, box, 2.0, 0.0, "•", style_body(), 0.0, false);
        box_put(canvas, box, text, 14.0, 0.0);
        box->height = text->height;
        box->keep_with_next = i == 0;
        flow_add(&booklet->flow, box, 2.0);
    }
}

/* Cautions with their published grounds. Rotary cutter and iron: Texas 4-H
 * (Texas A&M AgriLife), Duds to Dazzle safety guide. Sewing machine: J. Black,
 * class rules. Bedding for infants: US CPSC, 8 April 1999, and the statement
 * of the American Academy of Pediatrics, Pediatrics 150(1), 2022. */
static void add_cautions(struct booklet *booklet)
{
    static const char *const lines[] = {
        ("Rotary cutter: close the blade after every cut. Cut away from your "
         "body, on a mat, "
         "with your fingers off the edge of the ruler. Wrap old blades before "
         "you bin them."),
        ("Iron: rest it on its heel, keep your face off the steam and the cord "
         "out of reach. "
         "Unplug it after use."),
        ("Sewing machine: keep fingers out of the needle's path. Unplug it "
         "when "
         "you finish. "
         "Keep pins away from the blade and out of your mouth; count them "
         "back."),
        ("Infants: keep quilts and other soft bedding out of the sleeping "
         "place "
         "of a child "
         "under 12 months. Follow local advice on safe sleep."),
        ("The makers' instructions for tools, cloth and batting, and local "
         "rules, come first.")};
    add_list(booklet, "Cautions", lines, sizeof lines / sizeof lines[0]);
}

/* No brand, and nothing that a step does not use. */
static void add_tools(struct booklet *booklet)
{
    static const char *const lines[] = {
        "Sewing machine with a patchwork foot, and thread to match the cloth",
        ("Rotary cutter, mat, and a ruler at least as long as the cloth is "
         "wide "
         "when folded"),
        "Marker that washes out, pins or clips, iron and board"};
    add_list(booklet, "Tools", lines, sizeof lines / sizeof lines[0]);
}

/* The words that every other page relies on. */
static void add_terms(struct booklet *booklet)
{
    const struct wording *w = &booklet->wording;
    const char *lines[4];
    lines[0] = arena_printf(
        w->arena,
        "Sew every seam %s %s wide. Seam allowances are in all cut sizes.",
        word_length(w, booklet->design->pattern->seam), word_unit(w));
    lines[1] = "Cut size is what leaves the mat. Unfinished size has its seam "
               "allowances on. "
               "Finished size is what shows in the quilt.";
    lines[2] = "A rising line runs from the bottom left to the top right. A "
               "falling line runs "
               "from the top left to the bottom right. Both are told as the "
               "piece lies in "
               "front of you, wrong side up.";
    lines[3] = "The letter of a label is the cloth; the number counts its cut "
               "sizes, largest "
               "first. A number in brackets is the step that made the part.";
    add_list(booklet, "Words", lines, 4);
}

/* Cautions close the section, before anything sharp or hot is taken up. */
void section_materials(struct booklet *booklet)
{
    flow_section(&booklet->flow, "Materials", true);
    add_fabrics(booklet);
    add_layers(booklet);
    add_bases(booklet);
    add_tools(booklet);
    /* Words before cautions, which use some of them. */
    add_terms(booklet);
    add_cautions(booklet);
}
