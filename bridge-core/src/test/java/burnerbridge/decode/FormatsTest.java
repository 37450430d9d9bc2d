package burnerbridge.decode;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.DateTimeValue;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.site.Limits;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointFormat.CalendarField;
import burnerbridge.site.Points;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every format and order, on registers worked out by hand or published; none comes from our own encoder. */
class FormatsTest {
    private static final WordOrder HIGH = WordOrder.HIGH_WORD_FIRST;
    private static final WordOrder LOW = new WordOrder(true, false);
    private static final WordOrder HIGH_SWAPPED = new WordOrder(false, true);
    private static final WordOrder LOW_SWAPPED = new WordOrder(true, true);

    private static Reading decode(PointFormat format, Scaling scaling, States states, Limits limits, String hex) {
        int[] words = Arrays.stream(hex.split(" "))
                .mapToInt(w -> Integer.parseInt(w, 16))
                .toArray();
        PointDefinition point = Points.limited(format, scaling, states, limits);
        return Decoder.decode(point, Registers.of(words), new HandClock().now(), Reading.notReadYet());
    }

    private static Reading decode(PointFormat format, String hex) {
        return decode(format, Scaling.NONE, States.NONE, Limits.NONE, hex);
    }

    private static void assertWhole(PointFormat format, String hex, String number) {
        assertThat(decode(format, hex).value()).isEqualTo(new IntegerValue(new BigInteger(number)));
    }

    private static WordOrder order(String word) {
        return Map.of("high", HIGH, "low", LOW, "high+swap", HIGH_SWAPPED, "low+swap", LOW_SWAPPED)
                .getOrDefault(word, HIGH);
    }

    /** -100000 is FFFE7960 in two's complement; 305419896 is 12345678. */
    @ParameterizedTest
    @CsvSource({
        "FFFE 7960, high, true, -100000",
        "7960 FFFE, low, true, -100000",
        "FEFF 6079, high+swap, true, -100000",
        "6079 FEFF, low+swap, true, -100000",
        "1234 5678, high, false, 305419896",
        "5678 1234, low, false, 305419896",
        "FFFF FFFF, high, false, 4294967295",
        "FFFF FFFF, high, true, -1",
        "8000 0000, high, true, -2147483648"
    })
    void thirtyTwoBits(String hex, String order, boolean signed, String number) {
        assertWhole(new PointFormat.Whole(32, signed, order(order)), hex, number);
    }

    /** 2^53 + 1, which a double cannot hold, is 0020000000000001. */
    @ParameterizedTest
    @CsvSource({
        "0020 0000 0000 0001, high, false, 9007199254740993",
        "0001 0000 0000 0020, low, false, 9007199254740993",
        "0100 0000 0000 2000, low+swap, false, 9007199254740993",
        "FFFF FFFF FFFF FFFF, high, false, 18446744073709551615",
        "FFFF FFFF FFFF FFFF, high, true, -1",
        "0000 0000 0000 0000, high, false, 0",
        "8000 0000 0000 0000, high, true, -9223372036854775808",
        "7FFF FFFF FFFF FFFF, high, true, 9223372036854775807"
    })
    void sixtyFourBitsAreExactToTheLastDigit(String hex, String order, boolean signed, String number) {
        assertWhole(new PointFormat.Whole(64, signed, order(order)), hex, number);
    }

    @ParameterizedTest
    @CsvSource({"true, true, FE05, -2", "false, true, 05FE, -2", "true, false, FE05, 254", "false, false, 05FE, 254"})
    void eachByteOfARegister(boolean high, boolean signed, String hex, String number) {
        assertWhole(new PointFormat.HalfRegister(high, signed), hex, number);
    }

    @ParameterizedTest
    @CsvSource({"000A, 10", "800A, -10", "FFFF, -32767", "7FFF, 32767", "8000, 0"})
    void aSignApartFromTheMagnitude(String hex, String number) {
        assertWhole(new PointFormat.SignMagnitude16(), hex, number);
    }

