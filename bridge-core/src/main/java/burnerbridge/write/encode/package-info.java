/** From values to registers and to the templates of the line. */
@NullMarked
package burnerbridge.write.encode;

import org.jspecify.annotations.NullMarked;
