/**
 * What a controller's registers hold: a register table, read from a file as a manual would print it, and
 * filled from the state of a boiler.
 */
@NullMarked
package burnerbridge.simulator.registers;

import org.jspecify.annotations.NullMarked;
