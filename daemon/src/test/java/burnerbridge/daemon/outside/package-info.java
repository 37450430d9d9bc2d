/** The bridge, whole or its line side alone, among programs that others wrote. */
@NullMarked
package burnerbridge.daemon.outside;

import org.jspecify.annotations.NullMarked;
