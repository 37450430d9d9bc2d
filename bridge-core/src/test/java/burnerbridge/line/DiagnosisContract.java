package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.diagnosis.Finding;
import burnerbridge.line.diagnosis.Finding.Kind;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What every line says of itself, each with a scripted peer that makes it show exactly that. */
abstract class DiagnosisContract<P extends ScriptedPeer> {
    static final UnitId OTHER = new UnitId(18);
    static final ReadRequest THREE = LineTransportContract.THREE;
    static final ReadRequest THREE_OF_OTHER = new ReadRequest(OTHER, RegisterTable.HOLDING_REGISTER, 107, 3);
    static final String THREE_REPLY = LineTransportContract.THREE_REPLY;
    static final ScriptedPeer.Act NOTHING = (request, out, connection) -> {};

    @SuppressWarnings("NullAway.Init")
    P peer;

    @SuppressWarnings("NullAway.Init")
    FramedTransport transport;

    abstract P newPeer();

    abstract LineDefinition.Endpoint endpoint(P peer);

    @BeforeEach
    void start() {
        peer = newPeer();
        transport = LineTransportContract.transport(endpoint(peer), Duration.ofMillis(200));
    }

    @AfterEach
    void end() {
        transport.close();
        peer.close();
    }

    /** Answers as the unit that was asked. */
    ScriptedPeer.Act right(String pdu) {
        return (request, out, connection) ->
                out.write(peer.shape.frame(request, request[peer.shape == ScriptedPeer.Shape.TCP ? 6 : 0] & 0xFF, pdu));
    }

    Outcome read(ReadRequest request, ScriptedPeer.Act act) {
        peer.then(act);
        return transport.read(request);
    }

    void read(int times, ReadRequest request, ScriptedPeer.Act act) {
        for (int i = 0; i < times; i++) {
            read(request, act);
        }
    }

    /** The one finding, of the line as a whole. */
    void assertFinds(Kind kind, String seen, String lookAt) {
        assertThat(transport.findings()).singleElement().satisfies(finding -> {
            assertThat(finding.kind()).isEqualTo(kind);
            assertThat(finding.unit()).isNull();
            assertThat(finding.seen()).contains(seen);
            assertThat(finding.lookAt()).contains(lookAt);
        });
    }

    void assertFinds(Kind kind, UnitId unit, String seen, String lookAt) {
        assertThat(transport.findings()).singleElement().satisfies(finding -> {
            assertThat(finding.kind()).isEqualTo(kind);
            assertThat(finding.unit()).isEqualTo(unit);
            assertThat(finding.seen()).startsWith("unit " + unit + ": ").contains(seen);
            assertThat(finding.lookAt()).contains(lookAt);
        });
    }

    @Test
    void aPeerThatNeverAnswersIsALineOnWhichNothingIsHeard() {
        read(5, THREE, NOTHING);
        assertFinds(Kind.NOTHING_HEARD, "nothing was received in reply to 5 requests", "the unit ids");
    }

    @Test
    void aUnitThatIsSilentWhileAnotherAnswersIsToldAsThatUnit() {
        read(6, THREE, right(THREE_REPLY));
        read(5, THREE_OF_OTHER, NOTHING);
        assertFinds(Kind.UNIT_SILENT, OTHER, "none of 5 requests", "its power, its unit id");
        assertThat(transport.findings().get(0).sentence()).doesNotContain("A and B");
    }

    @Test
    void repliesOfAnotherUnitAreToldAsThat() {
        read(5, THREE, (request, out, connection) -> out.write(peer.shape.frame(request, 99, THREE_REPLY)));
        assertFinds(Kind.OTHERS_REPLY, "5 times on 5 requests", "ids");
    }

    @Test
    void repliesThatAreCutOffAreToldAsThat() {
        read(5, THREE, (request, out, connection) -> out.write(peer.reply(request, THREE_REPLY), 0, 8));
        assertFinds(Kind.LENGTH, "5 times on 5 requests", "`reply-timeout` (here 200 ms)");
    }

    @Test
    void aHealthyLineWithAFailureNowAndThenSaysNothing() {
        read(15, THREE, right(THREE_REPLY));
        read(THREE, NOTHING);
        read(15, THREE_OF_OTHER, right(THREE_REPLY));
        read(THREE_OF_OTHER, (request, out, connection) -> out.write(ScriptedPeer.hex("FF FE FD FC FB FA F9 F8")));
        read(5, THREE_OF_OTHER, right("83 02"));
        read(THREE, (request, out, connection) -> out.write(peer.shape.frame(request, 99, THREE_REPLY)));
        assertThat(transport.counts().requests()).isGreaterThanOrEqualTo(38);
        assertThat(transport.findings()).extracting(Finding::sentence).isEmpty();
    }
}
