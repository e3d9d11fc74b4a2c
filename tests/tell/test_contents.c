/* What sections say, as values: of a small quilt whose words are told here once
 * more, by hand, and of the samples. */
#include "content.h"

#include "../book/sample.h"

/* Two colorways, two sizes; one block, a border, all that finishing takes. */
static const char slip[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"slip\" title=\"Slip\" "
    "units=\"in\" seam=\"1/4\"><about designer=\"Weir Workroom\" "
    "revision=\"2\" skill=\"beginner\"><summary>Four boats.</summary></about>"
    "<fabrics><fabric id=\"kelp\" name=\"Kelp\"/>"
    "<fabric id=\"sand\" name=\"Sand\"/></fabrics>"
    "<colorway id=\"ebb\" name=\"Ebb\">"
    "<cloth fabric=\"kelp\" name=\"Moss\" code=\"M-7\" color=\"#224433\"/>"
    "<cloth fabric=\"sand\" name=\"Dune\" color=\"#ccbb88\"/></colorway>"
    "<colorway id=\"flood\" name=\"Flood\">"
    "<cloth fabric=\"kelp\" name=\"Slate\" color=\"#334455\" width=\"30\"/>"
    "<cloth fabric=\"sand\" name=\"Chalk\" color=\"#f4f4f0\"/></colorway>"
    "<block id=\"boat\" name=\"Boat\"><row><patch fabric=\"kelp\" width=\"3\" "
    "height=\"6\"><corner at=\"top-left\" fabric=\"sand\" size=\"2\"/></patch>"
    "<patch fabric=\"sand\" width=\"3\"/></row></block>"
    "<quilt id=\"mat\" name=\"Mat\"><grid across=\"2\" down=\"2\">"
    "<use block=\"boat\"/></grid><border fabric=\"sand\" width=\"2\"/>"
    "<backing fabric=\"kelp\"/><batting/><binding fabric=\"kelp\"/></quilt>"
    "<quilt id=\"rug\" name=\"Rug\"><grid across=\"4\" down=\"4\">"
    "<use block=\"boat\"/></grid></quilt></pattern>";

/* The first quilt in the first colorway. */
struct told {
    struct wording w;
    const struct cutplan *plan;
};

static struct told told_of(struct arena *arena, const struct sample *sample,
                           size_t index)
{
    const struct cutplan *plan = &sample->plans->items.items[index];
    return (struct told){
        {arena, sample->design, plan->quilt, false, phrases_load(arena, "en")},
        plan};
}

/* ---- a line of text for contents, so that a list of them can be compared ----
 */

static const char *line_of(struct arena *arena, const struct content *content)
{
    switch (content->kind) {
    case CONTENT_HEADING:
        return arena_printf(arena, "h%d %s", content->as.heading.level,
                            content->as.heading.title);
    case CONTENT_PARAGRAPH:
        return "p";
    case CONTENT_LIST:
        return arena_printf(arena, "list %zu", content->as.list.items.count);
    case CONTENT_TABLE:
        return arena_printf(arena, "table %zu x %zu",
                            content->as.table.columns.count,
                            content->as.table.rows.count);
    case CONTENT_FIGURE:
        return arena_printf(arena, "figure %s", content->as.figure.caption);
    case CONTENT_CLOTH:
        return arena_printf(
            arena, "cloth %s: %zu lines, %zu warnings", content->as.cloth.name,
            content->as.cloth.lines.count, content->as.cloth.warnings.count);
    case CONTENT_WORK:
        return arena_printf(arena, "step %zu %s: %zu parts, %zu frames",
                            content->as.work.number, content->as.work.title,
                            content->as.work.parts.count,
                            content->as.work.frames.count);
    case CONTENT_SECTIONS:
        return "sections";
    }
    return "";
}

static const char *lines_of(struct arena *arena, const struct contents *all)
{
    const char *text = "";
    for (size_t i = 0; i < all->items.count; i++)
        text = arena_printf(arena, "%s%s\n", text,
                            line_of(arena, &all->items.items[i]));
    return text;
}

/* Cells are parted by bars, what stands below a text by commas; an asterisk
 * stands for a swatch. */
static const char *row_of(struct arena *arena, const struct told_row *row)
{
    const char *text = "";
    for (size_t i = 0; i < row->cells.count; i++) {
        const struct told_cell *cell = &row->cells.items[i];
        text = arena_printf(arena, "%s%s%s%s", text, i == 0 ? "" : " | ",
                            cell->colorway == NULL ? "" : "*", cell->text.text);
        for (size_t k = 0; k < cell->others.count; k++)
            text = arena_printf(arena, "%s, %s", text, cell->others.items[k]);
    }
    return text;
}

static const struct told_table *materials_of(const struct contents *contents)
{
    return &content_of(contents, PART_MATERIALS, CONTENT_TABLE)->as.table;
}

/* ---- sections ---- */

static void test_glance_is_read_in_order(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_glance(&told.w, told.plan);
    assert_string_equal(lines_of(*state, &all),
                        "h1 At a glance\n"
                        "figure The block, Boat: 6 x 6 in finished\n"
                        "figure Mat, 16 x 16 in finished\n"
                        "figure The steps: what each makes, and how many\n"
                        "h2 Materials\n"
                        "table 3 x 4\n"
                        "p\n"
                        "h2 Tools\n"
                        "list 3\n"
                        "h2 Words\n"
                        "p\n"
                        "h2 Safety\n"
                        "list 5\n");
}

static void test_border_is_named_in_its_figure(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_glance(&told.w, told.plan);
    const struct told_figure *quilt = &all.items.items[2].as.figure;
    assert_int_equal(quilt->drawing, DRAWING_BORDERS);
    assert_int_equal(quilt->labels.count, 1);
    assert_string_equal(quilt->labels.items[0], "Border 1, Dune, 2 in");
    const struct told_figure *boat = &all.items.items[1].as.figure;
    assert_int_equal(boat->drawing, DRAWING_BLOCK);
    assert_string_equal(told.w.quilt->heaps.items[boat->heap].named->id,
                        "boat");
    /* The quilt has a figure of its own, so the way names no border. */
    assert_int_equal(all.items.items[3].as.figure.labels.count, 0);
}

/* What is cut of each cloth: a strip of 3 1/2 and two of binding, 8 1/2 in with
 * what is squared up under 3/8 yd; a strip of 3 1/2, which has room for the
 * corners, and two of the border. Backing is 4 in more on each side: one panel.
 */
static void test_cells_of_materials(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_glance(&told.w, told.plan);
    const struct told_table *table = materials_of(&all);
    assert_int_equal(table->columns.items[0].kind, COLUMN_CLOTH);
    assert_int_equal(table->columns.items[2].kind, COLUMN_AMOUNT);
    assert_string_equal(row_of(*state, &table->rows.items[0]),
                        "*Moss, M-7 | Kelp: blocks and binding | 3/8 yd");
    assert_string_equal(row_of(*state, &table->rows.items[1]),
                        "*Dune | Sand: blocks and border 1 | 3/8 yd");
    assert_string_equal(row_of(*state, &table->rows.items[2]),
                        "*Moss, M-7 | Backing, 24 x 24 in | 3/4 yd");
    assert_null(table->rows.items[3].cells.items[0].colorway);
}

/* The second colorway's cloth is narrower, which one of the sizes needs more
 * of. */
static void test_back_tells_colorways_that_differ(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_back(&told.w, told.plan);
    const struct told_table *table = materials_of(&all);
    assert_int_equal(table->columns.count, 1 + 2 + 2);
    assert_string_equal(table->columns.items[2].head, "Flood");
    assert_string_equal(table->columns.items[4].head, "Rug");
    for (size_t i = 0; i < table->rows.count; i++) {
        const struct told_row *row = &table->rows.items[i];
        size_t columns = 0;
        for (size_t k = 0; k < row->cells.count; k++)
            columns += 1 + row->cells.items[k].more;
        assert_int_equal(columns, table->columns.count);
        for (size_t q = 0; i < 2 && q < 2; q++) {
            const struct told_cell *cell =
                &row->cells.items[row->cells.count - 2 + q];
            const char *ebb = word_amount(
                &told.w, &sample.plans->items.items[2 * q].fabrics[i]);
            const char *flood = word_amount(
                &told.w, &sample.plans->items.items[2 * q + 1].fabrics[i]);
            assert_string_equal(cell->text.text, ebb);
            assert_int_equal(cell->others.count, strcmp(ebb, flood) != 0);
            if (cell->others.count > 0)
                assert_non_null(strstr(cell->others.items[0], flood));
        }
    }
    const struct told_row *batting = &table->rows.items[table->rows.count - 1];
    assert_int_equal(batting->cells.items[1].more, 1);
    assert_string_equal(batting->cells.items[3].text.text, "");
}

static void test_cover_tells_size_and_colorways(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 1);
    const struct contents all = tell_cover(&told.w, told.plan);
    assert_string_equal(lines_of(*state, &all),
                        "p\nh1 Slip\nfigure \n"
                        "p\np\np\np\n"
                        "figure Ebb\nfigure Flood\np\n");
    assert_string_equal(all.items.items[1].as.heading.lead, "Four boats.");
    const struct told_figure *picture = &all.items.items[2].as.figure;
    assert_ptr_equal(picture->colorway, &sample.design->colorways.items[1]);
    assert_ptr_equal(picture->quilt, &sample.sewn->quilts.items[0]);
    assert_string_equal(
        content_words(
            *state,
            &content_of(&all, PART_FACTS, CONTENT_PARAGRAPH)->as.paragraph),
        "Mat, 16 x 16 in finished");
}

