/* Branch and price: where the programme buys part of a strip, plans have either
 * at most so many or at least one more. First the strips of a height are split,
 * then the pieces of a size from a height, then the strips that hold so many of
 * them; all leave the pricing a knapsack of one strip. Best bound first. */
#include "roll_search.h"

#include <math.h>
#include <string.h>

/* A part of all plans: those that obey its branches. */
struct node {
    int64_t bound;
    const struct roll_branch *branches;
    size_t branch_count, depth;
    const long *basis;
    struct roll_branch split; /* what its children decide */
    double total;             /* of its programme */
    double part;              /* what of the split is not whole */
};

/* How much longer the programme became for each strip that a split moved it,
 * on one side: sum and number of the splits of a height so far. */
struct gain {
    double sum, count;
};

/* What is searched still, and what is known of the rest. */
struct tree {
    struct roll_search *search;
    struct arena *arena;
    LIST(struct node) open;
    size_t taken;          /* parts that were split */
    struct gain *gains[2]; /* by height: at most, and at least one more */
    /* The least bound of a part that could not be split further. */
    int64_t stuck;
    /* Work that went into plans, of all that was done in the tree. */
    uint64_t dived, begun;
};

/* How much of a whole is missing, on the nearer side. */
static double part_of(double value)
{
    const double above = value - floor(value);
    const double part = above < 0.5 ? above : 1.0 - above;
    return part < 1e-5 ? 0.0 : part;
}

/* What a split on strips of this height has brought so far; before the first,
 * a share of what a strip costs. */
static double gain_of(const struct tree *tree, int side, size_t height)
{
    const struct gain *gain = &tree->gains[side][height];
    const double price =
        (double)tree->search->master.heights.items[height].height;
    return (gain->sum + 0.1 * price) / (gain->count + 1.0);
}

/* The height whose split promises most on both sides (pseudo-costs, Benichou
 * et al., 1971): the product is large only where both are. */
static bool split_strips(const struct tree *tree, size_t rows, double *sums,
                         struct roll_branch *split, double *part)
{
    const struct roll_master *master = &tree->search->master;
    memset(sums, 0, master->heights.count * sizeof *sums);
    for (size_t row = 0; row < rows; row++)
        if (master->simplex.basis[row] >= 0)
            sums[master->columns.items[master->simplex.basis[row]].height] +=
                master->simplex.value[row];
    double most = 0.0;
    for (size_t k = 0; k < master->heights.count; k++) {
        if (part_of(sums[k]) == 0.0)
            continue;
        const double above = sums[k] - floor(sums[k]);
        const double weight = (1e-3 + above * gain_of(tree, 0, k)) *
                              (1e-3 + (1.0 - above) * gain_of(tree, 1, k));
        if (weight <= most)
            continue;
        most = weight;
        *part = above;
        *split =
            (struct roll_branch){.height = k, .limit = (int64_t)floor(sums[k])};
    }
    return most > 0.0;
}

/* The pieces of a size from a height, likewise. */
static bool split_pieces(const struct roll_master *master, size_t rows,
                         double *sums, struct roll_branch *split)
{
    const size_t count = master->problem->count;
    memset(sums, 0, master->heights.count * count * sizeof *sums);
    for (size_t row = 0; row < rows; row++) {
        if (master->simplex.basis[row] < 0)
            continue;
        const struct roll_column *column =
            &master->columns.items[master->simplex.basis[row]];
        for (size_t i = 0; i < column->part_count; i++)
            sums[column->height * count + column->parts[i].size] +=
                master->simplex.value[row] * (double)column->parts[i].count;
    }
    double most = 0.0;
    for (size_t at = 0; at < master->heights.count * count; at++) {
        const double weight = part_of(sums[at]);
        if (weight <= most)
            continue;
        most = weight;
        *split = (struct roll_branch){.pieces = true,
                                      .height = at / count,
                                      .size = at % count,
                                      .limit = (int64_t)floor(sums[at])};
    }
    return most > 0.0;
}

/* How many strips of a height hold so many pieces of a size or more (a case of
 * Vanderbeck, 2000, from memory): where strips and pieces are whole, patterns
 * may still not be. Few pieces first. */
