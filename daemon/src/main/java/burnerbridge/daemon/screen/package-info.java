/** Rows of points on a terminal and in files: layout, drawing, keys. */
@NullMarked
package burnerbridge.daemon.screen;

import org.jspecify.annotations.NullMarked;
