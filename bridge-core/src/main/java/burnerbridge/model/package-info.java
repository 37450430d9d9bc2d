/** What is known of a point at a moment: values, quality, readings and the names and clocks they need. */
@NullMarked
package burnerbridge.model;

import org.jspecify.annotations.NullMarked;
