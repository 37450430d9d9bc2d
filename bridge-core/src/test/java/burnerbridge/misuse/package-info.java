/** Classes that break the rules of the architecture, so that it is seen that the rules can fail. */
@NullMarked
package burnerbridge.misuse;

import org.jspecify.annotations.NullMarked;
