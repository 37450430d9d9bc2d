package burnerbridge.mqtt.door;

import burnerbridge.mqtt.broker.Dispatch;
import burnerbridge.mqtt.broker.Octets;
import burnerbridge.site.MqttSettings;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.Optional;

/**
 * A message on the topic for asks: whether it is one that can be answered, and until when it holds. MQTT 5 says that beside
 * the payload, by response topic, correlation data and message expiry; under 3.1.1 the payload does. Pure.
 */
sealed interface Envelope {
    /** The longest that an ask may hold; seconds. */
    long LONGEST_SECONDS = 60;

    /**
     * An ask.
     *
     * @param notAfter the tick after which it must not be written any more
     */
    record Usable(Asked.Address address, Wanted wanted, Source source, long notAfter) implements Envelope {
        Refusal refused(String code, String sentence) {
            return new Refusal(source, wanted.text(), code, sentence);
        }
    }

    /**
     * None, or one that must not be done.
     *
     * @param answer where that is told; empty where nobody waits
     */
    record Unusable(Refusal refusal, Optional<Asked.Address> answer) implements Envelope {}

    static Envelope of(Arrival arrival, MqttSettings.Version version) {
        boolean five = version == MqttSettings.Version.V5;
        if (arrival.retained()) {
            return kept(arrival, five);
        }
        AskText text = arrival.isTooLong()
                ? new AskText.Faulty("", "", "", AskText.MALFORMED, tooLong(arrival))
                : AskText.of(arrival.payload(), arrival.point().point().definition(), version);
        Asked.Address address = address(arrival, text.id(), five);
        Source source = new Source.Mqtt(text.by());
        if (text instanceof AskText.Faulty faulty) {
            return unusable(source, faulty.wanted(), faulty.code(), faulty.sentence(), address);
        }
        AskText.Sound sound = (AskText.Sound) text;
        return five ? withDispatch(arrival, sound, address) : withTime(arrival, sound, address);
    }

    private static String tooLong(Arrival arrival) {
        return "an ask has at most " + Arrivals.LONGEST_PAYLOAD + " octets (was " + arrival.length() + ")";
    }

    /** Under 3.1.1 only what the broker had kept is told as such: whoever asked is gone since. */
    private static Envelope kept(Arrival arrival, boolean five) {
        Refusal refusal = new Refusal(
                new Source.Mqtt(""),
                "",
                Question.FRESH.code(),
                "an ask must not be retained: a broker would repeat it to every bridge that connects");
        return new Unusable(refusal, five ? Optional.of(address(arrival, "", true)) : Optional.empty());
    }

    /** An answer that cannot go where it should goes to the point's own topic: never nowhere, and never elsewhere. */
    private static Asked.Address address(Arrival arrival, String id, boolean five) {
        String wished = arrival.dispatch().responseTopic();
        boolean sane = five && arrival.point().mayReplyTo(wished);
        return new Asked.Address(
                sane ? wished : arrival.point().replyTopic(),
                five ? arrival.dispatch().correlation() : Octets.NONE,
                id);
    }

    private static Unusable unusable(
            Source source, String wanted, String code, String sentence, Asked.Address address) {
        return new Unusable(new Refusal(source, wanted, code, sentence), Optional.of(address));
    }

    private static Envelope withDispatch(Arrival arrival, AskText.Sound text, Asked.Address address) {
        Dispatch dispatch = arrival.dispatch();
        Source source = new Source.Mqtt(text.by());
        String wanted = text.wanted().text();
        if (!arrival.point().mayReplyTo(dispatch.responseTopic())) {
            return unusable(
                    source,
                    wanted,
                    AskText.MALFORMED,
                    "an ask needs a response topic, which is " + arrival.point().replyTopic()
                            + " or below it, of at most " + Arrivals.LONGEST_TOPIC + " characters",
                    address);
        }
        if (dispatch.correlation().isEmpty()) {
            return unusable(
                    source,
                    wanted,
                    AskText.MALFORMED,
                    "an ask needs correlation data of 1 to " + Arrivals.LONGEST_CORRELATION
                            + " octets, other ones for each ask",
                    address);
        }
        long expiry = dispatch.expirySeconds().orElse(Long.MAX_VALUE);
        if (expiry > LONGEST_SECONDS) {
            return unusable(
                    source,
                    wanted,
                    Question.FRESH.code(),
                    "an ask needs a message expiry of at most " + LONGEST_SECONDS + " s (had "
                            + (expiry == Long.MAX_VALUE ? "none" : expiry + " s") + ")",
                    address);
        }
        return new Usable(
                address,
                text.wanted(),
                source,
                arrival.at().ticks() + Duration.ofSeconds(expiry).toNanos());
    }

    private static Envelope withTime(Arrival arrival, AskText.Sound text, Asked.Address address) {
        Source source = new Source.Mqtt(text.by());
        String wanted = text.wanted().text();
        Optional<Instant> expires = time(text.expires());
        if (expires.isEmpty()) {
            return unusable(
                    source,
                    wanted,
                    AskText.MALFORMED,
                    "'expires' is a time in UTC, like 2026-11-25T08:00:30Z",
                    address);
        }
        Optional<String> objection = objection(arrival, expires.get());
        if (objection.isPresent()) {
            return unusable(source, wanted, Question.FRESH.code(), objection.get(), address);
        }
        return new Usable(
                address,
                text.wanted(),
                source,
                arrival.at().ticks()
                        + Duration.between(arrival.at().wall(), expires.get()).toNanos());
    }

    private static Optional<String> objection(Arrival arrival, Instant expires) {
        Instant came = arrival.at().wall();
        if (!arrival.at().believed()) {
            return Optional.of(
                    "the clock of the bridge cannot be right, so that nobody can say whether an ask is late");
        }
        if (expires.isBefore(came)) {
            return Optional.of("the ask came too late: by the bridge's clock it ended before");
        }
        return expires.isAfter(came.plusSeconds(LONGEST_SECONDS))
                ? Optional.of("an ask holds for at most " + LONGEST_SECONDS
                        + " s, and by the bridge's clock 'expires' is later than that")
                : Optional.empty();
    }

    private static Optional<Instant> time(String text) {
        try {
            return text.endsWith("Z") ? Optional.of(Instant.parse(text)) : Optional.empty();
        } catch (DateTimeParseException e) {
            return Optional.empty();
        }
    }
}
