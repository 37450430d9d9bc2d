/** Point lists, and what their rows say against each other. */
@NullMarked
package burnerbridge.config.point;

import org.jspecify.annotations.NullMarked;
