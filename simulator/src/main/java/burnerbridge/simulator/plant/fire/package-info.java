/** The burner's fire: what meters air and fuel, the flame, and the flue gas that comes of them. */
@NullMarked
package burnerbridge.simulator.plant.fire;

import org.jspecify.annotations.NullMarked;
