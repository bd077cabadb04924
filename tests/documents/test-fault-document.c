#include "fault-document.h"
#include "parameter.h"

#include <string.h>

#define HEAD "{\"format\":\"platelift-faults\",\"version\":1,\"faults\":["
#define START "{\"key\":\"a\",\"name\":\"A\",\"what\":\"w\",\"repair\":\"r\",\"system\":\"supply\",\"odds\":1,"
#define ONE_EFFECT "\"effects\":[{\"parameter\":\"pump_flow\",\"scale\":0.5}]}"
#define TAIL "]}"
#define EFFECT(text) HEAD START "\"effects\":[{" text "}]}" TAIL

struct bad {
  const char *text, *place, *word; /* a problem there whose sentence has the word */
};

static const struct bad bads[] = {
  { "", "", "" },
  { "[]", "/", "object" },
  { "{\"format\":\"platelift-vehicle\",\"version\":1,\"faults\":[]}", "/format", "platelift-faults" },
  { "{\"format\":\"platelift-faults\",\"version\":2,\"faults\":[]}", "/version", "newer" },
  { "{\"format\":\"platelift-faults\",\"version\":1}", "/faults", "missing" },
  { HEAD TAIL, "/faults", "At least 1" },
  { HEAD "7" TAIL, "/faults/0", "object" },
  { HEAD START ONE_EFFECT "," START ONE_EFFECT TAIL, "/faults/1", "twice" },
  { HEAD "{\"name\":\"A\",\"what\":\"w\",\"repair\":\"r\",\"system\":\"supply\",\"odds\":1," ONE_EFFECT TAIL,
    "/faults/0/key", "missing" },
  { HEAD "{\"key\":\"A b\",\"name\":\"A\",\"what\":\"w\",\"repair\":\"r\",\"system\":\"supply\",\"odds\":1," ONE_EFFECT TAIL,
    "/faults/0/key", "letters" },
  { HEAD "{\"key\":\"a\",\"name\":\"\",\"what\":\"w\",\"repair\":\"r\",\"system\":\"supply\",\"odds\":1," ONE_EFFECT TAIL,
    "/faults/0/name", "empty" },
  { HEAD "{\"key\":\"a\",\"name\":\"A\",\"what\":\"w\",\"repair\":\"r\",\"system\":\"boot\",\"odds\":1," ONE_EFFECT TAIL,
    "/faults/0/system", "supply" },
  { HEAD "{\"key\":\"a\",\"name\":\"A\",\"what\":\"w\",\"repair\":\"r\",\"system\":\"supply\",\"odds\":-1," ONE_EFFECT TAIL,
    "/faults/0/odds", "out of range" },
  { HEAD START "\"severity\":1," ONE_EFFECT TAIL, "/faults/0/severity", "not known" },
  { HEAD START "\"one_cylinder\":1," ONE_EFFECT TAIL, "/faults/0/one_cylinder", "true or false" },
  { HEAD START "\"one_cylinder\":true," ONE_EFFECT TAIL, "/faults/0/one_cylinder", "cylinder" },
  { HEAD START "\"effects\":[]}" TAIL, "/faults/0/effects", "At least 1" },
  { EFFECT ("\"scale\":2"), "/faults/0/effects/0/parameter", "missing" },
  { EFFECT ("\"parameter\":\"pump_flow\""), "/faults/0/effects/0", "Exactly one" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"scale\":2,\"add\":1"), "/faults/0/effects/0", "Exactly one" },
  { EFFECT ("\"parameter\":\"colour\",\"scale\":2"), "/faults/0/effects/0/parameter", "colour" },
  { EFFECT ("\"parameter\":\"funnel_depth\",\"scale\":2"), "/faults/0/effects/0/parameter", "funnel_depth" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"scale\":-2"), "/faults/0/effects/0/scale", "out of range" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"add\":\"2\""), "/faults/0/effects/0/add", "number" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"scale\":2,\"course\":\"square\""), "/faults/0/effects/0/course", "linear" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"add\":2,\"course\":\"geometric\""), "/faults/0/effects/0/course", "linear" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"scale\":0,\"course\":\"geometric\""), "/faults/0/effects/0/course", "above 0" },
  { EFFECT ("\"parameter\":\"pump_flow\",\"scale\":2},{\"parameter\":\"pump_flow\",\"scale\":3"), "/faults/0/effects/1",
    "twice" },
};

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bads); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    struct fault_catalogue *catalogue = fault_catalogue_parse (bads[i].text, strlen (bads[i].text), problems);
    gboolean found = FALSE;

    g_assert_null (catalogue);
    for (unsigned j = 0; j < problems_count (problems); j++) {
      const struct problem *problem = problems_at (problems, j);
      if ((bads[i].place[0] == 0 || g_str_equal (problem->place, bads[i].place)) && strstr (problem->sentence, bads[i].word))
        found = TRUE;
    }
    if (!found) {
      g_autofree char *text = problems_text (problems, NULL);
      g_test_fail_printf ("row %zu: no “%s” at %s, but:\n%s", i, bads[i].word, bads[i].place, text);
    }
  }
}

