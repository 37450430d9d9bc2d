/** The units that a point list may state, where their factors come from, and how one is shown as another. */
@NullMarked
package burnerbridge.site.unit;

import org.jspecify.annotations.NullMarked;