    @ParameterizedTest
    @CsvSource({
        "1234, 1, high, 1234",
        "0009, 1, high, 9",
        "1234 5678, 2, high, 12345678",
        "5678 1234, 2, low, 12345678",
        "9999 9999, 2, high, 99999999"
    })
    void binaryCodedDecimal(String hex, int registers, String order, String number) {
        assertWhole(new PointFormat.Bcd(registers, order(order)), hex, number);
    }

    @ParameterizedTest
    @ValueSource(strings = {"123A", "F000", "00B0"})
    void aDigitPastNineIsUnreadable(String hex) {
        assertThat(decode(new PointFormat.Bcd(1, HIGH), hex).reason()).isEqualTo(Reason.UNREADABLE);
    }

    /** 0x04D2 is 1234, 0x162E is 5678, 0x270F is 9999. */
    @ParameterizedTest
    @CsvSource({
        "04D2 162E, 2, high, 12345678",
        "162E 04D2, 2, low, 12345678",
        "0001 0000 0002, 3, high, 100000002",
        "270F 270F 270F 270F, 4, high, 9999999999999999"
    })
    void wordsOfFourDecimalDigits(String hex, int registers, String order, String number) {
        assertWhole(new PointFormat.DecimalWords(registers, order(order)), hex, number);
    }

    @Test
    void aDecimalWordPast9999IsUnreadable() {
        assertThat(decode(new PointFormat.DecimalWords(2, HIGH), "0001 2710").reason())
                .isEqualTo(Reason.UNREADABLE);
    }

    @ParameterizedTest
    @CsvSource({"4, 4, A5C3, 12", "0, 2, A5C3, 3", "8, 8, A5C3, 165", "1, 15, FFFF, 32767"})
    void aFieldOfBits(int low, int count, String hex, String number) {
        assertWhole(new PointFormat.BitField(low, count, "bits"), hex, number);
    }

    @Test
    void aFieldOfBitsMayHaveStates() {
        States states = new States(Map.of(2L, "gas", 3L, "oil"));
        Reading reading = decode(new PointFormat.BitField(4, 2, "bits:4-5"), Scaling.NONE, states, Limits.NONE, "0030");
        assertThat(reading.value()).isEqualTo(new StateValue(3, "oil"));
    }

    /** IEEE 754 binary64: 123.456 is 405EDD2F1A9FBE77, pi 400921FB54442D18, 1/3 3FD5555555555555. */
    @ParameterizedTest
    @CsvSource({
        "405E DD2F 1A9F BE77, high, 123.456, 3",
        "BE77 1A9F DD2F 405E, low, 123.456, 3",
        "5E40 2FDD 9F1A 77BE, high+swap, 123.456, 3",
        "77BE 9F1A 2FDD 5E40, low+swap, 123.456, 3",
        "4009 21FB 5444 2D18, high, 3.141592653589793, 15",
        "3FD5 5555 5555 5555, high, 0.3333333333333333, 16",
        "C059 0000 0000 0000, high, -100, 0"
    })
    void binary64(String hex, String order, double number, int decimals) {
        assertThat(decode(new PointFormat.Floating(64, order(order)), hex).value())
                .isEqualTo(new RealValue(number, decimals));
    }

    @ParameterizedTest
    @ValueSource(strings = {"7FF8 0000 0000 0000", "7FF0 0000 0000 0000", "FFF0 0000 0000 0000"})
    void binary64WithoutANumberIsBad(String hex) {
        assertThat(decode(new PointFormat.Floating(64, HIGH), hex).reason()).isEqualTo(Reason.NOT_A_NUMBER);
    }

    /** "QG-1" is 51 47 2D 31 in ISO 8859-1, "é" is E9. */
    @ParameterizedTest
    @CsvSource({
        "5147 2D31, high, QG-1",
        "4751 312D, high+swap, QG-1",
        "2D31 5147, low, QG-1",
        "5147 0031, high, QG",
        "5147 2020, high, QG",
        "E900 0000, high, é",
        "0000 0000, high, ''"
    })
    void text(String hex, String order, String characters) {
        assertThat(decode(new PointFormat.Text(2, order(order)), hex).value()).isEqualTo(new TextValue(characters));
    }

