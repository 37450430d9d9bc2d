package burnerbridge.values;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.control.JsonLine;
import burnerbridge.model.BitValue;
import burnerbridge.model.DateTimeValue;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.StateValue;
import burnerbridge.model.TextValue;
import burnerbridge.model.Value;
import burnerbridge.site.PointFormat;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Scaling;
import burnerbridge.site.Severity;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import java.math.BigInteger;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class RowJsonTest {
    private static final SitePoint POINT = point(States.NONE);
    private static final SitePoint NAMED = point(Points.states(Map.of(0L, "off", 1L, "on")));
    private static final SitePoint CAUSE =
            point(new States(Map.of(6L, "gas pressure low"), Map.of(6L, Severity.FAULT)));
    private static final Registers RAW = Registers.of(0x42F6, 0xE979);

    private final HandClock clock = new HandClock();
    private final Stamp askedAt = clock.now();

    private static SitePoint point(States states) {
        return Points.of(Points.controller(
                        0,
                        "boiler-1",
                        1,
                        Points.point(
                                "p", RegisterTable.HOLDING_REGISTER, 100, PointFormat.UINT16, Scaling.NONE, states)))
                .get(0);
    }

    private PointRow row(Reading reading) {
        clock.forward(Duration.ofMillis(1500));
        return PointRow.of(POINT, reading, null, clock.now());
    }

    private static String json(PointRow row) {
        return JsonLine.object(json -> RowJson.write(json, row));
    }

    static Stream<Arguments> values() {
        return Stream.of(
                Arguments.of(POINT, IntegerValue.of(-7), "\"value\":-7,\"text\":\"-7\""),
                Arguments.of(POINT, IntegerValue.of(1L << 53), "\"value\":9007199254740992,\"text\""),
                Arguments.of(
                        POINT,
                        new IntegerValue(BigInteger.ONE.shiftLeft(64).subtract(BigInteger.ONE)),
                        "\"value\":\"18446744073709551615\",\"text\":\"18446744073709551615\""),
                Arguments.of(POINT, new RealValue(42.5, 2), "\"value\":42.50,\"text\":\"42.50\""),
                Arguments.of(POINT, new RealValue(1e-7, 0), "\"value\":0,\"text\":\"0\""),
                Arguments.of(
                        POINT,
                        new StateValue(3, "purge"),
                        "\"value\":{\"number\":3,\"text\":\"purge\"},\"text\":\"purge\""),
                Arguments.of(
                        CAUSE,
                        new StateValue(6, "gas pressure low"),
                        "\"value\":{\"number\":6,\"text\":\"gas pressure low\",\"severity\":\"fault\"},\"text\":\"gas"),
                Arguments.of(POINT, new BitValue(true), "\"value\":true,\"text\":\"1\""),
                Arguments.of(NAMED, new BitValue(true), "\"value\":{\"number\":1,\"text\":\"on\"},\"text\":\"on\""),
                Arguments.of(POINT, new TextValue("a\"b"), "\"value\":\"a\\\"b\",\"text\":\"a\\\"b\""),
                Arguments.of(
                        POINT,
                        new DateTimeValue(LocalDateTime.of(2026, 11, 25, 8, 0, 1)),
                        "\"value\":\"2026-11-25T08:00:01\""));
    }

    @ParameterizedTest
    @MethodSource("values")
    void aValueKeepsEveryDigitThereAndBack(SitePoint point, Value value, String expected) {
        PointRow row = PointRow.of(point, Reading.good(value, askedAt, RAW), null, clock.now());
        assertThat(json(row)).contains(expected);
        assertThat(json(RowJson.read(JsonLine.parse(json(row))))).isEqualTo(json(row));
    }

    @Test
    void aGoodRowHasAllThatIsKnown() {
        assertThat(json(row(Reading.good(IntegerValue.of(5), askedAt, RAW))))
                .isEqualTo("{\"controller\":\"boiler-1\",\"point\":\"p\",\"table\":\"holding-register\","
                        + "\"address\":\"101\",\"wire\":\"100\",\"raw\":\"42F6 E979\",\"value\":5,\"text\":\"5\","
                        + "\"quality\":\"good\",\"readAt\":\"2026-11-25T08:00:00.250Z\",\"age\":1.500}");
    }

    @Test
    void aRowThatIsNotGoodSaysWhyAndKeepsTheLastGoodValue() {
        Reading good = Reading.good(IntegerValue.of(5), askedAt, RAW);
        clock.forward(Duration.ofSeconds(1));
        PointRow refused = row(Reading.refused(2, clock.now(), good));
        assertThat(json(refused))
                .contains("\"value\":null,\"quality\":\"bad\",\"reason\":\"refused\",\"exceptionCode\":2")
                .contains("\"lastGood\":{\"value\":5,\"text\":\"5\",\"readAt\":\"2026-11-25T08:00:00.250Z\"}");
        assertThat(RowJson.read(JsonLine.parse(json(refused)))).isEqualTo(refused);
        PointRow never = row(Reading.notReadYet());
        assertThat(json(never)).endsWith("\"value\":null,\"quality\":\"bad\",\"reason\":\"not-read-yet\"}");
        assertThat(RowJson.read(JsonLine.parse(json(never)))).isEqualTo(never);
    }

    @Test
    void theAgeOfAStaleRowIsThatOfItsLastGoodValue() {
        Reading good = Reading.good(IntegerValue.of(5), askedAt, RAW);
        clock.forward(Duration.ofSeconds(10));
        Reading bad = Reading.bad(Reason.OVER_RANGE, clock.now(), RAW, good);
        PointRow stale = row(bad.staled(Reason.NO_REPLY));
        assertThat(stale.age()).isEqualTo(Duration.ofMillis(11_500));
        assertThat(stale.value()).isNull();
        assertThat(row(bad).age()).isEqualTo(Duration.ofMillis(3000));
    }

    @Test
    void aValueThatMeansNothingNowIsNotShown() {
        Reading good = Reading.good(IntegerValue.of(5), askedAt, RAW);
        PointRow row = row(Reading.uncertain(IntegerValue.of(6), Reason.NOT_APPLICABLE, askedAt, RAW, good));
        assertThat(row.value()).isNull();
        assertThat(row.lastGood()).isNotNull();
    }

    @Test
    void aClockThatIsNotBelievedIsSaid() {
        clock.believe(false);
        assertThat(json(row(Reading.good(IntegerValue.of(5), askedAt, RAW)))).contains("\"clock\":\"unsure\"");
    }
}
