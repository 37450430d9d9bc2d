/** Every measurement once, in turn, and one table of what they found. */
@NullMarked
package burnerbridge.benchmark.all;

import org.jspecify.annotations.NullMarked;
