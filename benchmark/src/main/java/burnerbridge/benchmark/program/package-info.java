/** Programs that run beside a measurement. */
@NullMarked
package burnerbridge.benchmark.program;

import org.jspecify.annotations.NullMarked;
