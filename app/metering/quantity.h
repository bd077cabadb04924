/* What kind of thing a number is. Inside the program every number is in the SI unit named here (temperatures in
 * degrees Celsius, which is an SI unit); other units exist only at the border (documents/units.h). Pressures are gauge,
 * that is against the surrounding air, unless a name says "absolute". */
#ifndef METERING_QUANTITY_H
#define METERING_QUANTITY_H

enum quantity {
  QUANTITY_NUMBER,                 /* no unit: lambda, a discharge coefficient */
  QUANTITY_FRACTION,               /* no unit, shown in per cent: humidity, a spread */
  QUANTITY_PRESSURE,               /* Pa, gauge */
  QUANTITY_PRESSURE_DIFFERENCE,    /* Pa */
  QUANTITY_TEMPERATURE,            /* degC */
  QUANTITY_TEMPERATURE_DIFFERENCE, /* K */
  QUANTITY_LENGTH,                 /* m */
  QUANTITY_AREA,                   /* m2 */
  QUANTITY_VOLUME,                 /* m3 */
  QUANTITY_MASS,                   /* kg */
  QUANTITY_MASS_FLOW,              /* kg/s */
  QUANTITY_VOLUME_FLOW,            /* m3/s */
  QUANTITY_FORCE,                  /* N */
  QUANTITY_TORQUE,                 /* N m */
  QUANTITY_STIFFNESS,              /* N/m */
  QUANTITY_MODULUS,                /* Pa: stiffness of a material */
  QUANTITY_EXPANSION,              /* 1/K */
  QUANTITY_DENSITY,                /* kg/m3 */
  QUANTITY_VISCOSITY,              /* m2/s, kinematic */
  QUANTITY_VOLTAGE,                /* V */
  QUANTITY_CURRENT,                /* A */
  QUANTITY_RESISTANCE,             /* ohm */
  QUANTITY_TIME,                   /* s */
  QUANTITY_HEAT_CAPACITY,          /* J/K */
  QUANTITY_HEAT_CONDUCTANCE,       /* W/K */
  QUANTITY_LINEAR_RESISTANCE,      /* Pa s/m3: pressure drop by flow, laminar */
  QUANTITY_SQUARE_RESISTANCE,      /* Pa s2/m6: pressure drop by flow squared, turbulent */
  QUANTITY_CONDUCTANCE,            /* m3/(s Pa): flow by pressure */
  QUANTITY_CURRENT_PER_PRESSURE,   /* A/Pa */
  QUANTITY_TEMPERATURE_COEFFICIENT,/* 1/K */
  QUANTITY_DAMPING,                /* N s/m */
  QUANTITY_INERTIA,                /* kg m2 */
  QUANTITY_COMPLIANCE,             /* m3/Pa: volume by pressure */
  QUANTITY_POWER,                  /* W */
  QUANTITY_HEATING_VALUE,          /* J/kg */
  QUANTITY_ANGULAR_SPEED,          /* rad/s */
  QUANTITIES
};

/* The SI unit as written above, "" for a number without a unit. Never NULL, static. */
const char *quantity_unit (enum quantity quantity);

#endif
