/* owner: tell
 *
 * What the papers of an order say. Some stay with the owner, as costs and
 * margins stand on them: purchase and costs. The others may be handed on. As
 * all contents (content.h) they are values; a wording of theirs has no design
 * and no quilt, as an order has many.
 */
#ifndef SEAMWRIGHT_KIT_PAPERS_H
#define SEAMWRIGHT_KIT_PAPERS_H

#include "content.h"

/* In the order of the work. */
enum kit_paper {
    KIT_PAPER_PURCHASE,
    KIT_PAPER_COSTS,
    KIT_PAPER_PICKING,
    KIT_PAPER_CUTTING,
    KIT_PAPER_COUNT,
    KIT_PAPER_SLIPS,
    KIT_PAPER_LABELS_TEST, /* on plain paper, to be laid over a sheet */
    KIT_PAPER_LABELS,
    KIT_PAPER_CARDS,
    KIT_PAPERS
};
/* ensures: the name of its file, without its ending: "purchase". */
const char *kit_paper_file(enum kit_paper paper);
/* ensures: its title. */
const char *kit_paper_title(const struct wording *w, enum kit_paper paper);
/* ensures: which order a paper is of: "Harvest fair kits, 2026-11-30". */
const char *kit_order_name(const struct wording *w, const struct kits *kits);

/* ensures: the same with what it holds: "...: 34 kits in 4 lines." */
const char *kit_order_lead(const struct wording *w, const struct kits *kits);
/* ensures: "3: Lantern Walk, Throw in Dusk", for bookmarks. */
const char *kit_line_title(const struct wording *w, const struct kits *kits,
                           size_t line);

/* What is bought, by supplier code, and why not less. */
struct contents tell_kit_purchase(const struct wording *w,
                                  const struct kits *kits);
/* What kits of each line cost and leave. */
struct contents tell_kit_costs(const struct wording *w,
                               const struct kits *kits);
/* What is fetched, by shelf code. */
struct contents tell_kit_picking(const struct wording *w,
                                 const struct kits *kits);
/* How rolls are cut, and strips in layers. */
struct contents tell_kit_cutting(const struct wording *w,
                                 const struct kits *kits);
/* How each kit is counted, or weighed where a scale can tell. */
struct contents tell_kit_count(const struct wording *w,
                               const struct kits *kits);
/* What lies in a kit of one line; told to who opens it. */
struct contents tell_kit_slip(const struct wording *w, const struct kits *kits,
                              size_t line);
/* For the shelf of the shop: a figure, sizes, contents, a price. */
struct contents tell_kit_card(const struct wording *w, const struct kits *kits,
                              size_t line);
/* How a sheet of labels is tried. requires: labels. */
struct contents tell_kit_labels_test(const struct wording *w,
                                     const struct kits *kits);

/* A label of a bag. */
struct told_label {
    size_t line;       /* index */
    const char *title; /* of the pattern */
    const char *quilt; /* and colorway */
    const char *bag;   /* which of how many; what lies in a lettered one */
    LIST(struct told_swatch) swatches;
};
struct told_labels {
    LIST(struct told_label) items;
};
/* ensures: one for each kit; of kits that are cut also one for each bag of
 * pieces, behind that of its kit. */
struct told_labels tell_kit_labels(const struct wording *w,
                                   const struct kits *kits);

#endif
