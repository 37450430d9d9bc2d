/** What the bridge counts and measures of itself, for whoever watches many of them; knows no format. */
@NullMarked
package burnerbridge.measure;

import org.jspecify.annotations.NullMarked;
