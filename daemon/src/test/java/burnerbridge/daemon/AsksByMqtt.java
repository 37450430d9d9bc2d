package burnerbridge.daemon;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.MqttCallback;
import org.eclipse.paho.mqttv5.client.MqttConnectionOptions;
import org.eclipse.paho.mqttv5.client.MqttDisconnectResponse;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttException;
import org.eclipse.paho.mqttv5.common.MqttMessage;
import org.eclipse.paho.mqttv5.common.packet.MqttProperties;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Asks over MQTT 5, right ones and wrong ones, a number of them at a time, and looks at every answer. */
final class AsksByMqtt implements AutoCloseable {
    /** So many wait for their answers; the door takes 16 of each point between two looks. */
    private static final int AT_A_TIME = 200;

    private static final JsonMapper JSON = JsonMapper.builder().build();

    private final ManyUnits plant;
    private final AskLedger ledger;
    private final Random dice;
    private final MqttAsyncClient client;
    private final List<AskTarget> targets = ManyUnits.targets();
    private final Map<String, Waiting> waiting = new ConcurrentHashMap<>();
    private final Semaphore room = new Semaphore(AT_A_TIME);
    private long correlations;

    /** @param register what its registers would hold; -1 where nothing would be written */
    private record Waiting(AskTarget target, boolean mayBeDone, int register, String payload) {}

    AsksByMqtt(ManyUnits plant, AskLedger ledger, int brokerPort, long seed) throws MqttException {
        this.plant = plant;
        this.ledger = ledger;
        this.dice = new Random(seed);
        this.client = new MqttAsyncClient("tcp://127.0.0.1:" + brokerPort, "asker", new MemoryPersistence());
        client.setCallback(new Answers());
        MqttConnectionOptions options = new MqttConnectionOptions();
        options.setReceiveMaximum(1_000);
        client.connect(options).waitForCompletion();
        client.subscribe("plant/asked/+/+/reply/#", 1).waitForCompletion();
    }

    /** Sends one; waits where too many wait for their answers. */
    void one() throws MqttException, InterruptedException {
        AskTarget target = targets.get(dice.nextInt(targets.size()));
        int register = target.load() ? AsksByBacnet.near(plant.holds(target), dice) : dice.nextInt(2);
        int kind = dice.nextInt(16);
        String legal = target.load() ? register / 10 + "." + register % 10 : register == 1 ? "true" : "\"off\"";
        switch (kind) {
            case 0 -> ask(target, wrong(target), 30, false, -1);
            case 1 -> ask(target, "{\"value\": " + wrongValue(target) + ", \"by\": \"fuzz\"}", 30, false, -1);
            case 2 -> ask(target, payload(legal), 61 + dice.nextInt(10_000), false, -1);
            case 3 -> ask(target, payload(legal), 0, false, -1);
            case 4 -> elsewhere(target, legal);
            case 5 -> ask(target, payload("null"), 30, true, -1);
            case 6 -> retained(target, legal);
            case 7 -> late(target, legal, register);
            default -> ask(target, payload(legal), 20 + dice.nextInt(41), true, register);
        }
        ledger.count("mqtt asked");
    }

    private static String payload(String value) {
        return "{\"value\": " + value + ", \"by\": \"fuzz\"}";
    }

    private String wrong(AskTarget target) {
        String legal = target.load() ? "50" : "1";
        String[] some = {
            "",
            "50",
            "null",
            "[]",
            "{}",
            "{\"value\": " + legal + "}",
            "{\"by\": \"fuzz\"}",
            "{\"value\": " + legal + ", \"by\": \"\"}",
            "{\"value\": " + legal + ", \"by\": 7}",
            "{\"value\": " + legal + ", \"by\": \"fuzz\", \"also\": 1}",
            "{\"value\": " + legal + ", \"value\": " + legal + ", \"by\": \"fuzz\"}",
            "{\"value\": " + legal + ", \"by\": \"fuzz\"} {}",
            "{\"value\": " + legal + ", \"by\": \"fu\u0000zz\"}",
            "{\"value\": NaN, \"by\": \"fuzz\"}",
            "{\"value\": " + "[".repeat(400) + "]".repeat(400) + ", \"by\": \"fuzz\"}",
            "{\"value\": " + legal + ", \"by\": \"" + "z".repeat(2_000) + "\"}",
        };
        return some[dice.nextInt(some.length)];
    }

    private String wrongValue(AskTarget target) {
        List<String> some = target.load()
                ? List.of(
                        "true",
                        "\"much\"",
                        "\"50\"",
                        "{}",
                        "[50]",
                        "19.9",
                        "90.1",
                        "-50",
                        "1e999",
                        "1e-999999999",
                        "50e99")
                : List.of("2", "-1", "0.5", "\"ON\"", "\"1\"", "{}", "[1]", "1e99");
        return some.get(dice.nextInt(some.size()));
    }

    private void ask(AskTarget target, String payload, int expiry, boolean mayBeDone, int register)
            throws MqttException, InterruptedException {
        room.acquire();
        String correlation = "c" + ++correlations;
        waiting.put(correlation, new Waiting(target, mayBeDone, register, payload));
        MqttProperties properties = new MqttProperties();
        properties.setResponseTopic(target.topic() + "/reply/fuzz");
        properties.setCorrelationData(correlation.getBytes(StandardCharsets.UTF_8));
        if (expiry > 0) {
            properties.setMessageExpiryInterval((long) expiry);
        }
        publish(target.topic() + "/ask", payload, properties, false);
    }

