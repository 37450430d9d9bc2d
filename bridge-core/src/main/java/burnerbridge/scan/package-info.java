/** How the reads of each line are made beside what was predicted, as rows, of this process or of a running bridge. */
@NullMarked
package burnerbridge.scan;

import org.jspecify.annotations.NullMarked;
