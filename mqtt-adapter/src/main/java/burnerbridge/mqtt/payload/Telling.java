package burnerbridge.mqtt.payload;

/**
 * Something said.
 *
 * @param payload JSON; empty where the broker is to forget the topic
 * @param validFor seconds for which it holds from now on; 0: until something else is said
 */
public record Telling(String payload, long validFor) {}
