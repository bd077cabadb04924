/* The metering room has no GLib: N_() only marks a text for the translators; who shows it translates it. */
#ifndef METERING_TEXT_H
#define METERING_TEXT_H

#ifndef N_
#define N_(text) text
#endif

#endif
