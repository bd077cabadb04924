/* The drawing: it draws at every size, theme and layer, stays inside, and puts things where the model says. */
#include "parameter.h"
#include "reference-unit.h"
#include "scene-file.h"
#include "scene.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

struct sample {
  struct car car;
  struct conditions conditions;
  struct state state;
  struct scene scene;
};

static const struct { double air, coolant, vacuum; } states[] = {
  { 18, 80, 500 }, { 18, 20, 500 }, { 100, 40, 400 }, { 300, 80, 225 }, { 450, -20, 100 },
};

static const struct { double width, height; bool own_readout; } sizes[] = {
  { 1240, 500, false }, { 1880, 760, false }, { 1600, 900, true }, { 1120, 800, false }, { 1500, 500, false },
};

static void
sample_make (struct sample *sample, int cylinders, enum plate_direction direction, int state, int size)
{
  reference_unit (&sample->car, cylinders, direction);
  reference_state (&sample->car, states[state].air, states[state].coolant, states[state].vacuum, &sample->conditions,
                   &sample->state);
  sample->scene = (struct scene) {
    .car = &sample->car, .conditions = &sample->conditions, .state = &sample->state, .width = sizes[size].width,
    .height = sizes[size].height, .type_scale = 1, .phase = 0.3,
    .layers = LAYER_PRESSURES | LAYER_FLOW | LAYER_LABELS, .own_readout = sizes[size].own_readout };
}

static cairo_surface_t *
picture (const struct scene *scene, void (*draw) (cairo_t *, const struct scene *), cairo_surface_t *under)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) scene->width, (int) scene->height);
  cairo_t *cr = cairo_create (surface);

  if (under != NULL) {
    cairo_set_source_surface (cr, under, 0, 0);
    cairo_paint (cr);
  }
  draw (cr, scene);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static bool
same (cairo_surface_t *a, cairo_surface_t *b)
{
  size_t bytes = (size_t) cairo_image_surface_get_stride (a) * (size_t) cairo_image_surface_get_height (a);

  return memcmp (cairo_image_surface_get_data (a), cairo_image_surface_get_data (b), bytes) == 0;
}

static void
test_everything_draws (void)
{
  struct sample sample;

  for (unsigned size = 0; size < G_N_ELEMENTS (sizes); size++)
    for (int theme = SCENE_LIGHT; theme <= SCENE_PRINT; theme++)
      for (unsigned layers = 0; layers < 32; layers += 31) {
          sample_make (&sample, 4 + 2 * (theme % 3), theme % 2 ? PLATE_LIFTED : PLATE_PRESSED_DOWN, theme % 5,
                       (int) size);
          sample.scene.theme = (enum scene_theme) theme;
          sample.scene.layers = layers;
          cairo_surface_destroy (picture (&sample.scene, scene_draw, NULL));
      }
}

static void
test_still_and_moving_make_the_whole (void)
{
  struct sample sample;
  cairo_surface_t *whole, *still, *both;

  sample_make (&sample, 6, PLATE_PRESSED_DOWN, 3, 0);
  whole = picture (&sample.scene, scene_draw, NULL);
  still = picture (&sample.scene, scene_draw_still, NULL);
  both = picture (&sample.scene, scene_draw_moving, still);
  g_assert_true (same (whole, both));
  g_assert_false (same (whole, still));
  cairo_surface_destroy (whole);
  cairo_surface_destroy (still);
  cairo_surface_destroy (both);
}

/* What is cached must not know the state. */
static void
test_still_is_still (void)
{
  struct sample one, other;
  cairo_surface_t *a, *b;

  sample_make (&one, 6, PLATE_LIFTED, 0, 1);
  sample_make (&other, 6, PLATE_LIFTED, 4, 1);
  other.scene.phase = 0.7;
  a = picture (&one.scene, scene_draw_still, NULL);
  b = picture (&other.scene, scene_draw_still, NULL);
  g_assert_true (same (a, b));
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
}

static void
test_parts_lie_inside (void)
{
  struct sample sample;
  struct scene_box box;

  for (unsigned state = 0; state < G_N_ELEMENTS (states); state++)
    for (unsigned size = 0; size < G_N_ELEMENTS (sizes); size++)
      for (int direction = 0; direction < 2; direction++)
        for (int part = 0; part < SCENE_PARTS; part++) {
          sample_make (&sample, 8, (enum plate_direction) direction, (int) state, (int) size);
          g_assert_cmpint ((int) scene_parts[part].id, ==, part);
          scene_part_box (&sample.scene, (enum scene_part_id) part, &box);
          g_assert_cmpfloat (box.width, >, 0);
          g_assert_cmpfloat (box.x, >=, 0);
          g_assert_cmpfloat (box.y, >=, 0);
          g_assert_cmpfloat (box.x + box.width, <=, sample.scene.width);
          g_assert_cmpfloat (box.y + box.height, <=, sample.scene.height);
        }
}

