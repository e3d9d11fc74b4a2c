/* What the tests of single figures share: every figure of the samples in all
 * their quilts and colorways, and a page made by hand that is meant to hurt. */
#ifndef SEAMWRIGHT_TESTS_RENDER_FIGURES_H
#define SEAMWRIGHT_TESTS_RENDER_FIGURES_H

#include "compose.h"
#include "hand_made.h"
#include "plans.h"

/* Characters that XML reads, letters that are many bytes, wrapped and turned
 * text, plates, both kinds of hatch. */
static inline struct book *hostile_page(struct arena *arena)
{
    struct book *book = new_book(arena);
    book->width = 300;
    book->height = 240;
    struct page *page = add_page(arena, book, "1");
    begin_tag(arena, page, "Figure", "A <b> & \"c\" ]]> d");
    struct path_item *path = add_rectangle(arena, page, 10, 10, 90, 60);
    path->filled = true;
    path->fill = (struct color){0.2, 0.4, 0.6};
    path->hatch = lines_at(arena, 30, 6, 1);
    path->stroke = 1.4;
    path->role = ROLE_CLOTH;
    path = add_rectangle(arena, page, 120, 10, 90, 60);
    struct hatch *dots = lines_at(arena, -45, 8, 2);
    dots->dotted = true;
    path->hatch = dots;
    path->role = ROLE_WASTE;
    const struct point line[] = {{10.1234, 200.5}, {290, 200.5}};
    path = add_path(arena, page, line, 2);
    path->stroke = 2;
    path->dash[0] = 8;
    path->dash[1] = 4;
    add_text(arena, page, 20, 30, "<tag a=\"b\"> & ]]> 'x'")->plate = true;
    add_text(arena, page, 20, 120, "12 17\u204432 \u00d7 2\u00bd \u2192")
        ->angle = -30;
    struct text_item *text =
        add_text(arena, page, 150, 100,
                 "Sew the two strips right sides together along the edge.");
    text->width = 90;
    text->style.align = ALIGN_RIGHT;
    text->style.face = FACE_BOLD;
    text = add_text(arena, page, 100, 180, "jetty\n1\u00bc");
    text->style.align = ALIGN_CENTER;
    end_tag(arena, page, "Figure");
    return book;
}

typedef void figure_visitor(const struct fixture *fixture,
                            const struct named_figure *named);

/* Calls for each figure of the first quilts and colorways of all samples, and
 * for the page made by hand. */
static inline void visit_figures(void **state, figure_visitor *look)
{
    const struct fixture *fixture = *state;
    const struct named_figure made = {"hand-made", "Title <& \">",
                                      hostile_page(fixture->arena)};
    look(fixture, &made);
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(fixture->arena, s);
        const struct figures figures =
            compose_figures(fixture->arena, fixture->typeset, phrases_load(fixture->arena, "en"), sample.design,
                            &sample.plans->items.items[0], s % 2 == 1);
        assert_true(figures.items.count > 3);
        for (size_t i = 0; i < figures.items.count; i++)
            look(fixture, &figures.items.items[i]);
    }
}

#endif
