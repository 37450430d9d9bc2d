/** What is wrong right now, on one screen and as a bundle for whoever helps from afar. */
@NullMarked
package burnerbridge.daemon.explain;

import org.jspecify.annotations.NullMarked;
