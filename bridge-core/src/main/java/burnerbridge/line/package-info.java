/** The Modbus line: strict framing, one transaction at a time, every outcome a value. */
@NullMarked
package burnerbridge.line;

import org.jspecify.annotations.NullMarked;
