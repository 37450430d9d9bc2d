package burnerbridge.line.diagnosis;

import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition;
import java.time.Duration;
import java.util.Optional;

/** What to look at on one kind of line, by common practice. */
interface Practice {

    /**
     * The words behind "look at".
     *
     * @param ofOneUnit whether one unit shows it while others do not, so that the line itself is right
     * @return nothing where such a line cannot show it, or the words would say nothing
     */
    Optional<String> lookAt(Kind kind, boolean ofOneUnit);

    /** What happened, in the words of such a line. */
    default String seen(Symptom symptom) {
        return symptom.words();
    }

    static Practice of(LineDefinition line) {
        LineDefinition.Endpoint endpoint = line.endpoint();
        if (endpoint instanceof LineDefinition.Tcp tcp) {
            return new TcpPractice(tcp, line.replyTimeout());
        }
        return endpoint instanceof LineDefinition.RtuOverTcp rtu
                ? new DeviceServerPractice(rtu, line.replyTimeout())
                : new SerialPractice((LineDefinition.Serial) endpoint, line.replyTimeout());
    }

    /** For people: {@code 500 ms}, {@code 2 s}. */
    static String words(Duration time) {
        return time.toMillis() % 1000 == 0 ? time.toSeconds() + " s" : time.toMillis() + " ms";
    }
}
