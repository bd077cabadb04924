#include "parameter.h"
#include "vehicle-document-private.h"

#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

#define GROUP_KEYS_MAX 48

const char *const plate_direction_words[] = { "pressed-down", "lifted", NULL };
const char *const band_form_words[] = { "limits", "about", "fixed", NULL };
const char *const vehicle_groups[] = {
  "sensor", "distributor", "supply", "control", "fuel", "engine", "intake", "store", "start", "thermal", "exhaust", NULL,
};

static const char *const vehicle_members[] = {
  "$schema", "format", "version", "key",  "name",   "notes",  "cylinders", "plate_direction", "sensor",  "distributor",
  "supply",  "control", "fuel",   "engine", "intake", "store", "start",    "thermal",         "exhaust", "bands",
  NULL,
};

/* One number for every cylinder, or exactly one for each. */
static void
read_each_cylinder (const struct cursor *cursor, const struct parameter *parameter, struct car *car)
{
  double *values = parameter_in (car, parameter, 0);
  unsigned length = 0;

  if (cursor_is_number (cursor)) {
    if (cursor_number (cursor, parameter->least, parameter->most, &values[0]))
      for (int i = 1; i < CYLINDERS_MAX; i++)
        values[i] = values[0];
    return;
  }
  if (!JSON_NODE_HOLDS_ARRAY (cursor->node)) {
    cursor_problem (cursor, _("A number, or a list of one number for each cylinder, should stand here"));
    return;
  }
  if (!cursor_is_array (cursor, 1, CYLINDERS_MAX, &length))
    return;
  for (unsigned i = 0; i < length; i++) {
    struct cursor item = cursor_item (cursor, i);
    cursor_number (&item, parameter->least, parameter->most, &values[i]);
  }
  for (unsigned i = length; i < CYLINDERS_MAX; i++)
    values[i] = values[length - 1]; /* for a car of more cylinders than the generic one */
  if (car->cylinders > 0 && (int) length != car->cylinders)
    cursor_problem_beyond (cursor, _("The car has %d cylinders, but %u numbers stand here"), car->cylinders, length);
}

static void
read_funnel_point (const struct cursor *cursor, double *depth, double *clearance)
{
  const struct parameter *depths = parameter_find ("funnel_depth");
  const struct parameter *clearances = parameter_find ("funnel_clearance");
  struct cursor item;
  unsigned length;

  if (!cursor_is_array (cursor, 2, 2, &length))
    return;
  item = cursor_item (cursor, 0);
  cursor_number (&item, depths->least, depths->most, depth);
  item = cursor_item (cursor, 1);
  cursor_number (&item, clearances->least, clearances->most, clearance);
}

static void
read_funnel (const struct cursor *cursor, struct air_sensor *sensor)
{
  unsigned length;

  if (!cursor_is_array (cursor, 2, FUNNEL_POINTS_MAX, &length))
    return;
  sensor->funnel_points = (int) length;
  for (unsigned i = 0; i < length; i++) {
    struct cursor point = cursor_item (cursor, i);
    read_funnel_point (&point, &sensor->funnel_depth[i], &sensor->funnel_clearance[i]);
  }
}

/* The key under which a row stands in the document; NULL for a row that another carries. */
static const char *
document_key (const struct parameter *parameter)
{
  if (parameter->many != EACH_POINT)
    return parameter->key;
  return g_str_equal (parameter->key, "funnel_depth") ? "funnel" : NULL;
}

static void
read_parameter (const struct cursor *group, const struct parameter *parameter, gboolean needed, struct car *car)
{
  const char *key = document_key (parameter);
  struct cursor member;

  if (key == NULL)
    return;
  if (!(needed ? cursor_needs (group, key, &member) : cursor_member (group, key, &member)))
    return;
  if (parameter->many == EACH_CYLINDER)
    read_each_cylinder (&member, parameter, car);
  else if (parameter->many == EACH_POINT)
    read_funnel (&member, &car->sensor);
  else
    cursor_number (&member, parameter->least, parameter->most, parameter_in (car, parameter, 0));
}

