/** The objects that show a point, one class for each way to show a value. */
@NullMarked
package burnerbridge.bacnet.points;

import org.jspecify.annotations.NullMarked;
