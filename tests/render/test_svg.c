/* Figures as SVG, read back by an XML parser: well formed, each text a text,
 * each path where the display list has it, no id in two files. */
#include <libxml/parser.h>
#include <libxml/tree.h>

#include "figures.h"

/* The nodes of one file that matter, in their order. */
struct reading {
    struct arena *arena;
    xmlDoc *document;
    LIST(xmlNode *) paths;
    LIST(xmlNode *) texts;
    LIST(const char *) ids;
    LIST(const char *) uses; /* what url(#...) and aria-labelledby name */
};

static const char *attribute(const struct reading *r, xmlNode *node,
                             const char *name)
{
    xmlChar *value = xmlGetProp(node, (const xmlChar *)name);
    if (value == NULL)
        return "";
    const char *copy =
        arena_copy(r->arena, (const char *)value, strlen((char *)value));
    xmlFree(value);
    return copy;
}

static void note_names(struct reading *r, xmlNode *node)
{
    const char *id = attribute(r, node, "id");
    if (id[0] != '\0')
        *LIST_ADD(r->arena, &r->ids) = id;
    const char *fill = attribute(r, node, "fill");
    if (strncmp(fill, "url(#", 5) == 0)
        *LIST_ADD(r->arena, &r->uses) =
            arena_copy(r->arena, fill + 5, strlen(fill) - 6);
    char *labels =
        arena_printf(r->arena, "%s", attribute(r, node, "aria-labelledby"));
    for (char *word = strtok(labels, " "); word != NULL;
         word = strtok(NULL, " "))
        *LIST_ADD(r->arena, &r->uses) = word;
}

static void walk(struct reading *r, xmlNode *node)
{
    for (; node != NULL; node = node->next) {
        if (node->type != XML_ELEMENT_NODE)
            continue;
        note_names(r, node);
        if (strcmp((const char *)node->name, "path") == 0)
            *LIST_ADD(r->arena, &r->paths) = node;
        if (strcmp((const char *)node->name, "text") == 0)
            *LIST_ADD(r->arena, &r->texts) = node;
        walk(r, node->children);
    }
}

static struct rendered svg_of(const struct fixture *fixture,
                              const struct named_figure *named)
{
    const struct figure_words words = {named->name, named->title};
    const struct rendered svg =
        render_svg(fixture->arena, fixture->typeset, named->book, &words);
    assert_null(svg.problem);
    return svg;
}

/* requires: xmlFreeDoc at the end. */
static struct reading read_svg(const struct fixture *fixture,
                               const struct named_figure *named)
{
    const struct rendered svg = svg_of(fixture, named);
    struct reading r = {.arena = fixture->arena};
    r.document = xmlReadMemory(svg.bytes, (int)svg.length, "figure.svg", NULL,
                               XML_PARSE_NONET);
    if (r.document == NULL)
        fail_msg("%s is not well formed", named->name);
    walk(&r, xmlDocGetRootElement(r.document));
    return r;
}

/* ---- the head ---- */

static void look_at_head(const struct fixture *fixture,
                         const struct named_figure *named)
{
    struct reading r = read_svg(fixture, named);
    xmlNode *root = xmlDocGetRootElement(r.document);
    assert_string_equal((const char *)root->name, "svg");
    assert_string_equal((const char *)root->ns->href,
                        "http://www.w3.org/2000/svg");
    double width, height, box[4];
    assert_int_equal(sscanf(attribute(&r, root, "width"), "%lfmm", &width), 1);
    assert_int_equal(sscanf(attribute(&r, root, "height"), "%lfmm", &height),
                     1);
    assert_int_equal(sscanf(attribute(&r, root, "viewBox"), "%lf %lf %lf %lf",
                            &box[0], &box[1], &box[2], &box[3]),
                     4);
    assert_near(width, named->book->width / 72 * 25.4, 0.001);
    assert_near(height, named->book->height / 72 * 25.4, 0.001);
    assert_near(box[2], named->book->width, 0.001);
    assert_near(box[3], named->book->height, 0.001);
    xmlNode *title = xmlFirstElementChild(root);
    assert_string_equal((const char *)title->name, "title");
    xmlChar *words = xmlNodeGetContent(title);
    assert_string_equal((const char *)words, named->title);
    xmlFree(words);
    xmlFreeDoc(r.document);
}

static void test_heads(void **state)
{
    visit_figures(state, look_at_head);
}

/* ---- words ---- */

/* Breaks of lines are places, not characters, in an SVG. */
static const char *without_breaks(struct arena *arena, const char *text)
{
    struct buffer out = buffer_in(arena);
    for (; *text != '\0'; text++)
        if (*text != '\n')
            buffer_char(&out, *text);
    return buffer_string(&out);
}

