/** What the port notices of its network and of its own place there, for people; decides nothing. */
@NullMarked
package burnerbridge.bacnet.edge.watch;

import org.jspecify.annotations.NullMarked;
