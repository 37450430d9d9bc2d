/** Which reads are made: immutable, known before anyone connects. */
@NullMarked
package burnerbridge.plan;

import org.jspecify.annotations.NullMarked;
