/* May assume boxes whose size is final. Read next: typeset.c. */
#include "flow.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A page is composed for the height of letter paper on A4, too: figures and
 * page breaks are the same on both. The foot ends 9 mm from the edge, which
 * printers reach. */
#define HEAD MM(15.0)
#define HEIGHT MM(247.0)
#define FOOT_LINE MM(13.0)

/* ensures: an empty flow for pages of the book's size. */
struct flow flow_for(struct arena *arena, struct typeset *typeset,
                     struct book *book)
{
    struct flow flow = {.book = book,
                        .margin = (book->width - GRID_WIDTH) / 2.0,
                        .top = HEAD,
                        .bottom = book->height - HEAD - HEIGHT};
    flow.canvas = (struct canvas){arena, typeset, GRID_WIDTH, false, ink, NULL};
    flow.foot = "";
    return flow;
}

/* The space is dropped where the box starts a page. ensures: the box itself, so
 * that a caller can still say what it keeps with. */
struct box *flow_add(struct flow *flow, struct box *box, double space_before)
{
    box->space_before = space_before;
    *LIST_ADD(flow->canvas.arena, &flow->boxes) = box;
    return box;
}

struct canvas flow_column(const struct flow *flow)
{
    struct canvas column = flow->canvas;
    column.width = columns_wide(6);
    return column;
}

/* What one page holds between head and foot. */
double flow_page_height(const struct flow *flow)
{
    return flow->book->height - flow->top - flow->bottom;
}

/* Labels are plain numbers from 1, as printed. */
static struct page *fresh_page(struct flow *flow)
{
    struct page *page = ARENA_NEW(flow->canvas.arena, struct page);
    *LIST_ADD(flow->canvas.arena, &flow->book->pages) = page;
    page->label =
        arena_printf(flow->canvas.arena, "%zu", flow->book->pages.count);
    return page;
}

/* Height of the box at `first` with those that must follow it. A box that does
 * not keep with the next ends the chain. */
static double chain_height(const struct flow *flow, size_t first)
{
    double height = 0.0;
    for (size_t i = first; i < flow->boxes.count; i++) {
        const struct box *box = flow->boxes.items[i];
        height += box->height + (i > first ? box->space_before : 0.0);
        /* What no page holds need not be told apart. */
        if (!box->keep_with_next || height > flow_page_height(flow))
            break;
    }
    return height;
}

/* Beside what boxes bring: what runs over several of them. */
static void add_tag(struct flow *flow, struct page *page, enum item_kind kind,
                    struct tag_item tag)
{
    struct item *item = LIST_ADD(flow->canvas.arena, &page->items);
    item->kind = kind;
    item->as.tag = tag;
}

/* A table or list stays open from box to box, and over the ends of pages. */
static void change_group(struct flow *flow, struct page *page,
                         const struct box *last, const struct box *next)
{
    const char *before = last == NULL ? NULL : last->group;
    const char *after = next == NULL ? NULL : next->group;
    if (before != NULL && after != NULL && !next->group_begins &&
        strcmp(before, after) == 0)
        return;
    if (before != NULL)
        add_tag(flow, page, ITEM_TAG_END, (struct tag_item){.name = before});
    if (after != NULL)
        add_tag(flow, page, ITEM_TAG_BEGIN,
                (struct tag_item){after, "", NULL, next->group_role});
}

/* Whole points, so that no decimal sign depends on a locale; a little above,
 * so that a viewer shows what stands there with some air. */
static void add_place(struct flow *flow, struct page *page,
                      const struct box *box, double x, double y)
{
    enum { AIR = 8 };
    const char *const names[] = {box->place, box->also};
    for (int i = 0; i < 2; i++) {
        if (names[i] == NULL)
            continue;
        const char *attributes =
            arena_printf(flow->canvas.arena, "name='%s' x=%d y=%d", names[i],
                         (int)x, (int)y - AIR);
        add_tag(flow, page, ITEM_TAG_BEGIN,
                (struct tag_item){TAG_PLACE, attributes, NULL, ROLE_NONE});
        add_tag(flow, page, ITEM_TAG_END, (struct tag_item){.name = TAG_PLACE});
    }
}

