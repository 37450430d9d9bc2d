/** From what a line's counters show to what to look at on the line, in sentences. */
@NullMarked
package burnerbridge.line.diagnosis;

import org.jspecify.annotations.NullMarked;
