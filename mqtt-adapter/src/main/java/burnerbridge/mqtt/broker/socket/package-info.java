/** The sockets below the client library: plain or encrypted, and to be closed at any moment. */
@NullMarked
package burnerbridge.mqtt.broker.socket;

import org.jspecify.annotations.NullMarked;