static bool split_holders(const struct roll_master *master, size_t rows,
                          double *sums, struct roll_branch *split)
{
    const size_t count = master->problem->count;
    bool more = true;
    double most = 0.0;
    for (size_t from = 1; more && most == 0.0; from++) {
        more = false;
        memset(sums, 0, master->heights.count * count * sizeof *sums);
        for (size_t row = 0; row < rows; row++) {
            if (master->simplex.basis[row] < 0)
                continue;
            const struct roll_column *column =
                &master->columns.items[master->simplex.basis[row]];
            for (size_t i = 0; i < column->part_count; i++) {
                if (column->parts[i].count < from)
                    continue;
                more = true;
                sums[column->height * count + column->parts[i].size] +=
                    master->simplex.value[row];
            }
        }
        for (size_t at = 0; at < master->heights.count * count; at++) {
            const double weight = part_of(sums[at]);
            if (weight <= most)
                continue;
            most = weight;
            *split = (struct roll_branch){.pieces = true,
                                          .height = at / count,
                                          .size = at % count,
                                          .from = from,
                                          .limit = (int64_t)floor(sums[at])};
        }
    }
    return most > 0.0;
}

/* Where the solution is to be split. False where strips, pieces and what strips
 * hold are whole numbers everywhere. */
static bool choose_split(struct tree *tree, struct roll_branch *split,
                         double *part)
{
    const struct roll_master *master = &tree->search->master;
    const size_t rows = master->problem->count + master->branch_count;
    struct arena *scratch = arena_create();
    double *sums = ARENA_ARRAY(scratch, double,
                               master->heights.count * master->problem->count);
    const bool found = split_strips(tree, rows, sums, split, part) ||
                       split_pieces(master, rows, sums, split) ||
                       split_holders(master, rows, sums, split);
    arena_destroy(scratch);
    return found;
}

/* A dive costs many times what a part does: it gets a third of the work, and
 * renewals of the best plan half as much. */
static void dive_sometimes(struct tree *tree)
{
    struct roll_search *search = tree->search;
    const uint64_t before = search->master.work;
    if (2 * tree->dived > before - tree->begun)
        return;
    roll_search_dive(search);
    const uint64_t after = search->master.work;
    roll_search_renew(search, after + (after - before) / 2);
    tree->dived += search->master.work - before;
}

/* Has a later branch made this one idle, and is its row slack in the basis? */
static bool is_idle(const struct roll_master *master, const struct node *node,
                    size_t at)
{
    const struct roll_branch *old = &node->branches[at];
    const size_t count = master->problem->count;
    bool idle = false, slack = false;
    for (size_t b = at + 1; b < node->branch_count; b++) {
        const struct roll_branch *new = &node->branches[b];
        idle |= old->pieces == new->pieces && old->least == new->least &&
                old->height == new->height && old->size == new->size &&
                old->from == new->from;
    }
    for (size_t row = 0; idle && row < count + node->branch_count; row++)
        slack |= master->simplex.basis[row] == roll_logical(count + at);
    return slack;
}

/* Copies the basis for the children, without idle branches: their rows and what
 * is slack in them go together. */
static void keep_basis(struct tree *tree, struct node *node)
{
    const struct roll_master *master = &tree->search->master;
    const size_t count = master->problem->count;
    const size_t rows = count + node->branch_count;
    size_t *place = ARENA_ARRAY(tree->arena, size_t, rows);
    struct roll_branch *branches =
        ARENA_ARRAY(tree->arena, struct roll_branch, node->branch_count + 1);
    long *basis = ARENA_ARRAY(tree->arena, long, rows);
    size_t kept = 0, used = 0;
    for (size_t row = 0; row < rows; row++) {
        const bool idle = row >= count && is_idle(master, node, row - count);
        place[row] = idle ? SIZE_MAX : kept;
        if (!idle && row >= count)
            branches[kept - count] = node->branches[row - count];
        kept += !idle;
    }
    for (size_t row = 0; row < rows; row++) {
        const long variable = master->simplex.basis[row];
        const size_t own = variable < 0 ? (size_t)(-1 - variable) / 2 : 0;
        if (variable >= 0)
            basis[used++] = variable;
        else if (place[own] != SIZE_MAX)
            basis[used++] = variable == roll_logical(own)
                                ? roll_logical(place[own])
                                : roll_artificial(place[own]);
    }
    node->basis = basis;
    node->branches = branches;
    node->branch_count = kept - count;
    node->total = master->total;
}

/* Keeps what the master has just solved as an open part, unless no plan in it
 * can be shorter than the best; dives from it. The basis is copied before the
 * dive: that solves other programmes and leaves nothing of it. */
static void add_node(struct tree *tree, struct node node)
{
    struct roll_search *search = tree->search;
    struct roll_master *master = &search->master;
    if (master->bound > node.bound)
        node.bound = master->bound;
    if (node.bound >= search->best_length)
        return;
    const bool more = choose_split(tree, &node.split, &node.part) &&
                      node.branch_count < ROLL_MOST_BRANCHES;
    if (more)
        keep_basis(tree, &node);
    dive_sometimes(tree);
    if (node.bound >= search->best_length)
        return;
    if (more)
        *LIST_ADD(tree->arena, &tree->open) = node;
    else if (node.bound < tree->stuck)
        tree->stuck = node.bound;
}

