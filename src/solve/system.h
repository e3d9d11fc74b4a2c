/* A system of sums: variables that are equal to each other, facts that were
 * written, and totals that are sums of parts. Solved by taking every sum that
 * lacks one part, as a person does. */
#ifndef SEAMWRIGHT_SYSTEM_H
#define SEAMWRIGHT_SYSTEM_H

#include "sized.h"

typedef size_t variable;

/* Two lengths, as the piece lies. */
struct real_size {
    struct rational width, height;
};

enum { NOT_FROM_SUM = -1 };

/* A written value of a variable. */
struct fact {
    variable of;
    struct rational value;
    struct span span;
    const char *what; /* "`patch`" */
    bool soft; /* a statement: fixes a size only where nothing else does */
    bool wish; /* a soft one that fixes it only where no other does */
};

/* One part of a sum; a half-square or a patch mostly counts once, a join of
 * diagonal strips less than once, hence the factor. */
struct term {
    variable of;
    struct rational factor;
    const struct element *element; /* whose size it is */
};

/* total = sum of terms: factor * variable, each of a piece that stands in it;
 * `constant` is added to the total. */
struct sum {
    variable total;
    LIST(struct term) terms;
    struct rational constant;
    const struct element *element;
    const char *dimension; /* "wide" or "high" */
    bool done;             /* used, found true, or reported */
    bool reported;
};

/* SILENT is poison: not known, and already told why. Whatever it touches
 * becomes silent too, so that one cause makes one message. */
enum variable_state { VARIABLE_OPEN, VARIABLE_KNOWN, VARIABLE_SILENT };

struct system {
    struct run *run; /* where sums are reported */
    const struct design *design;
    bool *sound;                /* by definition index */
    struct own_sizes *own;      /* of definitions (solver.h) */
    bool *misfit;               /* as in struct sized */
    variable *parent;           /* of equal ones */
    enum variable_state *state; /* of a class, at its root */
    struct rational *value;     /* of a class, at its root */
    long *first_fact;           /* of a class, or -1 */
    long *from_sum; /* the sum that gave the value, or NOT_FROM_SUM */
    LIST(struct fact) facts;
    LIST(struct sum) sums;
};

/* ensures: so many variables, each of a class of its own, open. What is
 * reported later is kept in `sound`, which is by definition index. */
void system_init(struct system *system, struct run *run,
                 const struct design *design, bool *sound, size_t variables);
/* No facts and no sums any more; variables stay what they are. */
void system_empty(struct system *system);
/* ensures: the variable that speaks for all equal ones. */
variable system_root(struct system *system, variable v);
/* Both are one from now on. requires: no facts taken yet. */
void system_equal(struct system *system, variable a, variable b);
/* A written value; `what` names its bearer in messages. */
void system_fact(struct system *system, variable v, struct rational value,
                 struct span span, const char *what);
/* A statement of a real size. It is used where the size is open, in the order
 * of statements; whether it holds elsewhere is checked by others. */
void system_soft_fact(struct system *system, variable v, struct rational value,
                      struct span span, const char *what);
/* What is wished: used where no statement fixes the size, either. */
void system_wish(struct system *system, variable v, struct rational value,
                 struct span span, const char *what);
/* The value cannot be known, and that was reported elsewhere. */
void system_silence(struct system *system, variable v);
/* ensures: an empty sum, which system_term fills before the next is made.
 * `dimension` is "wide" or "high", for messages. */
struct sum *system_sum(struct system *system, variable total,
                       const struct element *element, const char *dimension);
void system_term(struct system *system, struct sum *sum, variable v,
                 struct rational factor, const struct element *element);

/* Solves what can be solved. reports: contradictions. */
void system_settle(struct system *system);
/* As system_settle. reports: sums with several unknown parts, too. */
void system_solve(struct system *system);

/* ensures: the value, or unknown. */
struct rational system_value(struct system *system, variable v);
bool system_silent(struct system *system, variable v);

/* reports: a sum whose parts make `found` where another total is asked for,
 * once a slip, with a mend where only one written part can be meant. */
void report_sum(struct system *system, struct sum *sum, struct rational found);
/* A note at the `equal` that makes one length of several, of which `v` is one;
 * none where no `equal` does. */
void note_equal(struct system *system, struct diagnostic *d, variable v);
/* reports: a sum with two or more unknown parts. */
void report_open_sum(struct system *system, struct sum *sum);
/* reports: a sum that is unknown, as a part of it would pass 1,024 bits. */
void report_fine_sum(struct system *system, const struct sum *sum);
/* A length in messages: plain number, in the pattern's way of writing. It may
 * be grid squares, so no unit is added. */
/* "1 1/2 + 1 + 4 = 6 1/2", what is open as ?. */
const char *sum_text(struct system *system, const struct sum *sum,
                     struct rational found);
char *local_length(struct system *system, struct rational value);
/* The same as a mend writes it into the source. */
char *local_written(struct system *system, struct rational value);
/* A note with the sum and the lines of its terms. */
void note_sum(struct system *system, struct diagnostic *d,
              const struct sum *sum, struct rational found);

#endif
