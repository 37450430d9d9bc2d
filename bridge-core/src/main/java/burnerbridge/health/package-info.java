/** What is wrong right now, as each part of the bridge tells it, and where to look for its cause. */
@NullMarked
package burnerbridge.health;

import org.jspecify.annotations.NullMarked;