    @Test
    void aControlCharacterMakesTextUnreadable() {
        assertThat(decode(new PointFormat.Text(2, HIGH), "5107 2D31").reason()).isEqualTo(Reason.UNREADABLE);
    }

    /** 1000000000 s, 3B9ACA00, are 2001-09-09 01:46:40 universal time; Lisbon had summer time then. */
    @Test
    void secondsSince1970AreShownInTheSitesZone() {
        LocalDateTime lisbon = LocalDateTime.of(2001, 9, 9, 2, 46, 40);
        ZoneId zone = ZoneId.of("Europe/Lisbon");
        assertThat(decode(new PointFormat.Epoch32(HIGH, zone), "3B9A CA00").value())
                .isEqualTo(new DateTimeValue(lisbon));
        assertThat(decode(new PointFormat.Epoch32(LOW, zone), "CA00 3B9A").value())
                .isEqualTo(new DateTimeValue(lisbon));
    }

    private static PointFormat calendar(boolean bcd, CalendarField[]... registers) {
        return new PointFormat.Calendar(Arrays.stream(registers).map(List::of).toList(), bcd, "datetime");
    }

    private static CalendarField[] of(CalendarField... fields) {
        return fields;
    }

    private static final PointFormat A_REGISTER_EACH = calendar(
            false,
            of(CalendarField.YEAR),
            of(CalendarField.MONTH),
            of(CalendarField.DAY),
            of(CalendarField.HOUR),
            of(CalendarField.MINUTE),
            of(CalendarField.SECOND));

