package burnerbridge.mqtt.door;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Dispatch;
import burnerbridge.mqtt.broker.Octets;

/**
 * A message that came on the topic for asks of a point.
 *
 * @param at when it came
 * @param payload empty where it is longer than is looked at
 * @param length of the payload as it came
 */
record Arrival(AskPoint point, Stamp at, Octets payload, int length, boolean retained, Dispatch dispatch) {

    boolean isTooLong() {
        return payload.length() < length;
    }
}
