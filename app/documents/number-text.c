#include "number-text.h"

#include <glib/gi18n.h>

#include <errno.h>
#include <math.h>
#include <string.h>

#define TEXT_MAX 64 /* characters; nobody types a longer number */
#define DIGITS_MAX 17 /* decimal digits that tell any two doubles apart (IEEE 754-2019, 5.12.2) */
#define TRUE_MINUS 0x2212u
#define NARROW_SPACE "\342\200\257"
#define EN_DASH "\342\200\223"

G_DEFINE_QUARK (platelift-number-error, number_error)

static gboolean
fail (GError **error, enum number_error code, const char *sentence)
{
  g_set_error_literal (error, NUMBER_ERROR, code, sentence);
  return FALSE;
}

/* The white space of keyboards and of numbers copied from a screen. */
static gboolean
is_space (gunichar c)
{
  return c == ' ' || (c >= '\t' && c <= '\r') || c == 0xa0 || c == 0x2007 || c == 0x2009 || c == 0x202f;
}

static const char *
skip_space (const char *p)
{
  while (*p && is_space (g_utf8_get_char (p)))
    p = g_utf8_next_char (p);
  return p;
}

static const char *
take_sign (const char *p, GString *out)
{
  if (*p == '+')
    return p + 1;
  if (*p == '-' || g_utf8_get_char (p) == TRUE_MINUS) {
    g_string_append_c (out, '-');
    return g_utf8_next_char (p);
  }
  return p;
}

static const char *
take_digits (const char *p, GString *out, int *count)
{
  for (; g_ascii_isdigit (*p); p++, ++*count)
    g_string_append_c (out, *p);
  return p;
}

/* An exponent, or nothing where the letter begins something else ("3 eV"). */
static const char *
take_exponent (const char *p, GString *out)
{
  g_autoptr (GString) exponent = g_string_new ("e");
  const char *q;
  int digits = 0;

  if (*p != 'e' && *p != 'E')
    return p;
  q = take_digits (take_sign (p + 1, exponent), exponent, &digits);
  if (digits == 0)
    return p;
  g_string_append_len (out, exponent->str, (gssize) exponent->len);
  return q;
}

/* The number at the start of text, rewritten for g_ascii_strtod; the end of it in *end, or FALSE. */
static gboolean
scan (const char *text, GString *out, const char **end)
{
  const char *p = take_sign (skip_space (text), out);
  int digits = 0;

  p = take_digits (p, out, &digits);
  if (*p == '.' || *p == ',') {
    g_string_append_c (out, '.');
    p = take_digits (p + 1, out, &digits);
  }
  if (digits == 0)
    return FALSE;
  *end = take_exponent (p, out);
  return TRUE;
}

/* Overflow, and a number that is not zero but would become it. */
static gboolean
in_range (const char *plain, double value)
{
  gsize mantissa = strcspn (plain, "e");

  if (!isfinite (value))
    return FALSE;
  return value != 0 || strcspn (plain, "123456789") >= mantissa;
}

/* A number at the start of text, rewritten into plain; *rest is what follows it, white space skipped. */
static gboolean
leading_number (const char *text, GString *plain, const char **rest, GError **error)
{
  if (!g_utf8_validate (text, -1, NULL))
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER, _("This is not UTF-8 text"));
  if (*skip_space (text) == 0)
    return fail (error, NUMBER_ERROR_EMPTY, _("A number is missing"));
  if (!scan (text, plain, rest))
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER, _("This is not a number"));
  if (g_utf8_pointer_to_offset (text, *rest) > TEXT_MAX)
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER, _("A number has at most 64 characters"));
  *rest = skip_space (*rest);
  if (g_ascii_isdigit (**rest) || (**rest && strchr (".,+-", **rest)))
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER,
                 _("This is not one number; write no separators between the thousands"));
  return TRUE;
}

static gboolean
range_fails (GError **error)
{
  return fail (error, NUMBER_ERROR_RANGE, _("This number is too large or too small to compute with"));
}

gboolean
number_parse (const char *text, double *value, GError **error)
{
  g_autoptr (GString) plain = g_string_new (NULL);
  const char *rest = NULL;
  double read;

  g_return_val_if_fail (text && value, FALSE);
  if (!leading_number (text, plain, &rest, error))
    return FALSE;
  if (*rest)
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER, _("This is not a number"));
  if (g_utf8_strlen (text, -1) > TEXT_MAX)
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER, _("A number has at most 64 characters"));
  read = g_ascii_strtod (plain->str, NULL);
  if (!in_range (plain->str, read))
    return range_fails (error);
  *value = read;
  return TRUE;
}

static gboolean
unit_fails (const char *symbol, GError **error)
{
  if (unit_any (symbol)) {
    g_set_error (error, NUMBER_ERROR, NUMBER_ERROR_WRONG_UNIT, _("“%s” is a unit of something else"), symbol);
    return FALSE;
  }
  g_set_error (error, NUMBER_ERROR, NUMBER_ERROR_UNKNOWN_UNIT, _("“%s” is not a unit known here"), symbol);
  return FALSE;
}

