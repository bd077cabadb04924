/* Numbers as people type and read them. Independent of the locale of the C library. */
#ifndef DOCUMENTS_NUMBER_TEXT_H
#define DOCUMENTS_NUMBER_TEXT_H

#include "units.h"

#include <glib.h>

/* A number as typed: decimal point or comma, a sign (also U+2212), an exponent; surrounding white space; nothing else.
 * "1,234.5" is refused (ambiguous), so are nan, inf, hex and more than 64 characters. */
gboolean number_parse (const char *text, double *value, GError **error);

/* A number with an optional unit behind it ("52 psi", "3,75", "-4 °C"): the unit typed, or fallback where none is. */
gboolean measure_parse (const char *text, enum quantity quantity, const struct unit *fallback, double *si,
                        const struct unit **unit, GError **error);

/* The number in a text that measure_parse accepts, as it was typed, without unit and white space. Caller frees. */
char *measure_number (const char *text);

/* Shortest text that reads back as the same double, decimal point. Caller frees. */
char *number_shortest (double value);

/* For the screen: decimals fixed, true minus, the locale's decimal sign; with_unit adds a narrow no-break space and the
 * symbol. Never "-0", never "nan": a value that is not finite is an en dash. Caller frees. */
char *number_shown (double value, int decimals);
char *measure_shown (double si, const struct unit *unit, gboolean with_unit);

#define NUMBER_ERROR (number_error_quark ())
GQuark number_error_quark (void);
enum number_error {
  NUMBER_ERROR_EMPTY,
  NUMBER_ERROR_NOT_A_NUMBER,
  NUMBER_ERROR_UNKNOWN_UNIT,
  NUMBER_ERROR_WRONG_UNIT,
  NUMBER_ERROR_RANGE
};

#endif
