/** One boiler whole: its sequence, its fire, its water or steam, its counters and its memory of faults. */
@NullMarked
package burnerbridge.simulator.plant;

import org.jspecify.annotations.NullMarked;
