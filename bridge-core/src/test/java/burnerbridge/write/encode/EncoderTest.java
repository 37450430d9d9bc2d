package burnerbridge.write.encode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.decode.Decoder;
import burnerbridge.model.BitValue;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.model.Seed;
import burnerbridge.site.Consistency;
import burnerbridge.site.Limits;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** From values to registers that were worked out by hand or published; none comes from our own decoder. */
class EncoderTest {
    private static final WordOrder HIGH = WordOrder.HIGH_WORD_FIRST;
    private static final Map<String, WordOrder> ORDERS = Map.of(
            "high",
            HIGH,
            "low",
            new WordOrder(true, false),
            "high+swap",
            new WordOrder(false, true),
            "low+swap",
            new WordOrder(true, true));

    private static WordOrder order(String word) {
        return ORDERS.getOrDefault(word, HIGH);
    }

    private static PointDefinition point(PointFormat format, Scaling scaling, States states) {
        return Points.limited(format, scaling, states, Limits.NONE);
    }

    private static PointDefinition plain(PointFormat format) {
        return point(format, Scaling.NONE, States.NONE);
    }

    private static Registers registers(String hex) {
        return Registers.of(Arrays.stream(hex.split(" "))
                .mapToInt(word -> Integer.parseInt(word, 16))
                .toArray());
    }

    private static void assertEncodes(PointDefinition point, String value, String hex, String held) {
        Optional<Encoded> encoded = Encoder.encode(point, new BigDecimal(value));
        assertThat(encoded).map(Encoded::registers).as(value).contains(registers(hex));
        assertThat(encoded.orElseThrow().value()).as(value).isEqualByComparingTo(held);
    }

    private static void assertEncodes(PointDefinition point, String value, String hex) {
        assertEncodes(point, value, hex, value);
    }

    private static void assertHasNone(PointDefinition point, String value) {
        assertThat(Encoder.encode(point, new BigDecimal(value))).as(value).isEmpty();
    }

    /** -100000 is FFFE7960 in two's complement; 305419896 is 12345678; 2^53 + 1 is 0020000000000001. */
    @ParameterizedTest
    @CsvSource({
        "0, 16, false, high, 0000",
        "65535, 16, false, high, FFFF",
        "4660, 16, false, high+swap, 3412",
        "-1, 16, true, high, FFFF",
        "-32768, 16, true, high, 8000",
        "32767, 16, true, high, 7FFF",
        "-100000, 32, true, high, FFFE 7960",
        "-100000, 32, true, low, 7960 FFFE",
        "-100000, 32, true, high+swap, FEFF 6079",
        "-100000, 32, true, low+swap, 6079 FEFF",
        "305419896, 32, false, high, 1234 5678",
        "4294967295, 32, false, high, FFFF FFFF",
        "-2147483648, 32, true, high, 8000 0000",
        "9007199254740993, 64, false, high, 0020 0000 0000 0001",
        "9007199254740993, 64, false, low+swap, 0100 0000 0000 2000",
        "18446744073709551615, 64, false, high, FFFF FFFF FFFF FFFF",
        "-9223372036854775808, 64, true, high, 8000 0000 0000 0000",
        "-1, 64, true, high, FFFF FFFF FFFF FFFF"
    })
    void wholeNumbersOfEveryWidthAndOrder(String value, int bits, boolean signed, String order, String hex) {
        assertEncodes(plain(new PointFormat.Whole(bits, signed, order(order))), value, hex);
    }

    @ParameterizedTest
    @CsvSource({
        "65536, 16, false",
        "-1, 16, false",
        "32768, 16, true",
        "-32769, 16, true",
        "4294967296, 32, false",
        "2147483648, 32, true",
        "18446744073709551616, 64, false",
        "-1, 64, false",
        "9223372036854775808, 64, true"
    })
    void aNumberThatNeedsMoreBitsIsNeverCutOff(String value, int bits, boolean signed) {
        assertHasNone(plain(new PointFormat.Whole(bits, signed, HIGH)), value);
    }

