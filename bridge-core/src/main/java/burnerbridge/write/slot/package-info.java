/** The sixteen slots of a permitted point: who asks for what, which of them wins, and how long each holds. */
@NullMarked
package burnerbridge.write.slot;

import org.jspecify.annotations.NullMarked;
