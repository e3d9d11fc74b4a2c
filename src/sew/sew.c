/* The sewing stage: sized to sewn. May assume a design without errors: every
 * name bound, every size known, every picture compared. Order: the assembly's
 * steps are built first, so that heaps get their numbers in the order that the
 * designer wants; then the top pulls in what is left. Counting, numbering and
 * proving come when all heaps are there. Read next: heaps.c. */
#include <stdlib.h>
#include <string.h>

#include "craft.h"
#include "press_plan.h"

/* After Z comes AA, as in a spreadsheet. */
const char *fabric_letter(struct arena *arena, int fabric)
{
    const char *last = arena_printf(arena, "%c", 'A' + fabric % 26);
    return fabric < 26
               ? last
               : arena_printf(arena, "%s%s",
                              fabric_letter(arena, fabric / 26 - 1), last);
}

/* From the top down: what a heap needs, all its inputs need as often. A heap
 * stands after all its inputs, so going backwards meets each one only when its
 * own count is final. A heap that yields two at a time may leave one over. */
static void count_heaps(struct sewer *sewer)
{
    struct sewn_quilt *quilt = sewer->quilt;
    heap_at(sewer, quilt->whole)->count = 1;
    for (size_t i = quilt->heaps.count; i-- > 0;) {
        const struct heap *heap = heap_at(sewer, i);
        const size_t batches = (heap->count + heap->yield - 1) / heap->yield;
        for (size_t k = 0; k < heap->inputs.count; k++)
            heap_at(sewer, heap->inputs.items[k].heap)->count += batches;
    }
}

/* Larger pieces first: they are cut first, and get the first numbers. By the
 * longer side, then by the shorter. Strips of borders come behind all pieces,
 * from the inside out. */
static bool cut_comes_before(const struct heap *a, const struct heap *b)
{
    if (a->of.cut.border != b->of.cut.border)
        return a->of.cut.border < b->of.cut.border;
    if (a->of.cut.border > 0)
        return false;
    const int high =
        rational_compare(rational_max(a->of.cut.width, a->of.cut.height),
                         rational_max(b->of.cut.width, b->of.cut.height));
    if (high != 0)
        return high > 0;
    return rational_compare(rational_min(a->of.cut.width, a->of.cut.height),
                            rational_min(b->of.cut.width, b->of.cut.height)) >
           0;
}

/* A cut and its place in the list of heaps. */
struct numbered {
    struct heap *heap;
    size_t index;
};

/* By fabric, then as their numbers rise. */
static int compare_cuts(const void *first, const void *second)
{
    const struct numbered *a = first, *b = second;
    if (a->heap->of.cut.fabric != b->heap->of.cut.fabric)
        return a->heap->of.cut.fabric < b->heap->of.cut.fabric ? -1 : 1;
    if (cut_comes_before(a->heap, b->heap))
        return -1;
    if (cut_comes_before(b->heap, a->heap))
        return 1;
    return a->index < b->index ? -1 : 1;
}

/* Cuts count by size within their fabric: the label on a piece is its row in
 * the cutting table. One that nothing needs takes no number from the next. */
static void label_cuts(struct sewer *sewer)
{
    struct sewn_quilt *quilt = sewer->quilt;
    struct arena *arena = sewer->run->arena;
    struct numbered *cuts =
        ARENA_ARRAY(arena, struct numbered, quilt->heaps.count);
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++)
        if (heap_at(sewer, i)->technique == TECHNIQUE_CUT)
            cuts[count++] = (struct numbered){heap_at(sewer, i), i};
    if (count > 1)
        qsort(cuts, count, sizeof *cuts, compare_cuts);
    size_t number = 1;
    for (size_t i = 0; i < count; i++) {
        const int fabric = cuts[i].heap->of.cut.fabric;
        if (i > 0 && cuts[i - 1].heap->of.cut.fabric != fabric)
            number = 1;
        cuts[i].heap->of.cut.label =
            arena_printf(arena, "%s%zu", fabric_letter(arena, fabric), number);
        number += cuts[i].heap->count > 0;
    }
}

/* A step has no more parts than lie before a sewer at once. */
enum { PARTS_MOST = 30 };

/* How many parts lie on the table where the heap and all that is sewn in its
 * step are laid out; more than PARTS_MOST are not counted to the end. Inputs
 * stand before what takes them. */
