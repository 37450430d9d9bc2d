/** The value table as retained MQTT topics: a sender that owes every topic its newest state. */
@NullMarked
package burnerbridge.mqtt;

import org.jspecify.annotations.NullMarked;
