/* From the source of an order to planned kits. */
#ifndef SEAMWRIGHT_KITTING_H
#define SEAMWRIGHT_KITTING_H

#include "driver.h"
#include "files.h"
#include "kits.h"

/* Facts of patterns that were compiled before, and of those that are now. One
 * file keeps them beside the output. */
struct kept_facts;

/* ensures: what that folder keeps; nothing where it is damaged, of another
 * version, or not there. */
struct kept_facts *kept_facts_open(struct arena *arena, const char *folder);
/* The facts of a pattern, where neither it nor what it includes has changed.
 * `name`: as the order writes it. `path`: from where the program runs. ensures:
 * NULL for none. */
const struct kit_facts_list *
kept_facts_find(struct kept_facts *kept, const char *name, const char *path);
/* Keeps facts. `source`: of the pattern and all that it includes. */
void kept_facts_add(struct kept_facts *kept, const char *name,
                    const struct source *source,
                    const struct kit_facts_list *facts);
/* ensures: the bytes of the file, and its name. */
const char *kept_facts_bytes(const struct kept_facts *kept);
#define KEPT_FACTS_NAME "facts.kept"

/* Reads and plans the order that is the source of the run. `kept`: NULL for
 * none. ensures: proved kits; NULL where there were errors. reports: all that
 * is wrong with it, and patterns that do not check. */
const struct kits *plan_order(struct run *run, struct kept_facts *kept);

/* What is written of an order. */
struct kit_files {
    LIST(struct output_file) items;
};
/* Adds a PDF of each paper. ensures: STATUS_CLEAN, or that of a page that cannot
 * be drawn, which is told. */
int add_kit_papers(struct arena *arena, struct kit_files *files,
                   const struct kits *kits, const char *language, bool a4);

#endif
