/* One car's metering unit and what feeds it: plain values, no pointers, copied by assignment. Every double is listed
 * once in car-parameters.def with its identity, quantity, limits and name; the usual values stand in
 * data/vehicles/generic.json, never in code. Units as in quantity.h. */
#ifndef METERING_CAR_H
#define METERING_CAR_H

#include <stdbool.h>

#define CYLINDERS_MAX 8
#define FUNNEL_POINTS_MAX 16

enum plate_direction {
  PLATE_PRESSED_DOWN, /* air comes from above; the pivot lies between plate and roller */
  PLATE_LIFTED        /* air comes from below; the roller lies between pivot and plate */
};

/* Round plate on a lever in a funnel. Lift is measured along the plate's path from the upper edge of the land, so a
 * plate at lift 0 is flush with it. */
struct air_sensor {
  double plate_radius;
  double plate_thickness;
  double plate_arm;   /* pivot to plate centre */
  double roller_arm;  /* pivot to roller */
  double discharge;   /* of the gap between plate and funnel */
  double play;        /* free travel at the plate before the roller meets the plunger, from lift 0 */
  double rest_height; /* lift at which the plate rests, signed along the opening direction */
  double top_stop;    /* lift at the buffer */
  double unbalance;   /* moment that the balance weight leaves, positive closing; 0 when healthy */
  double friction;    /* at the plate; a dead band to either side */
  double moving_mass; /* plate, lever, weight and plunger, reduced to the plate */
  double damping;     /* of the lever by itself, at the plate */
  double closing_force; /* at the plate: what the balance weight leaves to close it when no plunger pushes */
  /* Funnel profile from the upper edge of the land downstream: depth rising, clearance = funnel radius - plate radius */
  double funnel_depth[FUNNEL_POINTS_MAX];
  double funnel_clearance[FUNNEL_POINTS_MAX];
  int funnel_points;
};

struct fuel_distributor {
  double plunger_diameter;
  double plunger_mass;
  double plunger_leak;         /* past the plunger into the air; also of the pressure that stands in the slots' groove */
  double damping_diameter;     /* orifice between control circuit and the chamber over the plunger */
  double damping_discharge;
  double damping_resistance;   /* laminar part of it: the plunger's annular gap */
  double counter_spring;       /* force that helps the control pressure to push the plunger down; 0 where there is none */
  double mixture_offset;       /* plunger lift that the mixture screw adds */
  double mixture_screw_pitch;  /* plunger lift by one turn of the screw, positive richer */
  double slot_discharge;       /* turbulent limit */
  double slot_transition;      /* flow number at which the slots' flow turns turbulent */
  double slot_width[CYLINDERS_MAX];
  double slot_height[CYLINDERS_MAX];
  double slot_edge[CYLINDERS_MAX];      /* where the slot's lower edge lies above its drawn place: gum, or tolerance */
  double valve_drop[CYLINDERS_MAX];     /* pressure difference that the valve holds at no flow */
  double valve_rate[CYLINDERS_MAX];     /* spring and diaphragm together */
  double valve_area;                    /* working area of the diaphragm */
  double valve_travel;                  /* largest opening */
  double valve_seat_diameter;
  double valve_seat_discharge;
  double nozzle_opening[CYLINDERS_MAX]; /* line pressure at which the nozzle opens */
  double nozzle_rate[CYLINDERS_MAX];    /* rise of line pressure by flow, line and nozzle */
};

struct fuel_supply {
  double pump_flow;          /* at the rated voltage and pressure */
  double pump_voltage;       /* rated */
  double pump_pressure;      /* rated */
  double pump_slip;          /* flow lost by pressure at constant speed */
  double pump_resistance;    /* of the motor and its leads */
  double pump_current;       /* at the rated pressure */
  double pump_current_rate;  /* rise of current by pressure */
  double pump_supply_loss;   /* share of the voltage lost on the way to the pump; 0 healthy */
  double strainer_resistance; /* of the strainer and the suction line; the pump's rating includes it, the suction counts */
  double suction_limit;      /* depression at the pump's inlet at which the fuel boils there and no more follows */
  double tank_pressure;      /* in the tank, gauge; 0 where it is vented */
  double pump_relief;        /* opening pressure of the pump's own relief */
  double pump_relief_slope;  /* flow through it by pressure above that */
  double filter_resistance;
  double regulator_opening;  /* system pressure at which the regulator begins to return fuel */
  double regulator_rate;     /* rise of system pressure by returned flow */
  double return_resistance;  /* return line to the tank */
  double check_valve_leak;   /* back through the still pump */
  double regulator_leak;     /* past the regulator's shut seat */
  double shutoff_leak;       /* past the shut shut-off valve of the control return */
  double shutoff_closing;    /* system pressure at which that valve shuts when the pump has stopped */
  double shutoff_opening;    /* and at which it opens again */
};

/* Orifice, warm-up regulator with its bimetal strip, heater and two-chamber load diaphragm. */
struct control_circuit {
  double orifice_diameter;
  double orifice_discharge;
  double seat_area;           /* on which the control pressure acts against the spring */
  double diaphragm_area;      /* on which a return pressure acts on the dry side's fuel face; at least seat_area */
  double spring_force;        /* warm, load diaphragm at its upper stop */
  double flow_rate;           /* rise of control pressure by flow */
  double floor_pressure;      /* lowest regulated pressure: the bimetal's own stop */
  double release_temperature; /* above it the bimetal has lifted off the spring */
  double bimetal_length;
  double bimetal_width;
  double bimetal_thickness;   /* both layers, equally thick */
  double bimetal_expansion;   /* difference of the two layers' coefficients */
  double bimetal_modulus;     /* of both layers */
  double load_vacuum_low;     /* below it the load diaphragm lies on its lower stop */
  double load_vacuum_high;    /* above it, on its upper stop; load stage absent when load_spring_rate is 0 */
  double load_travel;         /* between the stops */
  double load_spring_rate;    /* of the outer spring that the diaphragm carries */
  double load_tightness;      /* share of the hose's vacuum that reaches the diaphragm; 1 healthy, 0 torn or hose off */
  double heater_resistance;   /* at 20 degC */
  double heater_coefficient;  /* rise of resistance by temperature */
  double heater_supply;       /* share of the supply voltage that reaches the heater; 1 healthy */
  double bimetal_capacity;
  double housing_capacity;
  double bimetal_housing;     /* conductance bimetal to housing */
  double housing_block;       /* housing to engine block */
  double housing_air;         /* housing to ambient air */
};

