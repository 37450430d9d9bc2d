/** One hot-water boiler's burner: its start sequence, its combustion and the water that it heats. */
@NullMarked
package burnerbridge.simulator.plant;

import org.jspecify.annotations.NullMarked;
