#include "json-strict.h"

#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

#define WHOLE_DIGITS_MAX 18 /* the library keeps whole numbers in 63 bits */

struct scan {
  const char *at, *end;
  const char *start, *line_start;
  int line;
  int depth;
  struct problems *problems;
};

static gboolean scan_value (struct scan *scan);

static gboolean
fault (const struct scan *scan, const char *at, const char *sentence)
{
  g_autofree char *place = NULL;
  const char *from = MIN (scan->line_start, at);

  place = g_strdup_printf (_("line %d, column %ld"), scan->line, g_utf8_strlen (from, at - from) + 1);
  problems_add (scan->problems, place, "%s", sentence);
  return FALSE;
}

static char
peek (const struct scan *scan)
{
  return scan->at < scan->end ? *scan->at : 0;
}

static void
skip_space (struct scan *scan)
{
  for (; scan->at < scan->end && strchr (" \t\r\n", *scan->at) && *scan->at; scan->at++)
    if (*scan->at == '\n') {
      scan->line++;
      scan->line_start = scan->at + 1;
    }
}

static gboolean
unexpected (const struct scan *scan, const char *wanted)
{
  g_autofree char *sentence = NULL;

  if (scan->at >= scan->end)
    sentence = g_strdup_printf (_("the text ends where %s should stand"), wanted);
  else if (*scan->at == '/' || *scan->at == '#')
    sentence = g_strdup_printf (_("%s should stand here; comments are not part of JSON"), wanted);
  else
    sentence = g_strdup_printf (_("%s should stand here"), wanted);
  return fault (scan, scan->at, sentence);
}

/* Four hexadecimal digits after \u, or -1. */
static int
hex4 (const struct scan *scan, const char *p)
{
  int value = 0;

  if (scan->end - p < 4)
    return -1;
  for (int i = 0; i < 4; i++) {
    int digit = g_ascii_xdigit_value (p[i]);
    if (digit < 0)
      return -1;
    value = value * 16 + digit;
  }
  return value;
}

/* What stands after a backslash; a decoded character is appended. */
static gboolean
scan_escape (struct scan *scan, GString *out)
{
  static const char plain[] = "\"\\/bfnrt", meant[] = "\"\\/\b\f\n\r\t";
  const char *begin = scan->at;
  char c = scan->at + 1 < scan->end ? scan->at[1] : 0;
  int first, second;

  if (c && strchr (plain, c)) {
    g_string_append_c (out, meant[strchr (plain, c) - plain]);
    scan->at += 2;
    return TRUE;
  }
  if (c != 'u' || (first = hex4 (scan, scan->at + 2)) < 0)
    return fault (scan, begin, _("this is not an escape that JSON knows"));
  scan->at += 6;
  if (first == 0)
    return fault (scan, begin, _("the character U+0000 cannot stand in a text"));
  if (first >= 0xd800 && first < 0xe000) {
    second = scan->end - scan->at >= 6 && scan->at[0] == '\\' && scan->at[1] == 'u' ? hex4 (scan, scan->at + 2) : -1;
    if (first >= 0xdc00 || second < 0xdc00 || second > 0xdfff)
      return fault (scan, begin, _("half of a surrogate pair is no character"));
    scan->at += 6;
    first = 0x10000 + ((first - 0xd800) << 10) + (second - 0xdc00);
  }
  g_string_append_unichar (out, (gunichar) first);
  return TRUE;
}

/* A text; decoded into out. */
static gboolean
scan_text (struct scan *scan, GString *out)
{
  const char *begin = scan->at++;

  for (;;) {
    if (scan->at >= scan->end)
      return fault (scan, begin, _("this text has no closing quotation mark"));
    if (*scan->at == '"') {
      scan->at++;
      return TRUE;
    }
    if ((guchar) *scan->at < 0x20)
      return fault (scan, scan->at, *scan->at == '\n' ? _("a text must end on the line where it begins; write \\n")
                                                      : _("a control character must be written as an escape"));
    if (*scan->at == '\\') {
      if (!scan_escape (scan, out))
        return FALSE;
    } else
      g_string_append_c (out, *scan->at++);
  }
}

static gboolean
scan_digits (struct scan *scan, int *count)
{
  *count = 0;
  for (; g_ascii_isdigit (peek (scan)); scan->at++)
    ++*count;
  return *count > 0;
}

static gboolean
number_in_range (const char *begin, const char *end)
{
  g_autofree char *text = g_strndup (begin, (gsize) (end - begin));
  double value = g_ascii_strtod (text, NULL);
  gsize mantissa = strcspn (text, "eE");

  return isfinite (value) && (value != 0 || strcspn (text, "123456789") >= mantissa);
}

static gboolean
scan_number (struct scan *scan)
{
  const char *begin = scan->at, *whole;
  gboolean is_whole = TRUE;
  int digits, more;

  if (peek (scan) == '-')
    scan->at++;
  whole = scan->at;
  if (!scan_digits (scan, &digits))
    return fault (scan, begin, _("a number needs a digit here"));
  if (*whole == '0' && digits > 1)
    return fault (scan, begin, _("a number must not begin with a needless 0"));
  if (peek (scan) == '.') {
    is_whole = FALSE;
    scan->at++;
    if (!scan_digits (scan, &more))
      return fault (scan, scan->at, _("a digit must follow the decimal point"));
  }
  if (peek (scan) == 'e' || peek (scan) == 'E') {
    is_whole = FALSE;
    scan->at++;
    if (peek (scan) == '+' || peek (scan) == '-')
      scan->at++;
    if (!scan_digits (scan, &more))
      return fault (scan, scan->at, _("a digit must follow the exponent's letter"));
  }
  if ((is_whole && digits > WHOLE_DIGITS_MAX) || !number_in_range (begin, scan->at))
    return fault (scan, begin, _("this number is too large or too small to compute with"));
  if (g_ascii_isalnum (peek (scan)) || peek (scan) == '.' || peek (scan) == '+')
    return fault (scan, begin, _("this is not a number as JSON writes it"));
  return TRUE;
}

