/* How simple a plan of strips can be at best. A search that has found such a
 * plan ends, and one that could only find as simple a plan again never begins.
 *
 * For each set of heights: each of them costs a line and a setting. Cuts of one
 * line that share a setting along the strip are trimmed, all but one, as they
 * are not equally high: so each size costs a step at least, and two where it is
 * trimmed in all of these heights and can share with none. Each further line
 * costs one more step, and each further cut of a size.
 *
 * So with no step more than the least of a set there is one line for each
 * height and one cut for each size; with one step more, a second line or a
 * size that is cut twice. All plans of these kinds are tried against the
 * budget. */
#include "roll_plan.h"

enum {
    MOST_HEIGHTS = 12,
    MOST_SIZES = 24,
    MOST_LINES = 2 * MOST_HEIGHTS, /* two of each height */
    MOST_TRIALS = 20000,           /* of a set of heights */
    ALL_TRIALS = 100000
};

/* One way of lying: the height by its place, the side along the strip; is it
 * lower than the strip? */
struct way {
    size_t height;
    int64_t along;
    bool trimmed;
};

struct cut {
    size_t size;
    const struct way *way;
    size_t line;
    bool split; /* another cut makes the rest of the size */
};

struct least {
    const struct roll_problem *problem;
    int64_t budget;
    int64_t heights[MOST_HEIGHTS];
    size_t height_count;
    const struct roll_size *sizes[MOST_SIZES]; /* those that are asked for */
    size_t count;
    struct way ways[MOST_SIZES][2 * MOST_HEIGHTS];
    size_t way_count[MOST_SIZES];
    unsigned shared[MOST_SIZES]; /* heights, as a set */
    /* Of the plan that is tried: its heights, its cuts, whether a size may be
     * split over two cuts, whether heights have a second line. */
    unsigned set;
    struct cut cuts[MOST_SIZES + 1];
    size_t cut_count;
    bool may_split, second_line;
    size_t trials, all_trials;
    /* Of the search for a plan: where it is kept; NULL where only the effort is
     * asked for. */
    struct arena *arena;
    struct roll_plan *plan;
    bool all_tried;
    /* Of the search for the fewest strips to open: of the plan that is kept. */
    bool fewest;
    int64_t opened, length;
};

/* ---- ways of lying ---- */

static bool add_height(struct least *least, int64_t height)
{
    for (size_t k = 0; k < least->height_count; k++)
        if (least->heights[k] == height)
            return true;
    if (least->height_count == MOST_HEIGHTS)
        return false;
    least->heights[least->height_count++] = height;
    return true;
}

static void add_ways(struct least *least, size_t i)
{
    const struct roll_size *size = least->sizes[i];
    const int64_t sides[2][2] = {{size->width, size->height},
                                 {size->height, size->width}};
    const int turns = size->turns && size->width != size->height ? 2 : 1;
    for (size_t k = 0; k < least->height_count; k++)
        for (int turn = 0; turn < turns; turn++) {
            const int64_t along = sides[turn][0], across = sides[turn][1];
            const int64_t height = least->heights[k];
            if (along > least->problem->width || across > height ||
                (across < height && !least->problem->trimmed))
                continue;
            least->ways[i][least->way_count[i]++] =
                (struct way){k, along, across < height};
        }
}

/* ensures: false where there are too many to try all. */
static bool find_ways(struct least *least)
{
    const struct roll_problem *problem = least->problem;
    for (size_t i = 0; i < problem->count; i++) {
        const struct roll_size *size = &problem->sizes[i];
        if (size->demand == 0)
            continue;
        if (least->count == MOST_SIZES || !add_height(least, size->height) ||
            (size->turns && !add_height(least, size->width)))
            return false;
        least->sizes[least->count++] = size;
    }
    for (size_t i = 0; i < least->count; i++)
        add_ways(least, i);
    return true;
}

/* Is the height of this way in the set? */
static bool holds(unsigned set, const struct way *way)
{
    return (set >> way->height & 1) != 0;
}

