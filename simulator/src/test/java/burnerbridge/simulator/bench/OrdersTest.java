package burnerbridge.simulator.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.frame.Transport;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.manners.WriteMisbehaviour;
import java.util.Arrays;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OrdersTest {
    private final Orders orders = new Orders(Transport.RTU_SERIAL);

    @ParameterizedTest
    @CsvSource({
        "silent, SILENT, 0, 0, 1",
        "Exception 6 for 3, EXCEPTION, 6, 3, 1",
        "late 800 ms, LATE, 800, 0, 1",
        "late 800, LATE, 800, 0, 1",
        "bad-crc every 5, BAD_CRC, 0, 0, 5",
        "late 20 ms every 2, LATE, 20, 0, 2",
    })
    void aLineIsUnderstood(String line, Misbehaviour what, int number, int first, int every) throws NotUnderstood {
        assertThat(orders.understand(line))
                .isEqualTo(new Order(Optional.of(what), number, new When(Set.of(), first, every)));
    }

    @ParameterizedTest
    @CsvSource({
        "write-silent, WRITE_SILENT, 0, 0, 1",
        "write-exception 4 for 2, WRITE_EXCEPTION, 4, 2, 1",
        "write-done-late 500 ms every 3, WRITE_DONE_LATE, 500, 0, 3",
    })
    void aLineAboutWritesIsUnderstood(String line, WriteMisbehaviour what, int number, int first, int every)
            throws NotUnderstood {
        Order order = orders.understand(line);
        assertThat(order).isEqualTo(new Order(Optional.of(what), number, new When(Set.of(), first, every)));
        assertThat(order.writeManners(new Random(1))).isPresent();
        assertThat(order.manners(new Random(1))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"silent of 5, 5, 0, 1", "'silent of 7,5 for 3', '5 7', 3, 1", "'silent of 5,5 every 2', 5, 0, 2"})
    void itMayBeMeantForSomeUnitsAlone(String line, String units, int first, int every) throws NotUnderstood {
        Set<Integer> meant =
                Arrays.stream(units.split(" ")).map(Integer::valueOf).collect(Collectors.toSet());

        assertThat(orders.understand(line))
                .isEqualTo(new Order(Optional.of(Misbehaviour.SILENT), 0, new When(meant, first, every)));
    }

    @Test
    void wellEndsIt() throws NotUnderstood {
        assertThat(orders.understand(" well ")).isEqualTo(Order.WELL);
    }

    @ParameterizedTest
    @CsvSource({
        "silence, there is no \"silence\"; the nearest is \"silent\" (help lists all)",
        "bad-crv, there is no \"bad-crv\"; the nearest is \"bad-crc\" (help lists all)",
        "hlep, there is no \"hlep\"; the nearest is \"help\" (help lists all)",
        "exception, exception: code must be 1 to 255 (was missing)",
        "exception 0, exception: code must be 1 to 255 (was 0)",
        "exception six, exception: code must be 1 to 255 (was six)",
        "busy fro 3, 'busy: there is no \"fro\" to it; the nearest is \"for\"'",
        "busy for, busy for must be 1 to 1000000 (was missing)",
        "busy every 0, busy every must be 1 to 1000000 (was 0)",
        "silent of, silent of: each unit must be 1 to 247 (was missing)",
        "'silent of 5,x', silent of: each unit must be 1 to 247 (was x)",
        "silent of 300, silent of: each unit must be 1 to 247 (was 300)",
        "silent for 3 please, too much: \"please\"",
        "well then, too much: \"then\"",
        "wrong-transaction, wrong-transaction: makes no sense on RTU on a serial port",
    })
    void whatIsNotUnderstoodIsSaid(String line, String message) {
        assertThatThrownBy(() -> orders.understand(line))
                .isInstanceOf(NotUnderstood.class)
                .hasMessage(message);
    }

    @Test
    void helpListsWhatMakesSenseThere() {
        String[] words = Arrays.stream(Misbehaviour.values())
                .filter(what -> what.makesSenseOn(Transport.RTU_SERIAL))
                .map(Misbehaviour::word)
                .toArray(String[]::new);

        assertThat(orders.help())
                .contains(words)
                .contains("well", "end", "late N ms")
                .doesNotContain("refuse");
    }
}
