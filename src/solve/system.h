/* A system of sums: variables that are equal to each other, facts that were
 * written, and totals that are sums of parts. Solved by taking every sum that
 * lacks one part, as a person does. */
#ifndef SEAMWRIGHT_SYSTEM_H
#define SEAMWRIGHT_SYSTEM_H

#include "sized.h"

typedef size_t variable;

enum { NOT_FROM_SUM = -1 };

/* A written value of a variable. */
struct fact {
    variable of;
    struct rational value;
    struct span span;
    const char *what; /* "`patch`" */
    bool soft; /* a statement: fixes a size only where nothing else does */
};

struct term {
    variable of;
    struct rational factor;
    const struct element *element; /* whose size it is */
};

/* total = sum of terms - overlap */
struct sum {
    variable total;
    LIST(struct term) terms;
    struct rational constant;
    const struct element *element;
    const char *dimension; /* "wide" or "high" */
    bool done;             /* used, found true, or reported */
    bool reported;
};

enum variable_state { VARIABLE_OPEN, VARIABLE_KNOWN, VARIABLE_SILENT };

struct system {
    struct run *run;
    const struct design *design;
    size_t count;
    variable *parent; /* of equal ones */
    enum variable_state *state;
    struct rational *value;
    long *first_fact; /* of a class, or -1 */
    long *from_sum;   /* the sum that gave the value, or NOT_FROM_SUM */
    LIST(struct fact) facts;
    LIST(struct sum) sums;
    size_t capacity;
};

void system_init(struct system *system, struct run *run,
                 const struct design *design, size_t variables);
variable system_fresh(struct system *system);
variable system_root(struct system *system, variable v);
void system_equal(struct system *system, variable a, variable b);
void system_fact(struct system *system, variable v, struct rational value,
                 struct span span, const char *what);
/* A statement of a real size. It is used where the size is open, in the order
 * of statements; whether it holds elsewhere is checked by others. */
void system_soft_fact(struct system *system, variable v, struct rational value,
                      struct span span, const char *what);
/* The value cannot be known, and that was reported elsewhere. */
void system_silence(struct system *system, variable v);
struct sum *system_sum(struct system *system, variable total,
                       const struct element *element, const char *dimension);
void system_term(struct system *system, struct sum *sum, variable v,
                 struct rational factor, const struct element *element);

/* Solves, and reports contradictions and sums with several unknown parts. */
void system_solve(struct system *system);

/* ensures: the value, or unknown. */
struct rational system_value(struct system *system, variable v);
bool system_silent(struct system *system, variable v);

void report_sum(struct system *system, struct sum *sum, struct rational found);
void report_open_sum(struct system *system, struct sum *sum);
/* Fractions whose common denominator does not fit 64 bits. */
void report_fine_sum(struct system *system, const struct sum *sum);
char *local_length(struct system *system, struct rational value);

#endif
