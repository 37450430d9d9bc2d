/** One row of a list by its columns, and in which language. */
@NullMarked
package burnerbridge.config.row;

import org.jspecify.annotations.NullMarked;