/* ---- steps that a size costs ---- */

/* Then they may share a setting without a trim. */
static bool same_piece(const struct roll_size *a, const struct roll_size *b)
{
    return (a->width == b->width && a->height == b->height) ||
           (a->width == b->height && a->height == b->width);
}

/* In which heights can another size lie beside it with the same side along the
 * strip? */
static unsigned find_shared(const struct least *least, size_t i)
{
    unsigned shared = 0;
    for (size_t w = 0; w < least->way_count[i]; w++) {
        const struct way *way = &least->ways[i][w];
        for (size_t j = 0; j < least->count; j++)
            for (size_t v = 0; j != i && v < least->way_count[j]; v++)
                if (least->ways[j][v].height == way->height &&
                    least->ways[j][v].along == way->along)
                    shared |= 1u << way->height;
    }
    return shared;
}

/* ensures: SIZE_MAX where it lies in none of these heights. `area` gets the
 * least cloth of one piece. */
static size_t least_steps(const struct least *least, unsigned set, size_t i,
                          int64_t *area)
{
    size_t steps = SIZE_MAX;
    *area = INT64_MAX;
    for (size_t w = 0; w < least->way_count[i]; w++) {
        const struct way *way = &least->ways[i][w];
        if (!holds(set, way))
            continue;
        const size_t here = way->trimmed ? 2 : 1;
        const int64_t cloth = way->along * least->heights[way->height];
        steps = here < steps ? here : steps;
        *area = cloth < *area ? cloth : *area;
    }
    return steps == 2 && (least->shared[i] & set) != 0 ? 1 : steps;
}

/* ---- lengths of plans ---- */

/* Width of a line that is repeated so often, without the size that is split;
 * what it leaves goes to that. */
static int64_t room_of(const struct least *least, size_t line, int64_t repeat)
{
    int64_t room = least->problem->width;
    for (size_t c = 0; c < least->cut_count; c++) {
        const struct cut *cut = &least->cuts[c];
        if (cut->line == line && !cut->split)
            room -= ((int64_t)least->sizes[cut->size]->demand + repeat - 1) /
                    repeat * cut->way->along;
    }
    return room;
}

/* What a line makes of the split size; less than nothing where it is not
 * repeated often enough for the others. */
static int64_t made_of(const struct least *least, const struct cut *cut,
                       int64_t repeat)
{
    const int64_t room = room_of(least, cut->line, repeat);
    return room < 0 ? -1 : room / cut->way->along * repeat;
}

/* How often a line is repeated at least; more than `most` where that is never
 * enough. More repeats never need more room. */
static int64_t least_repeats(const struct least *least, size_t line,
                             int64_t most)
{
    int64_t low = 1, high = most + 1;
    while (low < high) {
        const int64_t repeat = low + (high - low) / 2;
        if (room_of(least, line, repeat) >= 0)
            high = repeat;
        else
            low = repeat + 1;
    }
    return low;
}

/* The same for the second cut of a split size, of which so many are left. */
static int64_t rest_repeats(const struct least *least, const struct cut *cut,
                            int64_t rest, int64_t most)
{
    int64_t low = 1, high = most + 1;
    while (low < high) {
        const int64_t repeat = low + (high - low) / 2;
        const int64_t made = made_of(least, cut, repeat);
        if (made >= 0 && made >= rest)
            high = repeat;
        else
            low = repeat + 1;
    }
    return low;
}

/* ---- one plan ---- */

