/** The cells of a row that say what its value means to people, and what the building side is to make of it. */
@NullMarked
package burnerbridge.config.meaning;

import org.jspecify.annotations.NullMarked;
