/** How fast values reach a broker and a subscriber, beside mosquitto's own publisher. */
@NullMarked
package burnerbridge.benchmark.mqtt;

import org.jspecify.annotations.NullMarked;