/* A strip of 3 1/2 of each cloth, and those of binding and border. */
static void test_cutting_goes_cloth_by_cloth(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_cutting(&told.w, told.plan);
    assert_string_equal(lines_of(*state, &all),
                        "h1 Cutting\n"
                        "figure \n"
                        "p\np\n"
                        "cloth Moss: 2 lines, 0 warnings\n"
                        "cloth Dune: 2 lines, 0 warnings\n"
                        "h2 Labels for the stacks\n"
                        "p\n"
                        "table 3 x 6\n");
    const struct told_cloth *moss = &all.items.items[4].as.cloth;
    assert_string_equal(moss->place, "cloth-1");
    assert_string_equal(moss->amount, "3/8 yd");
    size_t folded = 0;
    for (size_t i = 0; i < moss->lines.count; i++) {
        const struct told_cutting *line = &moss->lines.items[i];
        for (size_t k = 0; k < line->figures.count; k++) {
            const struct told_figure *figure = &line->figures.items[k];
            assert_string_equal(figure->told,
                                whole_line(&told.w, &line->words));
            folded += figure->drawing == DRAWING_FOLDED_STRIP;
        }
    }
    assert_int_equal(folded, 2);
    assert_string_equal(
        row_of(*state, &content_of(&all, PART_LABELS, CONTENT_TABLE)
                            ->as.table.rows.items[3]),
        "B2 | 4 of 2 1/2 x 2 1/2 in | Boat");
}

