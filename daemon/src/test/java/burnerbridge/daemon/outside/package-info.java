/** The bridge as a process of its own, among programs that others wrote. */
@NullMarked
package burnerbridge.daemon.outside;

import org.jspecify.annotations.NullMarked;
