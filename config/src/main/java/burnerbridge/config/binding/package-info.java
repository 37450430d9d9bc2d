/** Which numbers the points have on the building side, for ever. */
@NullMarked
package burnerbridge.config.binding;

import org.jspecify.annotations.NullMarked;