/* Corner squares, the boat, the four of them, and the border. */
static void test_steps_take_parts_and_tell_moves(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_sewing(&told.w, told.plan);
    assert_string_equal(lines_of(*state, &all),
                        "h1 Sewing\n"
                        "list 8\n"
                        "step 1 Corner unit A1+B2: 2 parts, 4 frames\n"
                        "step 2 Boat: 2 parts, 2 frames\n"
                        "step 3 Quilt center: 1 parts, 2 frames\n"
                        "step 4 Border: 3 parts, 3 frames\n");
    const struct told_work *corners = &all.items.items[2].as.work;
    assert_string_equal(corners->made, "Make 4");
    assert_int_equal(corners->told_in, 1);
    assert_string_equal(corners->parts.items[1].label.text, "B2");
    assert_string_equal(corners->parts.items[1].label.place, "cloth-2");
    /* The line, the seam, the cut, the result. */
    static const bool marks[3][3] = {
        {true, false, false}, {true, true, false}, {false, true, true}};
    for (size_t i = 0; i < 3; i++) {
        const struct told_figure *frame = &corners->frames.items[i];
        assert_int_equal(frame->drawing, DRAWING_MOVE);
        assert_int_equal(frame->drawn, marks[i][0]);
        assert_int_equal(frame->sewn, marks[i][1]);
        assert_int_equal(frame->cut, marks[i][2]);
    }
    assert_int_equal(corners->frames.items[3].drawing, DRAWING_MADE);
    const struct told_work *boat = &all.items.items[3].as.work;
    assert_string_equal(boat->parts.items[0].label.place, "step-1");
    assert_int_equal(boat->parts.items[0].picture, PICTURE_CLOTH);
    assert_string_equal(boat->frames.items[0].caption,
                        "Sew them together. If its width comes out 1/8 in small, "
                        "seams are about 1/16 in too wide.");
    assert_string_equal(boat->frames.items[1].caption,
                        "Press the seam left. It measures 6 1/2 x 6 1/2 in.");
    assert_true(boat->frames.items[1].result);
}

