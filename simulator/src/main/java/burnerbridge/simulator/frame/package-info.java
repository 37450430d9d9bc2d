/** How frames look on each transport. */
@NullMarked
package burnerbridge.simulator.frame;

import org.jspecify.annotations.NullMarked;