/* Everything wrong in a document is told, not only the first. */
static void
test_all_told (void)
{
  static const char text[] = HEAD "{\"key\":7,\"name\":\"A\",\"what\":2,\"repair\":\"r\",\"system\":\"supply\",\"odds\":1,"
                                  "\"effects\":[{\"parameter\":\"no\",\"scale\":1}]}" TAIL;
  g_autoptr (problems_t) problems = problems_new ();

  g_assert_null (fault_catalogue_parse (text, strlen (text), problems));
  g_assert_cmpuint (problems_count (problems), ==, 3);
}

static void
test_read (void)
{
  static const char text[]
      = HEAD START "\"effects\":[{\"parameter\":\"pump_flow\",\"scale\":0.5},{\"parameter\":\"slot_edge\",\"add\":2e-5,"
                   "\"course\":\"square\"},{\"parameter\":\"heater_resistance\",\"scale\":1e7,\"course\":\"reciprocal\"}],"
                   "\"one_cylinder\":true}" TAIL;
  g_autoptr (problems_t) problems = problems_new ();
  g_autoptr (fault_catalogue_t) catalogue = fault_catalogue_parse (text, strlen (text), problems);
  const struct fault *fault;

  g_assert_nonnull (catalogue);
  g_assert_cmpuint (catalogue->count, ==, 1);
  fault = fault_catalogue_find (catalogue, "a");
  g_assert_nonnull (fault);
  g_assert_null (fault_catalogue_find (catalogue, "b"));
  g_assert_cmpstr (fault->name, ==, "A");
  g_assert_cmpstr (fault->what, ==, "w");
  g_assert_cmpstr (fault->repair, ==, "r");
  g_assert_cmpint (fault->system, ==, FAULT_IN_SUPPLY);
  g_assert_true (fault->one_cylinder);
  g_assert_cmpint (fault->effects, ==, 3);
  g_assert_true (fault->effect[0].parameter == parameter_find ("pump_flow"));
  g_assert_cmpint (fault->effect[0].form, ==, FAULT_SCALE);
  g_assert_cmpint (fault->effect[0].course, ==, FAULT_LINEAR);
  g_assert_cmpfloat (fault->effect[0].worst, ==, 0.5);
  g_assert_cmpint (fault->effect[1].form, ==, FAULT_ADD);
  g_assert_cmpint (fault->effect[1].course, ==, FAULT_SQUARE);
  g_assert_cmpint (fault->effect[2].course, ==, FAULT_RECIPROCAL);
}

/* The shipped catalogue: sound, its texts sentences or titles, every fault within what its parameter may be. */
static void
test_shipped (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  const struct fault_catalogue *catalogue = fault_catalogue_shipped (problems);
  gboolean systems[FAULT_SYSTEMS] = { FALSE };

  g_assert_cmpuint (problems_count (problems), ==, 0);
  g_assert_cmpuint (catalogue->count, >=, 40);
  for (unsigned i = 0; i < catalogue->count; i++) {
    const struct fault *fault = &catalogue->fault[i];

    systems[fault->system] = TRUE;
    g_assert_true (g_str_has_suffix (fault->what, "."));
    g_assert_true (g_str_has_suffix (fault->repair, "."));
    g_assert_false (g_str_has_suffix (fault->name, "."));
    g_assert_cmpfloat (fault->odds, >, 0);
    for (int j = 0; j < fault->effects; j++) {
      const struct fault_effect *effect = &fault->effect[j];
      double width = effect->parameter->most - effect->parameter->least;
      if (effect->form == FAULT_ADD)
        g_assert_cmpfloat (ABS (effect->worst), <=, width);
    }
  }
  for (int i = 0; i < FAULT_SYSTEMS; i++)
    g_assert_cmpstr (fault_system_name ((enum fault_system) i), !=, "");
  g_assert_true (systems[FAULT_IN_SUPPLY] && systems[FAULT_IN_CONTROL] && systems[FAULT_IN_METERING]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/faults/read", test_read);
  g_test_add_func ("/documents/faults/bad", test_bad);
  g_test_add_func ("/documents/faults/all-told", test_all_told);
  g_test_add_func ("/documents/faults/shipped", test_shipped);
  return g_test_run ();
}
