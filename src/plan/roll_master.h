/* Inside the planner: ways of lying, the knapsack of one strip, and the linear
 * programme over patterns (Gilmore and Gomory, 1961 and 1965). */
#ifndef SEAMWRIGHT_ROLL_MASTER_H
#define SEAMWRIGHT_ROLL_MASTER_H

#include "roll.h"
#include "simplex.h"

/* A size as it lies in strips of one height. */
struct roll_way {
    size_t size;
    int64_t along;
};

struct roll_height {
    int64_t height;
    LIST(struct roll_way) ways;
    /* Of a trimmed plan, ways of pieces that are as high as this strip. */
    LIST(struct roll_way) begun;
};

/* The best strip of a height, of all that a sweep found. */
struct roll_swept {
    int64_t worth;
    size_t layers;
};

/* Pieces of one size in a pattern. */
struct roll_part {
    size_t size, count;
};

struct roll_column {
    size_t height;                 /* index */
    const size_t *made;            /* by size: pieces in one strip */
    const struct roll_part *parts; /* the same without the zeros */
    size_t part_count;
    double price;     /* its height */
    double steepness; /* 1 over the length of its column */
    uint64_t hash;
};

/* A demand of a branch: at least or at most `limit` strips of a height, or
 * pieces of a size from strips of that height, or such strips that hold `from`
 * pieces of it or more. */
struct roll_branch {
    bool pieces;
    bool least;
    size_t height, size;
    size_t from; /* 0 where pieces are counted */
    int64_t limit;
};

enum { ROLL_MOST_BRANCHES = 96 };

/* The patterns as the simplex method looks through them: side by side. */
struct roll_known_part {
    uint32_t size, count;
};

struct roll_known_column {
    uint64_t sizes;         /* a bit for each: that of its index modulo 64 */
    uint32_t height, first; /* the parts end where those of the next begin */
    double price;
};

struct roll_known {
    LIST(struct roll_known_column) columns; /* as in the master */
    LIST(struct roll_known_part) parts;
    /* Columns that make no more than is asked for now. */
    LIST(uint32_t) useful;
    size_t seen;    /* columns that were looked at for it */
    uint64_t spent; /* bits of sizes of which nothing is asked for */
};

/* Patterns that gained most when all were looked at last, best first. */
enum { ROLL_NEAR = 16 };
struct roll_near {
    size_t column[ROLL_NEAR];
    double share[ROLL_NEAR];
    size_t count;
};

/* Like pieces in the knapsack of a strip: taken once, or any number of times.
 * There are at most as many as the binary digits of all demands. */
struct roll_layer {
    size_t size, pieces;
    int64_t along, worth;
    bool any;
};

struct roll_master {
    struct arena *arena;
    const struct roll_problem *problem;
    LIST(struct roll_height) heights; /* rising */
    LIST(struct roll_column) columns; /* grows as patterns are found */
    struct roll_known known;
    struct roll_near near;
    size_t *slots; /* columns by hash, + 1; open addressing */
    size_t slot_count;
    /* the linear programme: a row a size, then a row a branch */
    const struct roll_branch *branches;
    size_t branch_count;
    size_t first_holding;   /* branch that counts what strips hold */
    struct simplex simplex; /* variables: columns, or of a row: roll_logical */
    double total;           /* the value of the last solution */
    double penalty;         /* price of breaking a branch by one */
    int64_t bound;          /* of the last solution, in exact whole numbers */
    int64_t good_bound;     /* solving may stop once the bound is there */
    /* lengths that heights can add up to, in their common unit */
    int64_t unit, sum_cells;
    const int64_t *next_sum;
    /* scratch of the knapsack */
    int64_t *best;
    unsigned char *taken;
    struct roll_layer *layers;
    struct roll_swept *swept; /* by height */
    int64_t *worth;           /* by height and size, scaled to whole numbers */
    size_t *made, *most;
    double *extra;
    size_t *cap; /* by height and size: the most pieces in one strip */
    uint64_t work;
};

/* ensures: a master over all heights; false where a size fits in none
 * and is asked for. */
