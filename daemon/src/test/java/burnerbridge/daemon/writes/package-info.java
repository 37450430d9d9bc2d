/** The writes of a line against a field device that misbehaves toward them, over each transport. */
@NullMarked
package burnerbridge.daemon.writes;

import org.jspecify.annotations.NullMarked;