/* Pieces beyond what is asked for are taken out when it is settled. */
static void keep_plan(struct least *least, const int64_t *repeats)
{
    struct roll_plan *plan = ARENA_NEW(least->arena, struct roll_plan);
    for (size_t line = 0; line < MOST_LINES; line++) {
        struct roll_strip strip = {.repeat = (size_t)repeats[line]};
        if (repeats[line] == 0)
            continue;
        for (size_t c = 0; c < least->cut_count; c++) {
            const struct cut *cut = &least->cuts[c];
            const struct roll_size *size = least->sizes[cut->size];
            if (cut->line != line)
                continue;
            strip.height = least->heights[cut->way->height];
            const size_t count =
                cut->split ? (size_t)(room_of(least, line, repeats[line]) /
                                      cut->way->along)
                           : (size->demand + strip.repeat - 1) / strip.repeat;
            if (count > 0)
                *LIST_ADD(least->arena, &strip.cuts) =
                    (struct roll_cut){(size_t)(size - least->problem->sizes),
                                      count, cut->way->along};
        }
        *LIST_ADD(least->arena, &plan->strips) = strip;
    }
    roll_plan_settle(least->arena, least->problem, plan);
    least->plan = plan;
}

/* Strips of a line that are opened, as roll_opened counts them. */
static int64_t opened_of(const struct least *least, size_t line, int64_t repeat)
{
    bool odd = false, whole = false;
    for (size_t c = 0; c < least->cut_count; c++) {
        const struct cut *cut = &least->cuts[c];
        if (cut->line != line)
            continue;
        const int64_t demand = (int64_t)least->sizes[cut->size]->demand;
        odd |= (demand + repeat - 1) / repeat % 2 == 1;
        whole |= cut->way->along == least->problem->width;
    }
    return odd && !whole ? repeat : 0;
}

/* A line of which strips are opened is repeated as it must be, or as often as
 * it takes that none is: more of them, still opened, are no better. Goes
 * through both from this line on; `opened` is of those before it. */
static void open_fewest(struct least *least, int64_t *repeats, size_t line,
                        int64_t opened, int64_t length)
{
    if (length > least->budget || opened > least->opened ||
        (opened == least->opened && length >= least->length))
        return;
    if (line == MOST_LINES) {
        least->opened = opened;
        least->length = length;
        keep_plan(least, repeats);
        return;
    }
    const int64_t height = least->heights[line / 2], first = repeats[line];
    const int64_t here = opened_of(least, line, first);
    open_fewest(least, repeats, line + 1, opened + here, length);
    int64_t repeat = first;
    while (here > 0 && length <= least->budget &&
           opened_of(least, line, repeat) > 0) {
        repeat++;
        length += height;
    }
    if (here > 0) {
        repeats[line] = repeat;
        open_fewest(least, repeats, line + 1, opened, length);
        repeats[line] = first;
    }
}

/* A plan that keeps to the budget was found. Whoever wants the plan goes on
 * with a budget that only a shorter one keeps to.
 * gives: is that enough? */
static bool found(struct least *least, const int64_t *repeats)
{
    if (least->arena == NULL)
        return true;
    if (least->fewest) { /* how a size is split best is not looked for */
        least->all_tried = false;
        return true;
    }
    int64_t length = 0;
    keep_plan(least, repeats);
    for (size_t c = 0; c < MOST_LINES; c++)
        length += repeats[c] * least->heights[c / 2];
    least->budget = length - 1;
    return false;
}

/* Side by side in one line, both ways round: the shorter way alone makes as
 * many, with a step less, so such a plan is never the simplest. */
static bool split_fits(struct least *least, const struct cut *first,
                       const struct cut *second, int64_t *repeats,
                       int64_t others)
{
    const int64_t high = least->heights[first->way->height];
    const int64_t other = least->heights[second->way->height];
    const int64_t demand = (int64_t)least->sizes[first->size]->demand;
    if (first->line == second->line)
        return false;
    for (int64_t n = 1; n * high + others + other <= least->budget; n++) {
        const int64_t made = made_of(least, first, n);
        if (made < 0)
            continue;
        const int64_t most = (least->budget - others - n * high) / other;
        const int64_t repeat = rest_repeats(least, second, demand - made, most);
        if (repeat > most)
            continue;
        repeats[first->line] = n;
        repeats[second->line] = repeat;
        if (found(least, repeats))
            return true;
    }
    return false;
}