bool roll_master_init(struct roll_master *master, struct arena *arena,
                      const struct roll_problem *problem);

/* The index of the pattern `made` in strips of a height, added if new. */
size_t roll_master_column(struct roll_master *master, size_t height,
                          const size_t *made);

/* Solves the programme for these demands (by size) without branches, finding
 * patterns as they are needed.
 * ensures: its value; basis, values and duals in `simplex`, and `bound`. */
double roll_master_solve(struct roll_master *master, const size_t *demand);

/* The same, begun with known patterns that may be near to the solution: each
 * that makes no more than is asked for, in their order, until it uses up a
 * size. Sooner done. */
double roll_master_solve_from(struct roll_master *master, const size_t *demand,
                              const size_t *patterns, size_t pattern_count);

/* The same under `branches`, from the basis of its parent (which lacks the
 * last branch). ensures: as above; false where the basis was of no use. */
bool roll_master_resolve(struct roll_master *master, const size_t *demand,
                         const long *parent);

/* The same without branches, until the bound is within a share of the value, or
 * all that work is done: much sooner done for hundreds of sizes. Begins with
 * the patterns of a plan, and with prices `best` that prove a good bound; they
 * get the best. */
void roll_master_approach(struct roll_master *master, const size_t *demand,
                          const size_t *patterns, size_t pattern_count,
                          double *best, double gap, uint64_t work);

/* The most that one strip of a height can be worth, pieces at `worth` each,
 * at most `most` of a size. `made` gets the pattern, unless NULL. */
int64_t roll_knapsack(struct roll_master *master, size_t height,
                      const int64_t *worth, const size_t *most, size_t *made);

/* A strip that holds so many pieces of a size is worth `bonus` more, which may
 * be below 0. */
struct roll_bonus {
    size_t size, from;
    int64_t bonus;
};

/* The same with such strips. Slower: each size with a bonus is tried in every
 * count. */
int64_t roll_knapsack_with(struct roll_master *master, size_t height,
                           const int64_t *worth, const size_t *most,
                           const struct roll_bonus *bonuses, size_t bonus_count,
                           size_t *made);

/* The same for all heights in one go, into `swept`; for trimmed plans. What a
 * height is worth may be too much where a size takes part in it both ways; its
 * pattern holds no more than `most`. */
void roll_sweep(struct roll_master *master, const int64_t *worth,
                const size_t *most);
void roll_swept_pattern(const struct roll_master *master, size_t height,
                        const size_t *most, size_t *made);

/* ---- between the files of the master ---- */

/* The variable of a row: its surplus or slack, and an artificial one that
 * breaks it. Both are below zero. */
long roll_logical(size_t row);
long roll_artificial(size_t row);

/* Starts with no patterns bought. */
void roll_master_start(struct roll_master *master, const size_t *demand);

/* Looks for patterns that are worth more than their height, adds them, and
 * proves a bound from the duals in whole numbers. False where none is. */
bool roll_master_price(struct roll_master *master, const size_t *demand);

/* The same at prices, one a size, of one's own: adds patterns that gain at the
 * duals, and proves a bound by the prices. For lists without branches. */
bool roll_master_price_at(struct roll_master *master, const size_t *demand,
                          const double *price);

/* The pattern of one size alone that costs least for a piece. */
size_t roll_own_column(struct roll_master *master, size_t size, size_t demand);

/* Starts from variables, by row, without branches. False where they are no
 * basis. */
bool roll_master_restart(struct roll_master *master, const long *variables,
                         const double *asked);

/* Starts from patterns in their order, each until a size is used up, whose row
 * it takes; then from strips of one size alone for what is left. `asked` is by
 * row, about as much as `demand`. */
void roll_master_start_from(struct roll_master *master, const size_t *demand,
                            const double *asked, const size_t *patterns,
                            size_t pattern_count);

/* Brings a variable into the basis. False where it is at an end. */
bool roll_master_enter(struct roll_master *master, long variable);

/* The least length from `length` up that heights can add up to. */
int64_t roll_reachable(struct roll_master *master, int64_t length);

#endif
