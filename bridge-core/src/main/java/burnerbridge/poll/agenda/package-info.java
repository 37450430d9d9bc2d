/** Which of the reads of a line is next, and what is known of each and of its controller. */
@NullMarked
package burnerbridge.poll.agenda;

import org.jspecify.annotations.NullMarked;