/* Its table has the lengths of its strips: twice 12 1/2, twice 16 1/2. */
static void test_border_has_a_table(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_sewing(&told.w, told.plan);
    const struct told_work *border = &all.items.items[5].as.work;
    assert_int_equal(border->ahead.count, 1);
    assert_int_equal(border->tables.count, 1);
    assert_int_equal(border->frames.items[0].drawing, DRAWING_BORDER_MEASURED);
    assert_string_equal(row_of(*state, &border->tables.items[0].rows.items[0]),
                        "1 | Dune | 2 1/2 in | B3, 12 1/2 in | B4, 16 1/2 in | "
                        "16 1/2 x 16 1/2 in");
}

/* A block with a large corner square and small patches. */
static const char dinghy[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"dinghy\" "
    "title=\"Dinghy\" units=\"in\" seam=\"1/4\"><fabrics>"
    "<fabric id=\"kelp\"/><fabric id=\"sand\"/></fabrics>"
    "<colorway id=\"ebb\"><cloth fabric=\"kelp\" color=\"#224433\"/>"
    "<cloth fabric=\"sand\" color=\"#ccbb88\"/></colorway>"
    "<quilt id=\"mat\"><row><patch fabric=\"kelp\" width=\"4\" "
    "height=\"4\"><corner at=\"top-left\" fabric=\"sand\" size=\"3\"/>"
    "</patch><column><patch fabric=\"kelp\" width=\"2\" height=\"2\"/>"
    "<patch fabric=\"sand\" height=\"2\"/></column></row></quilt></pattern>";

/* Corner squares come before other pieces, even before smaller ones; what is
 * 4 1/2 in is too large; a size is told once for both cloths. */
static void test_scale_shows_small_pieces(void **state)
{
    static const struct {
        const char *labels;
        int64_t halves;
    } expected[] = {{"B1", 7}, {"A2, B2", 5}};
    const struct sample sample = sample_text(*state, dinghy);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_scale(&told.w);
    assert_int_equal(all.items.items[1].as.figure.drawing, DRAWING_INCH);
    const struct told_figure *seam =
        &content_of(&all, PART_GAUGE, CONTENT_FIGURE)->as.figure;
    assert_true(rational_equal(seam->width, rational_make(1, 4)));
    assert_int_equal(seam->labels.count, 3);
    size_t count = 0;
    for (size_t i = 0; i < all.items.count; i++) {
        const struct told_figure *shape = &all.items.items[i].as.figure;
        if (all.items.items[i].part != PART_SHAPES ||
            all.items.items[i].kind != CONTENT_FIGURE)
            continue;
        assert_true(count < 2);
        assert_string_equal(shape->labels.items[0], expected[count].labels);
        assert_true(rational_equal(shape->width,
                                   rational_make(expected[count++].halves, 2)));
    }
    assert_int_equal(count, 2);
}

/* Behind the four steps that are sewn. A backing of one panel has one figure,
 * two strips of binding are joined first, and eight moves follow. */
static void test_finishing_goes_on_with_the_steps(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_finishing(&told.w, told.plan);
    assert_string_equal(lines_of(*state, &all),
                        "h1 Finishing\n"
                        "step 5 Backing and layers: 2 parts, 3 frames\n"
                        "step 6 Binding: 1 parts, 8 frames\n");
    const struct told_work *binding = &all.items.items[2].as.work;
    assert_string_equal(binding->place, "binding");
    assert_string_equal(binding->parts.items[0].label.text, "A2");
    assert_string_equal(binding->parts.items[0].label.place, "cloth-1");
    assert_int_equal(binding->frames.items[0].drawing, DRAWING_BINDING_JOIN);
    for (size_t i = 0; i < binding->frames.count; i++)
        assert_int_equal(binding->frames.items[i].result, i == 7);
    assert_int_equal(binding->after.count, 1);
}

/* The second quilt asks for none of it. */
static void test_nothing_is_finished_unasked(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 2);
    const struct contents all = tell_finishing(&told.w, told.plan);
    assert_int_equal(all.items.count, 0);
}