static void
read_group (const struct cursor *cursor, const char *name, gboolean needed, struct car *car)
{
  const char *known[GROUP_KEYS_MAX] = { NULL };
  struct cursor group;
  int count = 0;

  if (!(needed ? cursor_needs (cursor, name, &group) : cursor_member (cursor, name, &group)))
    return;
  for (int i = 0; i < parameter_count; i++)
    if (g_str_equal (parameters[i].group, name) && document_key (&parameters[i]) && count < GROUP_KEYS_MAX - 1)
      known[count++] = document_key (&parameters[i]);
  cursor_is_object (&group, known);
  for (int i = 0; i < parameter_count; i++)
    if (g_str_equal (parameters[i].group, name))
      read_parameter (&group, &parameters[i], needed, car);
}

static void
check_band (const struct cursor *cursor, const struct band *band)
{
  if (band->form == BAND_ABOUT && !(band->low >= 0 && band->high >= 0 && isfinite (band->low) && isfinite (band->high)))
    cursor_problem_beyond (cursor, _("“about” needs how far below and above the expected value, both not negative"));
  else if (band->form != BAND_ABOUT && band->low > band->high)
    cursor_problem_beyond (cursor, _("The lower limit lies above the upper one"));
}

static void
read_band (const struct cursor *cursor, struct band *band)
{
  static const char *const known[] = { "form", "low", "high", "source", NULL };
  struct cursor member;
  gboolean has_low, has_high;
  int form = 0;

  cursor_is_object (cursor, known);
  *band = (struct band) { BAND_NONE, -INFINITY, INFINITY, "" };
  if (cursor_needs (cursor, "form", &member) && cursor_word (&member, band_form_words, &form))
    band->form = (enum band_form) (form + 1);
  has_low = cursor_member (cursor, "low", &member);
  if (has_low)
    has_low = cursor_number (&member, -BAND_VALUE_MAX, BAND_VALUE_MAX, &band->low);
  has_high = cursor_member (cursor, "high", &member);
  if (has_high)
    has_high = cursor_number (&member, -BAND_VALUE_MAX, BAND_VALUE_MAX, &band->high);
  if (JSON_NODE_HOLDS_OBJECT (cursor->node) && !cursor_member (cursor, "low", &member)
      && !cursor_member (cursor, "high", &member))
    cursor_problem (cursor, _("“low” or “high” is missing"));
  if (cursor_member (cursor, "source", &member))
    cursor_text_into (&member, 0, band->source, sizeof band->source);
  if (band->form != BAND_NONE && (has_low || has_high))
    check_band (cursor, band);
}

static void
read_bands (const struct cursor *cursor, struct band bands[READINGS])
{
  const char *known[READINGS + 1] = { NULL };
  struct cursor member;

  memset (bands, 0, READINGS * sizeof bands[0]);
  for (int i = 0; i < READINGS; i++)
    known[i] = reading_kinds[i].key;
  if (!cursor_has_type_object (cursor))
    return;
  cursor_is_object (cursor, known);
  for (int i = 0; i < READINGS; i++)
    if (cursor_member (cursor, known[i], &member))
      read_band (&member, &bands[i]);
}

