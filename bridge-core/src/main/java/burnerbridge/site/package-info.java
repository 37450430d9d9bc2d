/** What a site consists of: lines, controllers, points and the two sides, as immutable definitions. */
@NullMarked
package burnerbridge.site;

import org.jspecify.annotations.NullMarked;
