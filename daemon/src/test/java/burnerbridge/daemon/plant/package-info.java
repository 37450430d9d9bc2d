/** The example site against the invented plant that it describes. */
@NullMarked
package burnerbridge.daemon.plant;

import org.jspecify.annotations.NullMarked;
