/* Every booklet of the samples, and the place of each text on a page. */
#ifndef SEAMWRIGHT_TESTS_PAGES_H
#define SEAMWRIGHT_TESTS_PAGES_H

#include "buffer.h"
#include "compose.h"
#include "sample.h"
#include "told_step.h"
#include "wording.h"

struct booklets {
    struct arena *arena;
    struct typeset *typeset;
    const struct phrases *phrases; /* the language of all booklets */
    const struct known *known;     /* breaches that are accepted, or NULL */
    LIST(struct visit) visits;
};

struct visit {
    struct booklets *all;
    const struct sample *sample;
    const struct cutplan *plan;
    const struct book *book;
    struct wording wording;
    struct told_steps steps;
    const char *where;
    struct breaches *breaches;
    struct arena *scratch; /* of one look: booklets are large */
};
typedef void visitor(struct visit *visit);

/* What may stand on a part: its name; where that has no room, the fabrics of
 * its cast, or the step that made it. */
static inline bool is_name_of(const struct visit *visit, size_t heap,
                              const char *text)
{
    const struct heap *made = &visit->plan->quilt->heaps.items[heap];
    const char *fabrics =
        made->names.count == 0
            ? NULL
            : word_cast(&visit->wording, made->names.items[0].cast);
    return strcmp(text, word_part(&visit->wording, heap)) == 0 ||
           (fabrics != NULL && strcmp(text, fabrics) == 0) ||
           (made->step > 0 &&
            strcmp(text, say(visit->all->arena, visit->all->phrases,
                             "part.step", "step",
                             say_count(visit->all->arena, made->step), NULL)) ==
                0);
}

/* Composes each quilt and colorway of a source, on both papers. */
static inline void add_visits(struct booklets *all, const struct sample *sample)
{
    for (size_t i = 0; i < sample->plans->items.count; i++)
        for (int a4 = 0; a4 < 2; a4++) {
            const struct cutplan *plan = &sample->plans->items.items[i];
            const struct book *book =
                compose_book(all->arena, all->typeset, all->phrases,
                             sample->design, plan, a4 == 1);
            const struct wording wording = {all->arena, sample->design,
                                            plan->quilt, true, all->phrases};
            *LIST_ADD(all->arena, &all->visits) = (struct visit){
                all,
                sample,
                plan,
                book,
                wording,
                tell_steps(&wording),
                arena_printf(all->arena, "%s %s %s %s", sample->design->id,
                             plan->quilt->definition->id, plan->colorway->id,
                             a4 ? "A4" : "letter"),
                NULL,
                NULL};
        }
}

static inline int booklets_in(void **state, const char *language)
{
    struct arena *arena = arena_create();
    struct booklets *all = ARENA_NEW(arena, struct booklets);
    all->arena = arena;
    all->typeset = typeset_create();
    all->phrases = phrases_load(arena, language);
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        struct sample *sample = ARENA_NEW(arena, struct sample);
        *sample = sample_file(SAMPLES[s]);
        add_visits(all, sample);
    }
    *state = all;
    return 0;
}

static inline int booklets_setup(void **state)
{
    return booklets_in(state, "en");
}

static inline void add_sample(struct booklets *all, const char *path)
{
    struct sample *sample = ARENA_NEW(all->arena, struct sample);
    *sample = sample_fresh(all->arena, path);
    add_visits(all, sample);
}

/* With the fourth sample, which has other techniques. */
static inline int all_booklets_in(void **state, const char *language)
{
    booklets_in(state, language);
    add_sample(*state, "samples/gull-rock.xml");
    return 0;
}

/* With those that have casts, sashing, a picture of the quilt, too. */
static inline int every_booklet_in(void **state, const char *language)
{
    all_booklets_in(state, language);
    add_sample(*state, "samples/eight-sails.xml");
    add_sample(*state, "samples/orchard-gate.xml");
    add_sample(*state, "samples/lone-beacon.xml");
    add_sample(*state, "samples/ebb-pools.xml");
    add_sample(*state, "samples/net-racks.xml");
    add_sample(*state, "samples/reed-lights.xml");
    return 0;
}

static inline int booklets_teardown(void **state)
{
    struct booklets *all = *state;
    typeset_destroy(all->typeset);
    arena_destroy(all->arena);
    return 0;
}

