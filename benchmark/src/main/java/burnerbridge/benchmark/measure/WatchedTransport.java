package burnerbridge.benchmark.measure;

import burnerbridge.line.LineCounts;
import burnerbridge.line.LineTransport;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.site.UnitId;
import java.util.List;

/** A line whose reads somebody notes; it does everything as it would without. */
public abstract class WatchedTransport implements LineTransport {
    private final LineTransport line;

    protected WatchedTransport(LineTransport line) {
        this.line = line;
    }

    @Override
    public Outcome read(ReadRequest request) {
        return line.read(request);
    }

    @Override
    public long readyAt(ReadRequest request, long now) {
        return line.readyAt(request, now);
    }

    @Override
    public LineCounts counts() {
        return line.counts();
    }

    @Override
    public LineCounts counts(UnitId unit) {
        return line.counts(unit);
    }

    @Override
    public List<Finding> findings() {
        return line.findings();
    }

    @Override
    public void close() {
        line.close();
    }
}