/* A key is optional; it is the file's name wherever there is one. */
static void
read_key (const struct cursor *cursor, char key[64])
{
  const char *text = NULL;
  struct cursor member;

  if (!cursor_member (cursor, "key", &member) || !cursor_text (&member, 0, 63, &text))
    return;
  if (text[strspn (text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-")] != 0)
    cursor_problem (&member, _("A key has only letters a to z, digits and -"));
  else
    g_strlcpy (key, text, 64);
}

static void
read_head (const struct cursor *cursor, gboolean needed, struct vehicle *vehicle)
{
  const char *ignored;
  struct cursor member;
  int direction;

  if (cursor_member (cursor, "$schema", &member))
    cursor_text (&member, 0, TEXT_CHARACTERS_MAX, &ignored);
  read_key (cursor, vehicle->key);
  if (cursor_needs (cursor, "name", &member))
    cursor_text_into (&member, 1, vehicle->name, sizeof vehicle->name);
  if (cursor_member (cursor, "notes", &member))
    cursor_text_into (&member, 0, vehicle->notes, sizeof vehicle->notes);
  if (needed ? cursor_needs (cursor, "cylinders", &member) : cursor_member (cursor, "cylinders", &member)) {
    vehicle->car.cylinders = 0;
    cursor_whole (&member, 1, CYLINDERS_MAX, &vehicle->car.cylinders);
  }
  if (needed ? cursor_needs (cursor, "plate_direction", &member) : cursor_member (cursor, "plate_direction", &member))
    if (cursor_word (&member, plate_direction_words, &direction))
      vehicle->car.direction = (enum plate_direction) direction;
}

/* Zeroes beyond the car's cylinders and funnel points. */
static void
trim (struct car *car)
{
  static const int room[] = { [ONE] = 1, [EACH_CYLINDER] = CYLINDERS_MAX, [EACH_POINT] = FUNNEL_POINTS_MAX };

  for (int i = 0; i < parameter_count; i++) {
    int most = room[parameters[i].many];
    for (int j = parameter_values (car, &parameters[i]); j < most; j++)
      *parameter_in (car, &parameters[i], j) = 0;
  }
}

static const char *
complaint_sentence (enum car_complaint_kind kind)
{
  switch (kind) {
  case CAR_FUNNEL_NOT_RISING:
    return _("The funnel's depths must rise from 0, and its clearances must rise behind the land");
  case CAR_CYLINDERS:
    return _("The number of cylinders is out of range");
  case CAR_FUNNEL_POINTS:
    return _("The funnel has too few or too many points");
  case CAR_ARMS:
    return _("The roller's arm must be shorter than the plate's");
  case CAR_VACUUM_ORDER:
    return _("The lower vacuum of the load diaphragm must lie under the higher one");
  case CAR_AREAS:
    return _("The diaphragm's area must be at least the seat's");
  case CAR_WINDOW:
    return _("This limit must lie above its lower counterpart");
  case CAR_OUT_OF_LIMITS:
  case CAR_SOUND:
  default:
    return _("This value is out of range");
  }
}

/* The place of a complaint about the whole car: "/sensor/funnel/3", "/distributor/slot_width/2". */
static void
tell_complaint (const struct cursor *cursor, const struct car_complaint *complaint)
{
  struct cursor group = { cursor, complaint->parameter ? complaint->parameter->group : NULL, 0, NULL,
                          cursor->problems };
  struct cursor member = { &group, complaint->parameter ? complaint->parameter->key : NULL, 0, NULL, cursor->problems };
  struct cursor item = { &member, NULL, (unsigned) complaint->index, NULL, cursor->problems };

  if (complaint->parameter == NULL) {
    cursor_problem_beyond (cursor, "%s", complaint_sentence (complaint->kind));
    return;
  }
  if (complaint->parameter->many == EACH_POINT)
    member.key = "funnel";
  cursor_problem_beyond (complaint->parameter->many == ONE ? &member : &item, "%s",
                         complaint_sentence (complaint->kind));
}

gboolean
vehicle_read (const struct cursor *cursor, const struct vehicle *usual, struct vehicle *vehicle)
{
  unsigned before = problems_count (cursor->problems);
  struct car_complaint complaint;
  struct cursor bands;

  memset (vehicle, 0, sizeof *vehicle);
  if (usual) {
    vehicle->car = usual->car;
    memcpy (vehicle->bands, usual->bands, sizeof vehicle->bands);
  }
  if (!cursor_is_document (cursor, VEHICLE_FORMAT, VEHICLE_VERSION))
    return FALSE;
  cursor_is_object (cursor, vehicle_members);
  read_head (cursor, usual == NULL, vehicle);
  for (int i = 0; vehicle_groups[i]; i++)
    read_group (cursor, vehicle_groups[i], usual == NULL, &vehicle->car);
  if (cursor_member (cursor, "bands", &bands))
    read_bands (&bands, vehicle->bands);
  if (problems_count (cursor->problems) == before && !car_check (&vehicle->car, &complaint))
    tell_complaint (cursor, &complaint);
  if (problems_count (cursor->problems) > before)
    return FALSE;
  if (usual)
    trim (&vehicle->car);
  return TRUE;
}
