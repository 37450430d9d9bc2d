/** What the values of a plant are made of: words for numbers, lags, limited speeds, wandering. */
@NullMarked
package burnerbridge.simulator.value;

import org.jspecify.annotations.NullMarked;
