/** Points that the bridge computes from those it reads. */
@NullMarked
package burnerbridge.derive;

import org.jspecify.annotations.NullMarked;
