#include "problems.h"

#include <string.h>

static void
test_collected (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *none = problems_text (problems, "a.json");
  g_autofree char *text = NULL;
  g_autofree char *bare = NULL;

  g_assert_cmpuint (problems_count (problems), ==, 0);
  g_assert_cmpstr (none, ==, "");
  problems_add (problems, "/readings/3/unit", "%s %d", "unknown", 7);
  problems_add (problems, "", "unreadable");
  text = problems_text (problems, "a.json");
  bare = problems_text (problems, NULL);
  g_assert_cmpstr (text, ==, "a.json: /readings/3/unit: unknown 7\na.json: unreadable\n");
  g_assert_cmpstr (bare, ==, "/readings/3/unit: unknown 7\nunreadable\n");
}

static void
test_one_line_each (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *text = NULL;

  problems_add (problems, "/no\nte", "“%s” is \033[1mbad", "a\tb\177");
  text = problems_text (problems, NULL);
  g_assert_cmpstr (text, ==, "/no\357\277\275te: “a\357\277\275b\357\277\275” is \357\277\275[1mbad\n");
}

static void
test_capped (void)
{
  g_autoptr (problems_t) problems = problems_new ();
  g_autofree char *text = NULL;

  for (int i = 0; i < PROBLEMS_MAX + 7; i++)
    problems_add (problems, "line 1", "wrong");
  g_assert_cmpuint (problems_count (problems), ==, PROBLEMS_MAX + 7);
  g_assert_cmpuint (problems->list->len, ==, PROBLEMS_MAX);
  text = problems_text (problems, NULL);
  g_assert_nonnull (strstr (text, "7 more problems"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/documents/problems/collected", test_collected);
  g_test_add_func ("/documents/problems/one-line-each", test_one_line_each);
  g_test_add_func ("/documents/problems/capped", test_capped);
  return g_test_run ();
}
