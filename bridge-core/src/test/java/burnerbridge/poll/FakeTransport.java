package burnerbridge.poll;

import burnerbridge.line.LineCounts;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import burnerbridge.site.Points;
import burnerbridge.site.UnitId;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToLongBiFunction;

/** A line whose outcomes a test decides. */
final class FakeTransport implements LineTransport {
    final List<ReadRequest> asked = new ArrayList<>();
    Function<ReadRequest, Outcome> answer;
    ToLongBiFunction<ReadRequest, Long> ready = (request, now) -> now;
    boolean closed;
    long replies;

    FakeTransport(Function<ReadRequest, Outcome> answer) {
        this.answer = answer;
    }

    /** No reply within the whole time-out of {@code Points.line()}. */
    static Outcome.Silent silent(HandClock clock) {
        Stamp askedAt = clock.now();
        clock.forward(Points.line().replyTimeout());
        return new Outcome.Silent(askedAt);
    }

    @Override
    public Outcome read(ReadRequest request) {
        asked.add(request);
        return answer.apply(request);
    }

    @Override
    public long readyAt(ReadRequest request, long now) {
        return ready.applyAsLong(request, now);
    }

    @Override
    public LineCounts counts() {
        return LineCounts.NONE;
    }

    @Override
    public LineCounts counts(UnitId unit) {
        return counts();
    }

    @Override
    public long replies(UnitId unit) {
        return replies;
    }

    @Override
    public List<Finding> findings() {
        return List.of();
    }

    @Override
    public void close() {
        closed = true;
    }
}