gboolean
measure_parse (const char *text, enum quantity quantity, const struct unit *fallback, double *si,
               const struct unit **unit, GError **error)
{
  g_autoptr (GString) plain = g_string_new (NULL);
  g_autofree char *symbol = NULL;
  const struct unit *found = fallback;
  const char *rest = NULL;
  double read;

  g_return_val_if_fail (text && si, FALSE);
  if (!leading_number (text, plain, &rest, error))
    return FALSE;
  if (g_utf8_strlen (text, -1) > 2 * TEXT_MAX)
    return fail (error, NUMBER_ERROR_NOT_A_NUMBER, _("This is too long for a number and its unit"));
  symbol = g_strchomp (g_strdup (rest));
  if (*symbol && (found = unit_find (symbol, quantity)) == NULL)
    return unit_fails (symbol, error);
  if (found == NULL)
    return fail (error, NUMBER_ERROR_UNKNOWN_UNIT, _("The unit is missing"));
  read = g_ascii_strtod (plain->str, NULL);
  if (!in_range (plain->str, read) || !isfinite (unit_to_si (found, read)))
    return range_fails (error);
  *si = unit_to_si (found, read);
  if (unit)
    *unit = found;
  return TRUE;
}

char *
measure_number (const char *text)
{
  g_autoptr (GString) plain = g_string_new (NULL);
  const char *begin = skip_space (text), *rest = begin;

  g_return_val_if_fail (scan (text, plain, &rest), g_strdup (""));
  return g_strndup (begin, (gsize) (rest - begin));
}

/* digits "3652" and the power of ten of the first one, laid out as people write numbers, or with an exponent. */
static char *
lay_out (gboolean negative, const char *digits, int power)
{
  GString *text = g_string_new (negative ? "-" : "");
  int count = (int) strlen (digits);

  if (power < -5 || power > 15) {
    g_string_append_c (text, digits[0]);
    if (count > 1)
      g_string_append_printf (text, ".%s", digits + 1);
    g_string_append_printf (text, "e%d", power);
  } else if (power < 0) {
    g_string_append (text, "0.");
    for (int i = -1; i > power; i--)
      g_string_append_c (text, '0');
    g_string_append (text, digits);
  } else {
    for (int i = 0; i < MAX (count, power + 1); i++) {
      if (i == power + 1)
        g_string_append_c (text, '.');
      g_string_append_c (text, i < count ? digits[i] : '0');
    }
  }
  return g_string_free (text, FALSE);
}

/* "-3.652e-07" into "3652" and -7. */
static int
split (const char *scientific, char digits[DIGITS_MAX + 1])
{
  const char *exponent = strchr (scientific, 'e');
  int count = 0;

  for (const char *p = scientific; p < exponent; p++)
    if (g_ascii_isdigit (*p))
      digits[count++] = *p;
  while (count > 1 && digits[count - 1] == '0')
    count--;
  digits[count] = 0;
  return (int) g_ascii_strtoll (exponent + 1, NULL, 10);
}

char *
number_shortest (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE], format[8], digits[DIGITS_MAX + 1];
  int power;

  if (!isfinite (value))
    return g_strdup ("null");
  if (value == 0)
    return g_strdup (signbit (value) ? "-0.0" : "0");
  for (int precision = 0; precision < DIGITS_MAX; precision++) {
    g_snprintf (format, sizeof format, "%%.%de", precision);
    g_ascii_formatd (text, sizeof text, format, value);
    if (g_ascii_strtod (text, NULL) == value)
      break;
  }
  power = split (text, digits);
  return lay_out (value < 0, digits, power);
}

char *
number_shown (double value, int decimals)
{
  g_autofree char *plain = NULL;
  const char *figures;

  if (!isfinite (value))
    return g_strdup (EN_DASH);
  if (fabs (value) < 1e12)
    plain = g_strdup_printf ("%.*f", CLAMP (decimals, 0, 12), value);
  else
    plain = g_strdup_printf ("%.4e", value);
  figures = plain[0] == '-' ? plain + 1 : plain;
  if (strpbrk (figures, "123456789") == NULL || figures == plain)
    return g_strdup (figures);
  return g_strconcat ("\342\210\222", figures, NULL);
}

char *
measure_shown (double si, const struct unit *unit, gboolean with_unit)
{
  char *number;
  char *text;

  g_return_val_if_fail (unit, NULL);
  number = number_shown (isfinite (si) ? unit_from_si (unit, si) : si, unit->decimals);
  if (!with_unit || !isfinite (si) || unit->symbol[0] == 0)
    return number;
  text = g_strconcat (number, NARROW_SPACE, _(unit->symbol), NULL);
  g_free (number);
  return text;
}