static size_t laid_parts(const struct sewer *sewer, size_t index)
{
    const struct heap *heap = heap_at(sewer, index);
    size_t parts = 0;
    for (size_t i = 0; i < heap->inputs.count && parts <= PARTS_MOST; i++) {
        const size_t part = heap->inputs.items[i].heap;
        parts +=
            heap_at(sewer, part)->within == index ? laid_parts(sewer, part) : 1;
    }
    return parts;
}

/* ensures: for each heap the one heap that takes it, or itself where there is
 * none or several. */
static size_t *only_takers(const struct sewer *sewer)
{
    const size_t count = sewer->quilt->heaps.count;
    size_t *takers = ARENA_ARRAY(sewer->run->arena, size_t, count);
    bool *taken = ARENA_ARRAY(sewer->run->arena, bool, count);
    for (size_t i = 0; i < count; i++)
        takers[i] = i;
    for (size_t i = 0; i < count; i++) {
        const struct heap *heap = heap_at(sewer, i);
        for (size_t k = 0; heap->count > 0 && k < heap->inputs.count; k++) {
            const size_t part = heap->inputs.items[k].heap;
            if (!taken[part])
                takers[part] = i;
            else if (takers[part] != i)
                takers[part] = part;
            taken[part] = true;
        }
    }
    return takers;
}

/* A row or column without a name or words of its own is no unit that somebody
 * lays aside: it is sewn on the way to what takes it. So is a border inside of
 * another. A step has no more parts than lie before a sewer at once. */
static void join_steps(struct sewer *sewer, size_t index, size_t taker)
{
    struct heap *heap = heap_at(sewer, index);
    heap->within = index;
    const struct heap *host = heap_at(sewer, taker);
    const bool border = border_is_plain(heap) && border_is_plain(host);
    const bool row = heap->technique == TECHNIQUE_JOIN && heap->named == NULL &&
                     heap->says.count == 0 && host->technique == TECHNIQUE_JOIN;
    if (taker == index || !(border || row))
        return;
    heap->within = taker;
    if (row && laid_parts(sewer, taker) > PARTS_MOST)
        heap->within = index;
}

/* Where one cast of a row is a step of its own, as several blocks take it, it
 * is one in all casts: they are told together. */
static void part_like_casts(struct sewer *sewer, size_t index)
{
    struct heap *heap = heap_at(sewer, index);
    if (heap->cast == NULL || heap->within == index)
        return;
    for (const struct memo *memo = sewer->memos[heap->piece->index];
         memo != NULL && heap->within != index; memo = memo->next) {
        const struct heap *other = heap_at(sewer, memo->ref.heap);
        if (memo->mirror == heap->mirror && other->count > 0 &&
            other->technique == heap->technique &&
            other->within == memo->ref.heap)
            heap->within = index;
    }
}

/* The same moves: as many parts at one go, and every seam pressed to the same
 * side. Corners that lie apart on a large block are in each other's way on a
 * small one; seams that nest may turn. */
static bool moves_alike(const struct heap *one, const struct heap *other)
{
    if (one->actions.count != other->actions.count)
        return false;
    for (size_t i = 0; i < one->actions.count; i++) {
        const struct action *a = &one->actions.items[i];
        const struct action *b = &other->actions.items[i];
        if (a->operation != b->operation || a->parts.count != b->parts.count ||
            a->seams.count != b->seams.count)
            return false;
        for (size_t k = 0; k < a->seams.count; k++)
            if (a->seams.items[k].seam.x != b->seams.items[k].seam.x ||
                a->seams.items[k].seam.y != b->seams.items[k].seam.y)
                return false;
    }
    return true;
}

/* One fabric, or two that play one role. */
static bool plays_alike(const struct heap *one, int fabric,
                        const struct heap *other, int other_fabric)
{
    if (fabric == other_fabric)
        return true;
    const struct cast *a = one->cast, *b = other->cast;
    if (a == NULL || b == NULL || a->definition != b->definition)
        return false;
    for (size_t i = 0; i < a->definition->role_count; i++)
        if (a->fabrics[i] == fabric && b->fabrics[i] == other_fabric)
            return true;
    return false;
}

/* The same parts in the same places: cuts of one cloth or role, heaps that are
 * alike, or rows on the way that are made of such. */
