/* What the files of this folder hand to each other while an order is planned;
 * all of it ends with `struct kits`. Begin with plan.c. */
#ifndef SEAMWRIGHT_PLANNER_H
#define SEAMWRIGHT_PLANNER_H

#include "kits.h"

/* Where a cloth was met first, for messages, and what is only asked while
 * planning. */
struct cloth_origin {
    size_t line;
    const struct kit_fabric *fabric;
    struct rational per_length; /* as that pattern says; unknown for none */
    size_t widest_line;         /* that needs the most of the width */
};

/* How many fat quarters hold the pieces of a fabric; found once. */
struct quarters {
    const struct kit_fabric *fabric;
    bool binding;
    size_t count; /* 0: a piece does not fit */
};

struct planner {
    struct run *run;
    struct arena *arena; /* of the run */
    const struct order *order;
    const struct kit_facts *const *facts; /* by line */
    struct kits *kits;
    LIST(struct cloth_origin) origins; /* by cloth */
    LIST(struct quarters) quarters;
};

/* The place of an attribute of a line; of the whole for one of the command
 * line. */
struct span line_span(const struct order_line *line, enum attribute_id id);
/* The same of what an order says of a cloth. */
struct span cloth_span(const struct order_cloth *cloth, enum attribute_id id);
/* A length for a message, in the units of the order. */
const char *told_length(const struct planner *planner, struct rational length);
/* ensures: "`N-100`", or its name where it has no code. */
const char *told_cloth(const struct planner *planner,
                       const struct kits_cloth *cloth);

/* ensures: the index of the cloth that plays the fabric in kits of that line.
 * reports: what it is told otherwise elsewhere. */
size_t find_cloth(struct planner *planner, size_t line,
                  const struct kit_fabric *fabric);
/* So much of the width of a cloth is needed by kits of that line. */
void need_width(struct planner *planner, size_t cloth, size_t line,
                struct rational width);
/* reports: cloths that are narrower than what is needed. */
void check_widths(struct planner *planner);
/* reports: stock that no cloth of the order is. */
void check_stock(struct planner *planner);
/* Is that stock of the cloth? */
bool is_stock_of(const char *of, const struct kits_cloth *cloth);

/* Adds cuts of a length of cloth for a line, or for pieces. */
void add_cut(struct planner *planner, size_t cloth, enum kits_cut_kind kind,
             struct rational told, struct kits_taker taker);

/* What a kit of each line holds: contents, cuts of lengths, counted pieces, and
 * sizes of pieces that are cut. */
void fill_contents(struct planner *planner);
/* Fat quarters that hold the pieces of a fabric, or 0. */
size_t quarters_of(struct planner *planner, const struct kit_fabric *fabric,
                   enum length_unit units, bool binding);
/* Adds the pieces of a fabric to a bag and to the sizes that are cut. */
void fill_bag(struct planner *planner, size_t line, size_t content,
              const struct kit_fabric *fabric);

/* Pieces that are counted: what the shelf gives, what is cut from lengths, what
 * is bought. */
void plan_pieces(struct planner *planner, size_t cloth);
/* Strips for all kits that are cut, in layers. `work`: of the planner. */
void plan_strips(struct planner *planner, size_t cloth, uint64_t work);
/* Spare cuts, on top of all that is asked for. */
void add_spare(struct planner *planner, size_t cloth);
/* Which cut comes from which roll. reports: what cannot be. */
void plan_rolls(struct planner *planner, size_t cloth, uint64_t work);
/* Shelf, bought, cut, left. */
void fill_ledger(struct planner *planner, size_t cloth);

/* What is bought of a cloth. */
void price_cloth(struct planner *planner, size_t cloth);
/* What kits cost, and all together. reports: sums beyond exact numbers. */
void price_lines(struct planner *planner);
/* What contents weigh, where their cloth states it. */
void weigh_lines(struct planner *planner);

/* The least whole number by which all denominators go; 0 where there is none
 * below 2^31. `so_far`: 1 to begin with. */
int64_t common_denominator(int64_t so_far, struct rational value);
/* The length in units of 1/denominator. requires: that it is whole. */
int64_t in_units(struct rational value, int64_t denominator);

/* The length of a step in which cloth is sold; 0 for pieces. */
struct rational sold_step(const struct order *order, enum order_sold sold,
                          struct rational bolt);

#endif
