/** Ways for bytes, opened once each, and the time that bytes take on them. */
@NullMarked
package burnerbridge.line.wire;

import org.jspecify.annotations.NullMarked;
