/** What a site's MQTT side is, written for others: its topics, its payloads, and who needs which rights. */
@NullMarked
package burnerbridge.mqtt.documents;

import org.jspecify.annotations.NullMarked;
