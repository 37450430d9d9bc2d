/** All objects of a device, and how what changes is shown in them. */
@NullMarked
package burnerbridge.bacnet.served;

import org.jspecify.annotations.NullMarked;
