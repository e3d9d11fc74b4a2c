/* owner: diag
 *
 * The catalogue of every message: identifier, stable name, level, summary.
 * Level and summary belong to the message, not to the call that reports it.
 */
#ifndef SEAMWRIGHT_DIAG_CATALOGUE_H
#define SEAMWRIGHT_DIAG_CATALOGUE_H

/* clang-format off */
#define DIAG_CATALOGUE(X)                                                                               \
    /* the file */                                                                                      \
    X(DIAG_ENCODING,          "encoding",           DIAG_ERROR,   "the file is not UTF-8 text")          \
    X(DIAG_XML_SYNTAX,        "xml-syntax",         DIAG_ERROR,   "the file is not well-formed XML")     \
    X(DIAG_DOCTYPE,           "doctype",            DIAG_ERROR,   "a document type declaration")         \
    X(DIAG_LIMIT,             "limit",              DIAG_ERROR,   "a stated limit is exceeded")          \
    X(DIAG_NAMESPACE,         "namespace",          DIAG_ERROR,   "the root is not a pattern")           \
    X(DIAG_INCLUDE,           "include",            DIAG_ERROR,   "a shared file that cannot be read")   \
    /* elements and attributes */                                                                       \
    X(DIAG_UNKNOWN_ELEMENT,   "unknown-element",    DIAG_ERROR,   "an element that has no place there")  \
    X(DIAG_UNKNOWN_ATTRIBUTE, "unknown-attribute",  DIAG_ERROR,   "an attribute that has no place there")\
    X(DIAG_MISSING_ATTRIBUTE, "missing-attribute",  DIAG_ERROR,   "an attribute that must be there")     \
    X(DIAG_MISSING_ELEMENT,   "missing-element",    DIAG_ERROR,   "an element that must be there")       \
    X(DIAG_STRAY_TEXT,        "stray-text",         DIAG_ERROR,   "text where none is read")             \
    X(DIAG_LENGTH,            "length",             DIAG_ERROR,   "a length that cannot be read")        \
    X(DIAG_VALUE, "value", DIAG_ERROR, \
      "a value that is not one of the choices") \
    /* names */ \
    X(DIAG_DOUBLE_NAME, "double-name", DIAG_ERROR, \
      "a name or key that stands for two things") \
    X(DIAG_UNKNOWN_FABRIC, "unknown-fabric", DIAG_ERROR, \
      "a fabric that the list has not") \
    X(DIAG_UNKNOWN_ROLE, "unknown-role", DIAG_ERROR, \
      "a role that the unit or block has not") \
    X(DIAG_UNKNOWN_PIECE, "unknown-piece", DIAG_ERROR, \
      "a unit, block or piece that is not there") \
    X(DIAG_UNKNOWN_THREAD, "unknown-thread", DIAG_ERROR, \
      "a thread that the quilting has not") \
    X(DIAG_UNKNOWN_LINE, "unknown-line", DIAG_ERROR, \
      "a line of quilting that is not there before") \
    X(DIAG_MISSING_CLOTH, "missing-cloth", DIAG_ERROR, \
      "a colorway without a cloth for a fabric") \
    X(DIAG_PHOTO, "photo", DIAG_ERROR, \
      "a photo or logo that cannot be shown") \
    X(DIAG_FONT, "font", DIAG_ERROR, \
      "a font that headings cannot be set in") \
    X(DIAG_CYCLE, "cycle", DIAG_ERROR, \
      "a unit or block inside itself") \
    X(DIAG_NOT_USED, "not-used", DIAG_WARNING, \
      "a unit, block or role that nothing uses") \
    X(DIAG_KEY_NOT_USED, "key-not-used", DIAG_WARNING, \
      "a piece that no cell of its map names") \
    X(DIAG_GRID_COUNT, "grid-count", DIAG_ERROR, \
      "pieces that do not fill the cells of a grid") \
    X(DIAG_BORDER_CORNERS, "border-corners", DIAG_ERROR, \
      "a border whose corners do not fit what it says") \
    X(DIAG_MAP, "map", DIAG_ERROR, \
      "a map cell that names no piece") \
    X(DIAG_TIMES, "times", DIAG_ERROR, \
      "a piece that is repeated where it lies alone") \
    X(DIAG_PRESS, "press", DIAG_ERROR, \
      "a pressing direction that cannot be followed") \
    /* sizes */ \
    X(DIAG_SEAM_SUM, "seam-sum", DIAG_ERROR, \
      "sizes that contradict each other") \
    X(DIAG_SIZE_OPEN, "size-open", DIAG_ERROR, \
      "a size that nothing fixes") \
    X(DIAG_SIZE_NEGATIVE, "size-negative", DIAG_ERROR, \
      "nothing is left for a piece") \
    X(DIAG_GRID_UNIT, "grid-unit", DIAG_ERROR, \
      "a unit of length behind a number of grid squares") \
    X(DIAG_CORNER_SIZE, "corner-size", DIAG_ERROR, \
      "a corner that is larger than its piece, or hides what it lies on") \
    X(DIAG_STATEMENT, "statement", DIAG_ERROR, \
      "a size or count that was stated and is another") \
    X(DIAG_STRIP_ROUNDED, "strip-rounded", DIAG_REMARK, \
      "a star whose strip, rounded up, makes it larger") \
    X(DIAG_RULER, "ruler", DIAG_WARNING, \
      "a grid square that does not cut on a ruler") \
    /* sewing */ \
    X(DIAG_LINE_DIRECTION, "line-direction", DIAG_ERROR, \
      "a diagonal that runs the other way") \
    X(DIAG_WRONG_DIRECTION, "wrong-direction", DIAG_ERROR, \
      "a piece that points the other way") \
    X(DIAG_USE_TURN, "use-turn", DIAG_ERROR, \
      "a piece turned or mirrored the wrong way") \
    X(DIAG_CORNER_PLACE, "corner-place", DIAG_ERROR, \
      "a corner sewn in the wrong place") \
    X(DIAG_WRONG_FABRIC, "wrong-fabric", DIAG_ERROR, \
      "a patch of another fabric than the picture") \
    X(DIAG_SWAPPED, "swapped", DIAG_ERROR, \
      "two pieces in each other's place") \
    X(DIAG_PICTURE, "picture", DIAG_ERROR, \
      "cloth that is not what the picture shows") \
    X(DIAG_PICTURE_SIZE, "picture-size", DIAG_ERROR, \
      "a picture that does not fill its block") \
    X(DIAG_PICTURE_TOKEN, "picture-token", DIAG_ERROR, \
      "a picture cell that cannot be read") \
    X(DIAG_NO_PICTURE, "no-picture", DIAG_REMARK, \
      "a block without a picture") \
    X(DIAG_STEP_ORDER, "step-order", DIAG_ERROR, \
      "a step that uses what is not made yet") \
    X(DIAG_STEP_MISSING, "step-missing", DIAG_ERROR, \
      "something that no step makes") \
    X(DIAG_STEP_TWICE, "step-twice", DIAG_ERROR, \
      "two steps that make the same") \
    X(DIAG_STEP_UNUSED, "step-unused", DIAG_ERROR, \
      "something made and not used") \
    X(DIAG_STEP_COUNT, "step-count", DIAG_ERROR, \
      "a step that makes too few or too many") \
    X(DIAG_MIRRORED_HEAP, "mirrored-heap", DIAG_ERROR, \
      "mirrored pieces counted with the others") \
    X(DIAG_FLAP_SHORT, "flap-short", DIAG_ERROR, \
      "a corner square that is too small to cover its corner") \
    X(DIAG_SEAMS_COLLIDE, "seams-collide", DIAG_REMARK, \
      "seams that meet and are pressed to the same side") \
    X(DIAG_POINTS_MISS, "points-miss", DIAG_WARNING, \
      "seam ends that nearly meet where two pieces are joined") \
    X(DIAG_BULK, "bulk", DIAG_REMARK, \
      "a point where many seams meet") \
    X(DIAG_ONE_WAY_PRINT, "one-way-print", DIAG_REMARK, \
      "a one-way print that does not lie upright everywhere") \
    X(DIAG_CONTRAST, "contrast", DIAG_REMARK, \
      "two cloths that meet and can hardly be told apart") \
    /* cutting */ \
    X(DIAG_TOO_WIDE, "too-wide", DIAG_ERROR, \
      "a piece that its cloth is too narrow for") \
    X(DIAG_YARDAGE, "yardage", DIAG_ERROR, \
      "an amount of cloth that was stated and is another") \
    /* quilting */ \
    X(DIAG_ASYMMETRIC, "asymmetric", DIAG_ERROR, \
      "a stated symmetry that the quilting has not") \
    X(DIAG_ONE_SIDED, "one-sided", DIAG_REMARK, \
      "a top with a symmetry that its quilting has not") \
    X(DIAG_NO_SEAM, "no-seam", DIAG_ERROR, \
      "seams to be quilted that are not there") \
    X(DIAG_NO_SHAPE, "no-shape", DIAG_ERROR, \
      "a place or a shape that the top has not") \
    X(DIAG_NO_POINTS, "no-points", DIAG_ERROR, \
      "points that are not there, or see each other nowhere") \
    X(DIAG_NO_AREA, "no-area", DIAG_ERROR, \
      "an area that no words reach") \
    X(DIAG_EXTEND_OPEN, "extend-open", DIAG_ERROR, \
      "an extended line that meets nothing before the edge") \
    X(DIAG_ECHO_FULL, "echo-full", DIAG_ERROR, \
      "more echoes than a shape holds") \
    X(DIAG_QUILT_GAP, "quilt-gap", DIAG_ERROR, \
      "a place that no quilting holds") \
    X(DIAG_NO_GAP, "no-gap", DIAG_REMARK, \
      "quilting whose gaps are not checked") \
    X(DIAG_RULER_REACH, "ruler-reach", DIAG_WARNING, \
      "a straight line longer than the ruler, with nothing beside it") \
    X(DIAG_LINES_CROWD, "lines-crowd", DIAG_WARNING, \
      "lines of quilting that nearly touch, or many ends in one point") \
    X(DIAG_DENSITY, "density", DIAG_WARNING, \
      "areas that are quilted much more densely than others") \
    X(DIAG_FILL_UNUSED, "fill-unused", DIAG_WARNING, \
      "a filler for which no area is left") \
    X(DIAG_AREA_TWICE, "area-twice", DIAG_WARNING, \
      "an area that two could mean") \
    X(DIAG_DITCH_OPEN, "ditch-open", DIAG_REMARK, \
      "a ditch in a seam that is pressed open") \
    X(DIAG_START_EXTRA, "start-extra", DIAG_REMARK, \
      "a start that no travel saves") \
    /* orders of kits */ \
    X(DIAG_KIT_PATTERN, "kit-pattern", DIAG_ERROR, \
      "a pattern that no kits can be made of") \
    X(DIAG_KIT_QUILT, "kit-quilt", DIAG_ERROR, \
      "a quilt or colorway that the pattern has not") \
    X(DIAG_KIT_CLOTH, "kit-cloth", DIAG_ERROR, \
      "a cloth that is told in two ways") \
    X(DIAG_KIT_STOCK, "kit-stock", DIAG_WARNING, \
      "stock of a cloth that the order does not know") \
    X(DIAG_FLAW, "flaw", DIAG_ERROR, \
      "a flaw that cannot lie so on its bolt") \
    X(DIAG_LABELS, "labels", DIAG_ERROR, \
      "labels that do not fit their sheet") \
    X(DIAG_KIT_NARROW, "kit-narrow", DIAG_ERROR, \
      "a cloth that is too narrow for its kits") \
    X(DIAG_KIT_LONG, "kit-long", DIAG_ERROR, \
      "a cut that is longer than every bolt") \
    X(DIAG_KIT_SUPPLY, "kit-supply", DIAG_ERROR, \
      "cloth that neither lies there nor is sold") \
    /* claims that come back from testers */ \
    X(DIAG_CLAIMS_TABLE, "claims-table", DIAG_ERROR, \
      "a file that is no table of claims") \
    X(DIAG_CLAIMS_COLUMN, "claims-column", DIAG_WARNING, \
      "a column that a table of claims has not") \
    X(DIAG_CLAIMS_ROW, "claims-row", DIAG_ERROR, \
      "a row of claims with a cell that cannot be read") \
    X(DIAG_CLAIMS_ANSWER, "claims-answer", DIAG_ERROR, \
      "an answer that is not right, wrong or unclear") \
    X(DIAG_CLAIMS_MEASURE, "claims-measure", DIAG_ERROR, \
      "a measure that is no length, or cannot be") \
    X(DIAG_CLAIMS_PRINTING, "claims-printing", DIAG_ERROR, \
      "claims of another pattern or of another printing") \
    X(DIAG_CLAIMS_TWICE, "claims-twice", DIAG_ERROR, \
      "a claim that one tester has twice") \
    /* the designer's words */ \
    X(DIAG_STALE_NUMBER, "stale-number", DIAG_REMARK, \
      "a measurement in the text that the pattern has not")
/* clang-format on */

#endif
