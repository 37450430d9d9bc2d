/** A program for the bench: a device that misbehaves as it is told on standard input. */
@NullMarked
package burnerbridge.simulator.bench;

import org.jspecify.annotations.NullMarked;
