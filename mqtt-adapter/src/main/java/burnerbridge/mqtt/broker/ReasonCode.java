package burnerbridge.mqtt.broker;

import java.util.List;
import java.util.Locale;

/**
 * What a broker says of a packet or a connection (MQTT 5.0, 2.4; the names are from memory).
 *
 * @param number 0 to 255; from 128 on it is a failure
 */
public record ReasonCode(int number) {
    public static final ReasonCode NONE = new ReasonCode(0);
    /** Another client connected under our client identifier. */
    public static final ReasonCode TAKEN_OVER = new ReasonCode(0x8E);

    public static final ReasonCode TOO_LARGE = new ReasonCode(0x95);
    static final ReasonCode UNSPECIFIED = new ReasonCode(0x80);

    private static final int FIRST_FAILURE = 0x80;
    private static final List<String> FAILURES = List.of(
            "unspecified error",
            "malformed packet",
            "protocol error",
            "implementation specific error",
            "unsupported protocol version",
            "client identifier not valid",
            "bad user name or password",
            "not authorized",
            "server unavailable",
            "server busy",
            "banned",
            "server shutting down",
            "bad authentication method",
            "keep alive timeout",
            "session taken over",
            "topic filter invalid",
            "topic name invalid",
            "packet identifier in use",
            "packet identifier not found",
            "receive maximum exceeded",
            "topic alias invalid",
            "packet too large",
            "message rate too high",
            "quota exceeded",
            "administrative action",
            "payload format invalid",
            "retain not supported",
            "quality of service not supported",
            "use another server",
            "server moved",
            "shared subscriptions not supported",
            "connection rate exceeded",
            "maximum connect time",
            "subscription identifiers not supported",
            "wildcard subscriptions not supported");

    public ReasonCode {
        if (number < 0 || number > 255) {
            throw new IllegalArgumentException("a reason code is 0 to 255 (was " + number + ")");
        }
    }

    public boolean isFailure() {
        return number >= FIRST_FAILURE;
    }

    /** For messages: {@code 0x87 not authorized}. */
    public String text() {
        int index = number - FIRST_FAILURE;
        String name = index >= 0 && index < FAILURES.size() ? " " + FAILURES.get(index) : "";
        return String.format(Locale.ROOT, "0x%02X%s", number, name);
    }
}
