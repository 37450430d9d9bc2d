/** What a burner heats: water or steam in a boiler, and the houses that draw its heat. */
@NullMarked
package burnerbridge.simulator.plant.vessel;

import org.jspecify.annotations.NullMarked;
