/* Where a composed booklet can be damaged, and one to damage. */
#ifndef SEAMWRIGHT_TESTS_DAMAGE_H
#define SEAMWRIGHT_TESTS_DAMAGE_H

#include "check_layout.h"
#include "check_results.h"
#include "figures.h"

/* ---- where to damage ---- */

static inline struct item *item_of(const struct visit *visit, size_t page,
                                   size_t item)
{
    return &visit->book->pages.items[page]->items.items[item];
}

/* The first chosen item on pages of a kind; of sewing, behind the legend. */
static inline struct item *first_of(const struct visit *visit,
                                    enum page_kind kind, chooser *chosen)
{
    bool begun = kind != PAGE_SEWING;
    for (size_t p = 1; p < visit->book->pages.count; p++)
        for (size_t i = 0; i < visit->book->pages.items[p]->items.count; i++) {
            struct item *item = item_of(visit, p, i);
            begun |= heading_number(item) > 0;
            if (begun && kind_of_page(visit, p) == kind && chosen(item))
                return item;
        }
    fail_msg("there is nothing to damage");
    return NULL;
}

/* The second page of sewing, which others follow. */
static inline size_t sewing_page(const struct visit *visit)
{
    size_t page = 1;
    while (kind_of_page(visit, page) != PAGE_SEWING)
        page++;
    return page + 1;
}

/* The first figure that shows parts before they are sewn, or a result. */
static inline struct drawn drawn_of(struct visit *visit, bool result,
                                    bool joined)
{
    const struct drawings drawings = drawings_of(visit);
    for (size_t i = 0; i < drawings.items.count; i++)
        if (drawings.items.items[i].result == result &&
            (drawings.items.items[i].exploded != NULL) == joined)
            return drawings.items.items[i];
    fail_msg("there is no such figure");
    return drawings.items.items[0];
}

static inline bool is_cloth(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.role == ROLE_CLOTH;
}

static inline bool is_cell(const struct item *item)
{
    return is_cloth(item) && item->as.path.stroke == 0.0;
}

static inline bool is_casing(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.count == 2 &&
           item->as.path.stroke > MM(0.7) &&
           item->as.path.stroke_color.red == 1.0 &&
           item->as.path.stroke_color.blue == 1.0;
}

static inline bool is_fine_line(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.count == 2 &&
           item->as.path.stroke > 0.0 && item->as.path.stroke_color.red < 0.5;
}

/* Long enough for its words to be known again, and not of pressing. */
static inline bool is_sentence(const struct item *item)
{
    return is_caption(item) && strlen(item->as.text.text) > 60 &&
           strstr(item->as.text.text, "ress") == NULL &&
           strstr(item->as.text.text, "measures") == NULL;
}

/* ---- what is damaged ---- */

typedef void damage(struct visit *visit);

/* Instead of a sentence under a frame. */
static inline void say_instead(struct visit *visit, const char *text)
{
    first_of(visit, PAGE_SEWING, is_sentence)->as.text.text = text;
}

/* One booklet on both papers, in an arena of its own; the first is harmed. */
static inline void add_both_papers(struct booklets *own,
                                   const struct sample *sample)
{
    const struct cutplan *plan = &sample->plans->items.items[0];
    for (int a4 = 0; a4 < 2; a4++) {
        const struct book *book =
            compose_book(own->arena, own->typeset, own->phrases, sample->design,
                         plan, a4 == 1);
        const struct wording wording = {own->arena, sample->design, plan->quilt,
                                        true, own->phrases};
        *LIST_ADD(own->arena, &own->visits) = (struct visit){
            own,   sample, plan, book, wording, tell_steps(&wording),
            "own", NULL,   NULL};
    }
}

/* How many more breaches are found in the booklet of a sample when it is
 * damaged.
 */
static inline int found_by_damage(struct typeset *typeset, const char *path,
                                  damage *harm, visitor *look)
{
    const struct sample sample = sample_file(path);
    struct arena *arena = arena_create();
    struct booklets own = {.arena = arena,
                           .typeset = typeset,
                           .phrases = phrases_load(arena, "en")};
    add_both_papers(&own, &sample);
    struct visit *visit = &own.visits.items[0];
    const int before = count_breaches(visit, look);
    harm(visit);
    const int after = count_breaches(visit, look);
    arena_destroy(arena);
    return after - before;
}

/* A fault that a check has to find. */
struct seeded_fault {
    const char *rule, *what;
    damage *harm;
    visitor *look;
};

/* Each is found in the third sample, or told by its name. */
static inline void assert_seeds_found(const struct booklets *all,
                                      const struct seeded_fault *seeds,
                                      size_t count)
{
    size_t missed = 0;
    for (size_t i = 0; i < count; i++)
        if (found_by_damage(all->typeset, SAMPLES[2], seeds[i].harm,
                            seeds[i].look) <= 0) {
            fprintf(stderr, "# rule %s: not found that %s\n", seeds[i].rule,
                    seeds[i].what);
            missed++;
        }
    assert_int_equal(missed, 0);
}

/* The library that sets text is made once. */
static inline int typeset_setup(void **state)
{
    struct arena *arena = arena_create();
    struct booklets *all = ARENA_NEW(arena, struct booklets);
    all->arena = arena;
    all->typeset = typeset_create();
    *state = all;
    return 0;
}

#endif
