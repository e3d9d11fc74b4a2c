/* The plan of pressing. The quilt is sewn aside with each piece apart and all
 * ways 1; what meets in it is a graph, which is solved. As a seam's way in one
 * place hangs on the way of its node alone, what was seen once tells what any
 * plan would make. May assume that the quilt was sewn by the rules. Read next:
 * nest.c. */
#include "press_plan.h"

#include <math.h>

#include "craft.h"
#include "press.h"

/* ---- sewing aside ---- */

/* From the tops down, as count_heaps does; heaps stand after their inputs. */
static void spread_places(const struct sewn_quilt *quilt, size_t *places)
{
    for (size_t i = quilt->heaps.count; i-- > 0;) {
        const struct heap *heap = &quilt->heaps.items[i];
        for (size_t k = 0; k < heap->inputs.count; k++)
            places[heap->inputs.items[k].heap] += places[i];
    }
}

static int64_t count_pairs(const struct sewer *sewer, const size_t *places)
{
    int64_t sum = 0;
    for (size_t i = 0; i < sewer->collisions.count; i++) {
        const struct collision *collision = &sewer->collisions.items[i];
        sum += (int64_t)(collision->count * places[collision->heap]);
    }
    return sum;
}

/* The strips of borders are sewn on last, and large: they are left out. */
static void build_center(struct aside *aside, const struct piece *whole)
{
    const struct rational one = rational_whole(1);
    LIST(size_t) tops = {0};
    const struct piece *piece = whole;
    for (; piece->kind == PIECE_BORDER; piece = piece->cells.items[0].piece)
        for (size_t i = 1; i < piece->cells.count; i++)
            *LIST_ADD(aside->arena, &tops) =
                build_cell(&aside->sewer, &piece->cells.items[i], one, false)
                    .heap;
    *LIST_ADD(aside->arena, &tops) =
        build_heap(&aside->sewer, piece, one, false).heap;
    aside->places = ARENA_ARRAY(aside->arena, size_t, aside->quilt.heaps.count);
    for (size_t i = 0; i < tops.count; i++)
        aside->places[tops.items[i]]++;
    spread_places(&aside->quilt, aside->places);
}

void sew_aside(struct aside *aside, const struct sewer *like,
               const struct press_trial *trial, const struct press_plan *plan)
{
    const struct definition *definition = like->quilt->definition;
    struct arena *arena = arena_create();
    *aside =
        (struct aside){.arena = arena,
                       .quilt = {.definition = definition},
                       .sewer = {.run = run_create(arena, like->run->source),
                                 .sized = like->sized,
                                 .build = like->build,
                                 .aside = true,
                                 .trial = trial,
                                 .plan = plan}};
    aside->sewer.run->unseen = true;
    begin_heaps(&aside->sewer, &aside->quilt);
    follow_assembly(&aside->sewer, definition, rational_whole(1), false);
    build_center(aside, definition->whole);
}

void end_aside(struct aside *aside)
{
    arena_destroy(aside->arena);
}

int64_t aside_collisions(const struct aside *aside)
{
    return count_pairs(&aside->sewer, aside->places);
}

int64_t quilt_collisions(const struct sewer *sewer)
{
    if (sewer->collisions.count == 0)
        return 0;
    struct arena *arena = arena_create();
    size_t *places = ARENA_ARRAY(arena, size_t, sewer->quilt->heaps.count);
    places[sewer->quilt->whole] = 1;
    spread_places(sewer->quilt, places);
    const int64_t sum = count_pairs(sewer, places);
    arena_destroy(arena);
    return sum;
}

/* ---- the graph ---- */

/* What is made, and what it is made from. */
struct planning {
    struct arena *arena;
    const struct sewer *ruled;
    struct press_plan *plan;
    struct aside probe;
    struct press_graph *graph;
    LIST(size_t) * nodes; /* by piece index: numbers of its nodes */
    double *lightness; /* of the heaps of the probe; below 0 where not known */
};

/* ensures: its number; a new node if it is not there yet. */
static size_t find_node(struct planning *p, const struct piece *piece,
                        const struct operation *operation)
{
    const size_t *own = p->nodes[piece->index].items;
    for (size_t i = 0; i < p->nodes[piece->index].count; i++)
        if (p->graph->nodes.items[own[i]].operation == operation)
            return own[i];
    const size_t number = p->graph->nodes.count;
    *LIST_ADD(p->probe.arena, &p->nodes[piece->index]) = number;
    *LIST_ADD(p->arena, &p->graph->nodes) = (struct press_node){
        .piece = piece,
        .operation = operation,
        .fixed = planned_way(&p->probe.sewer, piece, operation) == 0,
        .ruled = p->plan->keeps ? 1 : ruled_way(p->ruled, piece, operation)};
    return number;
}

