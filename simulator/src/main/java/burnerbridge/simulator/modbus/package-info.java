/** What a field device holds, and what its units rightly answer. */
@NullMarked
package burnerbridge.simulator.modbus;

import org.jspecify.annotations.NullMarked;
