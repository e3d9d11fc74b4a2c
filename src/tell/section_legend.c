/* How to read the figures: each sign that those of this quilt have; what none
 * has is left out. Read next: section_sewing.c. */
#include "contents.h"
#include "told_step.h"

/* Which signs the figures hold. */
struct signs {
    bool has[SIGN_COUNT];
};

/* ---- what is used ---- */

/* Signs of lines, by the kind of mark; a fold explains itself. */
static const enum told_sign sign_of_mark[] = {[MARK_DRAWN] = SIGN_DRAWN,
                                              [MARK_SEWN] = SIGN_SEWN,
                                              [MARK_CUT] = SIGN_CUT,
                                              [MARK_FOLD] = SIGN_NONE,
                                              [MARK_DOT] = SIGN_DOT};

/* Both states of an action are looked at: lines are in the first, pressing is
 * in the second. */
static void look_at_state(struct signs *signs, const struct state *state)
{
    for (size_t i = 0; i < state->faces.count; i++)
        signs->has[SIGN_WRONG_SIDE] |= state->faces.items[i].face.wrong_side;
    for (size_t i = 0; i < state->marks.count; i++)
        signs->has[sign_of_mark[state->marks.items[i].kind]] = true;
    for (size_t i = 0; i < state->presses.count; i++) {
        const struct press_mark *mark = &state->presses.items[i];
        const bool open = mark->x == 0 && mark->y == 0;
        signs->has[open ? SIGN_PRESSED_OPEN : SIGN_PRESSED] = true;
    }
    signs->has[SIGN_TURNED_OVER] |= state->turns.count > 0;
}

/* Does a part lie turned, so that its turn is marked? */
static bool has_turns(const struct sewn_quilt *quilt, const struct heap *heap)
{
    bool turned = false;
    for (size_t i = 0; heap->step > 0 && i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct heap *part = &quilt->heaps.items[input->heap];
        turned |= part->technique != TECHNIQUE_CUT &&
                  input->turn % part->symmetry != 0;
    }
    return turned && heap->technique == TECHNIQUE_JOIN;
}

/* Rows on point and of triangles, and mitred borders, are told in their order
 * and have no numbers at their seams. */
static bool has_seam_numbers(const struct heap *heap)
{
    const bool mitred =
        heap->technique == TECHNIQUE_BORDER && heap->of.border->mitred;
    return !mitred && heap->technique != TECHNIQUE_ON_POINT &&
           heap->technique != TECHNIQUE_TRIANGLES && seams_in(heap, NULL) > 1;
}

/* What the figures of this quilt show; signs that it does not need are not
 * explained. */
static struct signs signs_of(const struct wording *w)
{
    struct signs signs = {.has = {[SIGN_RIGHT_SIDE] = true}};
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = &w->quilt->heaps.items[i];
        for (size_t k = 0; k < heap->actions.count; k++) {
            look_at_state(&signs, &heap->actions.items[k].before);
            look_at_state(&signs, &heap->actions.items[k].after);
            look_at_state(&signs, &heap->actions.items[k].parted);
        }
        signs.has[SIGN_SEAM_NUMBER] |= has_seam_numbers(heap);
        signs.has[SIGN_TURNED] |= has_turns(w->quilt, heap);
        signs.has[SIGN_PRINT] |=
            heap->technique == TECHNIQUE_CUT && heap->step == 0 &&
            w->design->fabrics.items[heap->of.cut.fabric].one_way;
    }
    return signs;
}

/* ---- words ---- */

void add_legend(const struct wording *w, struct contents *contents)
{
    static const char *const keys[SIGN_COUNT] = {
        [SIGN_RIGHT_SIDE] = "legend.right-side",
        [SIGN_WRONG_SIDE] = "legend.wrong-side",
        [SIGN_DRAWN] = "legend.drawn",
        [SIGN_SEWN] = "legend.sewn",
        [SIGN_CUT] = "legend.cut",
        [SIGN_DOT] = "legend.dot",
        [SIGN_PRESSED] = "legend.press",
        [SIGN_PRESSED_OPEN] = "legend.press-open",
        [SIGN_TURNED_OVER] = "legend.turn",
        [SIGN_TURNED] = "legend.turned",
        [SIGN_SEAM_NUMBER] = "legend.seam-number",
        [SIGN_PRINT] = "legend.print"};
    const struct texts none = {.items = {0}};
    const struct signs signs = signs_of(w);
    struct told_list *list = add_list(w, contents, PART_LEGEND, &none);
    for (int i = SIGN_RIGHT_SIDE; i < SIGN_COUNT; i++)
        if (signs.has[i])
            *LIST_ADD(w->arena, &list->items) = (struct told_point){
                .label = "",
                .text = say(w->arena, w->phrases, keys[i], NULL),
                .sign = (enum told_sign)i};
}
