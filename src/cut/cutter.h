/* Inside the cutting stage. What the files of this folder tell each other. One
 * cutter makes one plan. Read next: cut.c. */
#ifndef SEAMWRIGHT_CUTTER_H
#define SEAMWRIGHT_CUTTER_H

#include "cutplan.h"
#include "roll.h"
#include "sheets.h"
#include "trade.h"

/* Pieces of one cloth in whole steps, as the planners take them. */
struct step_list {
    struct rational step;
    struct roll_size *sizes;
    size_t *items; /* of the fabric's plan, by size */
    size_t count;
};

/* Two plans for a list: the one that is printed, and one of fewer lines for
 * one more step of cloth, or NULL. */
struct roll_choice {
    const struct roll_plan *plan, *offer;
    int64_t bound; /* of all plans of strips, trimmed ones too */
    bool simply;   /* no search was made */
    struct roll_effort effort, offer_effort;
    /* Where not every strip keeps the reserve: the least length found for which
     * all do; 0 where none is known. */
    int64_t reserved;
    const struct roll_plan *reserved_plan; /* of that amount; or NULL */
};

/* A choice that was made, with all that it was made from: colorways mostly
 * differ in color alone. */
struct made_choice {
    const struct roll_problem *problem;
    struct rational fixed, step, shrinkage;
    int64_t reserve;
    struct draft *draft; /* what is bought */
    bool settled;        /* there is a choice, too */
    struct roll_choice choice;
};

/* What a list is sold for, and what length that allows. */
struct price {
    const struct cutter *cutter;
    const struct bolt *bolt;
    struct rational fixed, step;
};

struct made_sheets {
    const struct sheet_problem *problem;
    const struct sheet_plan *plan;
};

struct made_leftovers {
    const struct roll_problem *problem;
    const struct leftover *kinds;
    size_t count;
    uint64_t work;
    const struct leftover_plan *plan;
};

/* A cloth of a quilt in one colorway: as it is asked for, and its plan. */
struct made_cloth {
    const struct sewn_quilt *quilt;
    bool amount; /* planned for its amount alone */
    struct fabric_plan asked, plan;
};

struct choices {
    size_t sizes; /* of all lists of the source */
    LIST(struct made_cloth) cloths;
    LIST(struct made_leftovers) leftovers;
    LIST(struct made_choice) rolls;
    LIST(struct made_sheets) sheets;
};

struct cutter {
    struct run *run;
    const struct design *design;
    const struct pattern *pattern; /* units, seam, cutting step, allowance */
    struct cutplan *plan;          /* the one that is made */
    struct choices *choices;       /* of the whole run */
    bool amounts_only;             /* no cloth is cut after this plan */
};

/* Fills the items of all fabrics: pieces, borders, binding. */
void gather_items(struct cutter *cutter);

/* The plan of the same cloth in another colorway. ensures: false where there is
 * none. requires: a plan that is measured and has its items. */
bool take_made_cloth(const struct cutter *cutter, struct fabric_plan *plan);
/* `asked` is the plan as it was before its cloth was planned. */
void keep_made_cloth(struct cutter *cutter, const struct fabric_plan *asked,
                     const struct fabric_plan *plan);

/* Lays all items of one fabric: strips, lengthwise cloth, sheets. False where a
 * piece does not fit its cloth; that was reported. */
bool plan_fabric(struct cutter *cutter, struct fabric_plan *plan);

/* The largest length that both are whole multiples of. requires: a, b > 0. */
struct rational common_step(struct rational a, struct rational b);

/* The items that are (or are not) cut lengthwise, in steps that divide every
 * size and `length`. Cloth so fine that there were more than MOST_STEPS of
 * them is planned in coarser steps, pieces rounded up: they take a little more
 * room than they need, never less. */
enum { MOST_STEPS = 8192 };
struct step_list steps_of(struct arena *arena, const struct fabric_plan *plan,
                          bool lengthwise);

/* What a list is given at most for all its searches. */
uint64_t list_work(const struct roll_problem *problem);

/* Is the list too long, among all that the source asks for, to search for its
 * plan? Then it is planned simply. */
bool planned_simply(const struct cutter *cutter,
                    const struct roll_problem *problem);

/* Of two lists: names do not matter to a plan. */
bool same_sizes(const struct roll_size *a, const struct roll_size *b,
                size_t count);
/* The plan of least cloth as sold, and of those the one of least effort;
 * `fixed` is bought besides the strips. NULL plan: a piece does not fit. Where
 * only the `amount` is wanted, any plan for which the same is bought. Every
 * strip keeps `plan->reserve` of its length where that takes no more cloth as
 * sold; pieces that are longer than what is left then, take the whole of it. */
struct roll_choice choose_roll(struct cutter *cutter,
                               const struct fabric_plan *plan,
                               const struct roll_problem *problem,
                               struct rational fixed, struct rational step,
                               bool amount);

/* A strip as the planner laid it, in exact sizes. */
struct strip strip_of(struct arena *arena, const struct fabric_plan *plan,
                      const struct step_list *list,
                      const struct roll_strip *laid);
/* The same for the strips of a sheet, whose kind and size are the caller's. */
void fill_sheet(struct arena *arena, const struct fabric_plan *plan,
                const struct step_list *list,
                const struct sheet_pattern *pattern, struct sheet *sheet);

/* Adds the least length of cloth that lengthwise pieces take. False where one
 * is too wide. */
bool plan_lengthwise(struct cutter *cutter, struct fabric_plan *plan);
/* The length that is cut off the cloth besides strips across it. */
struct rational lengthwise_length(const struct fabric_plan *plan);