    @ParameterizedTest
    @CsvSource({
        "-2, true, true, FE00",
        "-2, false, true, 00FE",
        "254, true, false, FE00",
        "254, false, false, 00FE",
        "127, true, true, 7F00",
        "-128, false, true, 0080"
    })
    void eachByteOfARegister(String value, boolean high, boolean signed, String hex) {
        assertEncodes(plain(new PointFormat.HalfRegister(high, signed)), value, hex);
    }

    @ParameterizedTest
    @CsvSource({"128, true", "-129, true", "256, false", "-1, false"})
    void aByteHoldsNoMoreThanEightBits(String value, boolean signed) {
        assertHasNone(plain(new PointFormat.HalfRegister(true, signed)), value);
        assertHasNone(plain(new PointFormat.HalfRegister(false, signed)), value);
    }

    @ParameterizedTest
    @CsvSource({"2, 4, 2, 0020", "3, 4, 2, 0030", "0, 4, 2, 0000", "165, 8, 8, A500", "32767, 1, 15, FFFE"})
    void aFieldOfBitsHasItsOwnBitsAlone(String value, int low, int count, String hex) {
        assertEncodes(plain(new PointFormat.BitField(low, count, "bits")), value, hex);
    }

    @ParameterizedTest
    @ValueSource(strings = {"4", "-1", "65536"})
    void aFieldOfBitsNeverReachesItsNeighbours(String value) {
        assertHasNone(plain(new PointFormat.BitField(4, 2, "bits")), value);
    }

    @Test
    void aSignApartFromTheMagnitude() {
        PointDefinition point = plain(new PointFormat.SignMagnitude16());
        assertEncodes(point, "10", "000A");
        assertEncodes(point, "-10", "800A");
        assertEncodes(point, "0", "0000");
        assertEncodes(point, "32767", "7FFF");
        assertEncodes(point, "-32767", "FFFF");
        assertHasNone(point, "32768");
        assertHasNone(point, "-32768");
    }

    @ParameterizedTest
    @CsvSource({
        "1234, 1, high, 1234",
        "0, 1, high, 0000",
        "9999, 1, high, 9999",
        "9, 1, high+swap, 0900",
        "12345678, 2, high, 1234 5678",
        "12345678, 2, low, 5678 1234",
        "99999999, 2, high, 9999 9999"
    })
    void binaryCodedDecimal(String value, int registers, String order, String hex) {
        assertEncodes(plain(new PointFormat.Bcd(registers, order(order))), value, hex);
    }

    /** 0x04D2 is 1234, 0x162E is 5678, 0x270F is 9999. */
    @ParameterizedTest
    @CsvSource({
        "12345678, 2, high, 04D2 162E",
        "12345678, 2, low, 162E 04D2",
        "0, 2, high, 0000 0000",
        "100000002, 3, high, 0001 0000 0002",
        "9999999999999999, 4, high, 270F 270F 270F 270F"
    })
    void wordsOfFourDecimalDigits(String value, int registers, String order, String hex) {
        assertEncodes(plain(new PointFormat.DecimalWords(registers, order(order))), value, hex);
    }

    @Test
    void aNumberOfMoreDigitsThanARegisterHasIsNeverCutOff() {
        assertHasNone(plain(new PointFormat.Bcd(1, HIGH)), "10000");
        assertHasNone(plain(new PointFormat.Bcd(2, HIGH)), "100000000");
        assertHasNone(plain(new PointFormat.Bcd(1, HIGH)), "-1");
        assertHasNone(plain(new PointFormat.DecimalWords(2, HIGH)), "100000000");
        assertHasNone(plain(new PointFormat.DecimalWords(4, HIGH)), "10000000000000000");
        assertHasNone(plain(new PointFormat.DecimalWords(2, HIGH)), "-1");
    }

    /** 123.456 is 42F6E979 in IEEE 754 binary32 and 405EDD2F1A9FBE77 in binary64. */
    @ParameterizedTest
    @CsvSource({
        "123.456, 32, high, 42F6 E979",
        "123.456, 32, low+swap, 79E9 F642",
        "-1, 32, high, BF80 0000",
        "0, 32, high, 0000 0000",
        "123.456, 64, high, 405E DD2F 1A9F BE77",
        "123.456, 64, low, BE77 1A9F DD2F 405E",
        "-100, 64, high, C059 0000 0000 0000"
    })
    void floatingPoint(String value, int bits, String order, String hex) {
        assertEncodes(plain(new PointFormat.Floating(bits, order(order))), value, hex);
    }