    @Test
    void aDateWithARegisterForEachField() {
        assertThat(decode(A_REGISTER_EACH, "07EA 000B 0019 0008 001E 003B").value())
                .isEqualTo(new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 30, 59)));
        assertThat(decode(A_REGISTER_EACH, "001A 000B 0019 0008 001E 003B").value())
                .isEqualTo(new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 30, 59)));
    }

    @Test
    void aDateInBytesOfBinaryCodedDecimal() {
        PointFormat format = calendar(
                true,
                of(CalendarField.YEAR, CalendarField.MONTH),
                of(CalendarField.DAY, CalendarField.HOUR),
                of(CalendarField.MINUTE, CalendarField.OTHER));
        assertThat(decode(format, "2611 2508 30FF").value())
                .isEqualTo(new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 30)));
        assertThat(decode(format, "2A11 2508 3000").reason()).isEqualTo(Reason.UNREADABLE);
    }

    @Test
    void onlyAYearOfTwoDigitsIsOfThisCentury() {
        assertThat(decode(A_REGISTER_EACH, "0063 0001 0001 0000 0000 0000").value())
                .isEqualTo(new DateTimeValue(LocalDateTime.of(2099, 1, 1, 0, 0)));
        assertThat(decode(A_REGISTER_EACH, "0064 0001 0001 0000 0000 0000").value())
                .isEqualTo(new DateTimeValue(LocalDateTime.of(100, 1, 1, 0, 0)));
    }

    @Test
    void aRegisterOfADateThatIsNoBinaryCodedDecimalIsUnreadable() {
        PointFormat format = calendar(true, of(CalendarField.YEAR), of(CalendarField.MONTH), of(CalendarField.DAY));
        assertThat(decode(format, "2026 0011 0025").value())
                .isEqualTo(new DateTimeValue(LocalDateTime.of(2026, 11, 25, 0, 0)));
        assertThat(decode(format, "2026 000B 0025").reason()).isEqualTo(Reason.UNREADABLE);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "07EA 0002 001E 0008 001E 003B", // 30 February
                "07EA 000D 0019 0008 001E 003B",
                "07EA 000B 0019 0018 001E 003B",
                "0000 0000 0000 0000 0000 0000"
            })
    void anImpossibleDateIsUnreadable(String hex) {
        assertThat(decode(A_REGISTER_EACH, hex).reason()).isEqualTo(Reason.UNREADABLE);
    }

    /** 4 to 20 mA as 5530 to 27648 of a converter, for 0 to 16 bar: 16 / 22118 bar a step, by hand. */
    @ParameterizedTest
    @CsvSource({"159A, 0.000", "6C00, 16.000", "40CD, 8.000", "0000, -4.0004", "159B, 0.0007"})
    void aLineThroughTwoPoints(String hex, String shown) {
        Scaling scaling =
                Scaling.through(new BigDecimal(5530), new BigDecimal(27648), BigDecimal.ZERO, new BigDecimal(16));
        RealValue value = (RealValue) decode(PointFormat.INT16, scaling, States.NONE, Limits.NONE, hex)
                .value();
        assertThat(value).isNotNull();
        assertThat(new BigDecimal(value.text())).isEqualByComparingTo(shown);
    }

    @ParameterizedTest
    @CsvSource({
        "7FFF, 32767, NO_SENSOR",
        "8000, 32768, NO_SENSOR", // as the manual writes the pattern, without sign
        "8000, -32768, NO_SENSOR", // and as the number is
        "7FFE, 32767, NONE"
    })
    void aPatternThatSaysNoSensor(String hex, String pattern, Reason reason) {
        Limits limits = new Limits(Set.of(new BigDecimal(pattern)), Optional.empty());
        assertThat(decode(PointFormat.INT16, Scaling.NONE, States.NONE, limits, hex)
                        .reason())
                .isEqualTo(reason);
    }

    /** FFFF is 65535 and FFFFFFFF 4294967295, and neither is a number of decimal digits. */
    @Test
    void whatIsNoNumberOfDecimalDigitsMayBeThePatternForNoSensor() {
        Limits one = new Limits(Set.of(new BigDecimal(65_535)), Optional.empty());
        assertThat(decode(new PointFormat.Bcd(1, HIGH), Scaling.NONE, States.NONE, one, "FFFF")
                        .reason())
                .isEqualTo(Reason.NO_SENSOR);
        Limits two = new Limits(Set.of(new BigDecimal(4_294_967_295L)), Optional.empty());
        assertThat(decode(new PointFormat.DecimalWords(2, HIGH), Scaling.NONE, States.NONE, two, "FFFF FFFF")
                        .reason())
                .isEqualTo(Reason.NO_SENSOR);
    }

    @Test
    void aNotANumberMayBeThePatternForNoSensor() {
        Limits limits = new Limits(Set.of(new BigDecimal(0x7FC00000L)), Optional.empty());
        PointFormat format = new PointFormat.Floating(32, HIGH);
        assertThat(decode(format, Scaling.NONE, States.NONE, limits, "7FC0 0000")
                        .reason())
                .isEqualTo(Reason.NO_SENSOR);
        assertThat(decode(format, Scaling.NONE, States.NONE, limits, "7FC0 0001")
                        .reason())
                .isEqualTo(Reason.NOT_A_NUMBER);
    }

    @ParameterizedTest
    @CsvSource({"05DC, NONE", "05DD, OVER_RANGE", "FF38, NONE", "FF37, UNDER_RANGE", "7FFF, OVER_RANGE"})
    void aValueOutsideItsRangeIsBadAndItsRegistersAreKept(String hex, Reason reason) {
        Limits.Range range = new Limits.Range(new BigDecimal("-20"), new BigDecimal("150"));
        Reading reading = decode(
                PointFormat.INT16,
                Points.scale("0.1", "0"),
                States.NONE,
                new Limits(Set.of(), Optional.of(range)),
                hex);
        assertThat(reading.reason()).isEqualTo(reason);
        assertThat(reading.raw()).isEqualTo(Registers.of(Integer.parseInt(hex, 16)));
    }
}