/* Looks at every booklet; fails where a breach was told. */
static inline void visit_booklets(void **state, visitor *look)
{
    struct booklets *all = *state;
    struct breaches breaches = {"", 0, 0};
    for (size_t i = 0; i < all->visits.count; i++) {
        struct visit *visit = &all->visits.items[i];
        visit->breaches = &breaches;
        breaches.where = visit->where;
        breaches.told = 0;
        visit->scratch = arena_create();
        look(visit);
        arena_destroy(visit->scratch);
    }
    assert_kept(&breaches);
}

/* How many breaches a look at one booklet finds; none of them is told. */
static inline int count_breaches(struct visit *visit, visitor *look)
{
    struct breaches breaches = {NULL, 0, 0};
    visit->breaches = &breaches;
    visit->scratch = arena_create();
    look(visit);
    arena_destroy(visit->scratch);
    return breaches.count;
}

/* ---- where a text lies ---- */

struct quad {
    struct point corner[4];
};

/* The box of a text as it is turned. `tight` leaves the blank above and below
 * capitals and digits out, which stand in the middle of their line. */
static inline struct quad text_quad(struct typeset *typeset,
                                    const struct text_item *text, bool tight)
{
    const struct text_extent size =
        typeset_measure(typeset, text->text, text->style, text->width);
    const double room = text->width > 0.0 ? text->width - size.width : 0.0;
    double left = text->width > 0.0 ? 0.0 : -size.width;
    left = text->style.align == ALIGN_LEFT    ? 0.0
           : text->style.align == ALIGN_RIGHT ? left + room
                                              : left / 2.0 + room / 2.0;
    const double blank = tight ? 0.29 * text->style.size : 0.0;
    const double turn = text->angle * acos(-1.0) / 180.0;
    const double x[4] = {left, left + size.width, left + size.width, left};
    const double y[4] = {blank, blank, size.height - blank,
                         size.height - blank};
    struct quad quad;
    for (int i = 0; i < 4; i++)
        quad.corner[i] =
            (struct point){text->x + x[i] * cos(turn) - y[i] * sin(turn),
                           text->y + x[i] * sin(turn) + y[i] * cos(turn)};
    return quad;
}

/* How far the shadows of both on this direction lie over each other. */
static inline double shadow(const struct quad *a, const struct quad *b,
                            double x, double y)
{
    double low[2] = {1e9, 1e9}, high[2] = {-1e9, -1e9};
    const struct quad *both[2] = {a, b};
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < 4; i++) {
            const double at =
                both[k]->corner[i].x * x + both[k]->corner[i].y * y;
            low[k] = fmin(low[k], at);
            high[k] = fmax(high[k], at);
        }
    return fmin(high[0], high[1]) - fmax(low[0], low[1]);
}

/* How deep two boxes lie in each other (the separating-axis theorem); 0 or
 * less where they do not. */
static inline double quad_overlap(const struct quad *a, const struct quad *b)
{
    const struct quad *both[2] = {a, b};
    double depth = 1e9;
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < 2; i++) {
            const struct point p = both[k]->corner[i];
            const struct point q = both[k]->corner[i + 1];
            const double length = hypot(q.x - p.x, q.y - p.y);
            if (length > 0.0)
                depth = fmin(depth, shadow(a, b, (q.x - p.x) / length,
                                           (q.y - p.y) / length));
        }
    return depth;
}

/* Does a line run through a box? It is a quad as thin as nothing. */
static inline bool crosses(const struct quad *box, struct point a,
                           struct point b)
{
    const double length = hypot(b.x - a.x, b.y - a.y);
    if (length == 0.0)
        return false;
    const struct point side = {(a.y - b.y) / length * 0.001,
                               (b.x - a.x) / length * 0.001};
    const struct quad line = {
        {a, b, {b.x + side.x, b.y + side.y}, {a.x + side.x, a.y + side.y}}};
    return quad_overlap(box, &line) > 0.0;
}

/* ---- the steps ---- */

static inline bool only_digits(const char *text)
{
    return text[0] != '\0' && text[strspn(text, "0123456789")] == '\0';
}

/* A numeral of 24 points, in display type, before the title of a step: 7; else
 * 0. Steps of finishing have numbers behind those of sewing. */
