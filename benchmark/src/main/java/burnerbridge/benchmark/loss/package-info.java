/** What a line is worth to those of its controllers that answer, when others do not. */
@NullMarked
package burnerbridge.benchmark.loss;

import org.jspecify.annotations.NullMarked;
