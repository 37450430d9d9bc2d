package burnerbridge.decode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.BitValue;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.StateValue;
import burnerbridge.model.Value;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.States;
import burnerbridge.site.WordOrder;
import java.math.BigDecimal;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DecoderTest {
    private static final Stamp ASKED_AT = new HandClock().now();

    private static PointDefinition register(PointFormat format, Scaling scaling, States states) {
        return Points.point("p", RegisterTable.HOLDING_REGISTER, 0, format, scaling, states);
    }

    private static Reading decode(PointDefinition point, int... words) {
        return Decoder.decode(point, Registers.of(words), ASKED_AT, Reading.notReadYet());
    }

    private static PointDefinition float32(boolean lowWordFirst, boolean swapBytes) {
        return register(
                new PointFormat.Floating(32, new WordOrder(lowWordFirst, swapBytes)), Scaling.NONE, States.NONE);
    }

    /** 123.456 is 42F6E979 in IEEE 754 binary32, in the four orders that devices send it in. */
    @ParameterizedTest
    @CsvSource({
        "42F6, E979, false, false",
        "E979, 42F6, true, false",
        "F642, 79E9, false, true",
        "79E9, F642, true, true"
    })
    void aFloatIsReadInEveryOrder(String first, String second, boolean lowWordFirst, boolean swapBytes) {
        Reading reading =
                decode(float32(lowWordFirst, swapBytes), Integer.parseInt(first, 16), Integer.parseInt(second, 16));
        assertThat(reading.value()).isEqualTo(new RealValue(123.456, 3));
        assertThat(reading.isGood()).isTrue();
    }

    /** IEEE 754 binary32 patterns; the last is the smallest denormal, 2 to the power of -149. */
    @ParameterizedTest
    @CsvSource({
        "47F1, 2000, 123456, 0",
        "0000, 0000, 0, 0",
        "8000, 0000, 0, 0",
        "BF80, 0000, -1, 0",
        "3DCC, CCCD, 0.1, 1",
        "7F7F, FFFF, 3.4028235E38, 0",
        "0000, 0001, 1.4E-45, 46"
    })
    void aFloatIsShownAsTheShortestDecimalThatMeansIt(String high, String low, double number, int decimals) {
        RealValue value =
                (RealValue) decode(float32(false, false), Integer.parseInt(high, 16), Integer.parseInt(low, 16))
                        .value();
        assertThat(value).isNotNull();
        assertThat(value.number()).isEqualTo(number);
        assertThat(value.decimals()).isEqualTo(decimals);
    }

    @ParameterizedTest
    @CsvSource({"7FC0, 0000", "7F80, 0000", "FF80, 0000", "FFFF, FFFF", "7F80, 0001"})
    void notANumberAndTheInfinitiesAreBad(String high, String low) {
        Reading reading = decode(float32(false, false), Integer.parseInt(high, 16), Integer.parseInt(low, 16));
        assertThat(reading.reason()).isEqualTo(Reason.NOT_A_NUMBER);
        assertThat(reading.value()).isNull();
        assertThat(reading.raw()).isNotNull();
    }

    @ParameterizedTest
    @CsvSource({"0, 0", "1, 1", "32767, 32767", "32768, -32768", "65535, -1", "65526, -10"})
    void int16HasASign(int word, long number) {
        PointDefinition point = register(PointFormat.INT16, Scaling.NONE, States.NONE);
        assertThat(decode(point, word).value()).isEqualTo(IntegerValue.of(number));
    }

    @ParameterizedTest
    @CsvSource({
        "4567, 0.1, 0, 456.7, 1",
        "65535, 0.01, 0, 655.35, 2",
        "300, 0.1, -40, -10, 1",
        "0, 0.001, -1, -1, 3",
        "7, 10, 0, 70, 0",
        "3, -0.5, 1, -0.5, 1",
        "29, 0.1, 0, 2.9, 1"
    })
    void aScaledRegisterIsExactAndHasTheDecimalsOfItsScale(
            int word, String scale, String offset, double number, int decimals) {
        PointDefinition point = register(PointFormat.UINT16, Points.scale(scale, offset), States.NONE);
        assertThat(decode(point, word).value()).isEqualTo(new RealValue(number, decimals));
    }

    @Test
    void aScaledSignedRegisterKeepsItsSign() {
        PointDefinition point = register(PointFormat.INT16, Points.scale("0.1", "0"), States.NONE);
        assertThat(decode(point, 0xFF9C).value()).isEqualTo(new RealValue(-10.0, 1));
    }

    @Test
    void anUnscaledRegisterIsAWholeNumber() {
        PointDefinition point = register(PointFormat.UINT16, Scaling.NONE, States.NONE);
        assertThat(decode(point, 65535).value()).isEqualTo(IntegerValue.of(65535));
    }

    @Test
    void aStateHasNumberAndTextAndAnUnknownOneIsUncertain() {
        States states = Points.states(Map.of(0L, "standby", 1L, "purge"));
        PointDefinition point = register(PointFormat.UINT16, Scaling.NONE, states);
        assertThat(decode(point, 1).value()).isEqualTo(new StateValue(1, "purge"));
        Reading unknown = decode(point, 9);
        assertThat(unknown.value()).isEqualTo(new StateValue(9, null));
        assertThat(unknown.reason()).isEqualTo(Reason.UNKNOWN_STATE);
    }

    @Test
    void eachBitOfARegisterIsFoundByItsIndex() {
        for (int index = 0; index < 16; index++) {
            PointDefinition point = register(new PointFormat.RegisterBit(index, index), Scaling.NONE, States.NONE);
            assertThat(decode(point, 1 << index).value()).isEqualTo(new BitValue(true));
            assertThat(decode(point, 0xFFFF ^ 1 << index).value()).isEqualTo(new BitValue(false));
        }
    }

    @Test
    void aCoilIsOnWhereItIsNotZero() {
        PointDefinition coil =
                Points.point("p", RegisterTable.COIL, 0, new PointFormat.Bit(), Scaling.NONE, States.NONE);
        assertThat(decode(coil, 1).value()).isEqualTo(new BitValue(true));
        assertThat(decode(coil, 0).value()).isEqualTo(new BitValue(false));
    }

    private static Reading scaledBy(Reading decimals) {
        PointDefinition point = register(PointFormat.UINT16, Scaling.NONE, States.NONE);
        return Decoder.decodeScaledBy(point, Registers.of(12345), decimals, ASKED_AT, Reading.notReadYet());
    }

    private static Reading decimals(int count) {
        return decode(register(PointFormat.INT16, Scaling.NONE, States.NONE), count & 0xFFFF);
    }

    @ParameterizedTest
    @CsvSource({"0, 12345", "1, 1234.5", "4, 1.2345", "9, 0.000012345"})
    void theDecimalsOfAPointMayStandInAnother(int decimals, String text) {
        assertThat(scaledBy(decimals(decimals)).value())
                .isInstanceOfAny(RealValue.class, IntegerValue.class)
                .extracting(Value::text)
                .isEqualTo(text);
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 10, 255})
    void decimalsThatNoValueHasMakeItUnreadable(int decimals) {
        assertThat(scaledBy(decimals(decimals)).reason()).isEqualTo(Reason.UNREADABLE);
    }

    @Test
    void decimalsThatAreNoWholeNumberOrWereNeverReadMakeItUnreadable() {
        Reading real = decode(register(PointFormat.UINT16, Points.scale("0.1", "0"), States.NONE), 20);
        assertThat(scaledBy(real).reason()).isEqualTo(Reason.UNREADABLE);
        assertThat(scaledBy(Reading.notReadYet()).reason()).isEqualTo(Reason.UNREADABLE);
    }

    /** A third of the raw number, which is no decimal: its own decimals and those of a step of one. */
    @Test
    void aFloatOnALineThroughTwoPointsHasTheDecimalsOfBoth() {
        Scaling line =
                Scaling.through(new BigDecimal("0"), new BigDecimal("3"), new BigDecimal("0"), new BigDecimal("1"));
        PointDefinition point = register(new PointFormat.Floating(32, WordOrder.HIGH_WORD_FIRST), line, States.NONE);
        // 0.75 is 3F400000 in IEEE 754 binary32; a third of it is 0.25.
        RealValue value = (RealValue) decode(point, 0x3F40, 0).value();
        assertThat(value).isNotNull();
        assertThat(value.number()).isEqualTo(0.25);
        assertThat(value.decimals()).isEqualTo(2 + line.decimals());
    }

    @Test
    void aStateIsAnyNumberThatSixtyThreeBitsHold() {
        States states = Points.states(Map.of(0L, "standby"));
        PointDefinition point =
                register(new PointFormat.Whole(64, false, WordOrder.HIGH_WORD_FIRST), Scaling.NONE, states);
        assertThat(decode(point, 0x7FFF, 0xFFFF, 0xFFFF, 0xFFFF).value())
                .isEqualTo(new StateValue(Long.MAX_VALUE, null));
        assertThat(decode(point, 0x8000, 0, 0, 0).reason()).isEqualTo(Reason.UNREADABLE);
        assertThat(decode(point, 0, 0, 0, 0).value()).isEqualTo(new StateValue(0, "standby"));
    }

    @Test
    void theLastGoodValueOutlivesABadOne() {
        Reading good = decode(float32(false, false), 0x42F6, 0xE979);
        Reading bad = Decoder.decode(float32(false, false), Registers.of(0x7FC0, 0), ASKED_AT, good);
        assertThat(bad.newestGood()).contains(new Reading.Good(new RealValue(123.456, 3), ASKED_AT));
    }

    @Test
    void tooFewRegistersAreADefectAndNotAValue() {
        assertThatThrownBy(() -> decode(float32(false, false), 1)).hasMessageContaining("takes 2 registers (was 1)");
    }
}
