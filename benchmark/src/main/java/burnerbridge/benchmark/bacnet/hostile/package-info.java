/** What other clients notice of stations that flood, subscribe without ever acknowledging, or send what is no BACnet. */
@NullMarked
package burnerbridge.benchmark.bacnet.hostile;

import org.jspecify.annotations.NullMarked;
