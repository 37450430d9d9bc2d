/** Judges a BACnet/IP datagram on its bytes alone, before any library sees it, and puts segments together. */
@NullMarked
package burnerbridge.bacnet.edge.frame;

import org.jspecify.annotations.NullMarked;
