/* The designer's own pictures: the photo of the quilt, and the logo. */
#include <math.h>

#include "cover_picture.h"
#include "structure.h"
#include "words.h"

/* As large as fits, never stretched. A photo of a camera on its side stands up
 * again, so its sides change over here. */
struct box *photo_box(const struct canvas *canvas, const struct photo *photo,
                      double width, double height)
{
    const bool across = photo->turn % 2 == 1;
    const double pixels_x = across ? photo->height : photo->width;
    const double pixels_y = across ? photo->width : photo->height;
    const double scale = fmin(width / pixels_x, height / pixels_y);
    struct box *box = box_new(canvas, pixels_x * scale, pixels_y * scale);
    struct item *item = LIST_ADD(canvas->arena, &box->items);
    item->kind = ITEM_IMAGE;
    item->as.image = (struct image_item){
        photo->jpeg, photo->bytes, photo->length, photo->width, photo->height,
        photo->turn, 0.0,          0.0,           box->width,   box->height};
    return box;
}

/* Whose it is (WCAG 2.1, 1.1.1). */
static const char *logo_words(const struct booklet *booklet)
{
    const struct design *design = booklet->design;
    const struct wording *w = &booklet->wording;
    const char *name =
        design->publisher[0] == '\0' ? design->designer : design->publisher;
    return name[0] == '\0'
               ? say(w->arena, w->phrases, "cover.logo-plain", NULL)
               : say(w->arena, w->phrases, "cover.logo", "name", name, NULL);
}

/* On white, so that one with clear parts looks the same wherever it lies. */
struct box *logo_box(struct booklet *booklet, double width, double height)
{
    const struct canvas *canvas = &booklet->flow.canvas;
    const struct box *logo =
        photo_box(canvas, booklet->design->logo, width, height);
    struct box *box = box_new(canvas, logo->width, logo->height);
    const struct path_item ground = {.filled = true, .fill = white};
    box_rectangle(canvas, box, 0.0, 0.0, logo->width, logo->height, ground);
    put_figure(booklet, box, logo, 0.0, 0.0, logo_words(booklet));
    return box;
}
