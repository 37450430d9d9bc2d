/** The gate through which every write goes, and the slots behind it. */
@NullMarked
package burnerbridge.write;

import org.jspecify.annotations.NullMarked;