    /** To where nobody may have answers, or where nothing may be asked for; nobody answers to the asker. */
    private void elsewhere(AskTarget target, String value) throws MqttException {
        MqttProperties properties = new MqttProperties();
        properties.setCorrelationData(("e" + ++correlations).getBytes(StandardCharsets.UTF_8));
        properties.setMessageExpiryInterval(30L);
        boolean unpermitted = dice.nextBoolean();
        properties.setResponseTopic(unpermitted ? target.topic() + "/reply/fuzz" : target.topic() + "/ask");
        String topic = unpermitted
                ? "plant/asked/boiler-" + (ManyUnits.PERMITTED + 1 + dice.nextInt(4)) + "/" + target.row()
                : target.topic();
        publish(topic + "/ask", payload(value), properties, false);
    }

    /** The broker may drop it before anybody sees it, so that nobody waits for an answer. */
    private void late(AskTarget target, String value, int register) throws MqttException {
        MqttProperties properties = new MqttProperties();
        properties.setResponseTopic(target.topic() + "/reply/late");
        properties.setCorrelationData(("l" + ++correlations).getBytes(StandardCharsets.UTF_8));
        properties.setMessageExpiryInterval(1L);
        ledger.mayLeave(target, register);
        publish(target.topic() + "/ask", payload(value), properties, false);
    }

    private void retained(AskTarget target, String value) throws MqttException {
        MqttProperties properties = new MqttProperties();
        properties.setResponseTopic(target.topic() + "/reply/retained");
        properties.setCorrelationData(("r" + ++correlations).getBytes(StandardCharsets.UTF_8));
        properties.setMessageExpiryInterval(30L);
        publish(target.topic() + "/ask", payload(value), properties, true);
    }

    private void publish(String topic, String payload, MqttProperties properties, boolean retained)
            throws MqttException {
        MqttMessage message = new MqttMessage(payload.getBytes(StandardCharsets.UTF_8), 1, retained, properties);
        client.publish(topic, message);
    }

    /** Whether every ask has its answer, or what is left of them could not be had in that time. */
    boolean awaitAnswers(Duration longest) throws InterruptedException {
        boolean all = room.tryAcquire(AT_A_TIME, longest.toMillis(), TimeUnit.MILLISECONDS);
        // Of what nobody heard anything it may have been done.
        waiting.values().stream()
                .filter(ask -> ask.mayBeDone() && ask.register() >= 0)
                .forEach(ask -> ledger.mayLeave(ask.target(), ask.register()));
        return all;
    }

    /** Those that have no answer. */
    List<String> unanswered() {
        return waiting.values().stream().map(Waiting::toString).toList();
    }

    private void answered(String correlation, String said) {
        Waiting ask = waiting.remove(correlation);
        if (ask == null) {
            if (correlation.startsWith("c")) {
                ledger.wrong("answered twice, or unasked: " + correlation + " " + said);
            }
            return;
        }
        room.release();
        JsonNode answer = JSON.readTree(said);
        String result = answer.path("result").asString();
        ledger.count("mqtt " + result);
        if (!ask.mayBeDone() && !result.equals("refused")) {
            ledger.wrong(ask + " must be refused, and was answered " + said);
        }
        if (ask.mayBeDone() && ask.register() >= 0 && !result.equals("refused")) {
            ledger.mayLeave(ask.target(), ask.register());
        }
        if (result.equals("accepted") && ask.register() >= 0) {
            accepted(ask, answer, said);
        }
    }

    private void accepted(Waiting ask, JsonNode answer, String said) {
        int register = ask.target().load()
                ? answer.path("value").decimalValue().movePointRight(1).intValueExact()
                : answer.path("value").path("number").asInt();
        if (register != ask.register()) {
            ledger.wrong(ask + " was accepted with another value: " + said);
        } else if (!answer.path("renewed").asBoolean(false)) {
            ledger.saidToBeWritten(ask.target(), register);
            ledger.count("mqtt written");
        }
    }

    private final class Answers implements MqttCallback {
        @Override
        public void messageArrived(String topic, MqttMessage message) {
            byte[] correlation = message.getProperties() == null
                    ? null
                    : message.getProperties().getCorrelationData();
            if (correlation != null) {
                answered(
                        new String(correlation, StandardCharsets.UTF_8),
                        new String(message.getPayload(), StandardCharsets.UTF_8));
            }
        }

        @Override
        public void disconnected(MqttDisconnectResponse response) {}

        @Override
        public void mqttErrorOccurred(MqttException exception) {}

        @Override
        public void deliveryComplete(IMqttToken token) {}

        @Override
        public void connectComplete(boolean reconnect, @Nullable String server) {}

        @Override
        public void authPacketArrived(int reasonCode, MqttProperties properties) {}
    }

    @Override
    public void close() {
        try {
            client.disconnectForcibly(100);
            client.close(true);
        } catch (MqttException e) {
            throw new IllegalStateException(e);
        }
    }
}