/* Lengthwise pieces laid in one way: their sheets. */
struct layout {
    LIST(struct sheet) sheets;
};
struct layouts {
    LIST(struct layout) list;
};
/* Some other ways to lay the lengthwise pieces: in two lengths of the cloth,
 * and shorter ones one behind the other beside longer ones. */
struct layouts other_layouts(struct arena *arena,
                             const struct fabric_plan *plan);

/* Rests that are filled, and strips for what is left to make. */
struct filling {
    LIST(struct sheet) rests;
    struct roll_problem problem; /* of the strips */
    struct roll_choice choice;   /* no plan: no strip is needed, or none fits */
    struct rational bought;
};

/* How rests may be cut from. Pieces of a trimmed rest may be lower than the
 * strips that they are then not cut from. */
struct rest_rule {
    bool feet, trimmed;
    uint64_t work;
};

/* One way to cut yardage: lengthwise pieces laid, then all else. */
struct way {
    struct fabric_plan plan; /* its items and lengthwise sheets */
    struct step_list list;   /* what else is cut */
    struct roll_problem problem;
    struct rational fixed; /* length besides strips across */
    struct rest_rule rule; /* of the filling */
    struct filling filling;
};
/* Without a filling. */
struct way start_way(struct arena *arena, const struct fabric_plan *plan);

/* What is bought for strips of so many steps and all that is cut besides. */
struct rational way_bought(const struct cutter *cutter, const struct way *way,
                           int64_t length);

/* What is bought where the rests are used so, as far as a short search tells;
 * unknown where a piece does not fit. */
struct rational probe_way(const struct cutter *cutter, struct arena *arena,
                          const struct way *way, struct rest_rule rule);
/* Plans the rests so, and the strips for what is left, as far as what is bought
 * asks for it. ensures: false where a piece does not fit. */
bool fill_way(struct cutter *cutter, struct way *way, struct rest_rule rule);
/* Plans a filled way to the end; the same is bought. requires: more than
 * amounts is wanted. */
void settle_way(struct cutter *cutter, struct way *way);
/* What stays beside lengthwise cloth, then strips; with the feet of shorter
 * pieces where they save cloth as sold. */
bool fill_apart(struct cutter *cutter, struct way *way);
/* Looks for less cloth as sold: lengthwise pieces laid otherwise, binding cut
 * beside them. `way` is filled, and is kept where nothing is less. */
void plan_jointly(struct cutter *cutter, struct way *way);

/* Cloth that is left over before strips are cut; NULL where there is no plan.
 * Where only an amount is wanted, at this price, any for which no more is
 * bought than any way must; else the price is NULL. `kinds` and the sizes
 * outlive the cutter. */
const struct leftover_plan *choose_leftovers(struct cutter *cutter,
                                             const struct roll_problem *problem,
                                             const struct leftover *kinds,
                                             size_t count, uint64_t work,
                                             const struct price *price);

/* Looks for a way whose lengthwise cloth leaves the reserve of its width, too,
 * and takes it where it is no more cloth as sold. ensures: a settled way; false
 * where it does not; `eased`: what is bought for one that does, or unknown.
 * requires: a filled way; `plan` has its items. */
bool keep_width_reserve(struct cutter *cutter, const struct fabric_plan *plan,
                        struct way *way, struct rational *eased);

/* Pieces of cloth that are sold by number, as for strips. */
const struct sheet_plan *choose_sheets(struct cutter *cutter,
                                       const struct sheet_problem *problem);

/* Sets `used` and `height` of a strip by its cuts. */
void settle_strip(struct strip *strip);
/* Leaves out what the strips of a plan make beyond `wanted`, by item.
 * requires: no strip with a last one of its own. */
void drop_surplus(struct arena *arena, struct fabric_plan *plan,
                  const size_t *wanted);
/* Gives lines even numbers of pieces where their strips have the room. */
void even_strips(struct arena *arena, struct fabric_plan *plan);
/* Of one size and cut alike? */
bool same_sheets(const struct sheet *a, const struct sheet *b);
/* Measures the strips, joins those that are alike, sorts from high to low. */
void settle_strips(struct fabric_plan *plan);

/* Sets what a cloth or sheet measures and what its cuts cost. */
void measure_bolt(struct cutter *cutter, struct fabric_plan *plan, int fabric);

/* What must be bought, before rounding, for a length that is cut: with the
 * shrinkage of the cloth. */
struct rational length_to_buy(const struct bolt *bolt, struct rational length);

/* Adds up strips, and rounds to what is sold. requires: strips. */
void plan_amounts(struct cutter *cutter, struct fabric_plan *plan);
/* Backing and batting; the direction of panels that takes less where they are
 * bought apart. */
void plan_backing(struct cutter *cutter);
/* Is an amount of this cloth stated that a plan is needed for? */
bool asks_amount(const struct fabric_plan *plan);
/* reports: amounts of this cloth stated in the source that are others than
 * planned. */
void check_amounts(struct cutter *cutter, size_t fabric, size_t quilt_number,
                   size_t quilt_count);

/* The next amount that is sold. */
struct rational sold_length(const struct cutter *cutter,
                            struct rational length);

/* The fewest strips of `strip_length` that give `length`, where each join of
 * two takes `loss`. */
size_t strips_needed(struct rational length, struct rational strip_length,
                     struct rational loss);

/* ---- shapes.c ---- */

/* Adds a cut heap with slanted edges to the strips of its height. ensures: their
 * item, which holds until the next is added. */
struct cut_item *add_shape(struct cutter *cutter, const struct heap *heap);
/* Cuts all shapes that were added from as many strips as they take. */
void fill_shapes(struct cutter *cutter);

#endif
