/** Documents about the BACnet side, made of the objects that are served and the services that are taken. */
@NullMarked
package burnerbridge.bacnet.documents;

import org.jspecify.annotations.NullMarked;