static bool made_alike(const struct sewer *sewer, size_t a, size_t b)
{
    const struct heap *one = heap_at(sewer, a), *other = heap_at(sewer, b);
    if (one->technique != other->technique ||
        one->inputs.count != other->inputs.count || !moves_alike(one, other))
        return false;
    for (size_t i = 0; i < one->inputs.count; i++) {
        const struct input *p = &one->inputs.items[i];
        const struct input *q = &other->inputs.items[i];
        const struct heap *x = heap_at(sewer, p->heap);
        const struct heap *y = heap_at(sewer, q->heap);
        if (p->turn != q->turn || p->at != q->at)
            return false;
        if (x->technique == TECHNIQUE_CUT || y->technique == TECHNIQUE_CUT) {
            if (x->technique != y->technique ||
                !plays_alike(one, x->of.cut.fabric, other, y->of.cut.fabric))
                return false;
        } else if (x->within != p->heap && y->within != q->heap) {
            if (!made_alike(sewer, p->heap, q->heap))
                return false;
        } else if (x->like != y->like) {
            return false;
        }
    }
    return true;
}

/* Is it the same unit or block, or the same piece of one, seen alike? */
static bool are_one(const struct heap *a, const struct heap *b)
{
    if (a->named != NULL || b->named != NULL)
        return a->named == b->named && a->named_mirror == b->named_mirror;
    return a->piece == b->piece && a->mirror == b->mirror;
}

/* A unit or block in several sizes or casts is told once, and so are its
 * pieces. */
static void find_like(struct sewer *sewer, size_t index)
{
    struct heap *heap = heap_at(sewer, index);
    heap->like = index;
    if (heap->count == 0 || heap->within != index ||
        heap->technique == TECHNIQUE_CUT || index == sewer->quilt->top)
        return;
    for (size_t i = 0; i < index; i++) {
        const struct heap *other = heap_at(sewer, i);
        if (are_one(other, heap) && other->count > 0 && other->like == i &&
            other->within == i &&
            (!rational_equal(other->factor, heap->factor) ||
             !same_cast(other->cast, heap->cast)) &&
            made_alike(sewer, i, index)) {
            heap->like = i;
            return;
        }
    }
}

/* The heap that ends the step in which the heap is told. */
static const struct heap *end_of_step(const struct sewer *sewer, size_t index)
{
    const size_t whole = heap_whole(sewer->quilt, index);
    return heap_at(sewer, heap_at(sewer, whole)->like);
}

/* Steps count in the order of the heaps. What nothing needs (a step of an
 * assembly that this quilt lacks) gets no number. */
static void number_heaps(struct sewer *sewer)
{
    const size_t count = sewer->quilt->heaps.count;
    const size_t *takers = only_takers(sewer);
    size_t step = 0;
    for (size_t i = 0; i < count; i++)
        join_steps(sewer, i, takers[i]);
    for (size_t i = 0; i < count; i++)
        part_like_casts(sewer, i);
    for (size_t i = 0; i < count; i++)
        find_like(sewer, i);
    for (size_t i = 0; i < count; i++) {
        struct heap *heap = heap_at(sewer, i);
        if (heap->technique != TECHNIQUE_CUT && heap->within == i &&
            heap->like == i)
            heap->step = heap->count > 0 ? ++step : 0;
    }
    for (size_t i = 0; i < count; i++)
        if (heap_at(sewer, i)->technique != TECHNIQUE_CUT)
            heap_at(sewer, i)->step = end_of_step(sewer, i)->step;
    label_cuts(sewer);
}

/* Is it the base of corners on the piece, or another part that its craft makes
 * first? Heaps stand after what they are made from. */
static bool is_part_of_piece(const struct sewer *sewer, size_t index)
{
    const struct piece *piece = heap_at(sewer, index)->piece;
    for (size_t i = index + 1; i < sewer->quilt->heaps.count; i++) {
        const struct heap *whole = heap_at(sewer, i);
        for (size_t k = 0; whole->piece == piece && k < whole->inputs.count;
             k++)
            if (whole->inputs.items[k].heap == index)
                return true;
    }
    return false;
}

