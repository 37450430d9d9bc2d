/** Lines at whose other end devices misbehave at random: no wrong value may ever pass for a good one. */
@NullMarked
package burnerbridge.daemon.strict;

import org.jspecify.annotations.NullMarked;
