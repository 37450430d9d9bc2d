package burnerbridge.mqtt;

import burnerbridge.model.Stamp;

/**
 * How the connection to the broker stands.
 *
 * @param detail a sentence for people, with the broker's address
 * @param since when it became so
 */
public record BrokerState(boolean connected, String detail, Stamp since) {}
