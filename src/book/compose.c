/* The booklet stage: one sewn quilt and its cutting plan become pages. The
 * order of the sections is the order of the work. May assume a plan that holds;
 * nothing is reported any more. Read next: section.h, then flow.c. */
#include "compose.h"

#include <string.h>

#include "section.h"
#include "words.h"

/* What this booklet is; revision and date tell two printings apart, and either
 * may be missing. */
static const char *foot_text(const struct booklet *booklet)
{
    const struct design *design = booklet->design;
    struct arena *arena = booklet->wording.arena;
    const struct phrases *phrases = booklet->wording.phrases;
    const char *what = say(arena, phrases, "page.foot", "title", design->title,
                           "quilt", booklet->quilt->definition->name,
                           "colorway", booklet->plan->colorway->name, NULL);
    const char *printing = word_printing(&booklet->wording);
    return printing[0] == '\0'
               ? what
               : arena_printf(arena, "%s  \u00b7  %s", what, printing);
}

/* The first block that is sewn, else the whole top. */
static const struct box *section_icon(struct booklet *booklet)
{
    const struct sewn_quilt *quilt = booklet->quilt;
    const struct cloth *cloth = quilt->cloth;
    for (size_t i = quilt->heaps.count; i-- > 0;) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->names.count; k++)
            if (is_sewn_block(heap, &heap->names.items[k]))
                cloth = finished_cloth(booklet->wording.arena, heap->cloth);
    }
    return figure_cloth(&booklet->flow.canvas, booklet->plan->colorway, cloth,
                        MM(11.5), MM(11.5));
}

/* What is known before anything is drawn. */
static struct book *empty_book(struct arena *arena,
                               const struct phrases *phrases,
                               const struct design *design,
                               const struct cutplan *plan)
{
    struct book *book = ARENA_NEW(arena, struct book);
    book->title =
        arena_printf(arena, "%s, %s, %s", design->title,
                     plan->quilt->definition->name, plan->colorway->name);
    book->author = design->designer;
    book->language = phrases_language(phrases);
    book->date = design->date[0] == '\0' ? NULL : design->date;
    return book;
}

/* ensures: a booklet without any box; it points into design and plan, which
 * must outlive it. */
static struct booklet *begin_booklet(struct arena *arena,
                                     struct typeset *typeset,
                                     const struct phrases *phrases,
                                     const struct design *design,
                                     const struct cutplan *plan, unsigned form)
{
    struct book *book = empty_book(arena, phrases, design, plan);
    const bool a4 = (form & FORM_A4) != 0;
    /* ISO 216 A4 and US letter, in points. */
    book->width = a4 ? 595.276 : 612.0;
    book->height = a4 ? 841.890 : 792.0;
    struct booklet *booklet = ARENA_NEW(arena, struct booklet);
    *booklet =
        (struct booklet){.flow = flow_for(arena, typeset, book),
                         .wording = {arena, design, plan->quilt, true, phrases},
                         .design = design,
                         .quilt = plan->quilt,
                         .plan = plan};
    if (design->accent.stated)
        booklet->flow.canvas.accent = (struct color){
            design->accent.red, design->accent.green, design->accent.blue};
    booklet->flow.canvas.design = design;
    booklet->flow.canvas.hatched = (form & FORM_GREY) != 0;
    booklet->preview = (form & FORM_PREVIEW) != 0;
    book->subject =
        word_words(&booklet->wording, plan->colorway, design->summary, NULL);
    booklet->flow.foot = foot_text(booklet);
    booklet->flow.phrases = phrases;
    booklet->flow.icon = section_icon(booklet);
    return booklet;
}

/* ensures: a booklet whose flow holds all its boxes. */
static struct booklet *compose_boxes(struct arena *arena,
                                     struct typeset *typeset,
                                     const struct phrases *phrases,
                                     const struct design *design,
                                     const struct cutplan *plan, unsigned form)
{
    struct booklet *booklet =
        begin_booklet(arena, typeset, phrases, design, plan, form);
    section_cover(booklet);
    section_glance(booklet);
    if (booklet->preview) {
        section_sewing(booklet);
        return booklet;
    }
    section_cutting(booklet);
    section_scale(booklet);
    section_sewing(booklet);
    section_coloring(booklet);
    section_back(booklet);
    return booklet;
}

/* Is there a place of the name that a link's attribute asks for? */
static bool has_place(const struct book *book, const char *link)
{
    const char *name = strchr(link, '\'');
    for (size_t p = 0; name != NULL && p < book->pages.count; p++) {
        const struct page *page = book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (item->kind == ITEM_TAG_BEGIN &&
                strcmp(item->as.tag.name, TAG_PLACE) == 0 &&
                strncmp(strchr(item->as.tag.attributes, '\''), name,
                        strlen(name)) == 0)
                return true;
        }
    }
    return false;
}

/* The name is what stands between the first two quotes. */
static const char *place_name(struct arena *arena, const char *attributes)
{
    const char *name = strchr(attributes, '\'') + 1;
    return arena_copy(arena, name, strcspn(name, "'"));
}

