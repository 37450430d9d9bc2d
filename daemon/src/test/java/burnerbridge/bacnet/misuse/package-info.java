/** A side that breaks the rules of the architecture, so that it is seen that the rules can fail. */
@NullMarked
package burnerbridge.bacnet.misuse;

import org.jspecify.annotations.NullMarked;
