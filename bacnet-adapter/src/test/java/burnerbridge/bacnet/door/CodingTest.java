package burnerbridge.bacnet.door;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.bacnet.edge.coding.Cursor;
import burnerbridge.bacnet.edge.coding.Hex;
import burnerbridge.bacnet.edge.coding.Octets;
import burnerbridge.bacnet.edge.coding.Tag;
import burnerbridge.bacnet.edge.coding.Trouble;
import burnerbridge.model.Seed;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.StateNumbers;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Values as they travel (ASHRAE 135, 20.2), and what the gate is asked for. */
final class CodingTest {
    private static final StateNumbers STATES = new StateNumbers(Map.of(0L, 3, 10L, 1));

    private static List<Tag> tags(Octets octets) {
        List<Tag> tags = new ArrayList<>();
        Cursor cursor = new Cursor(octets);
        while (cursor.more()) {
            Tag tag = Tag.read(cursor);
            if (tag == null) {
                return List.of();
            }
            tags.add(tag);
        }
        return tags;
    }

    private static Coding.Meant meant(ObjectKind kind, String hex) {
        return Coding.of(kind, STATES).meant(tags(Hex.octets(hex)));
    }

    /** The first is the standard's example, 20.2.6: 72.0; from memory. */
    @ParameterizedTest
    @CsvSource({
        "ANALOG_VALUE, 44 42 90 00 00, 72.0",
        "ANALOG_VALUE, 44 41 A0 CC CD, 20.1",
        "ANALOG_VALUE, 44 80 00 00 00, -0.0",
        "ANALOG_VALUE, 44 7F 7F FF FF, 3.4028235E38",
        "ANALOG_VALUE, 44 00 00 00 01, 1.4E-45",
        "BINARY_VALUE, 91 00, 0",
        "BINARY_VALUE, 94 00 00 00 01, 1",
        "MULTI_STATE_VALUE, 21 01, 10",
        "MULTI_STATE_VALUE, 24 00 00 00 03, 0"
    })
    void aValueIsTheNumberThatItStandsFor(ObjectKind kind, String hex, String number) {
        assertThat(meant(kind, hex).wanted())
                .isInstanceOfSatisfying(
                        Wanted.Number.class,
                        wanted -> assertThat(wanted.value()).isEqualByComparingTo(new BigDecimal(number)));
    }

    @ParameterizedTest
    @EnumSource(
            value = ObjectKind.class,
            names = {"ANALOG_VALUE", "BINARY_VALUE", "MULTI_STATE_VALUE"})
    void nullGivesUp(ObjectKind kind) {
        assertThat(meant(kind, "00").wanted()).isEqualTo(new Wanted.Nothing());
    }

    @ParameterizedTest
    @CsvSource({
        "ANALOG_VALUE, 44 FF 80 00 00, -Infinity, INVALID_DATA_TYPE",
        "ANALOG_VALUE, 44 7F C0 00 00, NaN, INVALID_DATA_TYPE",
        "ANALOG_VALUE, 55 08 40 52 00 00 00 00 00 00, of type Double, INVALID_DATA_TYPE",
        "ANALOG_VALUE, 00 00, something constructed, INVALID_DATA_TYPE",
        "ANALOG_VALUE, 0C 42 90 00 00, something constructed, INVALID_DATA_TYPE",
        "BINARY_VALUE, 91 02, enumeration 2, VALUE_OUT_OF_RANGE",
        "BINARY_VALUE, 11, of type Boolean, INVALID_DATA_TYPE",
        "MULTI_STATE_VALUE, 21 02, state 2, VALUE_OUT_OF_RANGE",
        "MULTI_STATE_VALUE, 25 08 FF FF FF FF FF FF FF FF, state of many octets, VALUE_OUT_OF_RANGE",
        "MULTI_STATE_VALUE, 31 01, of type Integer, INVALID_DATA_TYPE"
    })
    void whatCannotBeMeantIsNoNumber(ObjectKind kind, String hex, String what, Trouble otherwise) {
        assertThat(meant(kind, hex)).isEqualTo(new Coding.Meant(new Wanted.NoNumber(what), otherwise));
    }

    @Test
    void anyTagsAtAllHaveAMeaning() {
        Random random = new Random(Seed.value());
        int numbers = 0;
        for (int time = 0; time < 200_000; time++) {
            byte[] octets = new byte[1 + random.nextInt(7)];
            random.nextBytes(octets);
            octets[0] = (byte) (random.nextInt(13) << 4 | random.nextInt(16));
            List<Tag> tags = tags(Octets.copyOf(octets, octets.length));
            if (!tags.isEmpty()) {
                for (ObjectKind kind :
                        List.of(ObjectKind.ANALOG_VALUE, ObjectKind.BINARY_VALUE, ObjectKind.MULTI_STATE_VALUE)) {
                    numbers += Coding.of(kind, STATES).meant(tags).wanted() instanceof Wanted.Number ? 1 : 0;
                }
            }
        }
        assertThat(numbers).isGreaterThan(100);
    }

    @Test
    void aValueIsShownAsItIsAskedFor() {
        for (String hex : List.of("44 42 34 00 00", "44 41 A0 CC CD")) {
            Wanted wanted = meant(ObjectKind.ANALOG_VALUE, hex).wanted();
            BigDecimal value = ((Wanted.Number) wanted).value();
            assertThat(Coding.of(ObjectKind.ANALOG_VALUE, STATES).shown(value).orElseThrow())
                    .hasToString(value.toString());
        }
        assertThat(Coding.of(ObjectKind.MULTI_STATE_VALUE, STATES).shown(BigDecimal.valueOf(7)))
                .isEmpty();
    }
}