/* Moves the box to its place; a bookmark gets the page that it landed on. */
static void put_on_page(struct flow *flow, struct page *page,
                        const struct box *box, double x, double y)
{
    add_place(flow, page, box, x, y);
    page->true_to_scale |= box->true_to_scale;
    page->bare |= box->bare;
    if (box->page_label != NULL)
        snprintf(box->page_label, PAGE_LABEL, "%s", page->label);
    box_flatten(&flow->canvas, box, x, y, &page->items);
    if (box->outline == NULL)
        return;
    struct outline_entry *entry =
        LIST_ADD(flow->canvas.arena, &flow->book->outline);
    *entry = (struct outline_entry){box->outline, flow->book->pages.count - 1,
                                    y, box->outline_depth};
}

/* A chain that no page holds breaks, but not behind its first box. */
static double first_two(const struct flow *flow, size_t first)
{
    const struct box *box = flow->boxes.items[first];
    if (!box->keep_with_next || first + 1 == flow->boxes.count)
        return box->height;
    const struct box *next = flow->boxes.items[first + 1];
    const double both = box->height + next->space_before + next->height;
    return both > flow_page_height(flow) ? box->height : both;
}

/* How the pages came out. */
struct filling {
    double last;  /* how far the last page is filled, in points */
    double least; /* of all others but the cover, as a part of a page */
};

/* Where boxes go. */
struct cursor {
    struct page *page;
    double tightness; /* of the spaces between boxes */
    double y;         /* below the last box */
    int column;       /* of two, or WHOLE */
    double top;       /* of the two columns */
    double middle;    /* where the left one should end */
    double lowest;    /* end of the longer one, as far as known */
    struct filling filling;
};
enum { WHOLE = -1 };

static double end_of_page(const struct flow *flow)
{
    return flow->book->height - flow->bottom + 0.01;
}

static double lowest_point(const struct cursor *cursor)
{
    return fmax(cursor->y, cursor->lowest);
}

/* Two columns that hold the last of a run end at about the same height, so that
 * the right one is not left empty. */
static void balance(const struct flow *flow, struct cursor *cursor,
                    size_t index)
{
    double height = 0.0;
    for (size_t i = index; i < flow->boxes.count && flow->boxes.items[i]->half;
         i++)
        height += flow->boxes.items[i]->height +
                  flow->boxes.items[i]->space_before * cursor->tightness;
    const double room = end_of_page(flow) - cursor->top;
    cursor->middle = cursor->top + (height < 1.8 * room ? height / 2.0 : room);
}

static void start_page(struct flow *flow, struct cursor *cursor, size_t index)
{
    if (flow->book->pages.count > 1)
        cursor->filling.least =
            fmin(cursor->filling.least,
                 (lowest_point(cursor) - flow->top) / flow_page_height(flow));
    cursor->page = fresh_page(flow);
    cursor->y = cursor->top = cursor->lowest = flow->top;
    cursor->column = flow->boxes.items[index]->half ? 0 : WHOLE;
    balance(flow, cursor, index);
}

/* From boxes as wide as the page to two columns, or back. */
static void change_columns(const struct flow *flow, struct cursor *cursor,
                           size_t index)
{
    const struct box *box = flow->boxes.items[index];
    if (box->half == (cursor->column != WHOLE))
        return;
    cursor->y = lowest_point(cursor);
    if (box->half) {
        cursor->y += box->space_before * cursor->tightness;
        cursor->top = cursor->lowest = cursor->y;
        balance(flow, cursor, index);
    }
    cursor->column = box->half ? 0 : WHOLE;
}

/* Greedy, from the top down: a chain that fits a page is never broken; one that
 * does not breaks where it must. A section starts a page, unless the last one
 * is hardly begun. The cover stays alone.
 * ensures: true where the box starts a column or a page. */
