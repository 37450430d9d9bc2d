/** A gate that reaches for what it must not know. */
@NullMarked
package burnerbridge.write.misuse;

import org.jspecify.annotations.NullMarked;
