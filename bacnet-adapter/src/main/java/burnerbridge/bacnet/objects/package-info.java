/** The objects of the device: which there are, and what each shows of its point. */
@NullMarked
package burnerbridge.bacnet.objects;

import org.jspecify.annotations.NullMarked;
