/** How soon the daemon has something to tell after it was started, and how much memory it keeps. */
@NullMarked
package burnerbridge.benchmark.start;

import org.jspecify.annotations.NullMarked;