struct fuel {
  double density;          /* at 15 degC */
  double hydrogen_carbon;  /* atoms of hydrogen by atom of carbon */
  double oxygen_carbon;
  double viscosity;        /* at 20 degC */
  double viscosity_slope;  /* -d ln(viscosity)/dT at 20 degC */
  double reid_pressure;    /* Reid vapour pressure, absolute */
  double heating_value;    /* lower */
};

struct engine_air {
  double displacement;
  double unmetered_area;   /* discharge coefficient x area of a leak behind the plate; 0 healthy */
  double idle_air;         /* metered air at warm idle */
  double full_air;         /* largest metered air */
  double lambda_rich;      /* the window in which the warm engine runs well */
  double lambda_lean;
  double inertia;               /* crankshaft, flywheel and what turns with it */
  double volumetric_efficiency;
  double indicated_efficiency;  /* at the best mixture */
  double friction_factor;       /* on the usual friction of such engines */
  double accessory_torque;
  double oil_cold, oil_hot;     /* kinematic viscosity at 20 and 90 degC */
  double misfire[CYLINDERS_MAX]; /* share of ignitions that fail */
};

/* From the plate to the inlet ports. Areas are discharge coefficient x area. */
struct intake {
  double chamber_volume;        /* between plate and throttle */
  double manifold_volume;
  double throttle_area;         /* wide open */
  double bypass_area;           /* round the shut throttle: the idle screw */
  double auxiliary_area;        /* of the auxiliary air valve, fully open */
  double auxiliary_shut;        /* its own temperature at which it is shut */
  double auxiliary_span;        /* so far below that it is fully open */
  double auxiliary_capacity;
  double auxiliary_resistance;  /* of its heater */
  double auxiliary_supply;      /* share of the supply voltage that reaches it; 1 healthy */
  double auxiliary_coolant;     /* conductance to the block */
  double auxiliary_air;         /* and to the air */
};

/* The fuel that is shut in between check valve, regulator and nozzles. */
struct fuel_store {
  double volume;              /* of liquid at no pressure */
  double hot_volume;          /* part of it that takes the engine's heat */
  double compliance;          /* lines, chambers and liquid */
  double control_volume;      /* of liquid in the warm-up regulator, which takes the block's heat */
  double control_compliance;  /* of the control circuit, its damper included */
  double accumulator_volume;  /* between its stops */
  double accumulator_empty;   /* pressure at which its diaphragm leaves the empty stop */
  double accumulator_full;    /* and at which it reaches the full one */
  double accumulator_leak;    /* through its diaphragm */
  double vent_opening;        /* vacuum at which the compensating valve opens */
  double vent_conductance;    /* 0 where it is stuck or there is none */
};

/* Starter, cold start and what switches. */
struct start_gear {
  double starter_torque;      /* at no speed */
  double starter_speed;       /* at no torque */
  double starter_release;     /* engine speed at which the driver or the clutch lets it go */
  double battery_voltage;     /* at rest */
  double cranking_voltage;
  double charging_voltage;
  double contact_lift;        /* of the plate above rest at which the safety contact lets the pump run */
  double pulse_speed;         /* above 0: the relay is fed by ignition pulses from this speed on, not by the plate */
  double valve_flow;          /* of the cold-start valve at its rated pressure */
  double valve_pressure;      /* that pressure */
  double valve_leak;
  double switch_opening;      /* temperature at which the thermo-time switch opens */
  double switch_capacity;
  double switch_coolant;      /* conductance to the coolant */
  double switch_power;        /* of its heater while cranking */
};

/* Heat of engine and fuel. */
struct thermal {
  double engine_capacity;
  double engine_share;        /* of the burnt power that warms it */
  double engine_loss;         /* conductance to the air, turning */
  double engine_still_loss;   /* and at rest */
  double radiator;            /* conductance that the thermostat adds, fully open */
  double thermostat_opening;  /* coolant temperature */
  double thermostat_span;     /* further rise that opens it fully */
  double fuel_capacity;       /* of the hot part's fuel and metal */
  double fuel_engine;         /* conductance to the engine */
  double fuel_air;
  double wall_rise;           /* of the inlet walls over the coolant, turning */
  double wall_time;           /* in which they follow, turning */
  double wall_still_time;     /* and at rest */
};

/* What an analyser meets at the tailpipe. */
struct exhaust {
  double mixture_spread;      /* standard deviation of lambda inside one charge */
  double leak_share;          /* of air in the sampled gas; 0 healthy */
};

struct car {
  int cylinders;
  enum plate_direction direction;
  struct air_sensor sensor;
  struct fuel_distributor distributor;
  struct fuel_supply supply;
  struct control_circuit control;
  struct fuel fuel;
  struct engine_air engine;
  struct intake intake;
  struct fuel_store store;
  struct start_gear start;
  struct thermal thermal;
  struct exhaust exhaust;
};

#endif