static bool move_cursor(struct flow *flow, struct cursor *cursor, size_t index,
                        double least, bool chained)
{
    const struct box *box = flow->boxes.items[index];
    const double end = end_of_page(flow);
    const double again = box->again == NULL ? 0.0 : box->again->height;
    const bool wants_page =
        (box->turns_page && cursor->y > cursor->top) ||
        (box->starts_page && (flow->book->pages.count < 2 ||
                              cursor->y > flow->book->height * 0.45));
    if (cursor->page != NULL && !wants_page) {
        change_columns(flow, cursor, index);
        const bool first = cursor->y <= cursor->top;
        const double space =
            first ? 0.0 : box->space_before * cursor->tightness;
        const bool past = cursor->column == 0 && !first && !chained &&
                          cursor->y + space + least / 2.0 > cursor->middle;
        const bool fits = cursor->y + space + least <= end;
        if (fits && !(past && cursor->top + again + least <= end)) {
            cursor->y += space;
            return false;
        }
        if (cursor->column == 0 && !first &&
            cursor->top + again + least <= end) {
            cursor->lowest = cursor->y;
            cursor->y = cursor->top;
            cursor->column = 1;
            return true;
        }
    }
    start_page(flow, cursor, index);
    return true;
}

static void put_at_cursor(struct flow *flow, const struct cursor *cursor,
                          const struct box *last, const struct box *box)
{
    const double right = columns_wide(6) + GRID_GUTTER;
    change_group(flow, cursor->page, last, box);
    put_on_page(flow, cursor->page, box,
                flow->margin + (cursor->column == 1 ? right : 0.0), cursor->y);
}

/* Puts the boxes on pages, the spaces between them times `tightness`; or only
 * finds how they would lie there. */
static struct filling paginate(struct flow *flow, double tightness, bool put)
{
    struct cursor cursor = {
        .tightness = tightness, .column = WHOLE, .filling = {0.0, 1.0}};
    flow->book->pages.count = 0;
    flow->book->outline.count = 0;
    const struct box *last = NULL;
    bool chained = false;
    for (size_t i = 0; i < flow->boxes.count; i++) {
        const struct box *box = flow->boxes.items[i];
        /* Inside a chain that was found to fit, nothing breaks. */
        const double need = chained ? box->height : chain_height(flow, i);
        const bool starts = move_cursor(
            flow, &cursor, i,
            need > flow_page_height(flow) ? first_two(flow, i) : need, chained);
        if (i == 0 && put)
            add_tag(flow, cursor.page, ITEM_TAG_BEGIN,
                    (struct tag_item){"Document", "", NULL, ROLE_NONE});
        if (starts && box->again != NULL) {
            if (put) {
                put_at_cursor(flow, &cursor, last, box->again);
                last = box->again;
            }
            cursor.y += box->again->height;
        }
        if (put)
            put_at_cursor(flow, &cursor, last, box);
        last = box;
        cursor.y += box->height;
        chained =
            box->keep_with_next && (chained || need <= flow_page_height(flow));
    }
    if (cursor.page == NULL)
        return cursor.filling;
    if (put) {
        change_group(flow, cursor.page, last, NULL);
        add_tag(flow, cursor.page, ITEM_TAG_END,
                (struct tag_item){.name = "Document"});
    }
    cursor.filling.last = lowest_point(&cursor) - flow->top;
    return cursor.filling;
}

struct flow_end flow_end(struct flow *flow)
{
    if (flow->boxes.count == 0)
        return (struct flow_end){1, flow_page_height(flow)};
    const double last = paginate(flow, 1.0, false).last;
    return (struct flow_end){flow->book->pages.count,
                             flow_page_height(flow) - last};
}

static const double LEAST_FILLED = 0.37;

/* No page but the last is under a third full (a little more is asked, as what
 * is empty at a box's edge counts for it), and the last holds more than a line
 * or two. */
static bool is_good(struct filling filling)
{
    enum { HARDLY_BEGUN = 110 };
    return filling.least > LEAST_FILLED && filling.last > HARDLY_BEGUN;
}

