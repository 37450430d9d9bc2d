/** The composition root and the command line. */
@NullMarked
package burnerbridge.daemon;

import org.jspecify.annotations.NullMarked;
