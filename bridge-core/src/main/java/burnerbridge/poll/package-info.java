/** Asks the controllers of a line, one question at a time, and keeps their readings and links true. */
@NullMarked
package burnerbridge.poll;

import org.jspecify.annotations.NullMarked;
