package burnerbridge.bacnet.door;

import burnerbridge.site.PointId;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import burnerbridge.write.ask.Wanted;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;

/** A gate that admits every number, but for what a test tells it to refuse, and remembers what it was asked. */
public final class FakeGate implements Gate {
    public static final long LEASE = 900_000_000_000L;

    public final List<Ask> asks = new ArrayList<>();
    private final Map<PointId, Map<Integer, PermitStatus.Held>> slots = new HashMap<>();
    private final List<PermitStatus.Watcher> watchers = new ArrayList<>();
    private Optional<Question> refuses = Optional.empty();
    private boolean approved = true;
    private String held = "";
    private String failed = "";
    private String asleep = "";

    public synchronized void refuse(Optional<Question> question) {
        refuses = question;
    }

    /** What every permit says of itself from now on. */
    public synchronized void stand(boolean nowApproved, String nowHeld, String nowFailed, String nowAsleep) {
        approved = nowApproved;
        held = nowHeld;
        failed = nowFailed;
        asleep = nowAsleep;
    }

    /** How long every slot still holds. */
    public synchronized void left(long nanos) {
        slots.values()
                .forEach(ofPoint -> ofPoint.replaceAll((number, one) ->
                        new PermitStatus.Held(number, one.value(), one.source(), OptionalLong.of(nanos))));
    }

    @Override
    public synchronized Decision ask(Ask ask) {
        asks.add(ask);
        Optional<Question> no = refuses.isPresent() || !(ask.wanted() instanceof Wanted.NoNumber)
                ? refuses
                : Optional.of(Question.TYPE);
        if (no.isPresent()) {
            return new Decision.Refused(no.get(), "a test says so");
        }
        Map<Integer, PermitStatus.Held> ofPoint = slots.computeIfAbsent(ask.point(), point -> new TreeMap<>());
        if (ask.wanted() instanceof Wanted.Number number) {
            ofPoint.put(
                    ask.slot(),
                    new PermitStatus.Held(ask.slot(), number.value(), ask.source(), OptionalLong.of(LEASE)));
        } else {
            ofPoint.remove(ask.slot());
        }
        watchers.forEach(watcher -> watcher.changed(ask.point()));
        return new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);
    }

    @Override
    public synchronized Optional<PermitStatus> status(PointId point) {
        return Optional.of(new PermitStatus(
                point,
                List.copyOf(slots.getOrDefault(point, Map.of()).values()),
                held,
                failed,
                asleep,
                false,
                Optional.empty(),
                0,
                0,
                OptionalLong.empty()));
    }

    @Override
    public synchronized boolean isApproved() {
        return approved;
    }

    @Override
    public synchronized void watch(PermitStatus.Watcher watcher) {
        watchers.add(watcher);
    }
}
