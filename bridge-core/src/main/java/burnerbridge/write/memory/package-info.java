/** What the gate must know again after a restart: writes spent, demands that stood, permits asleep, addresses once protected. */
@NullMarked
package burnerbridge.write.memory;

import org.jspecify.annotations.NullMarked;