/* Lines without the split size take what they must; the rest is for those that
 * hold it. */
static bool plan_fits(struct least *least)
{
    const struct cut *split[2] = {NULL, NULL};
    int64_t repeats[MOST_LINES] = {0};
    int64_t length = 0;
    for (size_t c = 0; c < least->cut_count; c++)
        if (least->cuts[c].split) {
            split[split[0] != NULL] = &least->cuts[c];
            repeats[least->cuts[c].line] = 1;
        }
    for (size_t c = 0; c < least->cut_count; c++) {
        const struct cut *cut = &least->cuts[c];
        const int64_t height = least->heights[cut->way->height];
        if (repeats[cut->line] > 0)
            continue;
        repeats[cut->line] =
            least_repeats(least, cut->line, least->budget / height);
        length += height * repeats[cut->line];
    }
    if (length > least->budget)
        return false;
    if (split[0] != NULL)
        return split_fits(least, split[0], split[1], repeats, length);
    if (!least->fewest)
        return found(least, repeats);
    open_fewest(least, repeats, 0, 0, length);
    return false;
}

/* ---- all plans of few steps ---- */

/* Steps of a cut beside those that were chosen before it. */
static size_t added_steps(const struct least *least, const struct cut *added)
{
    const size_t steps = added->way->trimmed ? 2 : 1;
    for (size_t c = 0; c < least->cut_count; c++)
        if (least->cuts[c].line == added->line &&
            least->cuts[c].way->along == added->way->along)
            return steps - 1;
    return steps;
}

static bool some_plan_fits(struct least *least, size_t i, size_t steps);

/* Chooses a way and a line for size i, and then for those after it; where it is
 * split, for its other half. */
static bool try_cuts(struct least *least, size_t i, size_t steps, size_t from,
                     bool split, bool again)
{
    for (size_t n = from; n < 2 * least->way_count[i]; n++) {
        const struct way *way = &least->ways[i][n / 2];
        struct cut cut = {i, way, 2 * way->height + n % 2, split};
        if (!holds(least->set, way) || (n % 2 == 1 && !least->second_line))
            continue;
        const size_t more = added_steps(least, &cut);
        if (more > steps)
            continue;
        least->cuts[least->cut_count++] = cut;
        const bool fits =
            split && !again
                ? try_cuts(least, i, steps - more, n + 1, true, true)
                : some_plan_fits(least, i + 1, steps - more);
        least->cut_count--;
        if (fits)
            return true;
    }
    return false;
}

/* Does any plan that cuts size i and those after it in no more than so many
 * steps keep to the budget? Taken for true where there are too many. */
static bool some_plan_fits(struct least *least, size_t i, size_t steps)
{
    if (++least->trials > MOST_TRIALS || ++least->all_trials > ALL_TRIALS) {
        least->all_tried = false;
        return true;
    }
    if (i == least->count)
        return plan_fits(least);
    if (try_cuts(least, i, steps, 0, false, false))
        return true;
    if (!least->may_split)
        return false;
    least->may_split = false;
    const bool fits = try_cuts(least, i, steps, 0, true, false);
    least->may_split = true;
    return fits;
}

/* Is there a plan in these heights with so many steps beside their lines and
 * settings, or with one more? */
static bool fits_with(struct least *least, size_t steps, bool one_more,
                      bool one_line)
{
    least->trials = 0;
    least->cut_count = 0;
    least->second_line = false;
    least->may_split = one_more;
    if (some_plan_fits(least, 0, steps + (one_more ? 1 : 0)))
        return true;
    least->may_split = false;
    least->second_line = one_more && one_line;
    return least->second_line && some_plan_fits(least, 0, steps);
}

/* ---- the bound ---- */

/* The steps of all sizes with exactly these heights; SIZE_MAX where the cloth
 * does not suffice. */
