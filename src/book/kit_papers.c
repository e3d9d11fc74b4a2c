/* Papers of an order: contents become boxes in one column, on the grid and with
 * the type of the booklet. Bars, cards and sheets of labels have files of their
 * own. Read next: kit_roll.c. */
#include "kit_boxes.h"
#include "scale.h"
#include "structure.h"

/* ---- tables ---- */

/* Widths of the columns of a table, in millimetres; together the measure. */
struct table_widths {
    enum content_part part;
    double columns[8];
};

static const struct table_widths WIDTHS[] = {
    {PART_PURCHASE, {7, 22, 50, 39, 40, 24}},
    {PART_REASONS, {46, 18, 16, 20, 18, 18, 46}},
    {PART_COSTS, {9, 57, 13, 21, 19, 24, 24, 15}},
    {PART_PICKS, {7, 20, 55, 52, 28, 20}},
    {PART_ROLLS, {23, 45, 84, 30}},
    {PART_LAYERS_CUT, {7, 30, 88, 17, 21, 19}},
    {PART_SLIP, {7, 56, 42, 62, 15}},
    {PART_COUNT, {7, 46, 32, 42, 13, 42}}};
enum { TABLES = sizeof WIDTHS / sizeof WIDTHS[0], COLUMNS_MOST = 8 };

/* In points. requires: a part that has a table. */
static const double *widths_of(struct arena *arena, enum content_part part)
{
    size_t at = 0;
    while (at + 1 < TABLES && WIDTHS[at].part != part)
        at++;
    double *widths = ARENA_ARRAY(arena, double, COLUMNS_MOST);
    for (size_t i = 0; i < COLUMNS_MOST; i++)
        widths[i] = MM(WIDTHS[at].columns[i]);
    return widths;
}

/* A short table that is worked off line by line should lie on one page. */
static bool stays_together(enum content_part part, size_t rows)
{
    enum { ROWS_MOST = 12 };
    return rows <= ROWS_MOST && part != PART_PURCHASE && part != PART_REASONS;
}

/* Rows go on over pages; the head then stands above them again. */
static void add_table_boxes(struct kit_book *book,
                            const struct told_table *table,
                            enum content_part part)
{
    struct flow *flow = &book->booklet.flow;
    const struct table_look look = {
        .widths = widths_of(flow->canvas.arena, part), .cloth = style_body()};
    const struct boxes rows = place_rows(&flow->canvas, table, &look);
    for (size_t i = 0; i < rows.items.count; i++) {
        struct box *box = rows.items.items[i];
        box->again = i > 1 ? rows.items.items[0] : NULL;
        if (i + 1 < rows.items.count && stays_together(part, rows.items.count))
            box->keep_with_next = true;
        flow_add(flow, box, i == 0 ? SPACE_HALF : 0.0);
    }
}

/* ---- words ---- */

/* A heading of the second rank, behind the swatch of its cloth. */
static void add_heading_box(struct kit_book *book,
                            const struct told_heading *heading)
{
    struct flow *flow = &book->booklet.flow;
    const struct canvas *canvas = &flow->canvas;
    if (!heading->swatch.there) {
        flow_heading(flow, heading->title);
        return;
    }
    const double side = MM(5.2), wide = MM(9.0), left = wide + SPACE_HALF;
    const struct box *title = box_heading(canvas, heading->title, style_step(),
                                          canvas->width - left, "H2");
    struct box *box = box_new(canvas, canvas->width, title->height);
    box_put(canvas, box, told_swatch_box(canvas, &heading->swatch, wide, side),
            0.0, 1.0);
    box_put(canvas, box, title, left, 0.0);
    box->keep_with_next = true;
    box->outline = heading->title;
    box->outline_depth = 1;
    flow_add(flow, box, SPACE_MOST);
}

/* Each item is a box, as lists may be longer than a page. */
static void add_list_boxes(struct kit_book *book, const struct told_list *list)
{
    struct flow *flow = &book->booklet.flow;
    const struct canvas *canvas = &flow->canvas;
    for (size_t i = 0; i < list->items.count; i++) {
        const struct box *text =
            box_text(canvas, list->items.items[i].text, style_body(),
                     columns_wide(9) - 10.0);
        struct box *box = box_new(canvas, columns_wide(9), text->height);
        begin_list_item(canvas, box, 0.0, 0.0, "\u2013", style_body());
        box_put(canvas, box, text, 10.0, 0.0);
        end_list_item(canvas, box);
        box_in_list(box, ROLE_BULLETED, i == 0);
        flow_add(flow, box, i == 0 ? SPACE_HALF : 1.0);
    }
}

/* Words before a table or a bar stay with it. */
static void add_paragraph_box(struct kit_book *book,
                              const struct told_paragraph *paragraph,
                              bool stays)
{
    struct flow *flow = &book->booklet.flow;
    struct box *box = place_paragraph(&flow->canvas, paragraph, style_body(),
                                      columns_wide(9));
    box->keep_with_next = stays;
    flow_add(flow, box, SPACE_HALF);
}

/* ---- a paper ---- */

/* Does the next content belong to this one? */
static bool leads_on(const struct contents *contents, size_t index)
{
    if (index + 1 >= contents->items.count)
        return false;
    const enum content_kind next = contents->items.items[index + 1].kind;
    return next == CONTENT_TABLE || next == CONTENT_FIGURE;
}

