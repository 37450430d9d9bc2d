/** An invented burner controller: a burner, the registers that it shows, and the Modbus port in front. */
@NullMarked
package burnerbridge.simulator.controller;

import org.jspecify.annotations.NullMarked;
