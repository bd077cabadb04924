/* written by po/list-texts, for xgettext only */
/* data/faults/faults.json: pump-worn, name */
N_("Fuel pump worn")
/* data/faults/faults.json: pump-worn, what */
N_("The rollers leak within the pump: it delivers less, and loses more of it to pressure.")
/* data/faults/faults.json: pump-worn, repair */
N_("Replace the pump; look for the dirt that wore it.")
/* data/faults/faults.json: pump-voltage-low, name */
N_("Too little voltage at the pump")
/* data/faults/faults.json: pump-voltage-low, what */
N_("A corroded joint or a burnt relay contact takes part of the voltage: the pump turns slowly.")
/* data/faults/faults.json: pump-voltage-low, repair */
N_("Mend the wiring, the relay or the earth; measure again at the running pump.")
/* data/faults/faults.json: strainer-blocked, name */
N_("Suction strainer blocked")
/* data/faults/faults.json: strainer-blocked, what */
N_("The pump draws a vacuum before it, and vapour instead of fuel.")
/* data/faults/faults.json: strainer-blocked, repair */
N_("Clean the tank, replace the strainer.")
/* data/faults/faults.json: tank-vent-blocked, name */
N_("Tank vent blocked")
/* data/faults/faults.json: tank-vent-blocked, what */
N_("The tank hisses when it is opened: the vacuum in it holds the fuel back.")
/* data/faults/faults.json: tank-vent-blocked, repair */
N_("Free the vent or replace the cap.")
/* data/faults/faults.json: filter-blocked, name */
N_("Fuel filter blocked")
/* data/faults/faults.json: filter-blocked, what */
N_("Dirt closes the filter; the pump works against a higher pressure than the gauge shows.")
/* data/faults/faults.json: filter-blocked, repair */
N_("Replace the filter, in its direction of flow.")
/* data/faults/faults.json: check-valve-leaks, name */
N_("Check valve of the pump leaks")
/* data/faults/faults.json: check-valve-leaks, what */
N_("Dirt on its seat: after the stop the fuel runs back through the pump into the tank.")
/* data/faults/faults.json: check-valve-leaks, repair */
N_("Clean or replace the check valve at the pump.")
/* data/faults/faults.json: accumulator-burst, name */
N_("Accumulator's diaphragm burst")
/* data/faults/faults.json: accumulator-burst, what */
N_("The diaphragm no longer holds its spring; fuel comes out at the leak-off.")
/* data/faults/faults.json: accumulator-burst, repair */
N_("Replace the accumulator.")
/* data/faults/faults.json: accumulator-weak, name */
N_("Accumulator's spring weak")
/* data/faults/faults.json: accumulator-weak, what */
N_("The spring gives its fuel back at too low a pressure.")
/* data/faults/faults.json: accumulator-weak, repair */
N_("Replace the accumulator.")
/* data/faults/faults.json: compensating-valve-stuck, name */
N_("Compensating valve stuck shut")
/* data/faults/faults.json: compensating-valve-stuck, what */
N_("Cooling fuel shrinks, and no fuel can follow from the tank: a vacuum draws the plunger up and vapour into the lines.")
/* data/faults/faults.json: compensating-valve-stuck, repair */
N_("Replace the valve at the filter or the pump.")
/* data/faults/faults.json: system-regulator-low, name */
N_("System pressure regulator set low")
/* data/faults/faults.json: system-regulator-low, what */
N_("A tired spring or too thin a shim: the regulator returns fuel too early.")
/* data/faults/faults.json: system-regulator-low, repair */
N_("Shim the regulator or replace it with its seal.")
/* data/faults/faults.json: system-regulator-high, name */
N_("System pressure regulator set high")
/* data/faults/faults.json: system-regulator-high, what */
N_("Too thick a shim, or a plunger that opens late.")
/* data/faults/faults.json: system-regulator-high, repair */
N_("Take the shim out or replace the regulator with its seal.")
/* data/faults/faults.json: system-regulator-stuck, name */
N_("System pressure regulator sticks")
/* data/faults/faults.json: system-regulator-stuck, what */
N_("The regulator's plunger moves heavily and opens too little: the pressure rises with what it has to return.")
/* data/faults/faults.json: system-regulator-stuck, repair */
N_("Clean the regulator's bore, or replace the regulator.")
/* data/faults/faults.json: system-regulator-leaks, name */
N_("Seat of the system pressure regulator leaks")
/* data/faults/faults.json: system-regulator-leaks, what */
N_("After the stop the shut regulator lets fuel into the return.")
/* data/faults/faults.json: system-regulator-leaks, repair */
N_("Clean the regulator, replace its soft seat.")
/* data/faults/faults.json: shut-off-valve-leaks, name */
N_("Shut-off valve of the control return leaks")
/* data/faults/faults.json: shut-off-valve-leaks, what */
N_("After the stop the control circuit empties through the warm-up regulator into the return.")
/* data/faults/faults.json: shut-off-valve-leaks, repair */
N_("Replace the seals of the shut-off valve.")
/* data/faults/faults.json: shut-off-valve-stuck, name */
N_("Shut-off valve of the control return sticks shut")
/* data/faults/faults.json: shut-off-valve-stuck, what */
N_("The control fuel cannot leave: the control pressure climbs towards the system pressure.")
/* data/faults/faults.json: shut-off-valve-stuck, repair */
N_("Clean the shut-off valve or replace the regulator that carries it.")
/* data/faults/faults.json: return-restricted, name */
N_("Return line restricted")
/* data/faults/faults.json: return-restricted, what */
N_("A squeezed hose or a blocked banjo: the returned fuel builds a pressure of its own behind the regulator.")
/* data/faults/faults.json: return-restricted, repair */
N_("Free the return line up to the tank.")
/* data/faults/faults.json: warm-up-regulator-high, name */
N_("Warm-up regulator set high")
/* data/faults/faults.json: warm-up-regulator-high, what */
N_("Its spring presses too hard on the diaphragm, cold and warm alike.")
/* data/faults/faults.json: warm-up-regulator-high, repair */
N_("Set the warm-up regulator where it can be set, or replace it.")
/* data/faults/faults.json: warm-up-regulator-low, name */
N_("Warm-up regulator set low")
/* data/faults/faults.json: warm-up-regulator-low, what */
N_("Its spring presses too weakly on the diaphragm, cold and warm alike.")
/* data/faults/faults.json: warm-up-regulator-low, repair */
N_("Set the warm-up regulator where it can be set, or replace it.")
/* data/faults/faults.json: warm-up-regulator-wrong, name */
N_("Warm-up regulator of another type")
/* data/faults/faults.json: warm-up-regulator-wrong, what */
N_("A regulator from another engine: right when warm, with a cold curve of its own.")
/* data/faults/faults.json: warm-up-regulator-wrong, repair */
N_("Fit the regulator that the manufacturer's data name.")
/* data/faults/faults.json: heater-open, name */
N_("Warm-up regulator's heater burnt out")
/* data/faults/faults.json: heater-open, what */
N_("The heating coil is open or nearly so: the bimetal waits for the engine block to warm it.")
/* data/faults/faults.json: heater-open, repair */
N_("Replace the warm-up regulator or its coil.")
/* data/faults/faults.json: heater-supply-lost, name */
N_("No supply at the warm-up regulator's heater")
/* data/faults/faults.json: heater-supply-lost, what */
N_("A corroded joint, a fuse or the relay's contact takes the voltage before it reaches the heater.")
/* data/faults/faults.json: heater-supply-lost, repair */
N_("Mend the wiring from the relay to the heater's plug and its earth.")
/* data/faults/faults.json: bimetal-weak, name */
N_("Bimetal strip weak")
/* data/faults/faults.json: bimetal-weak, what */
N_("The strip bends less with temperature and takes too little load off the spring when cold.")
/* data/faults/faults.json: bimetal-weak, repair */
N_("Replace the warm-up regulator.")
/* data/faults/faults.json: bimetal-strong, name */
N_("Bimetal strip strong or bent")
/* data/faults/faults.json: bimetal-strong, what */
N_("The strip takes too much load off the spring when cold.")
/* data/faults/faults.json: bimetal-strong, repair */
N_("Replace the warm-up regulator.")
/* data/faults/faults.json: vacuum-hose-off, name */
N_("Vacuum hose off the warm-up regulator")
/* data/faults/faults.json: vacuum-hose-off, what */
N_("The load diaphragm feels no vacuum and the open end of the hose lets air into the manifold.")
/* data/faults/faults.json: vacuum-hose-off, repair */
N_("Fit or replace the hose; free its port.")
/* data/faults/faults.json: load-diaphragm-torn, name */
N_("Load diaphragm torn")
/* data/faults/faults.json: load-diaphragm-torn, what */
N_("The vacuum leaks through the diaphragm instead of holding the outer spring.")
/* data/faults/faults.json: load-diaphragm-torn, repair */
N_("Replace the warm-up regulator.")
/* data/faults/faults.json: load-stage-stuck, name */
N_("Load stage stuck")
/* data/faults/faults.json: load-stage-stuck, what */
N_("The diaphragm holds its vacuum, but the outer spring no longer gives way when the vacuum is gone.")
/* data/faults/faults.json: load-stage-stuck, repair */
N_("Replace the warm-up regulator.")
/* data/faults/faults.json: regulator-outlet-blocked, name */
N_("Outlet of the warm-up regulator blocked")
/* data/faults/faults.json: regulator-outlet-blocked, what */
N_("The control fuel cannot leave: the control pressure climbs towards the system pressure.")
/* data/faults/faults.json: regulator-outlet-blocked, repair */
N_("Free the line from the warm-up regulator to the return.")
/* data/faults/faults.json: regulator-gauze-blocked, name */
N_("Inlet gauze of the warm-up regulator blocked")
/* data/faults/faults.json: regulator-gauze-blocked, what */
N_("Dirt in the gauze at the regulator's inlet: the pressure before it rises with the control flow.")
/* data/faults/faults.json: regulator-gauze-blocked, repair */
N_("Clean the gauze or replace the warm-up regulator.")
/* data/faults/faults.json: control-orifice-blocked, name */
N_("Control orifice blocked")
/* data/faults/faults.json: control-orifice-blocked, what */
N_("Gum narrows the hole through which the control circuit is fed.")
/* data/faults/faults.json: control-orifice-blocked, repair */
N_("Clean the fuel distributor or replace it.")
/* data/faults/faults.json: damper-dead, name */
N_("Damper of the control circuit dead")
/* data/faults/faults.json: damper-dead, what */
N_("Its diaphragm no longer gives way: every movement of the plate kicks the control pressure.")
/* data/faults/faults.json: damper-dead, repair */
N_("Replace the damper.")
/* data/faults/faults.json: damping-orifice-blocked, name */
N_("Damping orifice over the plunger blocked")
/* data/faults/faults.json: damping-orifice-blocked, what */
N_("The plunger moves as if in honey: the plate follows the throttle late.")
/* data/faults/faults.json: damping-orifice-blocked, repair */
N_("Clean the fuel distributor or replace it.")
/* data/faults/faults.json: damping-orifice-wide, name */
N_("Damping orifice over the plunger too wide")
/* data/faults/faults.json: damping-orifice-wide, what */
N_("The plunger has lost its brake: the plate overshoots and may hunt.")
/* data/faults/faults.json: damping-orifice-wide, repair */
N_("Fit the orifice that the distributor was made with, or replace the distributor.")
/* data/faults/faults.json: plunger-sticks, name */
N_("Control plunger sticks")
/* data/faults/faults.json: plunger-sticks, what */
N_("Gum or a scratch holds the plunger back: it follows the plate late, both ways.")
/* data/faults/faults.json: plunger-sticks, repair */
N_("Clean the plunger, never touching its control edge; else replace the distributor.")
/* data/faults/faults.json: plunger-worn, name */
N_("Control plunger worn")
/* data/faults/faults.json: plunger-worn, what */
N_("The worn edge opens the slots before its time and lets fuel creep past.")
/* data/faults/faults.json: plunger-worn, repair */
N_("Replace the fuel distributor.")
/* data/faults/faults.json: plunger-seal-leaks, name */
N_("Control plunger's seal leaks")
/* data/faults/faults.json: plunger-seal-leaks, what */
N_("Fuel creeps past the plunger into the air sensor, running and after the stop.")
/* data/faults/faults.json: plunger-seal-leaks, repair */
N_("Replace the seal under the plunger, or the distributor.")
/* data/faults/faults.json: slot-gummed, name */
N_("One metering slot gummed at its lower edge")
/* data/faults/faults.json: slot-gummed, what */
N_("A skin of gum covers the foot of one slot: much of the opening at idle, nothing at full load.")
/* data/faults/faults.json: slot-gummed, repair */
N_("Clean the fuel distributor and compare the cylinders again.")
/* data/faults/faults.json: slot-narrow, name */
N_("One metering slot fouled along its height")
/* data/faults/faults.json: slot-narrow, what */
N_("Deposits narrow one slot over its whole height: that cylinder loses the same share everywhere.")
/* data/faults/faults.json: slot-narrow, repair */
N_("Clean the fuel distributor, or replace it.")
/* data/faults/faults.json: slots-gummed, name */
N_("All metering slots gummed")
/* data/faults/faults.json: slots-gummed, what */
N_("Old fuel has left a skin at the foot of every slot.")
/* data/faults/faults.json: slots-gummed, repair */
N_("Clean the fuel distributor and compare the cylinders again.")
/* data/faults/faults.json: difference-valve-weak, name */
N_("Spring of one pressure-difference valve weak")
/* data/faults/faults.json: difference-valve-weak, what */
N_("One valve holds a smaller drop at its slot: that cylinder loses the same share everywhere.")
/* data/faults/faults.json: difference-valve-weak, repair */
N_("Replace the fuel distributor; have it measured on the bench first.")
/* data/faults/faults.json: plate-rubs, name */
N_("Sensor plate rubs in its funnel")
/* data/faults/faults.json: plate-rubs, what */
N_("The plate is off centre and drags along the wall.")
/* data/faults/faults.json: plate-rubs, repair */
N_("Centre the plate with a feeler gauge and tighten its bolt.")
/* data/faults/faults.json: plate-high, name */
N_("Sensor plate rests too high")
/* data/faults/faults.json: plate-high, what */
N_("At rest the lever already lifts the plunger: fuel flows whenever the pump runs.")
/* data/faults/faults.json: plate-high, repair */
N_("Set the plate's rest stop to the height in the car's data.")
/* data/faults/faults.json: plate-low, name */
N_("Sensor plate rests too low")
/* data/faults/faults.json: plate-low, what */
N_("The plate hangs under the edge of the land and must travel before it meters.")
/* data/faults/faults.json: plate-low, repair */
N_("Set the plate's rest stop to the height in the car's data.")
/* data/faults/faults.json: lever-worn, name */
N_("Lever pivot or roller worn")
/* data/faults/faults.json: lever-worn, what */
N_("Play between the lever and the plunger: the plate must rise further before fuel follows.")
/* data/faults/faults.json: lever-worn, repair */
N_("Replace the air sensor's lever, its pivot or the sensor.")
/* data/faults/faults.json: lever-bent, name */
N_("Lever bent by a backfire")
/* data/faults/faults.json: lever-bent, what */
N_("The bent lever meets the plunger late, and the plate no longer sits square in the funnel.")
/* data/faults/faults.json: lever-bent, repair */
N_("Replace the lever or the air sensor; find out why it backfired.")
/* data/faults/faults.json: weight-shifted, name */
N_("Balance weight shifted")
/* data/faults/faults.json: weight-shifted, what */
N_("The lever's own weight is no longer balanced and helps to close the plate.")
/* data/faults/faults.json: weight-shifted, repair */
N_("Set the weight so that the lever balances with the plunger out, and secure it.")
/* data/faults/faults.json: mixture-screw-rich, name */
N_("Mixture screw turned rich")
/* data/faults/faults.json: mixture-screw-rich, what */
N_("The screw holds the plunger too high above the lever.")
/* data/faults/faults.json: mixture-screw-rich, repair */
N_("Set the idle mixture last, after pressures, leaks and delivery are right.")
/* data/faults/faults.json: mixture-screw-lean, name */
N_("Mixture screw turned lean")
/* data/faults/faults.json: mixture-screw-lean, what */
N_("The screw holds the plunger too low above the lever.")
/* data/faults/faults.json: mixture-screw-lean, repair */
N_("Set the idle mixture last, after pressures, leaks and delivery are right.")
/* data/faults/faults.json: distributor-wrong, name */
N_("Fuel distributor of another type")
/* data/faults/faults.json: distributor-wrong, what */
N_("A distributor with wider slots than this engine needs.")
/* data/faults/faults.json: distributor-wrong, repair */
N_("Fit the distributor that the manufacturer's data name.")
/* data/faults/faults.json: unmetered-air, name */
N_("Unmetered air behind the plate")
/* data/faults/faults.json: unmetered-air, what */
N_("A split hose or gasket lets air in that never lifted the plate.")
/* data/faults/faults.json: unmetered-air, repair */
N_("Find the leak with smoke, never with a flammable spray; replace hose or gasket.")
/* data/faults/faults.json: crankcase-air, name */
N_("Unmetered air through the crankcase")
/* data/faults/faults.json: crankcase-air, what */
N_("A leaking filler cap, dipstick or cover seal: the breather carries that air to the manifold.")
/* data/faults/faults.json: crankcase-air, repair */
N_("Replace the seal of cap, dipstick or cover.")
/* data/faults/faults.json: auxiliary-valve-shut, name */
N_("Auxiliary air valve stuck shut")
/* data/faults/faults.json: auxiliary-valve-shut, what */
N_("The cold engine gets no extra air.")
/* data/faults/faults.json: auxiliary-valve-shut, repair */
N_("Free or replace the auxiliary air valve.")
/* data/faults/faults.json: auxiliary-valve-open, name */
N_("Auxiliary air valve stuck open")
/* data/faults/faults.json: auxiliary-valve-open, what */
N_("The valve goes on letting air past the throttle when the engine is hot.")
/* data/faults/faults.json: auxiliary-valve-open, repair */
N_("Free or replace the auxiliary air valve.")
/* data/faults/faults.json: auxiliary-heater-dead, name */
N_("Auxiliary air valve's heater dead")
/* data/faults/faults.json: auxiliary-heater-dead, what */
N_("The valve waits for the engine to warm it: the idle stays high for long.")
/* data/faults/faults.json: auxiliary-heater-dead, repair */
N_("Mend its supply, or replace the valve.")
/* data/faults/faults.json: idle-bypass-shut, name */
N_("Idle bypass screwed shut")
/* data/faults/faults.json: idle-bypass-shut, what */
N_("Too little air past the shut throttle.")
/* data/faults/faults.json: idle-bypass-shut, repair */
N_("Set the idle speed, hot, with the auxiliary valve shut.")
/* data/faults/faults.json: idle-bypass-open, name */
N_("Idle bypass screwed open")
/* data/faults/faults.json: idle-bypass-open, what */
N_("Too much air past the shut throttle.")
/* data/faults/faults.json: idle-bypass-open, repair */
N_("Set the idle speed, hot, with the auxiliary valve shut.")
/* data/faults/faults.json: nozzle-opens-high, name */
N_("One nozzle opens at too high a pressure")
/* data/faults/faults.json: nozzle-opens-high, what */
N_("A stiff or gummed nozzle: its line stands at a higher pressure.")
/* data/faults/faults.json: nozzle-opens-high, repair */
N_("Clean or replace the nozzle, with a new seal.")
/* data/faults/faults.json: nozzle-opens-low, name */
N_("One nozzle opens at too low a pressure")
/* data/faults/faults.json: nozzle-opens-low, what */
N_("A tired nozzle spring: its line stands at a lower pressure.")
/* data/faults/faults.json: nozzle-opens-low, repair */
N_("Replace the nozzle, with a new seal.")
/* data/faults/faults.json: nozzle-strainer-blocked, name */
N_("Strainer of one nozzle blocked")
/* data/faults/faults.json: nozzle-strainer-blocked, what */
N_("Dirt in the nozzle's inlet: nothing at idle, while at full load the valve runs out of travel.")
/* data/faults/faults.json: nozzle-strainer-blocked, repair */
N_("Replace the nozzle, with a new seal; flush its line.")
/* data/faults/faults.json: nozzles-spray-badly, name */
N_("Nozzles spray badly")
/* data/faults/faults.json: nozzles-spray-badly, what */
N_("Strings and drops instead of a cone: some charges are rich, others lean.")
/* data/faults/faults.json: nozzles-spray-badly, repair */
N_("Clean or replace the nozzles as a set, with new seals.")
/* data/faults/faults.json: cold-start-valve-dead, name */
N_("Cold-start valve dead")
/* data/faults/faults.json: cold-start-valve-dead, what */
N_("Its coil is open, or its plug: no extra fuel while cranking.")
/* data/faults/faults.json: cold-start-valve-dead, repair */
N_("Replace the valve or mend its wiring.")
/* data/faults/faults.json: cold-start-valve-leaks, name */
N_("Cold-start valve leaks")
/* data/faults/faults.json: cold-start-valve-leaks, what */
N_("Its seat lets fuel drip into the manifold, most noticed after the stop.")
/* data/faults/faults.json: cold-start-valve-leaks, repair */
N_("Replace the cold-start valve.")
/* data/faults/faults.json: thermo-time-switch-open, name */
N_("Thermo-time switch open")
/* data/faults/faults.json: thermo-time-switch-open, what */
N_("The switch never earths the cold-start valve.")
/* data/faults/faults.json: thermo-time-switch-open, repair */
N_("Replace the switch, or clean its earth.")
/* data/faults/faults.json: thermo-time-switch-closed, name */
N_("Thermo-time switch stays closed")
/* data/faults/faults.json: thermo-time-switch-closed, what */
N_("The switch lets the cold-start valve spray however warm the engine, and as long as the starter turns.")
/* data/faults/faults.json: thermo-time-switch-closed, repair */
N_("Replace the switch.")
/* data/faults/faults.json: safety-switch-stuck, name */
N_("Safety switch does not open")
/* data/faults/faults.json: safety-switch-stuck, what */
N_("The contact at the plate stays closed: the pump runs while the starter turns and stops when it is let go.")
/* data/faults/faults.json: safety-switch-stuck, repair */
N_("Clean, set or replace the contact, or the relay.")
/* data/faults/faults.json: relay-dead, name */
N_("Pump relay dead")
/* data/faults/faults.json: relay-dead, what */
N_("Neither the pump nor the heaters get any voltage.")
/* data/faults/faults.json: relay-dead, repair */
N_("Replace the relay or mend its supply.")
/* data/faults/faults.json: battery-weak, name */
N_("Battery weak")
/* data/faults/faults.json: battery-weak, what */
N_("The voltage breaks down while cranking: the starter turns slowly, the pump delivers little.")
/* data/faults/faults.json: battery-weak, repair */
N_("Charge and test the battery; clean its terminals and the earth strap.")
/* data/faults/faults.json: fuel-light, name */
N_("Fuel lighter than it should be")
/* data/faults/faults.json: fuel-light, what */
N_("A slot meters volume: the lighter the fuel, the less mass.")
/* data/faults/faults.json: fuel-light, repair */
N_("Drain and refill with the fuel the manufacturer asks for.")
/* data/faults/faults.json: fuel-volatile, name */
N_("Fuel too volatile")
/* data/faults/faults.json: fuel-volatile, what */
N_("Winter fuel in summer: it boils in the hot lines after the stop.")
/* data/faults/faults.json: fuel-volatile, repair */
N_("Use up the tank in cool weather, or drain it.")
/* data/faults/faults.json: fuel-alcohol, name */
N_("Fuel diluted with alcohol")
/* data/faults/faults.json: fuel-alcohol, what */
N_("Alcohol brings oxygen of its own: the same fuel needs less air.")
/* data/faults/faults.json: fuel-alcohol, repair */
N_("Drain and refill with the fuel the manufacturer asks for.")
/* data/faults/faults.json: dirt-in-fuel, name */
N_("Water or rust in the fuel")
/* data/faults/faults.json: dirt-in-fuel, what */
N_("Rust closes the filter, settles in the slots and makes the plunger heavy.")
/* data/faults/faults.json: dirt-in-fuel, repair */
N_("Clean the tank, flush the lines, replace the filter, clean the distributor.")
/* data/faults/faults.json: misfire, name */
N_("One cylinder misfires")
/* data/faults/faults.json: misfire, what */
N_("Plug, lead or cap: the charge leaves unburnt, fuel and air.")
/* data/faults/faults.json: misfire, repair */
N_("Mend the ignition before anything of the injection is measured.")
/* data/faults/faults.json: engine-worn, name */
N_("Engine worn")
/* data/faults/faults.json: engine-worn, what */
N_("Low compression: less torque from the same mixture.")
/* data/faults/faults.json: engine-worn, repair */
N_("Measure the compression and the leakage; no setting of the injection mends it.")
/* data/faults/faults.json: exhaust-leak, name */
N_("Exhaust leaks before the probe")
/* data/faults/faults.json: exhaust-leak, what */
N_("The analyser breathes air that was never in a cylinder.")
/* data/faults/faults.json: exhaust-leak, repair */
N_("Seal the exhaust, then measure again.")
