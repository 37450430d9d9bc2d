/** Which registers of a unit can never be written. Loader, approval, gate and transport ask here and nowhere else. */
@NullMarked
package burnerbridge.site.guard;

import org.jspecify.annotations.NullMarked;
