/** The cells of a row that say which registers hold its value, and how. */
@NullMarked
package burnerbridge.config.register;

import org.jspecify.annotations.NullMarked;