static inline size_t heading_number(const struct item *item)
{
    unsigned number = 0;
    if (item->kind != ITEM_TEXT || item->as.text.style.face != FACE_DISPLAY ||
        item->as.text.style.size != 24.0 || !only_digits(item->as.text.text))
        return 0;
    return sscanf(item->as.text.text, "%u", &number) == 1 ? number : 0;
}

/* The head of a section, which ends the steps. */
static inline bool is_section(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 24.0 &&
           item->as.text.style.face == FACE_DISPLAY &&
           heading_number(item) == 0;
}

static inline size_t step_count(const struct visit *visit)
{
    return visit->steps.items.count;
}

/* NULL for a number that is not of sewing. */
static inline const struct told_step *told_step(const struct visit *visit,
                                                size_t step)
{
    for (size_t i = 0; i < visit->steps.items.count; i++)
        if (visit->steps.items.items[i].number == step)
            return &visit->steps.items.items[i];
    return NULL;
}

/* What a step makes. */
static inline const struct heap *heap_of_step(const struct visit *visit,
                                              size_t step)
{
    const struct told_step *told = told_step(visit, step);
    return told == NULL ? NULL : &visit->plan->quilt->heaps.items[told->heap];
}

/* The words under a figure, and all other running text. */
static inline bool is_caption(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 9.5 &&
           item->as.text.style.face == FACE_REGULAR &&
           item->as.text.width > 0.0;
}

static inline bool is_figure_text(const struct item *item, enum text_face face)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 7.5 &&
           item->as.text.style.face == face && item->as.text.width == 0.0 &&
           item->as.text.style.align == ALIGN_CENTER;
}

/* Sizes beside a result; numbers of seams in their circles; names of parts. */
/* Rows are numbered in the same face. */
static inline bool is_dimension(const struct item *item)
{
    return is_figure_text(item, FACE_REGULAR) &&
           !only_digits(item->as.text.text);
}

static inline bool is_seam_number(const struct item *item)
{
    return is_figure_text(item, FACE_BOLD) && only_digits(item->as.text.text);
}

/* A quarter, half or three quarters, in red in its ring. */
static inline bool is_turn(const struct item *item)
{
    /* A small ring has a label's size, as the marks of cuts have. */
    return item->kind == ITEM_TEXT &&
           (item->as.text.style.size == 9.5 ||
            item->as.text.style.size == 7.5) &&
           item->as.text.style.face == FACE_BOLD &&
           item->as.text.style.color.red > 0.5 && item->as.text.width == 0.0 &&
           (strcmp(item->as.text.text, "\u00bc") == 0 ||
            strcmp(item->as.text.text, "\u00bd") == 0 ||
            strcmp(item->as.text.text, "\u00be") == 0);
}

static inline bool is_label(const struct item *item)
{
    return is_figure_text(item, FACE_BOLD) && !is_turn(item) &&
           !only_digits(item->as.text.text);
}

/* The way of a line, beside it: "rising" or "falling". */
static inline bool is_direction(struct visit *visit, const char *text)
{
    struct arena *arena = visit->all->arena;
    return strcmp(text, say(arena, visit->all->phrases, "line.rising", NULL)) ==
               0 ||
           strcmp(text,
                  say(arena, visit->all->phrases, "line.falling", NULL)) == 0;
}

/* All texts of the pages, one after the other. */
static inline const char *all_text(struct arena *arena, const struct book *book)
{
    struct buffer text = buffer_in(arena);
    for (size_t p = 0; p < book->pages.count; p++)
        for (size_t i = 0; i < book->pages.items[p]->items.count; i++) {
            const struct item *item = &book->pages.items[p]->items.items[i];
            if (item->kind == ITEM_TEXT)
                buffer_printf(&text, "%s ", item->as.text.text);
        }
    return buffer_string(&text);
}

/* Ends of lines and blanks where no line ends, as blanks. */
static inline const char *blanks_alike(struct arena *arena, const char *text)
{
    struct buffer alike = buffer_in(arena);
    for (const char *c = text; *c != '\0'; c++) {
        const bool kept = strncmp(c, "\u00a0", 2) == 0;
        buffer_printf(&alike, "%c", kept || *c == '\n' ? ' ' : *c);
        c += kept ? 1 : 0;
    }
    return buffer_string(&alike);
}

#endif
