/** What opens a broker's door, from files and the environment: user, password, authorities, our own certificate. */
@NullMarked
package burnerbridge.mqtt.access;

import org.jspecify.annotations.NullMarked;
