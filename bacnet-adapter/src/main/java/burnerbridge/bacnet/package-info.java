/** The value table as BACnet/IP. */
@NullMarked
package burnerbridge.bacnet;

import org.jspecify.annotations.NullMarked;