/* What the side that was just solved has brought. One that no plan obeys counts
 * as a strip. */
static void learn_gain(struct tree *tree, const struct node *node, bool least)
{
    if (node->split.pieces)
        return;
    const struct roll_master *master = &tree->search->master;
    const double price =
        (double)master->heights.items[node->split.height].height;
    const double moved = least ? 1.0 - node->part : node->part;
    const double rise = (master->total - node->total) / moved;
    struct gain *gain = &tree->gains[least][node->split.height];
    gain->sum += rise < 0.0 ? 0.0 : rise > price ? price : rise;
    gain->count += 1.0;
}

/* One side of a split: at most its limit, or at least one more. */
static void add_child(struct tree *tree, const struct node *node, bool least)
{
    struct roll_search *search = tree->search;
    const size_t count = node->branch_count;
    struct roll_branch *branches =
        ARENA_ARRAY(tree->arena, struct roll_branch, count + 1);
    if (count > 0)
        memcpy(branches, node->branches, count * sizeof *branches);
    branches[count] = node->split;
    branches[count].least = least;
    branches[count].limit += least ? 1 : 0;
    search->master.branches = branches;
    search->master.branch_count = count + 1;
    search->master.good_bound = search->best_length;
    struct node child = {.bound = node->bound,
                         .branches = branches,
                         .branch_count = count + 1,
                         .depth = node->depth + 1};
    if (roll_master_resolve(&search->master, search->demand, node->basis)) {
        learn_gain(tree, node, least);
        add_node(tree, child);
    } else if (node->bound < tree->stuck) {
        tree->stuck = node->bound;
    }
}

/* Every other time the deepest open part comes next, so that plans are found
 * soon; else that with the least bound, so that it rises. */
static bool comes_before(const struct node *a, const struct node *b, bool deep)
{
    if (deep && a->depth != b->depth)
        return a->depth > b->depth;
    if (a->bound != b->bound)
        return a->bound < b->bound;
    if (a->depth != b->depth)
        return a->depth > b->depth;
    return a->total < b->total;
}

/* A list without order is enough: solving one part costs far more than to look
 * through all. */
static struct node take_best(struct tree *tree)
{
    const bool deep = tree->taken++ % 2 == 1;
    size_t best = 0;
    for (size_t i = 1; i < tree->open.count; i++)
        if (comes_before(&tree->open.items[i], &tree->open.items[best], deep))
            best = i;
    const struct node node = tree->open.items[best];
    tree->open.items[best] = tree->open.items[--tree->open.count];
    return node;
}

/* What all open parts and those that are stuck leave possible. Each plan lies
 * in one of them, or is no shorter than the best one. */
static int64_t proved_bound(const struct tree *tree)
{
    int64_t bound = tree->search->best_length;
    bound = tree->stuck < bound ? tree->stuck : bound;
    for (size_t i = 0; i < tree->open.count; i++)
        if (tree->open.items[i].bound < bound)
            bound = tree->open.items[i].bound;
    return bound;
}

/* May be stopped by its work at any time: plan and bound are sound then, only
 * apart. Were the penalty too small, parts without plans would be searched in
 * vain, no more: bounds do not rest on it. */
void roll_search_branch(struct roll_search *search, uint64_t work)
{
    struct tree tree = {.search = search,
                        .arena = arena_create(),
                        .stuck = INT64_MAX,
                        .begun = search->master.work};
    struct roll_master *master = &search->master;
    for (int side = 0; side < 2; side++)
        tree.gains[side] =
            ARENA_ARRAY(tree.arena, struct gain, master->heights.count);
    master->penalty =
        16.0 * (double)master->heights.items[master->heights.count - 1].height;
    master->good_bound = INT64_MAX;
    roll_master_solve(master, search->demand);
    add_node(&tree, (struct node){.bound = search->bound});
    while (tree.open.count > 0 && master->work < work &&
           search->best_length > search->bound) {
        const struct node node = take_best(&tree);
        /* A part that is stuck lower holds the proof, not the search. */
        if (node.bound < search->best_length) {
            add_child(&tree, &node, false);
            add_child(&tree, &node, true);
        }
        const int64_t bound = proved_bound(&tree);
        search->bound = bound > search->bound ? bound : search->bound;
    }
    const int64_t bound = proved_bound(&tree);
    search->bound = bound > search->bound ? bound : search->bound;
    arena_destroy(tree.arena);
}
