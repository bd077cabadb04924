#include "json-strict.h"

#include <string.h>

#define LITERAL(text) text, sizeof text - 1

static const struct {
  const char *text;
  gsize length;
} good[] = {
  { LITERAL ("{}") },
  { LITERAL ("[]") },
  { LITERAL (" \t\r\n{ } \n") },
  { LITERAL ("\357\273\277{}") },
  { LITERAL ("0") },
  { LITERAL ("-0") },
  { LITERAL ("{\"a\": [1, -2.5, 3e5, 4E-5, 5.0e+10, true, false, null, \"x\"]}") },
  { LITERAL ("{\"a\": 1, \"b\": {\"a\": 2}}") },
  { LITERAL ("\"\\u00e4\\n\\\"\\/\\\\\\b\\f\\r\\t\"") },
  { LITERAL ("\"\\ud83d\\ude00\"") },
  { LITERAL ("[0.1e-300, 1e308, 123456789012345678]") },
  { LITERAL ("\"\303\244\"") },
};

static const struct {
  const char *text;
  gsize length;
  const char *place, *words;
} bad[] = {
  { LITERAL (""), "", "empty" },
  { LITERAL ("   "), "line 1, column 4", "value" },
  { LITERAL ("\357\273\277"), "line 1, column 1", "value" },
  { LITERAL ("{} {}"), "line 1, column 4", "follow" },
  { LITERAL ("{}\n\n  x"), "line 3, column 3", "follow" },
  { LITERAL ("{\"a\": 1e999}"), "line 1, column 7", "too large" },
  { LITERAL ("{\"a\": -1e999}"), "line 1, column 7", "too large" },
  { LITERAL ("{\"a\": 1e-999}"), "line 1, column 7", "too small" },
  { LITERAL ("{\"a\": 12345678901234567890}"), "line 1, column 7", "too large" },
  { LITERAL ("{\"a\": 007}"), "line 1, column 7", "needless 0" },
  { LITERAL ("{\"a\": -01}"), "line 1, column 7", "needless 0" },
  { LITERAL ("{\"a\": +1}"), "line 1, column 7", "value" },
  { LITERAL ("{\"a\": .5}"), "line 1, column 7", "value" },
  { LITERAL ("{\"a\": 5.}"), "line 1, column 9", "digit" },
  { LITERAL ("{\"a\": 5e}"), "line 1, column 9", "digit" },
  { LITERAL ("{\"a\": -}"), "line 1, column 7", "digit" },
  { LITERAL ("{\"a\": 0x10}"), "line 1, column 7", "not a number" },
  { LITERAL ("{\"a\": 1.2.3}"), "line 1, column 7", "not a number" },
  { LITERAL ("{\"a\": 3,65}"), "line 1, column 9", "name" },
  { LITERAL ("{\"a\": NaN}"), "line 1, column 7", "NaN" },
  { LITERAL ("{\"a\": Infinity}"), "line 1, column 7", "word" },
  { LITERAL ("{\"a\": True}"), "line 1, column 7", "word" },
  { LITERAL ("{\"a\": 1,\n \"a\": 2}"), "line 2, column 2", "twice" },
  { LITERAL ("{\"a\": 1, \"\\u0061\": 2}"), "line 1, column 10", "twice" },
  { LITERAL ("{\"\303\244\": 1, \"\303\244\": 2}"), "line 1, column 10", "twice" },
  { LITERAL ("// hello\n{}"), "line 1, column 1", "comments" },
  { LITERAL ("{\n/* hello */}"), "line 2, column 1", "comments" },
  { LITERAL ("# hello\n{}"), "line 1, column 1", "comments" },
  { LITERAL ("{\"a\": 1,}"), "line 1, column 9", "name" },
  { LITERAL ("[1, 2,]"), "line 1, column 7", "value" },
  { LITERAL ("[1 2]"), "line 1, column 4", "comma" },
  { LITERAL ("{\"a\" 1}"), "line 1, column 6", "colon" },
  { LITERAL ("{a: 1}"), "line 1, column 2", "quotation" },
  { LITERAL ("{'a': 1}"), "line 1, column 2", "quotation" },
  { LITERAL ("{\"a\": \"x}"), "line 1, column 7", "closing quotation" },
  { LITERAL ("{\"a\": \"x\ny\"}"), "line 1, column 9", "line" },
  { LITERAL ("{\"a\": \"x\001y\"}"), "line 1, column 9", "control" },
  { LITERAL ("{\"a\": \"\\q\"}"), "line 1, column 8", "escape" },
  { LITERAL ("{\"a\": \"\\u12\"}"), "line 1, column 8", "escape" },
  { LITERAL ("{\"a\": \"\\u0000\"}"), "line 1, column 8", "U+0000" },
  { LITERAL ("{\"a\": \"\\ud800\"}"), "line 1, column 8", "surrogate" },
  { LITERAL ("{\"a\": \"\\ud800\\u0041\"}"), "line 1, column 8", "surrogate" },
  { LITERAL ("{\"a\": \"\\udc00\"}"), "line 1, column 8", "surrogate" },
  { LITERAL ("{\"a\":\n\"\377\"}"), "line 2, column 2", "UTF-8" },
  { LITERAL ("{\"a\": \"\303\"}"), "line 1, column 8", "UTF-8" },
  { LITERAL ("{\"a\": \"\355\240\200\"}"), "line 1, column 8", "UTF-8" }, /* a surrogate in UTF-8 */
  { LITERAL ("{}\0"), "line 1, column 3", "UTF-8" },
  { LITERAL ("{"), "line 1, column 2", "ends" },
  { LITERAL ("[1,"), "line 1, column 4", "ends" },
  { LITERAL ("}"), "line 1, column 1", "value" },
  { LITERAL ("\302\240{}"), "line 1, column 1", "value" }, /* a no-break space is not JSON's white space */
};

