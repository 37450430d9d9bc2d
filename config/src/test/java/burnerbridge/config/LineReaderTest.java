package burnerbridge.config;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.problem.Problem;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Lines on each transport: what they default to, and what is said of mistakes. */
class LineReaderTest {
    private static final String TCP = "{tcp: {host: 127.0.0.1, port: 1502}, reply-timeout: 500 ms}";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private SiteFiles site(String line) {
        return new SiteFiles(folder).spoil("site.yaml", TCP, line);
    }

    private LineDefinition line(String text) {
        SiteFolder loaded = site(text).load();
        assertThat(loaded.problems()).noneMatch(Problem::isError);
        return loaded.site().orElseThrow().lines().get(0);
    }

    @Test
    void aLineOverADeviceServerIsReadWithItsDefaults() {
        LineDefinition line = line("{rtu-over-tcp: {host: 192.0.2.7, port: 4001}}");
        assertThat(line.endpoint()).isEqualTo(new LineDefinition.RtuOverTcp("192.0.2.7", 4001, 19200));
        assertThat(line.replyTimeout()).isEqualTo(Duration.ofSeconds(1));
        assertThat(line("{rtu-over-tcp: {host: 192.0.2.7, port: 4001, baud: 9600}}")
                        .endpoint())
                .isEqualTo(new LineDefinition.RtuOverTcp("192.0.2.7", 4001, 9600));
    }

    @Test
    void aSerialLineHasTheDefaultsOfTheStandard() {
        LineDefinition line = line("{serial: {port: /dev/serial/by-id/usb-a}}");
        assertThat(line.endpoint())
                .isEqualTo(
                        new LineDefinition.Serial("/dev/serial/by-id/usb-a", 19200, Parity.EVEN, 1, Rs485.AUTO, false));
        assertThat(line.replyTimeout()).isEqualTo(Duration.ofMillis(500));
        assertThat(((LineDefinition.Serial) line.endpoint()).bitsPerCharacter()).isEqualTo(11);
    }

    @Test
    void aSerialLineIsReadAsWritten() {
        String text =
                "{serial: {port: /dev/ttyS1, baud: 9600, parity: none, stop-bits: 2, rs485: rts-high, echo: true}}";
        assertThat(line(text).endpoint())
                .isEqualTo(new LineDefinition.Serial("/dev/ttyS1", 9600, Parity.NONE, 2, Rs485.RTS_HIGH, true));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "{reply-timeout: 1 s} # site.yaml:5:10: lines.annex: must say where it leads: one of tcp, ",
                "{tcp: {host: a}, rtu-over-tcp: {host: a, port: 1}} # site.yaml:5:41: lines.annex.rtu-over-tcp: a line leads to one place",
                "{tcp: {host: ''}} # site.yaml:5:23: lines.annex.tcp.host: must be a name or an address alone",
                "{rtu-over-tcp: {port: 4001}} # site.yaml:5:25: lines.annex.rtu-over-tcp.host: is missing",
                "{rtu-over-tcp: {host: a}} # site.yaml:5:25: lines.annex.rtu-over-tcp.port: is missing",
                "{rtu-over-tcp: {host: a, port: 0}} # site.yaml:5:41: lines.annex.rtu-over-tcp.port: must be 1 to 65535 (was 0)",
                "{rtu-over-tcp: {host: a, port: 1, baud: 1920}} # site.yaml:5:50: lines.annex.rtu-over-tcp.baud: must be one of 1200, 2400,",
                "{rtu-over-tcp: {host: a, port: 1, bauds: 9600}} # site.yaml:5:44: lines.annex.rtu-over-tcp.bauds: is not known here",
                "{serial: {baud: 9600}} # site.yaml:5:19: lines.annex.serial.port: is missing; the path of the serial port",
                "{serial: {port: ttyS0}} # site.yaml:5:26: lines.annex.serial.port: must be a whole path",
                "{serial: {port: /dev/a, parity: evan}} # site.yaml:5:42: lines.annex.serial.parity: must be one of even, none, odd (was 'evan'); did you mean 'even'?",
                "{serial: {port: /dev/a, parity: none}} # site.yaml:5:42: lines.annex.serial.parity: with none, say stop-bits too",
                "{serial: {port: /dev/a, stop-bits: 3}} # site.yaml:5:45: lines.annex.serial.stop-bits: must be 1 to 2 (was 3)",
                "{serial: {port: /dev/a, rs485: on}} # site.yaml:5:41: lines.annex.serial.rs485: must be one of auto, rts-high, rts-low (was 'on')",
                "{serial: {port: /dev/a, echo: maybe}} # site.yaml:5:40: lines.annex.serial.echo: must be one of false, true (was 'maybe')"
            })
    void aMistakeInALineIsToldWithItsPlace(String text, String expected) {
        List<String> errors = site(text).errors();
        assertThat(errors).isNotEmpty();
        assertThat(errors).anySatisfy(e -> assertThat(e).startsWith(expected));
    }

    @Test
    void twoLinesOnOnePortAreRefused() {
        SiteFiles files = site("{serial: {port: /dev/a}}\n  other: {serial: {port: /dev/a}}");
        assertThat(files.errors())
                .containsExactly("site.yaml:6:26: lines.other.serial.port: /dev/a is already line annex; a line has one"
                        + " connection");
    }

    @Test
    void twoLinesToOneEndpointAreRefusedWhateverTheirFraming() {
        SiteFiles files = new SiteFiles(folder)
                .spoil("site.yaml", "types:", "  other: {rtu-over-tcp: {host: 127.0.0.1, port: 1502}}\ntypes:");
        assertThat(files.errors())
                .containsExactly("site.yaml:6:32: lines.other.rtu-over-tcp.host: 127.0.0.1:1502 is already line annex;"
                        + " a line has one connection");
    }
}