static double lightness_of(struct planning *p, size_t heap)
{
    if (p->lightness[heap] < 0)
        p->lightness[heap] =
            heap_lightness(&p->probe.sewer, heap_at(&p->probe.sewer, heap));
    return p->lightness[heap];
}

/* In thousandths; this chooses a side and measures nothing. */
static int64_t seam_length(const struct seam *seam)
{
    const double x = rational_double(rational_sub(seam->to.x, seam->from.x));
    const double y = rational_double(rational_sub(seam->to.y, seam->from.y));
    return (int64_t)(1000 * sqrt(x * x + y * y) + 0.5);
}

/* What the seam goes to as it is seen, and what if it went the other way. */
static void weigh_seam(struct planning *p, const struct heap *heap,
                       size_t places, const struct sewn_seam *seam,
                       struct press_node *node)
{
    const struct input *inputs = heap->inputs.items;
    const double before = lightness_of(p, inputs[seam->before].heap);
    const double next = lightness_of(p, inputs[seam->next].heap);
    const bool onward =
        seam->seam.x == seam->across_x && seam->seam.y == seam->across_y;
    if (before == next)
        return;
    const bool lighter = onward == (next > before);
    node->lighter[lighter ? 1 : 0] +=
        (int64_t)places * seam_length(&seam->seam);
}

static void add_nodes(struct planning *p)
{
    for (size_t h = 0; h < p->probe.quilt.heaps.count; h++) {
        const struct heap *heap = &p->probe.quilt.heaps.items[h];
        for (size_t i = 0; i < heap->actions.count; i++) {
            const struct action *action = &heap->actions.items[i];
            const size_t node = find_node(p, heap->piece, action->operation);
            const bool fixed = p->graph->nodes.items[node].fixed;
            for (size_t k = 0; !fixed && k < action->seams.count; k++)
                weigh_seam(p, heap, p->probe.places[h], &action->seams.items[k],
                           &p->graph->nodes.items[node]);
        }
    }
}

static void add_edges(struct planning *p)
{
    for (size_t i = 0; i < p->probe.sewer.collisions.count; i++) {
        const struct collision *met = &p->probe.sewer.collisions.items[i];
        const int64_t places = (int64_t)p->probe.places[met->heap];
        const struct piece *where = heap_at(&p->probe.sewer, met->heap)->piece;
        for (size_t k = 0; places > 0 && k < met->meetings.count; k++) {
            const struct seam_end *a = &met->meetings.items[k].ends[0];
            const struct seam_end *b = &met->meetings.items[k].ends[1];
            if (a->side * b->side != 0)
                graph_meet(p->arena, p->graph,
                           find_node(p, a->piece, a->operation),
                           find_node(p, b->piece, b->operation),
                           a->side * b->side > 0, places, where);
        }
    }
}

/* What a node folds where it goes as it is seen, and what if it went the other
 * way. */
static void add_folds(struct planning *p)
{
    for (size_t i = 0; i < p->probe.sewer.collisions.count; i++) {
        const struct collision *met = &p->probe.sewer.collisions.items[i];
        const int64_t places = (int64_t)p->probe.places[met->heap];
        for (size_t k = 0; k < met->folds.count; k++) {
            const struct seam_fold *fold = &met->folds.items[k];
            struct press_node *node =
                &p->graph->nodes
                     .items[find_node(p, fold->piece, fold->operation)];
            for (int way = 0; !node->fixed && way < 2; way++)
                node->folded[way] +=
                    places *
                    (int64_t)fold->ends[(fold->side > 0) == (way == 1)];
        }
    }
}