static void
test_good (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (good); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (JsonNode) root = json_strict_parse (good[i].text, good[i].length, problems);
    g_assert_cmpuint (problems_count (problems), ==, 0);
    g_assert_nonnull (root);
  }
}

static void
test_bad (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_test_message ("row %zu: %s", i, bad[i].words);
    g_assert_null (json_strict_parse (bad[i].text, bad[i].length, problems));
    g_assert_cmpuint (problems_count (problems), ==, 1);
    g_assert_cmpstr (problems_at (problems, 0)->place, ==, bad[i].place);
    g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, bad[i].words));
  }
}

static void
test_depth (void)
{
  static const char opening[] = { '[', '{' };

  for (int i = 0; i < 2; i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autofree char *text = g_strnfill (100000, opening[i]);
    g_assert_false (json_strict_check (text, 100000, problems));
    g_assert_cmpuint (problems_count (problems), ==, 1);
  }
  for (int depth = JSON_DEPTH_MAX; depth <= JSON_DEPTH_MAX + 1; depth++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (GString) text = g_string_new (NULL);
    for (int i = 0; i < depth; i++)
      g_string_append_c (text, '[');
    for (int i = 0; i < depth; i++)
      g_string_append_c (text, ']');
    g_assert_cmpint (json_strict_check (text->str, text->len, problems), ==, depth == JSON_DEPTH_MAX);
    if (depth > JSON_DEPTH_MAX)
      g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, "32 deep"));
  }
}

static void
test_size (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *text = g_strnfill (JSON_SIZE_MAX + 1, ' ');

  text[0] = '0';
  g_assert_true (json_strict_check (text, JSON_SIZE_MAX, problems));
  g_assert_false (json_strict_check (text, JSON_SIZE_MAX + 1, problems));
  g_assert_nonnull (strstr (problems_at (problems, 0)->sentence, "4 MiB"));
}

/* Bytes thrown at random, and good texts with bytes changed: a verdict without a crash, and what passes the scan is
 * what the library reads too. */
static void
test_random (void)
{
  static const char letters[] = "{}[]\",:0123456789.eE+-\\u tfn\n/#\377\303\244\001";
  GRand *random = g_rand_new_with_seed (41);
  int passed = 0;

  for (int i = 0; i < 200000; i++) {
    g_autoptr (problems_t) problems = problems_new ();
    g_autoptr (JsonNode) root = NULL;
    char text[64];
    gsize length = (gsize) g_rand_int_range (random, 0, 24);
    if (i % 2 == 0) {
      for (gsize j = 0; j < length; j++)
        text[j] = letters[g_rand_int_range (random, 0, sizeof letters - 1)];
    } else {
      length = (gsize) g_snprintf (text, sizeof text, "{\"a\": [1.5, \"x\\n\"], \"b\": {\"c\": true}}");
      for (int j = 0; j < 2; j++)
        text[g_rand_int_range (random, 0, (gint32) length)] = letters[g_rand_int_range (random, 0, sizeof letters - 1)];
    }
    root = json_strict_parse (text, length, problems);
    g_assert_cmpint (root == NULL, ==, problems_count (problems) == 1);
    passed += root != NULL;
  }
  g_assert_cmpint (passed, >, 1000);
  g_rand_free (random);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/json-strict/good", test_good);
  g_test_add_func ("/documents/json-strict/bad", test_bad);
  g_test_add_func ("/documents/json-strict/depth", test_depth);
  g_test_add_func ("/documents/json-strict/size", test_size);
  g_test_add_func ("/documents/json-strict/random", test_random);
  return g_test_run ();
}
