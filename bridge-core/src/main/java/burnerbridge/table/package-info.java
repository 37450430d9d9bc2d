/** The newest reading of every point, the state of every controller's link, and the feed of changes. */
@NullMarked
package burnerbridge.table;

import org.jspecify.annotations.NullMarked;