static gboolean
scan_word (struct scan *scan)
{
  static const char *const words[] = { "true", "false", "null" };
  gsize length = 0;

  while (scan->at + length < scan->end && g_ascii_isalnum (scan->at[length]))
    length++;
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (strlen (words[i]) == length && strncmp (scan->at, words[i], length) == 0) {
      scan->at += length;
      return TRUE;
    }
  if (length > 0)
    return fault (scan, scan->at, _("this word means nothing in JSON (numbers such as NaN do not exist there)"));
  return unexpected (scan, _("a value"));
}

/* One name with its value; names holds those seen before in this object. */
static gboolean
scan_member (struct scan *scan, GHashTable *names)
{
  g_autoptr (GString) name = g_string_new (NULL);
  const char *begin = scan->at;

  if (peek (scan) != '"')
    return unexpected (scan, _("a name in quotation marks"));
  if (!scan_text (scan, name))
    return FALSE;
  if (!g_hash_table_add (names, g_strdup (name->str))) {
    g_autofree char *sentence = g_strdup_printf (_("the name “%s” stands twice in one object"), name->str);
    return fault (scan, begin, sentence);
  }
  skip_space (scan);
  if (peek (scan) != ':')
    return unexpected (scan, _("a colon"));
  scan->at++;
  return scan_value (scan);
}

/* What lies between the brackets of an object (names not NULL) or an array. */
static gboolean
scan_inside (struct scan *scan, char closing, GHashTable *names)
{
  skip_space (scan);
  if (peek (scan) == closing) {
    scan->at++;
    return TRUE;
  }
  for (;;) {
    skip_space (scan);
    if (!(names ? scan_member (scan, names) : scan_value (scan)))
      return FALSE;
    skip_space (scan);
    if (peek (scan) == closing) {
      scan->at++;
      return TRUE;
    }
    if (peek (scan) != ',')
      return unexpected (scan, closing == '}' ? _("a comma or a closing brace") : _("a comma or a closing bracket"));
    scan->at++;
  }
}

static gboolean
scan_nested (struct scan *scan)
{
  g_autoptr (GHashTable) names = NULL;
  char opening = *scan->at;
  gboolean good;

  if (scan->depth >= JSON_DEPTH_MAX) {
    g_autofree char *sentence = g_strdup_printf (_("brackets are nested more than %d deep"), JSON_DEPTH_MAX);
    return fault (scan, scan->at, sentence);
  }
  scan->at++;
  scan->depth++;
  if (opening == '{')
    names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  good = scan_inside (scan, opening == '{' ? '}' : ']', names);
  scan->depth--;
  return good;
}

static gboolean
scan_value (struct scan *scan)
{
  g_autoptr (GString) ignored = NULL;

  skip_space (scan);
  switch (peek (scan)) {
  case '{':
  case '[':
    return scan_nested (scan);
  case '"':
    ignored = g_string_new (NULL);
    return scan_text (scan, ignored);
  default:
    if (peek (scan) == '-' || g_ascii_isdigit (peek (scan)))
      return scan_number (scan);
    return scan_word (scan);
  }
}

/* Where the first byte lies that is not UTF-8. */
static gboolean
utf8_fault (struct scan *scan, const char *bad)
{
  for (const char *p = scan->start; p < bad; p++)
    if (*p == '\n') {
      scan->line++;
      scan->line_start = p + 1;
    }
  return fault (scan, bad, _("this byte is not UTF-8 text"));
}

gboolean
json_strict_check (const char *text, gsize length, struct problems *problems)
{
  struct scan scan = { text, text + length, text, text, 1, 0, problems };
  const char *bad = NULL;

  g_return_val_if_fail ((text || length == 0) && problems, FALSE);
  if (length > JSON_SIZE_MAX) {
    g_autofree char *has = g_format_size_full (length, G_FORMAT_SIZE_IEC_UNITS);
    problems_add (problems, "", _("The text is too large: %s; the limit is 4 MiB"), has);
    return FALSE;
  }
  if (length == 0) {
    problems_add (problems, "", _("The text is empty"));
    return FALSE;
  }
  if (!g_utf8_validate (text, (gssize) length, &bad))
    return utf8_fault (&scan, bad);
  if (length >= 3 && memcmp (text, "\357\273\277", 3) == 0)
    scan.at = scan.line_start = text + 3;
  if (!scan_value (&scan))
    return FALSE;
  skip_space (&scan);
  if (scan.at < scan.end)
    return fault (&scan, scan.at, _("nothing may follow the document's closing brace"));
  return TRUE;
}

JsonNode *
json_strict_parse (const char *text, gsize length, struct problems *problems)
{
  g_autoptr (JsonParser) parser = NULL;
  g_autoptr (GError) error = NULL;

  if (!json_strict_check (text, length, problems))
    return NULL;
  if (length >= 3 && memcmp (text, "\357\273\277", 3) == 0) {
    text += 3;
    length -= 3;
  }
  parser = json_parser_new_immutable ();
  if (!json_parser_load_from_data (parser, text, (gssize) length, &error)) {
    problems_add (problems, "", "%s", error->message);
    return NULL;
  }
  return json_parser_steal_root (parser);
}
