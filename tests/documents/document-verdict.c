/* Reads documents from standard input, each "vehicle", "job", "faults" or "tolerances", a space, the length in bytes, a line end and the text;
 * prints our readers' verdict of each: "fine"; "beyond" where all that is wrong is of the kind a JSON Schema cannot
 * express; "bad" otherwise, with the first problem. */
#include "fault-document.h"
#include "job-document.h"
#include "tolerance-document.h"
#include "vehicle-document.h"

#include <stdio.h>

static void
judge (const char *format, const char *text, gsize length)
{
  g_autoptr (problems_t) problems = problems_new ();

  if (g_str_equal (format, "vehicle"))
    g_free (vehicle_parse (text, length, problems));
  else if (g_str_equal (format, "faults"))
    fault_catalogue_free (fault_catalogue_parse (text, length, problems));
  else if (g_str_equal (format, "tolerances")) {
    struct tolerances tolerances;
    tolerances_parse (text, length, &tolerances, problems);
  } else
    job_free (job_parse (text, length, problems));
  if (problems_count (problems) == 0)
    puts ("fine");
  else
    printf ("%s %s: %s\n", problems->beyond_schema == problems_count (problems) ? "beyond" : "bad",
            problems_at (problems, 0)->place, problems_at (problems, 0)->sentence);
}

int
main (void)
{
  char format[16];
  size_t length;

  while (scanf ("%15s %zu", format, &length) == 2) {
    g_autofree char *text = g_malloc (length + 1);
    if (getchar () != '\n' || fread (text, 1, length, stdin) != length)
      return 1;
    text[length] = 0;
    judge (format, text, length);
  }
  return ferror (stdin) || fflush (stdout) != 0;
}
