/* For tests and benches: problems of cutting lengths from rolls, read from a
 * text of this shape, with the values that are known of them:
 *
 *     instance NAME
 *     rolls N | keep K | bought B | lost W | opened O | used U | infeasible
 *     stock LENGTH COUNT [buy]     COUNT * = without limit; buy: costs 1
 *     piece LENGTH COUNT
 *     end
 *
 * `rolls`: the fewest of one length. Other words are passed over. */
#ifndef SEAMWRIGHT_TESTS_BOLTS_INSTANCES_H
#define SEAMWRIGHT_TESTS_BOLTS_INSTANCES_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bolts.h"

enum { INSTANCE_MOST = 1000 };

/* A problem with what is known of it. */
struct bolts_instance {
    char name[64];
    struct bolt_cut cuts[INSTANCE_MOST];
    struct bolt_roll rolls[INSTANCE_MOST];
    struct bolts_problem problem;
    long fewest, bought, lost, opened; /* -1: not known */
    bool infeasible;
};

/* What is bought has one price here, as only the number of rolls is known. */
static void instance_stock(struct bolts_instance *instance, const char *line)
{
    char count[32] = "", buy[8] = "";
    long length = 0;
    sscanf(line, "stock %ld %31s %7s", &length, count, buy);
    instance->rolls[instance->problem.roll_count++] = (struct bolt_roll){
        .length = length,
        .count = strcmp(count, "*") == 0 ? BOLT_WITHOUT_LIMIT
                                         : strtoull(count, NULL, 10),
        .cost = strcmp(buy, "buy") == 0};
}

/* A line that is not understood changes nothing. */
static void instance_line(struct bolts_instance *instance, const char *line)
{
    long number = 0, count = 0;
    if (strncmp(line, "stock ", 6) == 0)
        instance_stock(instance, line);
    if (sscanf(line, "piece %ld %ld", &number, &count) == 2)
        instance->cuts[instance->problem.cut_count++] =
            (struct bolt_cut){number, (size_t)count};
    if (sscanf(line, "keep %ld", &number) == 1)
        instance->problem.keep = number;
    sscanf(line, "rolls %ld", &instance->fewest);
    sscanf(line, "bought %ld", &instance->bought);
    sscanf(line, "lost %ld", &instance->lost);
    sscanf(line, "opened %ld", &instance->opened);
    instance->infeasible |= strncmp(line, "infeasible", 10) == 0;
}

/* Reads the next one. False at the end of the text. */
static bool instance_read(FILE *file, struct bolts_instance *instance)
{
    char line[256];
    memset(instance, 0, sizeof *instance);
    instance->fewest = instance->bought = -1;
    instance->lost = instance->opened = -1;
    while (fgets(line, sizeof line, file) != NULL) {
        if (sscanf(line, "instance %63s", instance->name) == 1)
            continue;
        if (strncmp(line, "end", 3) == 0) {
            instance->problem.cuts = instance->cuts;
            instance->problem.rolls = instance->rolls;
            return true;
        }
        instance_line(instance, line);
    }
    return false;
}

#endif
