/** What the BACnet side costs, beside the library it is built on serving as many objects by itself. */
@NullMarked
package burnerbridge.benchmark.bacnet;

import org.jspecify.annotations.NullMarked;