/* Pieces of one heap: their nodes go as the rules had them, to each other. */
static void solve_tied(struct planning *p)
{
    struct arena *arena = arena_create();
    LIST(struct press_tie) ties = {0};
    const size_t heaps = p->ruled->quilt->heaps.count;
    LIST(size_t) *firsts = arena_alloc(arena, (heaps + 1) * sizeof *firsts);
    const struct press_node *nodes = p->graph->nodes.items;
    for (size_t i = 0; i < p->graph->nodes.count; i++) {
        const struct memo *memo = p->ruled->memos[nodes[i].piece->index];
        if (memo == NULL || nodes[i].fixed || nodes[i].ruled == 0)
            continue;
        const size_t heap = memo->ref.heap;
        size_t k = 0;
        while (k < firsts[heap].count &&
               nodes[firsts[heap].items[k]].operation != nodes[i].operation)
            k++;
        if (k == firsts[heap].count) {
            *LIST_ADD(arena, &firsts[heap]) = i;
            continue;
        }
        const size_t first = firsts[heap].items[k];
        *LIST_ADD(arena, &ties) =
            (struct press_tie){first, i, nodes[first].ruled * nodes[i].ruled};
    }
    graph_solve_tied(p->graph, ties.items, ties.count);
    arena_destroy(arena);
}

/* ---- the plan ---- */

/* Of a search, for the quilt itself and for a word that is tried. */
enum { STEPS_MOST = 50000, STEPS_OF_TRIAL = 2000 };

/* The heap that is made for the piece as it is drawn is also that for its
 * mirror image, turned by so much. */
static int mirror_turn(const struct sewer *ruled, const struct piece *piece)
{
    const struct memo *plain = ruled->memos[piece->index];
    for (; plain != NULL; plain = plain->next)
        for (const struct memo *other = ruled->memos[piece->index];
             other != NULL; other = other->next)
            if (!plain->mirror && other->mirror &&
                plain->ref.heap == other->ref.heap &&
                rational_equal(plain->factor, other->factor))
                return (int)((other->ref.turn + 4 - plain->ref.turn) % 4);
    return NO_MIRROR;
}

static const int *find_mirrors(struct arena *arena, const struct sewer *ruled)
{
    const struct design *design = ruled->sized->design;
    int *mirrors = ARENA_ARRAY(arena, int, design->pieces.count + 1);
    for (size_t i = 0; i < design->pieces.count; i++)
        mirrors[i] = mirror_turn(ruled, design->pieces.items[i]);
    return mirrors;
}

/* How a heap of half-squares or quarter-squares is shared. */
struct sharing {
    size_t pieces;  /* that are it */
    bool in_others; /* it is half of a quarter-square */
};

static void count_sharing(const struct sewer *ruled, const struct piece *piece,
                          struct sharing *sharing)
{
    const struct memo *memo = ruled->memos[piece->index];
    if (memo == NULL)
        return;
    const size_t index = without_corners(ruled, memo->ref).heap;
    const struct heap *heap = heap_at(ruled, index);
    sharing[index].pieces++;
    for (size_t i = 0;
         heap->technique == TECHNIQUE_QUARTER_SQUARE && i < heap->inputs.count;
         i++)
        sharing[heap->inputs.items[i].heap].in_others = true;
}

/* Where heaps are kept, alike pieces go one way, so that only halves of
 * quarter-squares are bound. */
static const bool *find_bound(struct arena *arena, const struct sewer *ruled,
                              bool keeps)
{
    const struct design *design = ruled->sized->design;
    bool *bound = ARENA_ARRAY(arena, bool, design->pieces.count + 1);
    struct sharing *sharing =
        ARENA_ARRAY(arena, struct sharing, ruled->quilt->heaps.count + 1);
    for (size_t i = 0; i < design->pieces.count; i++)
        count_sharing(ruled, design->pieces.items[i], sharing);
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct memo *memo = ruled->memos[i];
        const enum piece_kind kind = design->pieces.items[i]->kind;
        if (memo == NULL ||
            (kind != PIECE_HALF_SQUARE && kind != PIECE_QUARTER_SQUARE))
            continue;
        const struct sharing *own =
            &sharing[without_corners(ruled, memo->ref).heap];
        bound[i] = own->in_others || (!keeps && own->pieces > 1);
    }
    return bound;
}

static void plan_way(struct arena *arena, struct press_plan *plan,
                     const struct piece *piece,
                     const struct operation *operation, int way)
{
    struct planned_way **ways = &plan->ways[piece->index];
    struct planned_way *planned = ARENA_NEW(arena, struct planned_way);
    *planned = (struct planned_way){operation, way, *ways};
    *ways = planned;
}

