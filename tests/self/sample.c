/* One sample of each way in which a test program can end; see prove. */
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

int
main (int argc, char **argv)
{
  const char *way = argc > 1 ? argv[1] : "";

  if (!strcmp (way, "silent") || !strcmp (way, "untapped"))
    return 0;
  if (!strcmp (way, "skipping"))
    {
      puts ("1..1\nok 1 first # SKIP not here");
      return 0;
    }
  puts ("1..2\nok 1 first");
  fflush (stdout);
  if (!strcmp (way, "crashing"))
    raise (SIGSEGV);
  if (!strcmp (way, "hanging"))
    for (;;)
      pause ();
  if (!strcmp (way, "short"))
    return 0;
  puts (strcmp (way, "failing") ? "ok 2 second" : "not ok 2 second");
  return !strcmp (way, "lying") || !strcmp (way, "failing");
}
