/** Files that survive a power cut. */
@NullMarked
package burnerbridge.write.store;

import org.jspecify.annotations.NullMarked;
