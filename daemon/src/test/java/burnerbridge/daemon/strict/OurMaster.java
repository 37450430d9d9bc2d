package burnerbridge.daemon.strict;

import burnerbridge.line.LineTransport;
import burnerbridge.line.Lines;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.model.RunningClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.util.Optional;

/** The bridge's own transport, by its public door. */
final class OurMaster implements Master {
    private final LineTransport transport;
    private String last = "nothing";

    OurMaster(LineDefinition line) {
        this.transport = Lines.transport(line, new RunningClock());
    }

    @Override
    public Optional<Taken> ask(Question question) {
        Outcome outcome = transport.read(new ReadRequest(
                new UnitId(question.unit()),
                RegisterTable.valueOf(question.table().name()),
                question.first(),
                question.count(),
                question.terms()));
        last = outcome.toString();
        if (outcome instanceof Outcome.NotConnected) {
            Master.pauseBeforeConnecting();
        }
        if (!(outcome instanceof Outcome.Answered answered)) {
            return Optional.empty();
        }
        int[] words = new int[answered.data().count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = answered.data().word(i);
        }
        return Optional.of(new Taken(words, answered.askedAt().ticks()));
    }

    @Override
    public String last() {
        return last;
    }

    @Override
    public void close() {
        transport.close();
    }
}