struct booklet_pages find_pages(struct arena *arena, const struct book *book,
                                const struct cutplan *plan)
{
    struct booklet_pages pages = {.plan = plan};
    for (size_t p = 0; p < book->pages.count; p++) {
        const struct page *page = book->pages.items[p];
        for (size_t i = 0; i < page->items.count; i++) {
            const struct item *item = &page->items.items[i];
            if (item->kind == ITEM_TAG_BEGIN &&
                strcmp(item->as.tag.name, TAG_PLACE) == 0)
                *LIST_ADD(arena, &pages.places) = (struct place_page){
                    place_name(arena, item->as.tag.attributes),
                    arena_copy(arena, page->label, strlen(page->label))};
        }
    }
    return pages;
}

/* A preview leaves out pages to which others lead: those words stay, as plain
 * ones. Links do not hold each other. */
static void drop_loose_links(struct book *book)
{
    for (size_t p = 0; p < book->pages.count; p++) {
        struct page *page = book->pages.items[p];
        bool loose = false;
        for (size_t i = 0; i < page->items.count; i++) {
            struct item *item = &page->items.items[i];
            if (item->kind != ITEM_TAG_BEGIN && item->kind != ITEM_TAG_END)
                continue;
            if (strcmp(item->as.tag.name, "Link") != 0)
                continue;
            if (item->kind == ITEM_TAG_BEGIN)
                loose = !has_place(book, item->as.tag.attributes);
            if (!loose)
                continue;
            item->as.tag.name = "Span";
            if (item->kind == ITEM_TAG_BEGIN)
                item->as.tag.attributes = "";
        }
    }
}

/* ensures: a book whose pages need nothing but drawing. */
struct book *compose_book(struct arena *arena, struct typeset *typeset,
                          const struct phrases *phrases,
                          const struct design *design,
                          const struct cutplan *plan, unsigned form)
{
    struct booklet *booklet =
        compose_boxes(arena, typeset, phrases, design, plan, form);
    flow_finish(&booklet->flow);
    if (booklet->preview)
        drop_loose_links(booklet->flow.book);
    return booklet->flow.book;
}

struct book *compose_proof(struct arena *arena, struct typeset *typeset,
                           const struct phrases *phrases,
                           const struct design *design,
                           const struct cutplan *plan, unsigned form,
                           struct testers testers)
{
    struct booklet *booklet =
        begin_booklet(arena, typeset, phrases, design, plan, form);
    booklet->flow.book->title =
        say(arena, phrases, "proof.file-title", "title",
            booklet->flow.book->title, NULL);
    section_proof(booklet, testers);
    flow_finish(&booklet->flow);
    return booklet->flow.book;
}

/* Room on all sides for lines that run along the edge of a box. */
static const double FIGURE_MARGIN = 6.0;

/* One page, as large as the figure. */
static struct book *figure_book(const struct booklet *booklet,
                                const struct named_box *named)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    struct book *book = empty_book(canvas->arena, booklet->wording.phrases,
                                   booklet->design, booklet->plan);
    const struct box *box = box_stack(canvas, named->parts.items,
                                      named->parts.count, FIGURE_MARGIN);
    book->title = named->title;
    book->subject = booklet->flow.book->subject;
    book->width = box->width + 2.0 * FIGURE_MARGIN;
    book->height = box->height + 2.0 * FIGURE_MARGIN;
    struct page *page = ARENA_NEW(canvas->arena, struct page);
    box_flatten(canvas, box, FIGURE_MARGIN, FIGURE_MARGIN, &page->items);
    page->label = "1";
    *LIST_ADD(canvas->arena, &book->pages) = page;
    return book;
}

static struct figures named_figures(const struct booklet *booklet)
{
    struct figures figures = {0};
    for (size_t i = 0; i < booklet->named.count; i++) {
        const struct named_box *named = &booklet->named.items[i];
        *LIST_ADD(booklet->wording.arena, &figures.items) =
            (struct named_figure){named->name, named->title,
                                  figure_book(booklet, named)};
    }
    return figures;
}

/* The whole booklet is made, as only its sections know what they draw; nothing
 * is put on pages. */
struct figures compose_figures(struct arena *arena, struct typeset *typeset,
                               const struct phrases *phrases,
                               const struct design *design,
                               const struct cutplan *plan, unsigned form)
{
    struct booklet *booklet =
        compose_boxes(arena, typeset, phrases, design, plan, form);
    name_area_figures(booklet);
    name_gaps_figure(booklet);
    name_cloth_figures(booklet);
    return named_figures(booklet);
}

/* No cutting plan is made of a quilt that is refused: one of the quilt and its
 * colorway is enough for this figure. */
struct figures compose_gaps(struct arena *arena, struct typeset *typeset,
                            const struct phrases *phrases,
                            const struct design *design,
                            const struct quilting_plan *quilting,
                            const struct colorway *colorway)
{
    struct cutplan *plan = ARENA_NEW(arena, struct cutplan);
    plan->quilt = quilting->quilt;
    plan->colorway = colorway;
    plan->quilting = quilting;
    struct booklet *booklet =
        begin_booklet(arena, typeset, phrases, design, plan, FORM_LETTER);
    name_gaps_figure(booklet);
    return named_figures(booklet);
}

/* There are dozens, so a walk is enough. */
const struct named_figure *compose_figure(const struct figures *figures,
                                          const char *name)
{
    for (size_t i = 0; i < figures->items.count; i++)
        if (strcmp(figures->items.items[i].name, name) == 0)
            return &figures->items.items[i];
    return NULL;
}
