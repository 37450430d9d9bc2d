/** The hardened port: the only sockets of the BACnet side, and what may pass them. */
@NullMarked
package burnerbridge.bacnet.edge;

import org.jspecify.annotations.NullMarked;
