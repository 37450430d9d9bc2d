/** When something is wanted, may be asked, and really was: pauses, rhythms and shares of a line's time. */
@NullMarked
package burnerbridge.poll.pace;

import org.jspecify.annotations.NullMarked;
