/** The measurements' command line. */
@NullMarked
package burnerbridge.benchmark;

import org.jspecify.annotations.NullMarked;
