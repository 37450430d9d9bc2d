/** A Modbus TCP server over register images, with a listening socket and a cable that can be pulled. */
@NullMarked
package burnerbridge.simulator.modbus;

import org.jspecify.annotations.NullMarked;