/* A placer for each kind of content that papers have. */
static void add_content_boxes(struct kit_book *book,
                              const struct contents *contents, size_t index,
                              bool new_page)
{
    struct flow *flow = &book->booklet.flow;
    const struct content *content = &contents->items.items[index];
    if (content->kind == CONTENT_HEADING && content->as.heading.level == 1) {
        struct box *head = flow_head(flow, content->as.heading.title,
                                     content->as.heading.lead, false);
        head->turns_page = new_page;
        flow_add(flow, head, SPACE_MOST);
    } else if (content->kind == CONTENT_HEADING) {
        add_heading_box(book, &content->as.heading);
    } else if (content->kind == CONTENT_PARAGRAPH) {
        add_paragraph_box(book, &content->as.paragraph,
                          leads_on(contents, index));
    } else if (content->kind == CONTENT_LIST) {
        add_list_boxes(book, &content->as.list);
    } else if (content->kind == CONTENT_TABLE) {
        add_table_boxes(book, &content->as.table, content->part);
    } else if (content->as.figure.drawing == DRAWING_ROLL) {
        flow_add(flow, kit_roll_box(book, &content->as.figure), SPACE_LINE)
            ->keep_with_next = true;
    }
}

/* In the order of reading. */
static void add_contents(struct kit_book *book, struct contents contents,
                         bool new_page)
{
    for (size_t i = 0; i < contents.items.count; i++)
        add_content_boxes(book, &contents, i, new_page);
}

/* A slip begins a page, as each goes into a bag of its own. */
static void add_slips(struct kit_book *book)
{
    const struct wording *w = &book->booklet.wording;
    struct flow *flow = &book->booklet.flow;
    for (size_t i = 0; i < book->kits->order->lines.count; i++) {
        const size_t first = flow->boxes.count;
        add_contents(book, tell_kit_slip(w, book->kits, i), true);
        flow->boxes.items[first]->outline = kit_line_title(w, book->kits, i);
    }
}

/* As many cards to a page as it has room for, to be cut apart. */
static void add_cards(struct kit_book *book)
{
    const struct wording *w = &book->booklet.wording;
    for (size_t i = 0; i < book->kits->order->lines.count; i++) {
        const struct contents contents = tell_kit_card(w, book->kits, i);
        struct box *box = kit_card_box(book, &contents);
        box->outline = kit_line_title(w, book->kits, i);
        flow_add(&book->booklet.flow, box, SPACE_LINE);
    }
}

/* The squares tell at once whether the print has its true size. */
static void add_labels_test(struct kit_book *book)
{
    const struct contents contents =
        tell_kit_labels_test(&book->booklet.wording, book->kits);
    add_contents(book, contents, false);
    flow_add(&book->booklet.flow, test_squares(&book->booklet, &contents),
             SPACE_STEP);
    add_label_outlines(book);
}

/* What lies in one column. */
static void add_paper(struct kit_book *book, enum kit_paper paper)
{
    const struct wording *w = &book->booklet.wording;
    switch (paper) {
    case KIT_PAPER_PURCHASE:
        add_contents(book, tell_kit_purchase(w, book->kits), false);
        break;
    case KIT_PAPER_COSTS:
        add_contents(book, tell_kit_costs(w, book->kits), false);
        break;
    case KIT_PAPER_PICKING:
        add_contents(book, tell_kit_picking(w, book->kits), false);
        break;
    case KIT_PAPER_CUTTING:
        add_contents(book, tell_kit_cutting(w, book->kits), false);
        break;
    case KIT_PAPER_COUNT:
        add_contents(book, tell_kit_count(w, book->kits), false);
        break;
    case KIT_PAPER_SLIPS:
        add_slips(book);
        break;
    case KIT_PAPER_LABELS_TEST:
        add_labels_test(book);
        break;
    case KIT_PAPER_CARDS:
        add_cards(book);
        break;
    case KIT_PAPER_LABELS:
    case KIT_PAPERS:
        break; /* not in a flow */
    }
}

/* What is known before anything is drawn. */
static struct kit_book *begin_paper(struct arena *arena,
                                    struct typeset *typeset,
                                    const struct phrases *phrases,
                                    const struct kits *kits,
                                    enum kit_paper paper, bool a4)
{
    struct kit_book *of = ARENA_NEW(arena, struct kit_book);
    struct book *book = ARENA_NEW(arena, struct book);
    /* ISO 216 A4 and US letter, in points. */
    book->width = a4 ? 595.276 : 612.0;
    book->height = a4 ? 841.890 : 792.0;
    of->kits = kits;
    of->booklet.wording = (struct wording){arena, NULL, NULL, true, phrases};
    of->booklet.flow = flow_for(arena, typeset, book);
    const struct wording *w = &of->booklet.wording;
    book->title = say(arena, phrases, "list.comma", "first",
                      kit_order_name(w, kits), "next",
                      kit_paper_title(w, paper), NULL);
    book->author = "";
    book->subject = kit_order_lead(w, kits);
    book->language = phrases_language(phrases);
    book->date = kits->order->date[0] == '\0' ? NULL : kits->order->date;
    of->booklet.flow.foot = book->title;
    of->booklet.flow.uncovered = true;
    of->booklet.flow.phrases = phrases;
    return of;
}

/* Labels have the paper of their sheet, whatever the others are printed on. */
struct book *compose_kit_paper(struct arena *arena, struct typeset *typeset,
                               const struct phrases *phrases,
                               const struct kits *kits, enum kit_paper paper,
                               bool a4)
{
    const bool labels =
        paper == KIT_PAPER_LABELS || paper == KIT_PAPER_LABELS_TEST;
    if (labels && kits->order->labels == NULL)
        return NULL;
    struct kit_book *of =
        begin_paper(arena, typeset, phrases, kits, paper,
                    labels ? kits->order->labels->a4 : a4);
    if (paper == KIT_PAPER_LABELS) {
        put_labels(of);
    } else {
        add_paper(of, paper);
        flow_finish(&of->booklet.flow);
    }
    return of->booklet.flow.book;
}
