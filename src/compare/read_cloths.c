/* What is bought for a quilt in each colorway, how it is cut, and on which page
 * of its booklet that is told. */
#include <stdlib.h>
#include <string.h>

#include "reader.h"

/* Yardage has a length that differences can be told of; sheets are counted. */
static void read_cloth(struct reader *reader, const json_t *from,
                       struct revision_colorway *colorway)
{
    /* Labels follow from sizes; two plans are one where the same sizes lie in
     * the same strips. */
    static const char *const labels[] = {"label", NULL};
    const struct revision_cloth cloth = {
        .fabric = data_fabric(reader, from, "fabric"),
        .name = data_text(reader, from, "name"),
        .code = data_text(reader, from, "code"),
        .color = data_text(reader, from, "color"),
        .price = data_text(reader, from, "price"),
        .sold = data_text(reader, from, "sold"),
        .amount = data_text(reader, from, "amount"),
        .bought = data_length(reader, from, "bought"),
        .sheets = data_count(reader, from, "count"),
        .width = data_length(reader, from, "width"),
        .plan = arena_printf(
            reader->arena, "%s%s",
            data_all(reader, json_object_get(from, "strips"), labels),
            data_all(reader, json_object_get(from, "sheets"), labels))};
    *LIST_ADD(reader->arena, &colorway->cloths) = cloth;
}

/* A layer that the source does not ask for is not in the data at all. */
static void read_layers(struct reader *reader, const json_t *from,
                        struct revision_colorway *colorway)
{
    const json_t *backing = json_object_get(from, "backing");
    const json_t *batting = json_object_get(from, "batting");
    struct revision_layer *under = &colorway->backing;
    struct revision_layer *between = &colorway->batting;
    under->wanted = backing != NULL;
    under->amount = data_text(reader, backing, "amount");
    data_size(reader, backing, "size", &under->width, &under->height);
    /* Older data do not say of which cloth. */
    under->fabric = json_object_get(backing, "fabric") != NULL
                        ? data_fabric(reader, backing, "fabric")
                        : NOWHERE;
    between->wanted = batting != NULL;
    between->fabric = NOWHERE;
    between->amount = "";
    data_size(reader, from, "batting", &between->width, &between->height);
    between->gap = data_length(reader, from, "battingGap");
}

/* One of `cloths` or `steps`: labels of pages are texts, as they are printed. */
static void read_pages_of(struct reader *reader, const json_t *pages,
                          const char *key, bool cloths,
                          struct revision_colorway *colorway)
{
    const json_t *list = data_list(reader, pages, key);
    for (size_t i = 0; i < json_array_size(list); i++) {
        const json_t *from = json_array_get(list, i);
        *LIST_ADD(reader->arena, &colorway->pages) = (struct revision_page){
            cloths ? data_fabric(reader, from, "fabric") : NOWHERE,
            cloths ? 0 : data_count(reader, from, "number"),
            data_text(reader, from, "page")};
    }
}

static void read_pages(struct reader *reader, const json_t *pages,
                       struct revision_colorway *colorway)
{
    read_pages_of(reader, pages, "cloths", true, colorway);
    read_pages_of(reader, pages, "steps", false, colorway);
    colorway->layers_page = data_text(reader, pages, "layers");
}

/* In their order, in which a renamed one is found again. */
void read_colorways(struct reader *reader, const json_t *colorways,
                    struct revision_quilt *quilt)
{
    struct name_table ids = {0};
    for (size_t i = 0;
         i < json_array_size(colorways) && reader->problem == NULL; i++) {
        const json_t *from = json_array_get(colorways, i);
        struct revision_colorway colorway = {
            .id = data_needed(reader, from, "id"),
            .name = data_text(reader, from, "name")};
        note_id(reader, &ids, "colorway", colorway.id, i);
        const json_t *cloths = data_list(reader, from, "cloths");
        for (size_t k = 0; k < json_array_size(cloths); k++)
            read_cloth(reader, json_array_get(cloths, k), &colorway);
        read_layers(reader, from, &colorway);
        read_pages(reader, json_object_get(from, "pages"), &colorway);
        *LIST_ADD(reader->arena, &quilt->colorways) = colorway;
    }
}

/* All colorways of a quilt have the same steps, and mostly on the same pages;
 * the first booklet that tells it stands for them. `fabric` is NOWHERE for a
 * step. */
static const char *page_of(const struct revision_quilt *quilt, int fabric,
                           size_t step)
{
    for (size_t c = 0; c < quilt->colorways.count; c++)
        for (size_t i = 0; i < quilt->colorways.items[c].pages.count; i++) {
            const struct revision_page *page =
                &quilt->colorways.items[c].pages.items[i];
            if (page->fabric == fabric && page->step == step)
                return page->page;
        }
    return NULL;
}

const char *page_of_step(const struct revision_quilt *quilt, size_t number)
{
    return page_of(quilt, NOWHERE, number);
}

/* The page on which the cutting of the cloth begins; its pieces are there. */
const char *page_of_cloth(const struct revision_quilt *quilt, int fabric)
{
    return fabric == NOWHERE ? NULL : page_of(quilt, fabric, 0);
}

/* Backing and batting are told together, near the end. */
const char *page_of_layers(const struct revision_quilt *quilt)
{
    for (size_t c = 0; c < quilt->colorways.count; c++)
        if (quilt->colorways.items[c].layers_page[0] != '\0')
            return quilt->colorways.items[c].layers_page;
    return NULL;
}
