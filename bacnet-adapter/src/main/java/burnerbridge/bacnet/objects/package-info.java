/** What every object is made of: its properties, its reliability, its times. */
@NullMarked
package burnerbridge.bacnet.objects;

import org.jspecify.annotations.NullMarked;
