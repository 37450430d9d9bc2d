package burnerbridge.bacnet;

import burnerbridge.bacnet.cov.CovDesk;
import burnerbridge.bacnet.cov.Post;
import burnerbridge.bacnet.device.BridgeDevice;
import burnerbridge.bacnet.edge.EdgePort;
import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.bacnet.edge.PortCounters;
import burnerbridge.bacnet.edge.service.AnswerKind;
import burnerbridge.bacnet.edge.service.DropReason;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import java.util.Locale;

/** What a running device counts. Nothing that a station can choose is in a label, so that nobody can make samples. */
record BacnetFigures(EdgePort port, BridgeDevice device, int objects) implements MetricSource {
    private static final Metric OBJECTS =
            Metric.gauge("burner_bridge_bacnet_objects", "Objects that are served, the device object not counted.");
    private static final Metric RECEIVED =
            Metric.counter("burner_bridge_bacnet_received_datagrams", "Datagrams of other stations that came.");
    private static final Metric RECEIVED_BYTES =
            Metric.counter("burner_bridge_bacnet_received_bytes", "Octets in datagrams of other stations that came.");
    private static final Metric SENT =
            Metric.counter("burner_bridge_bacnet_sent_datagrams", "Datagrams that the operating system took.");
    private static final Metric SENT_BYTES =
            Metric.counter("burner_bridge_bacnet_sent_bytes", "Octets in datagrams that the operating system took.");
    private static final Metric UNSENT = Metric.counter(
            "burner_bridge_bacnet_unsent_datagrams", "Datagrams that the operating system did not take.");
    private static final Metric PASSED = Metric.counter(
            "burner_bridge_bacnet_passed_datagrams",
            "Datagrams that were understood whole and handed on to be answered.");
    private static final Metric DROPPED = Metric.counter(
            "burner_bridge_bacnet_dropped_datagrams", "Datagrams that got no answer, by the reason.", "reason");
    private static final Metric ANSWERED = Metric.counter(
            "burner_bridge_bacnet_answered_datagrams",
            "Datagrams that were answered at the port itself, by the kind of the answer.",
            "kind");
    private static final Metric WAITING =
            Metric.gauge("burner_bridge_bacnet_waiting_requests", "Requests and replies that wait to be worked on.");
    private static final Metric SUBSCRIPTIONS =
            Metric.gauge("burner_bridge_bacnet_subscriptions", "Subscriptions to changes of value that are kept.");
    private static final Metric NOTIFICATIONS = Metric.counter(
            "burner_bridge_bacnet_notifications",
            "Notifications of changes that were sent, repetitions not counted.",
            "kind");
    private static final Metric ANSWERS = Metric.counter(
            "burner_bridge_bacnet_notification_answers", "What became of confirmed notifications.", "answer");
    private static final Metric OWED = Metric.gauge(
            "burner_bridge_bacnet_waiting_notifications",
            "Confirmed notifications that wait until those before them are acknowledged.");
    private static final Metric DROPPED_PEERS = Metric.counter(
            "burner_bridge_bacnet_dropped_subscribers",
            "Stations whose subscriptions were dropped since they acknowledged nothing.");
    private static final Metric ASKS = Metric.counter(
            "burner_bridge_bacnet_asks", "Asks for writes that came over BACnet, by what the gate said.", "decision");
    private static final Metric FOREIGN = Metric.gauge(
            "burner_bridge_bacnet_foreign_device",
            "The registration with a broadcast management device: 1 at the state that it is now, 0 at the others;"
                    + " none where no registration is wanted.",
            "state");

    @Override
    public void measure(MetricSink sink) {
        sink.sample(OBJECTS, objects);
        port(sink, port.counters());
        notifications(sink, device.subscriptions());
        sink.sample(ASKS, device.door().admittedCount(), "admitted");
        sink.sample(ASKS, device.door().refusedCount(), "refused");
        port.foreignDeviceState().ifPresent(present -> {
            for (ForeignDevice.State state : ForeignDevice.State.values()) {
                sink.sample(FOREIGN, state == present ? 1 : 0, state.word());
            }
        });
        port.watch().measure(sink);
    }

    private void port(MetricSink sink, PortCounters counters) {
        sink.sample(RECEIVED, counters.receivedCount());
        sink.sample(RECEIVED_BYTES, counters.octetsIn());
        sink.sample(SENT, counters.sentCount());
        sink.sample(SENT_BYTES, counters.octetsOut());
        sink.sample(UNSENT, counters.unsentCount());
        sink.sample(PASSED, counters.passedCount());
        for (DropReason reason : DropReason.values()) {
            sink.sample(DROPPED, counters.droppedCount(reason), reason.word());
        }
        for (AnswerKind kind : AnswerKind.values()) {
            sink.sample(ANSWERED, counters.answeredCount(kind), kind.word());
        }
        sink.sample(WAITING, port.requests().waiting());
    }

    private static void notifications(MetricSink sink, CovDesk desk) {
        sink.sample(SUBSCRIPTIONS, desk.count());
        sink.sample(NOTIFICATIONS, desk.counters().unconfirmedCount(), "unconfirmed");
        sink.sample(NOTIFICATIONS, desk.counters().confirmedCount(), "confirmed");
        for (Post.Reply reply : Post.Reply.values()) {
            sink.sample(ANSWERS, desk.counters().count(reply), reply.name().toLowerCase(Locale.ROOT));
        }
        sink.sample(OWED, desk.waiting());
        sink.sample(DROPPED_PEERS, desk.droppedPeers());
    }
}