/* A step without mirror serves both ways; one with it only mirrored heaps. */
static bool step_makes_heap(const struct sewer *sewer,
                            const struct assembly_step *step, size_t index)
{
    const struct heap *heap = heap_at(sewer, index);
    if (step->make == NULL)
        return heap->piece->first == step->piece &&
               !is_part_of_piece(sewer, index);
    if (step->make == sewer->quilt->definition)
        return index == sewer->quilt->top;
    for (size_t i = 0; i < heap->names.count; i++)
        if (heap->names.items[i].definition == step->make &&
            (heap->names.items[i].mirror || !step->mirror))
            return true;
    return false;
}

/* The designer's words stand with the heap that the step makes. */
static void take_says(struct sewer *sewer)
{
    const struct design *design = sewer->sized->design;
    for (size_t i = 0; i < design->assemblies.count; i++) {
        for (size_t k = 0; k < design->assemblies.items[i].steps.count; k++) {
            const struct assembly_step *step =
                &design->assemblies.items[i].steps.items[k];
            for (size_t h = 0; h < sewer->quilt->heaps.count; h++) {
                struct heap *heap = heap_at(sewer, h);
                const bool ours = step_makes_heap(sewer, step, h);
                for (size_t s = 0; ours && s < step->says.count; s++)
                    *LIST_ADD(sewer->run->arena, &heap->says) =
                        step->says.items[s];
            }
        }
    }
}

/* The borders of the quilt, as their heaps lie in the list: from the inside out.
 */
static void list_borders(struct sewer *sewer)
{
    for (size_t i = 0; i < sewer->quilt->heaps.count; i++)
        if (heap_at(sewer, i)->technique == TECHNIQUE_BORDER)
            list_border(sewer, sewer->quilt, i);
}

/* Without the seam allowance, which the binding covers. */
static const struct cloth *seen_top(const struct sewer *sewer, struct ref whole)
{
    struct arena *scratch = arena_create();
    const struct rational zero = rational_whole(0);
    const struct cloth *cloth =
        cloth_oriented(scratch, heap_at(sewer, whole.heap)->cloth,
                       (struct orientation){whole.turn, false});
    cloth =
        cloth_within(scratch, cloth,
                     outline_rectangle(scratch, zero, zero, sewer->quilt->width,
                                       sewer->quilt->height));
    cloth = cloth_moved(sewer->run->arena, cloth, zero, zero);
    arena_destroy(scratch);
    return cloth;
}

/* All heaps of the quilt at work. */
static void build_quilt(struct sewer *sewer)
{
    struct sewn_quilt *quilt = sewer->quilt;
    const struct definition *definition = quilt->definition;
    const struct rational one = rational_whole(1);
    quilt->heaps.count = 0;
    begin_heaps(sewer, quilt);
    follow_assembly(sewer, definition, one, false);
    const struct ref top = build_heap(sewer, definition->root, one, false);
    const struct ref whole = build_heap(sewer, definition->whole, one, false);
    quilt->top = top.heap;
    quilt->whole = whole.heap;
    quilt->whole_turn = whole.turn;
}

/* By the rules; where seams collide, once more by a plan in which fewer do.
 * What was sewn first is left where it is. */
static void press_quilt(struct sewer *sewer)
{
    sewer->plan = NULL;
    sewer->graph = NULL;
    build_quilt(sewer);
    if (sewer->run->trial)
        return;
    const int64_t ruled = quilt_collisions(sewer);
    const struct press_plan *plan = plan_quilt(sewer);
    if (plan == NULL)
        return;
    for (; plan != NULL && plan->pairs < ruled; plan = plan->next) {
        sewer->plan = plan;
        sewer->graph = plan->graph;
        build_quilt(sewer);
        if (quilt_collisions(sewer) <= plan->pairs)
            return;
    }
    sewer->plan = NULL;
    build_quilt(sewer);
}

/* Counts and labels need all heaps, the proof needs the cloth of all of them.
 */