static size_t steps_of_set(const struct least *least, unsigned set)
{
    size_t steps = 0;
    int64_t room = least->budget * least->problem->width;
    for (size_t i = 0; i < least->count; i++) {
        const int64_t demand = (int64_t)least->sizes[i]->demand;
        int64_t area;
        const size_t here = least_steps(least, set, i, &area);
        if (here == SIZE_MAX || area > room / demand)
            return SIZE_MAX;
        room -= area * demand;
        steps += here;
    }
    return steps;
}

static size_t heights_of_set(unsigned set)
{
    size_t heights = 0;
    for (; set > 0; set >>= 1)
        heights += set & 1;
    return heights;
}

/* The least effort with exactly these heights. What is not below `best` is not
 * looked at closely. */
static size_t least_of_set(struct least *least, unsigned set, size_t lines,
                           size_t best)
{
    const size_t heights = heights_of_set(set);
    if (heights > lines)
        return SIZE_MAX;
    const size_t steps = steps_of_set(least, set);
    if (steps == SIZE_MAX)
        return SIZE_MAX;
    const size_t effort = 2 * heights + steps;
    least->set = set;
    if (effort >= best || fits_with(least, steps, false, false))
        return effort;
    if (effort + 1 >= best || fits_with(least, steps, true, heights < lines))
        return effort + 1;
    return effort + 2;
}

/* By sets of heights. 0 where there is nothing to tell: too many sizes, or one
 * piece in two of them, which shares settings without a trim. */
static size_t least_effort(struct least *least, size_t lines)
{
    if (!find_ways(least) || least->count == 0)
        return 0;
    for (size_t i = 1; i < least->count; i++)
        for (size_t j = 0; j < i; j++)
            if (same_piece(least->sizes[i], least->sizes[j]))
                return 0;
    for (size_t i = 0; i < least->count; i++)
        least->shared[i] = find_shared(least, i);
    size_t best = SIZE_MAX;
    for (unsigned set = 1; set < 1u << least->height_count; set++) {
        const size_t effort = least_of_set(least, set, lines, best);
        best = effort < best ? effort : best;
    }
    return best;
}

size_t roll_least_effort(const struct roll_problem *problem, int64_t budget,
                         size_t lines)
{
    struct least least = {.problem = problem, .budget = budget};
    return least_effort(&least, lines);
}

/* Once more over the sets that can make the least effort, now for a plan.
 * Where two steps more than the least of a set come to it, not all of its plans
 * are tried. */
static void find_plan(struct least *least, struct arena *arena, size_t effort)
{
    least->arena = arena;
    least->plan = NULL;
    least->all_trials = 0;
    least->all_tried = true;
    for (unsigned set = 1; set < 1u << least->height_count; set++) {
        const size_t steps = steps_of_set(least, set);
        const size_t sum = 2 * heights_of_set(set) + steps;
        least->set = set;
        if (steps == SIZE_MAX || sum > effort)
            continue;
        if (sum == effort)
            fits_with(least, steps, false, false);
        else if (sum + 1 == effort)
            fits_with(least, steps, true, true);
        else
            least->all_tried = false;
    }
}

struct roll_plan *roll_least_plan(struct arena *arena,
                                  const struct roll_problem *problem,
                                  int64_t budget, size_t *effort, bool *best)
{
    struct least least = {.problem = problem, .budget = budget};
    *effort = least_effort(&least, SIZE_MAX);
    *best = false;
    if (*effort == 0 || *effort == SIZE_MAX)
        return NULL;
    find_plan(&least, arena, *effort);
    struct roll_plan *shortest = least.plan;
    *best = least.all_tried && shortest != NULL;
    if (!*best || !problem->folded || roll_opened(problem, shortest) == 0)
        return shortest;
    /* The last inch is worth less than a strip that stays folded. */
    least.budget = budget;
    least.fewest = true;
    least.opened = least.length = INT64_MAX;
    find_plan(&least, arena, *effort);
    *best = least.all_tried && least.length == shortest->length &&
            least.opened == (int64_t)roll_opened(problem, shortest);
    return shortest;
}
