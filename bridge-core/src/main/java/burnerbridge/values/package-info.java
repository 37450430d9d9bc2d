/** The value table as rows for people and files, read in this process or from a running bridge. */
@NullMarked
package burnerbridge.values;

import org.jspecify.annotations.NullMarked;
