/** The door of BACnet to the write gate: what permitted points are asked for by, and who holds them. */
@NullMarked
package burnerbridge.bacnet.door;

import org.jspecify.annotations.NullMarked;