static void look_at_texts(const struct fixture *fixture,
                          const struct named_figure *named)
{
    struct reading r = read_svg(fixture, named);
    const struct page *page = named->book->pages.items[0];
    size_t next = 0;
    for (size_t i = 0; i < page->items.count; i++) {
        if (page->items.items[i].kind != ITEM_TEXT)
            continue;
        assert_true(next < r.texts.count);
        const struct text_item *text = &page->items.items[i].as.text;
        xmlChar *words = xmlNodeGetContent(r.texts.items[next]);
        assert_string_equal((const char *)words,
                            without_breaks(fixture->arena, text->text));
        xmlFree(words);
        double size;
        assert_int_equal(sscanf(attribute(&r, r.texts.items[next], "font-size"),
                                "%lf", &size),
                         1);
        assert_near(size, text->style.size, 0.001);
        next++;
    }
    assert_int_equal(next, r.texts.count);
    xmlFreeDoc(r.document);
}

static void test_each_text_is_text(void **state)
{
    visit_figures(state, look_at_texts);
}

/* ---- paths ---- */

static void assert_same_points(const char *d, const struct path_item *path)
{
    const char *at = d;
    for (size_t i = 0; i < path->count; i++) {
        double x, y;
        int end = 0;
        assert_int_equal(*at, i == 0 ? 'M' : 'L');
        assert_int_equal(sscanf(at + 1, "%lf %lf%n", &x, &y, &end), 2);
        assert_near(x, path->points[i].x, 0.00051);
        assert_near(y, path->points[i].y, 0.00051);
        at += 1 + end;
    }
    assert_string_equal(at, path->closed ? "Z" : "");
}

static bool is_drawn(const struct item *item)
{
    return item->kind == ITEM_PATH && item->as.path.count > 0 &&
           (item->as.path.filled || item->as.path.hatch != NULL ||
            item->as.path.stroke > 0);
}

/* A path with fill and hatch stands twice, the fill first. */
static void look_at_paths(const struct fixture *fixture,
                          const struct named_figure *named)
{
    struct reading r = read_svg(fixture, named);
    const struct page *page = named->book->pages.items[0];
    size_t next = 0;
    for (size_t i = 0; i < page->items.count; i++) {
        if (!is_drawn(&page->items.items[i]))
            continue;
        const struct path_item *path = &page->items.items[i].as.path;
        const bool hatched = path->hatch != NULL;
        for (int k = path->filled || !hatched ? 0 : 1; k < 1 + hatched; k++) {
            assert_true(next < r.paths.count);
            xmlNode *node = r.paths.items[next++];
            assert_same_points(attribute(&r, node, "d"), path);
            const char *fill = attribute(&r, node, "fill");
            if (k == 0)
                assert_int_equal(strcmp(fill, "none") != 0, path->filled);
            else
                assert_int_equal(strncmp(fill, "url(#", 5), 0);
            if (path->role == ROLE_WASTE)
                assert_non_null(strstr(attribute(&r, node, "class"), "waste"));
        }
    }
    assert_int_equal(next, r.paths.count);
    xmlFreeDoc(r.document);
}

static void test_paths_lie_where_they_should(void **state)
{
    visit_figures(state, look_at_paths);
}

/* ---- names ---- */

static bool holds(const char *const *names, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(names[i], name) == 0)
            return true;
    return false;
}

/* All figures of a booklet in one page of a browser. */
static void test_ids_never_meet(void **state)
{
    const struct fixture *fixture = *state;
    const struct sample sample = any_sample(fixture->arena, 0);
    const struct figures figures =
        compose_figures(fixture->arena, fixture->typeset, phrases_load(fixture->arena, "en"), sample.design,
                        &sample.plans->items.items[0], false);
    LIST(const char *) all = {0};
    size_t used = 0;
    for (size_t i = 0; i < figures.items.count; i++) {
        const struct named_figure *named = &figures.items.items[i];
        struct reading r = read_svg(fixture, named);
        for (size_t k = 0; k < r.ids.count; k++) {
            assert_false(holds(all.items, all.count, r.ids.items[k]));
            assert_int_equal(
                strncmp(r.ids.items[k], named->name, strlen(named->name)), 0);
            *LIST_ADD(fixture->arena, &all) = r.ids.items[k];
        }
        for (size_t k = 0; k < r.uses.count; k++)
            assert_true(holds(r.ids.items, r.ids.count, r.uses.items[k]));
        used += r.uses.count;
        xmlFreeDoc(r.document);
    }
    /* Title and description of each, and hatches besides. */
    assert_true(used > 3 * figures.items.count);
}

static void test_same_bytes_again(void **state)
{
    const struct fixture *fixture = *state;
    const struct named_figure named = {"x", "X", hostile_page(fixture->arena)};
    const struct rendered one = svg_of(fixture, &named);
    const struct rendered two = svg_of(fixture, &named);
    assert_int_equal(one.length, two.length);
    assert_memory_equal(one.bytes, two.bytes, one.length);
    /* No look of its own for the page that holds it, nothing from outside. */
    assert_null(strstr(one.bytes, "<style"));
    assert_null(strstr(one.bytes, "href"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(test_heads),
        CASE(test_each_text_is_text),
        CASE(test_paths_lie_where_they_should),
        CASE(test_ids_never_meet),
        CASE(test_same_bytes_again),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    xmlCleanupParser();
    return failed;
}
