/** The simulator's own time: ticks to pace a wire by, and a way to wait for them. */
@NullMarked
package burnerbridge.simulator.clock;

import org.jspecify.annotations.NullMarked;