static void sew_quilt(struct sewer *sewer, struct sewn *sewn,
                      const struct definition *definition)
{
    struct arena *arena = sewer->run->arena;
    if (!sewer->sized->sound[definition->index])
        internal_error("`%s` is not sound, though nothing was reported",
                       definition->id);
    struct sewn_quilt *quilt = LIST_ADD(arena, &sewn->quilts);
    quilt->all = sewn;
    quilt->definition = definition;
    sewer->quilt = quilt;
    press_quilt(sewer);
    quilt->width = quilt_width(sewer->sized, definition);
    quilt->height = quilt_height(sewer->sized, definition);
    list_borders(sewer);
    count_heaps(sewer);
    count_taken(sewer);
    take_says(sewer); /* what has words of its own is a step of its own */
    number_heaps(sewer);
    if (sewer->run->trial)
        return;
    quilt->cloth =
        seen_top(sewer, (struct ref){quilt->whole, quilt->whole_turn});
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = heap_at(sewer, i);
        if (heap->technique != TECHNIQUE_CUT &&
            (heap->named != NULL || i == quilt->top ||
             heap->technique == TECHNIQUE_BORDER))
            verify_design(sewer, heap);
    }
    check_prints(sewer);
    report_collisions(sewer);
}

/* reports: booklets that no one would print, and whose making would not end. */
static void check_told(struct run *run, const struct sewn *sewn)
{
    const struct design *design = sewn->sized->design;
    size_t cuts = 0, steps = 0;
    for (size_t i = 0; i < sewn->quilts.count; i++)
        for (size_t k = 0; k < sewn->quilts.items[i].heaps.count; k++) {
            const struct heap *heap = &sewn->quilts.items[i].heaps.items[k];
            cuts += heap->count > 0 && heap->technique == TECHNIQUE_CUT;
            steps += heap->count > 0 && heap->technique != TECHNIQUE_CUT;
        }
    if ((cuts + steps) * design->colorways.count <= LIMIT_TOLD)
        return;
    struct diagnostic *d = diag_report(
        run, DIAG_LIMIT, design->pattern->root->name,
        "the booklets have more than %d cut sizes and steps to tell",
        LIMIT_TOLD);
    diag_note(run, d, (struct span){0, 0},
              "%zu cut size%s and %zu step%s in %zu quilt%s, each in %zu "
              "colorway%s",
              cuts, cuts == 1 ? "" : "s", steps, steps == 1 ? "" : "s",
              sewn->quilts.count, sewn->quilts.count == 1 ? "" : "s",
              design->colorways.count, design->colorways.count == 1 ? "" : "s");
    diag_help(run, d,
              "make alike what can be alike: it is cut and sewn as one; or "
              "write quilts and colorways into patterns of their own");
}

/* What only a sewn quilt tells on trial is what words of it say of sizes;
 * those are asked of the first. */
static bool sews(const struct sewer *sewer, const struct sewn *sewn,
                 const struct definition *definition)
{
    return definition->kind == DEFINE_QUILT &&
           (!sewer->run->trial || sewn->quilts.count == 0);
}

/* One `struct sewer` for all quilts, emptied between them: a heap belongs
 * to one quilt, as its count and step do. */
struct sewn *sew_design(struct run *run, const struct sized *sized)
{
    struct sewn *sewn = ARENA_NEW(run->arena, struct sewn);
    const struct design *design = sized->design;
    struct sewer sewer = {.run = run, .sized = sized, .build = build_piece};
    sewn->sized = sized;
    count_elsewhere(&sewer, sewn);
    for (size_t i = 0; i < design->definitions.count; i++)
        if (sews(&sewer, sewn, design->definitions.items[i]))
            sew_quilt(&sewer, sewn, design->definitions.items[i]);
    sewer.plan = NULL;
    check_told(run, sewn);
    check_contrast(run, sewn);
    /* Checked on heaps of their own: an assembly may be of what this quilt
     * has not. */
    if (sewn->quilts.count > 0) {
        check_references(&sewer, &sewn->quilts.items[0]);
        struct sewn_quilt spare = {0};
        if (!run->trial) /* else nobody asks what is in its list of heaps */
            begin_heaps(&sewer, &spare);
        check_presses(run, design);
        check_assemblies(&sewer);
    }
    return sewn;
}

/* A definition inside itself has no end, and what has outgrown the limits
 * may have none in time. */
static bool can_be_counted(const struct run *run)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (sorted[i]->code == DIAG_LIMIT || sorted[i]->code == DIAG_CYCLE)
            return false;
    return true;
}

void check_steps(struct run *run, const struct sized *sized)
{
    struct sewer sewer = {
        .run = run, .sized = sized, .build = build_piece, .counting = true};
    struct sewn_quilt spare = {0};
    if (!can_be_counted(run))
        return;
    begin_heaps(&sewer, &spare);
    check_assemblies(&sewer);
}
