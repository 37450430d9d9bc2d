/** Cheap clients on loopback that ask and listen, with datagrams made by hand. */
@NullMarked
package burnerbridge.benchmark.bacnet.client;

import org.jspecify.annotations.NullMarked;