/* Whatever a document may say of a car, and a state that was not solved, draws without an error; every part has a
 * place. */
static void
check_draws (const struct scene *scene)
{
  struct scene_box box;
  double x, y;

  cairo_surface_destroy (picture (scene, scene_draw, NULL));
  for (int part = 0; part < SCENE_PARTS; part++) {
    scene_part_box (scene, (enum scene_part_id) part, &box);
    g_assert_true (isfinite (box.x) && isfinite (box.y) && isfinite (box.width) && isfinite (box.height));
  }
  for (int mark = MARK_PLATE_CENTRE; mark <= MARK_SLOT_EDGE; mark++) {
    scene_mark (scene, (enum scene_mark) mark, &x, &y);
    g_assert_true (isfinite (x) && isfinite (y));
  }
}

static void
test_extreme_cars (void)
{
  struct sample sample;

  for (int i = 0; i < parameter_count; i++)
    for (int most = 0; most < 2; most++) {
      sample_make (&sample, 4, i % 2 ? PLATE_LIFTED : PLATE_PRESSED_DOWN, 2, 0);
      sample.scene.width = 620;
      sample.scene.height = 250;
      sample.scene.layers = 31;
      for (int k = 0; k < parameter_values (&sample.car, &parameters[i]); k++)
        *parameter_in (&sample.car, &parameters[i], k) = most ? parameters[i].most : parameters[i].least;
      check_draws (&sample.scene);
    }
}

static void
test_unsolved_states (void)
{
  struct sample sample;

  for (int cylinders = 2; cylinders <= CYLINDERS_MAX; cylinders++) {
    sample_make (&sample, cylinders, PLATE_PRESSED_DOWN, 0, 2);
    check_draws (&sample.scene);
    sample.state = (struct state) { .outcome = OUTCOME_NOT_FOUND };
    sample.scene.layers = 31;
    check_draws (&sample.scene);
    sample.scene.conditions = NULL;
    sample.scene.width = 40;
    sample.scene.height = 30;
    check_draws (&sample.scene);
  }
}

/* Round the area nothing is touched. */
static void
test_stays_inside (void)
{
  struct sample sample;
  cairo_surface_t *surface;
  cairo_t *cr;
  const unsigned char *data;

  sample_make (&sample, 8, PLATE_LIFTED, 4, 0);
  sample.scene.layers = 31;
  surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 1300, 560);
  cr = cairo_create (surface);
  cairo_translate (cr, 30, 30);
  scene_draw (cr, &sample.scene);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  for (int y = 0; y < 560; y++)
    for (int x = 0; x < 1300; x++)
      if (x < 30 || y < 30 || x >= 1270 || y >= 530)
        g_assert_cmpint (data[y * cairo_image_surface_get_stride (surface) + 4 * x + 3], ==, 0);
  cairo_surface_destroy (surface);
}

static void
test_files (void)
{
  static const struct { const char *name, *begins; } files[] = {
    { "unit.png", "\211PNG" }, { "unit.svg", "<?xml" }, { "unit.PDF", "%PDF" },
  };
  g_autofree char *folder = g_dir_make_tmp ("scene-XXXXXX", NULL);
  g_autoptr (GError) error = NULL;
  struct sample sample;

  sample_make (&sample, 4, PLATE_LIFTED, 2, 2);
  for (unsigned i = 0; i < G_N_ELEMENTS (files); i++) {
    g_autofree char *path = g_build_filename (folder, files[i].name, NULL), *contents = NULL;
    g_assert_true (scene_write_file (&sample.scene, path, &error));
    g_assert_no_error (error);
    g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
    g_assert_true (g_str_has_prefix (contents, files[i].begins));
    g_assert_cmpint (g_remove (path), ==, 0);
  }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_assert_false (scene_write_file (&sample.scene, "unit.bmp", &error));
  g_assert_error (error, SCENE_FILE_ERROR, SCENE_FILE_ERROR_ENDING);
  g_assert_nonnull (strstr (error->message, "unit.bmp"));
  g_clear_error (&error);
  g_assert_false (scene_write_file (&sample.scene, "/no/such/folder/sample.png", &error));
  g_assert_error (error, SCENE_FILE_ERROR, SCENE_FILE_ERROR_WRITE);
  g_assert_nonnull (strstr (error->message, "/no/such/folder/sample.png"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/draws", test_everything_draws);
  g_test_add_func ("/scene/still-and-moving", test_still_and_moving_make_the_whole);
  g_test_add_func ("/scene/still-is-still", test_still_is_still);
  g_test_add_func ("/scene/parts-inside", test_parts_lie_inside);
  g_test_add_func ("/scene/extreme-cars", test_extreme_cars);
  g_test_add_func ("/scene/unsolved-states", test_unsolved_states);
  g_test_add_func ("/scene/stays-inside", test_stays_inside);
  g_test_add_func ("/scene/files", test_files);
  return g_test_run ();
}
