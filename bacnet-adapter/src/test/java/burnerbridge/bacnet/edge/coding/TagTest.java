package burnerbridge.bacnet.edge.coding;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Tags as ASHRAE 135, 20.2.1 and its examples in 20.2.2 to 20.2.15 have them; hex from memory of that text. */
final class TagTest {

    @ParameterizedTest
    @CsvSource({
        "00, 0, ''",
        "10, 1, ''",
        "11, 1, ''",
        "21 48, 2, 48",
        "31 48, 3, 48",
        "44 42 90 00 00, 4, 42 90 00 00",
        "55 08 40 52 00 00 00 00 00 00, 5, 40 52 00 00 00 00 00 00",
        "63 12 34 FF, 6, 12 34 FF",
        "82 03 A8, 8, 03 A8",
        "91 00, 9, 00",
        "A4 5B 01 18 04, 10, 5B 01 18 04",
        "B4 11 23 2D 11, 11, 11 23 2D 11",
        "C4 00 C0 00 0F, 12, 00 C0 00 0F",
    })
    void applicationTagsOfTheStandardsExamplesAreRead(String hex, int number, String content) {
        Tag tag = Tag.read(new Cursor(Hex.octets(hex)));
        assertThat(tag).isEqualTo(new Tag(Tag.Kind.PRIMITIVE, false, number, Hex.octets(content)));
    }

    @Test
    void aCharacterStringWithALengthOctetIsRead() {
        String text = "00 54 68 69 73 20 69 73 20 61 20 42 41 43 6E 65 74 20 73 74 72 69 6E 67 21";
        Tag tag = Tag.read(new Cursor(Hex.octets("75 19 " + text)));
        assertThat(tag).isEqualTo(new Tag(Tag.Kind.PRIMITIVE, false, 7, Hex.octets(text)));
    }

    @Test
    void aTagNumberAbove14StandsInAnOctetOfItsOwn() {
        assertThat(Tag.read(new Cursor(Hex.octets("F9 21 01"))))
                .isEqualTo(new Tag(Tag.Kind.PRIMITIVE, true, 33, Hex.octets("01")));
        assertThat(Tag.read(new Cursor(Hex.octets("FE FE"))))
                .isEqualTo(new Tag(Tag.Kind.OPENING, true, 254, Octets.of()));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "2D FF FF FF FF FA", // length near 2^32, which as an int is -6
                "2D FF 80 00 00 00",
                "2D FF 7F FF FF FF",
                "2D FE FF FF",
                "75 19 00",
                "2D",
                "2D FF FF",
                "0C 00 00 00", // one octet short
                "F9", // no number
                "F9 FF 01", // number 255 is reserved
                "F9 0E 01", // 14 has a shorter form
                "12", // a boolean of neither value
                "16", // no opening tag of an application type
                "17",
                "43 00 00 00", // a REAL of three octets
                "01 00", // a null with content
                "D1 00", // application types 13 to 15 are reserved
                "20", // an unsigned number of no octets
            })
    void aTagThatTheStandardDoesNotAllowIsNotRead(String hex) {
        assertThat(Tag.read(new Cursor(Hex.octets(hex)))).isNull();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "0E 0F", "3E 44 42 90 99 9A 3F", "0E 1E 2E 2F 1F 0F", "09 55 1E 1F 09 01"})
    void dataWhoseTagsPairUpIsSound(String hex) {
        assertThat(TagWalk.isSound(Hex.octets(hex))).isTrue();
    }

    @ParameterizedTest
    @ValueSource(strings = {"0E", "0F", "0E 1F", "0E 1E 0F 1F", "3E 44 42 90 99 3F", "2E 65 FF FF FF FF FA 2F"})
    void dataWhoseTagsDoNotPairUpIsNotSound(String hex) {
        assertThat(TagWalk.isSound(Hex.octets(hex))).isFalse();
    }

    @Test
    void nestingIsSoundToADepthOf32Only() {
        assertThat(TagWalk.isSound(nested(32))).isTrue();
        assertThat(TagWalk.isSound(nested(33))).isFalse();
        assertThat(TagWalk.isSound(nested(700))).isFalse();
    }

    private static Octets nested(int depth) {
        return Hex.octets("0E".repeat(depth) + "0F".repeat(depth));
    }
}