/* Spaces as they were meant, unless closer ones make better pages: all of them
 * well filled, or else fewer. Wider ones would break what must stay together.
 */
static void fill_pages(struct flow *flow)
{
    static const double ways[] = {1.0, 0.92, 0.85, 0.78, 0.7, 0.6};
    size_t best = 0, pages = 0;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        if (is_good(paginate(flow, ways[i], false))) {
            best = i;
            break;
        }
        if (i == 0 || flow->book->pages.count < pages) {
            best = i;
            pages = flow->book->pages.count;
        }
    }
    paginate(flow, ways[best], true);
}

/* Words outside the column, in the margins. */
static void put_line(struct flow *flow, struct page *page, const char *text,
                     double x, double y, enum text_align align)
{
    if (text[0] == '\0')
        return;
    struct text_style style = style_small();
    style.align = align;
    struct item *item = LIST_ADD(flow->canvas.arena, &page->items);
    item->kind = ITEM_TEXT;
    item->as.text = (struct text_item){
        box_fitted(&flow->canvas, text, style, flow->canvas.width * 0.8),
        x,
        y,
        0.0,
        0.0,
        style,
        false};
}

/* What the booklet is at the left, the number of the page at the right; only
 * now, as "of" needs the number of pages. The cover has neither. */
static void furnish(struct flow *flow)
{
    const double right = flow->book->width - flow->margin;
    const double foot = flow->book->height - FOOT_LINE;
    for (size_t i = flow->uncovered ? 0 : 1; i < flow->book->pages.count;
         i++) {
        struct page *page = flow->book->pages.items[i];
        if (page->bare)
            continue;
        put_line(flow, page, flow->foot, flow->margin, foot, ALIGN_LEFT);
        put_line(flow, page,
                 say(flow->canvas.arena, flow->phrases, "page.number", "page",
                     say_count(flow->canvas.arena, i + 1), "pages",
                     say_count(flow->canvas.arena, flow->book->pages.count),
                     NULL),
                 right, foot, ALIGN_RIGHT);
    }
}

/* requires: called once, last. */
void flow_finish(struct flow *flow)
{
    fill_pages(flow);
    furnish(flow);
}

/* The quilt's block, the title, and below it what the section is about. */
struct box *flow_head(const struct flow *flow, const char *title,
                      const char *lead, bool new_page)
{
    const struct canvas *canvas = &flow->canvas;
    const double left =
        flow->icon == NULL ? 0.0 : flow->icon->width + SPACE_HALF + 2.0;
    struct text_style style = style_section();
    style.color = canvas->accent;
    const struct box *head =
        box_heading(canvas, title, style, canvas->width - left, "H1");
    struct box *box = box_new(canvas, canvas->width, head->height);
    if (flow->icon != NULL) /* outside of any element: it tells nothing new */
        box_put(canvas, box, flow->icon, 0.0, 2.0);
    /* Display type has more air above its letters than icons have. */
    box_put(canvas, box, head, left, -4.0);
    if (lead[0] != '\0') {
        const struct box *text =
            box_text(canvas, lead, style_body(),
                     fmin(canvas->width - left, columns_wide(8)));
        box_put(canvas, box, text, left, head->height - 6.0);
        box->height += text->height - 6.0;
    }
    if (flow->icon != NULL && box->height < flow->icon->height + 2.0)
        box->height = flow->icon->height + 2.0;
    box->keep_with_next = true;
    box->starts_page = new_page;
    box->outline = title;
    return box;
}

void flow_section(struct flow *flow, const char *title, const char *lead,
                  bool new_page)
{
    flow_add(flow, flow_head(flow, title, lead, new_page), SPACE_MOST);
}

/* Below a section; without a bookmark, or there would be too many. */
void flow_heading(struct flow *flow, const char *title)
{
    struct box *box = box_heading(&flow->canvas, title, style_step(),
                                  flow->canvas.width, "H2");
    box->keep_with_next = true;
    flow_add(flow, box, SPACE_STEP);
}
