/** A field device that is reached over Modbus TCP, through a device server, or on a serial port. */
@NullMarked
package burnerbridge.simulator.device;

import org.jspecify.annotations.NullMarked;
