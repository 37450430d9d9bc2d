package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class OpeningTest {
    private static final Path SITE = Path.of("somewhere", "site");
    private static final Path STATE = Path.of("somewhere", "state");
    private static final Path LOG = Path.of("somewhere", "bridge.log");

    @Test
    void itSaysWhatRunsWhereAndHowToLook() {
        assertThat(new Opening(Ports.USUAL, SITE, LOG, STATE).text())
                .contains(
                        "RTU over TCP  7001",
                        "Modbus TCP    1502",
                        "mbpoll -m tcp -p 1503",
                        "mosquitto_sub -p 1883",
                        "47808, device 711001",
                        "values " + SITE,
                        "--state " + STATE,
                        LOG.toString())
                .doesNotContain("is taken");
    }

    @Test
    void itCarriesTheCaution() {
        assertThat(new Opening(Ports.USUAL, SITE, LOG, STATE).text().replace('\n', ' '))
                .contains(
                        "Not a safety device",
                        "against the controller's own display before use",
                        "Nothing is writable");
    }

    @Test
    void itSaysWhichPortsWereTaken() {
        assertThat(new Opening(new Ports(7001, 1502, 1503, 20002, 20003), SITE, LOG, STATE).text())
                .contains(
                        "TCP port 1883 is taken: the broker uses 20002",
                        "UDP port 47808 is taken: BACnet uses 20003",
                        "mosquitto_sub -p 20002")
                .doesNotContain("port 1502 is taken");
    }

    @Test
    void itFitsATerminal() {
        assertThat(new Opening(Ports.USUAL, SITE, LOG, STATE).text().lines()).allMatch(line -> line.length() <= 79);
    }
}
