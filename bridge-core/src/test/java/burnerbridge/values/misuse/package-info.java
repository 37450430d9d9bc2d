/** A stage that reaches for what it must not know. */
@NullMarked
package burnerbridge.values.misuse;

import org.jspecify.annotations.NullMarked;
