#include "parameter.h"
#include "vehicle-document-private.h"

#include <math.h>

static gboolean
all_equal (const struct car *car, const struct parameter *parameter)
{
  for (int i = 1; i < parameter_values (car, parameter); i++)
    if (parameter_get (car, parameter, i) != parameter_get (car, parameter, 0))
      return FALSE;
  return TRUE;
}

static void
write_funnel (struct json_writer *writer, const struct air_sensor *sensor)
{
  json_writer_begin_array (writer, "funnel");
  for (int i = 0; i < sensor->funnel_points; i++) {
    json_writer_begin_array_inline (writer, NULL);
    json_writer_number (writer, NULL, sensor->funnel_depth[i]);
    json_writer_number (writer, NULL, sensor->funnel_clearance[i]);
    json_writer_end (writer);
  }
  json_writer_end (writer);
}

static void
write_parameter (struct json_writer *writer, const struct car *car, const struct parameter *parameter)
{
  if (parameter->many == EACH_POINT) {
    if (g_str_equal (parameter->key, "funnel_depth"))
      write_funnel (writer, &car->sensor);
    return;
  }
  if (parameter->many == ONE || all_equal (car, parameter)) {
    json_writer_number (writer, parameter->key, parameter_get (car, parameter, 0));
    return;
  }
  json_writer_begin_array_inline (writer, parameter->key);
  for (int i = 0; i < parameter_values (car, parameter); i++)
    json_writer_number (writer, NULL, parameter_get (car, parameter, i));
  json_writer_end (writer);
}

static void
write_band (struct json_writer *writer, const char *key, const struct band *band)
{
  json_writer_begin_object (writer, key);
  json_writer_text (writer, "form", band_form_words[band->form - 1]);
  if (isfinite (band->low))
    json_writer_number (writer, "low", band->low);
  if (isfinite (band->high))
    json_writer_number (writer, "high", band->high);
  json_writer_text (writer, "source", band->source);
  json_writer_end (writer);
}

void
vehicle_write_in (struct json_writer *writer, const char *key, const char *schema, const struct vehicle *vehicle)
{
  json_writer_begin_object (writer, key);
  if (schema)
    json_writer_text (writer, "$schema", schema);
  json_writer_text (writer, "format", VEHICLE_FORMAT);
  json_writer_number (writer, "version", VEHICLE_VERSION);
  if (vehicle->key[0])
    json_writer_text (writer, "key", vehicle->key);
  json_writer_text (writer, "name", vehicle->name);
  json_writer_text (writer, "notes", vehicle->notes);
  json_writer_number (writer, "cylinders", vehicle->car.cylinders);
  json_writer_text (writer, "plate_direction", plate_direction_words[vehicle->car.direction]);
  for (int i = 0; vehicle_groups[i]; i++) {
    json_writer_begin_object (writer, vehicle_groups[i]);
    for (int j = 0; j < parameter_count; j++)
      if (g_str_equal (parameters[j].group, vehicle_groups[i]))
        write_parameter (writer, &vehicle->car, &parameters[j]);
    json_writer_end (writer);
  }
  json_writer_begin_object (writer, "bands");
  for (int i = 0; i < READINGS; i++)
    if (vehicle->bands[i].form != BAND_NONE)
      write_band (writer, reading_kinds[i].key, &vehicle->bands[i]);
  json_writer_end (writer);
  json_writer_end (writer);
}

char *
vehicle_write (const struct vehicle *vehicle)
{
  struct json_writer *writer;

  g_return_val_if_fail (vehicle, NULL);
  writer = json_writer_new ();
  vehicle_write_in (writer, NULL, "../schemas/vehicle-1.schema.json", vehicle);
  return json_writer_finish (writer);
}