    /** 16777217, which is 2^24 + 1, has no binary32; 16777216 is 4B800000. */
    @Test
    void whatAFloatHoldsIsWhatItsRegistersSay() {
        assertEncodes(plain(new PointFormat.Floating(32, HIGH)), "16777217", "4B80 0000", "16777216");
        assertEncodes(plain(new PointFormat.Floating(64, HIGH)), "16777217", "4170 0000 1000 0000");
    }

    @Test
    void whatIsLargerThanAnyFloatIsNotMadeInfinite() {
        assertHasNone(plain(new PointFormat.Floating(32, HIGH)), "1e39");
        assertHasNone(plain(new PointFormat.Floating(32, HIGH)), "-1e39");
        assertHasNone(plain(new PointFormat.Floating(64, HIGH)), "1e309");
        assertThat(Encoder.encode(plain(new PointFormat.Floating(64, HIGH)), new BigDecimal("1e39")))
                .isPresent();
    }

    @Test
    void aBitIsZeroOrOneAndNothingBetweenOrBeyond() {
        PointDefinition coil =
                Points.point("p", RegisterTable.COIL, 0, new PointFormat.Bit(), Scaling.NONE, States.NONE);
        PointDefinition bit = plain(new PointFormat.RegisterBit(9, 9));
        assertEncodes(coil, "1.0", "0001", "1");
        assertEncodes(coil, "0", "0000");
        assertEncodes(bit, "1", "0200");
        assertEncodes(bit, "0.0", "0000", "0");
        for (PointDefinition point : List.of(coil, bit)) {
            assertHasNone(point, "2");
            assertHasNone(point, "-1");
            assertHasNone(point, "0.5");
        }
    }

    /** value = raw × 0.1 - 40, so that 10 is 500; halves go to the even step, as 35.45 to 354 and 35.55 to 356. */
    @Test
    void scaleAndOffsetAreTakenBackToTheNearestStep() {
        assertEncodes(point(PointFormat.UINT16, Points.scale("0.1", "-40"), States.NONE), "10", "01F4");
        PointDefinition tenths = point(PointFormat.UINT16, Points.scale("0.1", "0"), States.NONE);
        assertEncodes(tenths, "35.45", "0162", "35.4");
        assertEncodes(tenths, "35.55", "0164", "35.6");
        assertEncodes(tenths, "35.54", "0163", "35.5");
        assertHasNone(tenths, "6553.56");
        assertEncodes(tenths, "6553.54", "FFFF", "6553.5");
    }

    /** 5530 to 27648 for 0 to 16, as of a converter: 8 lies at 16589, by hand. */
    @Test
    void aLineThroughTwoPointsIsTakenBack() {
        Scaling line =
                Scaling.through(new BigDecimal(5530), new BigDecimal(27648), BigDecimal.ZERO, new BigDecimal(16));
        PointDefinition point = point(PointFormat.INT16, line, States.NONE);
        assertEncodes(point, "8", "40CD");
        assertEncodes(point, "0", "159A");
        assertEncodes(point, "16", "6C00");
    }

    @Test
    void aScaledFloatIsTakenBack() {
        // 0.5 × 20 + 2 is 12; 20 is 41A00000 in IEEE 754 binary32.
        PointDefinition point = point(new PointFormat.Floating(32, HIGH), Points.scale("0.5", "2"), States.NONE);
        assertEncodes(point, "12", "41A0 0000");
    }

    @Test
    void betweenTwoStatesThereIsNothing() {
        PointDefinition point = point(PointFormat.UINT16, Scaling.NONE, Points.states(Map.of(1L, "low", 2L, "high")));
        assertEncodes(point, "2", "0002");
        assertEncodes(point, "2.0", "0002", "2");
        assertHasNone(point, "1.5");
        assertHasNone(point, "1.999");
        assertHasNone(point, "-1");
    }