/* Corner squares are drawn, sewn, cut and turned over, and both sides are seen;
 * a join has numbers where it has several seams, as the four boats do. */
static void test_signs_of_corner_squares(void **state)
{
    static const enum told_sign expected[] = {
        SIGN_RIGHT_SIDE, SIGN_WRONG_SIDE, SIGN_DRAWN,       SIGN_SEWN,
        SIGN_CUT,        SIGN_PRESSED,    SIGN_TURNED_OVER, SIGN_SEAM_NUMBER};
    enum { EXPECTED = sizeof expected / sizeof expected[0] };
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct contents all = tell_sewing(&told.w, told.plan);
    const struct told_list *signs =
        &content_of(&all, PART_LEGEND, CONTENT_LIST)->as.list;
    assert_int_equal(signs->items.count, EXPECTED);
    for (size_t i = 0; i < EXPECTED; i++)
        assert_int_equal(signs->items.items[i].sign, expected[i]);
}

static void test_each_block_is_colored_once(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 2);
    const struct contents all = tell_coloring(&told.w);
    assert_string_equal(lines_of(*state, &all),
                        "h1 Coloring page\nfigure Boat\nfigure Rug\n");
}

static void test_titles_of_figures(void **state)
{
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 1);
    const struct contents all = tell_sewing(&told.w, told.plan);
    const size_t boat = all.items.items[3].as.work.step->heap;
    assert_string_equal(title_of_quilt(&told.w), "Mat, the finished quilt top");
    assert_string_equal(title_of_step(&told.w, boat), "Step 2, Boat");
    assert_string_equal(title_of_cutting(&told.w, told.plan->colorway, 1, 0),
                        "Cutting fabric B, Chalk");
    assert_string_equal(title_of_cutting(&told.w, told.plan->colorway, 0, 2),
                        "Cutting fabric A, Slate: number 2");
    assert_string_equal(
        title_of_cloth(&told.w,
                       &told.w.quilt->heaps.items[boat].names.items[0]),
        "Boat, the finished block");
}

/* ---- links ---- */

/* The label of what is cut leads to the first step that takes it, a border's to
 * its step, the binding's to the binding. Steps are those of `list`. */
static void test_labels_lead_to_their_use(void **state)
{
    static const char *const expected[][2] = {
        {"A1", "step-1"}, {"A2", "binding"}, {"B1", "step-2"},
        {"B2", "step-1"}, {"B3", "step-4"},  {"B4", "step-4"}};
    const struct sample sample = sample_text(*state, slip);
    const struct told told = told_of(*state, &sample, 0);
    const struct name_table steps = steps_using(&told.w);
    size_t count = 0;
    for (size_t f = 0; f < 2; f++)
        for (size_t i = 0; i < told.plan->fabrics[f].items.count; i++) {
            const struct told_text link =
                link_to_use(&told.w, &steps,
                            &told.plan->fabrics[f].items.items[i]);
            assert_string_equal(link.text, expected[count][0]);
            assert_string_equal(link.place, expected[count++][1]);
        }
    assert_int_equal(count, 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_glance_is_read_in_order),
        cmocka_unit_test(test_border_is_named_in_its_figure),
        cmocka_unit_test(test_cells_of_materials),
        cmocka_unit_test(test_back_tells_colorways_that_differ),
        cmocka_unit_test(test_cover_tells_size_and_colorways),
        cmocka_unit_test(test_cutting_goes_cloth_by_cloth),
        cmocka_unit_test(test_steps_take_parts_and_tell_moves),
        cmocka_unit_test(test_border_has_a_table),
        cmocka_unit_test(test_scale_shows_small_pieces),
        cmocka_unit_test(test_finishing_goes_on_with_the_steps),
        cmocka_unit_test(test_nothing_is_finished_unasked),
        cmocka_unit_test(test_signs_of_corner_squares),
        cmocka_unit_test(test_each_block_is_colored_once),
        cmocka_unit_test(test_titles_of_figures),
        cmocka_unit_test(test_labels_lead_to_their_use),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
