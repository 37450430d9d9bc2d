/** The value table as one BACnet device with an object a point. */
@NullMarked
package burnerbridge.bacnet.device;

import org.jspecify.annotations.NullMarked;
