/** From registers to readings: formats, scaling, states and what makes a value bad. */
@NullMarked
package burnerbridge.decode;

import org.jspecify.annotations.NullMarked;
