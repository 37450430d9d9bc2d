package burnerbridge.bacnet;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.documents.BacnetDocuments;
import burnerbridge.model.HandClock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Calls every service there is, and every number for which there is none, and holds the answers against the statement. */
final class EveryServiceIT {
    private static final int NUMBERS = 256;
    private static final String UNRECOGNIZED = "60 07 09";

    private final Rig rig = new Rig();
    private final Station all = Station.listeningToBroadcasts(rig.adapter.port());
    private final String statement = BacnetDocuments.of(Plant.settings(47808), rig.plant.site, new HandClock()).stream()
            .filter(document -> document.name().equals("bacnet-conformance.md"))
            .findFirst()
            .orElseThrow()
            .text();

    EveryServiceIT() {
        assertThat(rig.answers()).isTrue();
        all.forget(); // the I-Am of the start
    }

    @AfterEach
    void close() {
        all.close();
        rig.close();
    }

    /** The names in the statement's table of services with a cross in a column, 2 for initiate and 3 for execute. */
    private Set<String> stated(int column) {
        Set<String> names = new TreeSet<>();
        String table = statement.substring(statement.indexOf("| service | initiate | execute |"));
        table.lines()
                .skip(2)
                .takeWhile(line -> line.startsWith("|"))
                .map(line -> line.split("\\|", -1))
                .filter(cells -> cells[column].strip().equals("x"))
                .forEach(cells -> names.add(cells[1].strip()));
        return names;
    }

    private static String nameOf(boolean confirmed, int choice) {
        return EveryService.of(confirmed, choice).map(EveryService::name).orElse("service " + choice);
    }

    @Test
    void aConfirmedServiceIsExecutedIfAndOnlyIfTheStatementSaysSo() {
        Set<String> executed = new TreeSet<>();
        Set<String> refused = new TreeSet<>();
        for (int choice = 0; choice < NUMBERS; choice++) {
            String reply = answer(EveryService.request(true, choice));
            if (reply.startsWith("20 07 ") || reply.startsWith("30 07 ")) {
                executed.add(nameOf(true, choice));
            } else if (!reply.equals(UNRECOGNIZED)) {
                refused.add(nameOf(true, choice) + " " + reply);
            }
        }
        assertThat(executed).isEqualTo(confirmedOf(stated(3)));
        assertThat(refused)
                .containsExactly(
                        "WriteProperty 50 07 0F 91 02 91 28",
                        "WritePropertyMultiple 50 07 10 0E 91 02 91 28 0F 1E 0C 00 00 00 05 19 55 1F");
        assertThat(statement)
                .contains("WriteProperty and WritePropertyMultiple are answered with an error, write-access-denied")
                .contains("Every other confirmed service is rejected as unrecognized-service");
    }

    /** What answers a request; a subscription's first notification, which may come before it, is passed over. */
    private String answer(String request) {
        rig.station.send(request);
        String heard = rig.station.hearApplication();
        while (heard.startsWith("10 02")) {
            heard = rig.station.hearApplication();
        }
        return heard;
    }

    private static Set<String> confirmedOf(Set<String> names) {
        Set<String> confirmed = new TreeSet<>(names);
        confirmed.removeIf(name ->
                EveryService.all().stream().anyMatch(service -> service.name().equals(name) && !service.confirmed()));
        return confirmed;
    }

    @Test
    void aSegmentedRequestForWhatIsNotExecutedIsRejectedToo() {
        Set<String> executed = confirmedOf(stated(3));
        for (EveryService service : EveryService.all()) {
            boolean write = service.name().startsWith("WriteProperty");
            if (service.confirmed() && !write && !executed.contains(service.name())) {
                String first = String.format(java.util.Locale.ROOT, "0C 05 07 00 02 %02X 09 01", service.choice());
                assertThat(rig.station.ask(first)).as(service.name()).isEqualTo(UNRECOGNIZED);
            }
        }
    }

    @Test
    void anUnconfirmedServiceIsExecutedIfAndOnlyIfTheStatementSaysSo() {
        Set<String> executed = new TreeSet<>();
        Map<String, String> before = rig.everything();
        for (int choice = 0; choice < NUMBERS; choice++) {
            rig.station.send(EveryService.request(false, choice));
            // An answer to it stands before the answer to what is asked next.
            rig.station.send("00 05 01 0C 0C 02 00 00 03 19 4B");
            List<String> heard = untilAsked();
            if (!heard.isEmpty()) {
                executed.add(nameOf(false, choice));
            }
        }
        Optional<String> toAll = all.hear(Station.PATIENCE_MILLIS);
        assertThat(toAll.orElse("nothing")).contains(" 10 01 C4 02 00 00 03 C4 00 00 00 05 ");
        executed.add("Who-Has");
        assertThat(all.hear(1)).isEmpty();

        Set<String> unconfirmed = stated(3);
        unconfirmed.removeAll(confirmedOf(unconfirmed));
        assertThat(executed).isEqualTo(unconfirmed);
        assertThat(rig.everything()).isEqualTo(before);
        assertThat(statement).contains("every other unconfirmed service is ignored");
    }

    private List<String> untilAsked() {
        List<String> heard = new ArrayList<>();
        for (String next = rig.station.hearApplication();
                !next.startsWith("30 01 0C");
                next = rig.station.hearApplication()) {
            heard.add(next);
        }
        return heard;
    }

    @Test
    void whatItInitiatesIsWhatTheStatementSays() {
        rig.station.send("10 08");
        String iAm = rig.station.hearApplication();
        rig.station.send("10 07 2C 00 00 00 05");
        String iHave = all.hear(Station.PATIENCE_MILLIS).orElse("nothing");
        assertThat(iAm).startsWith("10 00 C4 02 00 00 03");
        assertThat(iHave).contains(" 10 01 C4 02 00 00 03");
        assertThat(notificationOf("29 00")).startsWith("10 02 09 12 1C 02 00 00 03");
        assertThat(notificationOf("29 01")).matches("00 05 .. 01 09 12 1C 02 00 00 03.*");
        assertThat(stated(2))
                .containsExactly("ConfirmedCOVNotification", "I-Am", "I-Have", "UnconfirmedCOVNotification");
    }

    /** Subscribes; the notification and the acknowledgement come in either order. */
    private String notificationOf(String howConfirmed) {
        rig.station.send("00 05 07 05 09 12 1C 00 00 00 0A " + howConfirmed + " 39 3C");
        List<String> both = Arrays.asList(rig.station.hearApplication(), rig.station.hearApplication());
        assertThat(both).contains("20 07 05");
        return both.get(0).equals("20 07 05") ? both.get(1) : both.get(0);
    }
}