/* Pieces that the rules make as one are pressed as the one that made it. */
static void share_ways(const struct sewer *ruled, struct press_plan *plan)
{
    const struct design *design = ruled->sized->design;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct memo *memo = ruled->memos[i];
        if (memo == NULL)
            continue;
        const struct heap *heap =
            heap_at(ruled, without_corners(ruled, memo->ref).heap);
        if (plan->ways[i] == NULL)
            plan->ways[i] = plan->ways[heap->piece->index];
    }
}

static void fill_plan(struct planning *p)
{
    const struct press_graph *graph = p->graph;
    for (size_t i = 0; i < graph->nodes.count; i++) {
        const struct press_node *node = &graph->nodes.items[i];
        if (!node->fixed)
            plan_way(p->arena, p->plan, node->piece, node->operation,
                     node->way);
    }
    if (p->plan->keeps)
        share_ways(p->ruled, p->plan);
    p->plan->gathers = false;
    p->plan->graph = graph;
    p->plan->pairs = graph_collisions(graph);
}

/* Where the rules do as well as any plan, they stand. */
static void keep_rules(struct press_graph *graph)
{
    struct arena *arena = arena_create();
    const size_t count = graph->nodes.count;
    const int64_t least = graph_collisions(graph);
    int *ways = ARENA_ARRAY(arena, int, count + 1);
    for (size_t i = 0; i < count; i++) {
        struct press_node *node = &graph->nodes.items[i];
        ways[i] = node->way;
        if (!node->fixed && node->ruled != 0)
            node->way = node->ruled;
    }
    if (graph_collisions(graph) > least)
        for (size_t i = 0; i < count; i++)
            graph->nodes.items[i].way = ways[i];
    arena_destroy(arena);
}

static struct press_plan *make_plan(struct arena *arena,
                                    const struct sewer *ruled,
                                    const struct press_trial *trial, bool keeps)
{
    const size_t pieces = ruled->sized->design->pieces.count;
    struct planning p = {.arena = arena,
                         .ruled = ruled,
                         .plan = ARENA_NEW(arena, struct press_plan),
                         .graph = ARENA_NEW(arena, struct press_graph)};
    *p.plan = (struct press_plan){
        .ways = ARENA_ARRAY(arena, struct planned_way *, pieces + 1),
        .keeps = keeps,
        .gathers = true,
        .leans = ruled->leans,
        .mirrors = keeps ? NULL : find_mirrors(arena, ruled),
        .bound = find_bound(arena, ruled, keeps)};
    sew_aside(&p.probe, ruled, trial, p.plan);
    const size_t heaps = p.probe.quilt.heaps.count;
    p.nodes = arena_alloc(p.probe.arena, (pieces + 1) * sizeof *p.nodes);
    p.lightness = ARENA_ARRAY(p.probe.arena, double, heaps + 1);
    for (size_t i = 0; i < heaps; i++)
        p.lightness[i] = -1;
    add_nodes(&p);
    add_edges(&p);
    add_folds(&p);
    end_aside(&p.probe);
    p.graph->steps = trial == NULL ? STEPS_MOST : STEPS_OF_TRIAL;
    if (keeps)
        graph_solve(p.graph);
    else
        solve_tied(&p);
    keep_rules(p.graph);
    fill_plan(&p);
    return p.plan;
}

/* What is pressed apart has at most as few collisions, but makes more kinds of
 * heaps. */
const struct press_plan *make_plans(struct arena *arena,
                                    const struct sewer *ruled,
                                    const struct press_trial *trial)
{
    struct press_plan *kept = make_plan(arena, ruled, trial, true);
    if (kept->pairs == 0)
        return kept;
    struct press_plan *free = make_plan(arena, ruled, trial, false);
    if (kept->pairs > free->pairs)
        return free;
    kept->next = free;
    return kept;
}

size_t quilt_faces(const struct sewer *sewer)
{
    size_t faces = 0;
    for (size_t i = 0; i < sewer->quilt->heaps.count; i++)
        faces += heap_at(sewer, i)->cloth->faces.count;
    return faces;
}

const struct press_plan *plan_quilt(struct sewer *sewer)
{
    struct arena *arena = sewer->run->arena;
    if (sewer->collisions.count == 0 || quilt_faces(sewer) > FACES_MOST)
        return NULL;
    const struct press_plan *plan = make_plans(arena, sewer, NULL);
    sewer->graph = plan->graph;
    sewer->apart = plan->next == NULL ? plan->graph : plan->next->graph;
    return plan->pairs < quilt_collisions(sewer) ? plan : NULL;
}
