package burnerbridge.mqtt.door;

import burnerbridge.site.PointId;
import burnerbridge.write.PermitStatus;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Source;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A gate that decides as a test says, and remembers what it was asked. */
public final class FakeGate implements Gate {
    /** What it was asked, in order. */
    public final List<Ask> asks = new ArrayList<>();
    /** Who waits for what became of these. */
    public final List<Fate.Follower> followers = new ArrayList<>();
    /** What the door refused: {@code code: sentence}. */
    public final List<String> refusals = new ArrayList<>();
    /** Who was refused, as the audit has him. */
    public final List<String> sources = new ArrayList<>();

    public final Map<PointId, PermitStatus> statuses = new HashMap<>();
    public Decision decision = new Decision.Admitted(Decision.Standing.TO_BE_WRITTEN);
    /** What is told before the ask returns; null for nothing. */
    public Optional<Fate> atOnce = Optional.empty();

    @Override
    public Decision ask(Ask ask, Fate.Follower follower) {
        asks.add(ask);
        followers.add(follower);
        atOnce.ifPresent(follower::became);
        return decision;
    }

    @Override
    public void refused(PointId point, Source source, String wanted, String code, String sentence) {
        refusals.add(code + ": " + sentence);
        sources.add(source.text());
    }

    @Override
    public Optional<PermitStatus> status(PointId point) {
        return Optional.ofNullable(statuses.get(point));
    }

    public void became(int ask, Fate fate) {
        followers.get(ask).became(fate);
    }
}