    /** To write such a number out would take the memory of the box. */
    @ParameterizedTest
    @ValueSource(strings = {"1e-401", "1e-2000000000", "1e2000000000"})
    void aNumberOfMoreDigitsThanAnybodyMeansHasNoRegisters(String value) {
        assertHasNone(plain(PointFormat.UINT16), value);
        assertHasNone(plain(new PointFormat.Floating(64, HIGH)), value);
    }

    @Test
    void aNumberOfAsManyDigitsAsAreTakenIsRoundedOnce() {
        assertEncodes(plain(PointFormat.UINT16), "1e-400", "0000", "0");
        BigInteger digits = BigInteger.TEN.pow(399);
        assertThat(Encoder.encode(plain(PointFormat.UINT16), new BigDecimal(digits, 399)))
                .map(Encoded::registers)
                .contains(Registers.of(1));
        assertThat(Encoder.encode(plain(PointFormat.UINT16), new BigDecimal(digits.multiply(BigInteger.TEN), 400)))
                .isEmpty();
    }

    @Test
    void textTimesAndWhatOthersScaleCannotBeWritten() {
        PointDefinition text = plain(new PointFormat.Text(2, HIGH));
        PointDefinition count = plain(new PointFormat.Count());
        PointDefinition apart = Points.limited(
                new PointFormat.Whole(32, false, HIGH),
                Scaling.NONE,
                States.NONE,
                Limits.NONE,
                new Consistency(false, OptionalInt.of(7)));
        PointDefinition scaled = Points.limited(
                PointFormat.UINT16,
                Scaling.NONE,
                States.NONE,
                Limits.NONE,
                new Consistency(
                        false, OptionalInt.empty(), Optional.of(new Name("load")), Optional.of(new Name("decimals"))));
        for (PointDefinition point : List.of(text, count, apart, scaled)) {
            assertThat(Encoder.isPossible(point)).isFalse();
            assertThatThrownBy(() -> Encoder.encode(point, BigDecimal.ONE))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessage("p cannot be written: it is " + point.format().word());
        }
    }

    private static List<PointFormat> formats(WordOrder order) {
        return List.of(
                new PointFormat.Bit(),
                new PointFormat.RegisterBit(5, 5),
                new PointFormat.BitField(3, 7, "bits"),
                new PointFormat.HalfRegister(true, true),
                new PointFormat.HalfRegister(false, false),
                new PointFormat.SignMagnitude16(),
                new PointFormat.Whole(16, true, order),
                new PointFormat.Whole(32, false, order),
                new PointFormat.Whole(64, true, order),
                new PointFormat.Bcd(2, order),
                new PointFormat.DecimalWords(3, order));
    }

    /** What is encoded is what is read, or there is no encoding: never another value. */
    @Test
    void whateverIsWrittenIsReadBackAsTheSame() {
        Random random = new Random(Seed.value());
        int held = 0;
        for (int i = 0; i < 4_000; i++) {
            WordOrder order = new WordOrder(random.nextBoolean(), random.nextBoolean());
            PointFormat format =
                    formats(order).get(random.nextInt(formats(order).size()));
            BigDecimal value = new BigDecimal(new BigInteger(1 + random.nextInt(66), random))
                    .multiply(BigDecimal.valueOf(random.nextBoolean() ? 1 : -1));
            Optional<Encoded> encoded = Encoder.encode(plain(format), value);
            if (encoded.isPresent()) {
                held++;
                Reading read = Decoder.decode(
                        plain(format), encoded.get().registers(), new HandClock().now(), Reading.notReadYet());
                BigDecimal back = read.value() instanceof BitValue bit
                        ? BigDecimal.valueOf(bit.on() ? 1 : 0)
                        : read.value() instanceof IntegerValue whole ? new BigDecimal(whole.number()) : null;
                assertThat(back)
                        .as("%s of %s, seed %d", value, format, Seed.value())
                        .isEqualByComparingTo(value);
            }
        }
        assertThat(held).isGreaterThan(500);
    }
}
