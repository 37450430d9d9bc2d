/** Answers what passed the edge and sends what we have to say, on one thread. */
@NullMarked
package burnerbridge.bacnet.exchange;

import org.jspecify.annotations.NullMarked;
