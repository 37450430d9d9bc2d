/** What every measurement needs: a clock, what was seen as a spread, and what it ran on. */
@NullMarked
package burnerbridge.benchmark.measure;

import org.jspecify.annotations.NullMarked;
