package burnerbridge.mqtt.payload;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.IntegerValue;
import burnerbridge.model.Reading;
import burnerbridge.model.RealValue;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.model.Stamp;
import burnerbridge.model.StateValue;
import burnerbridge.mqtt.TestPlant;
import burnerbridge.site.States;
import burnerbridge.site.unit.Unit;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class PointPayloadTest {
    private static final Stamp BEFORE = new Stamp(0, Instant.parse("2026-11-25T07:59:58.000Z"), true);
    private static final Stamp ASKED = new Stamp(0, Instant.parse("2026-11-25T08:00:00.250999Z"), true);
    private static final Stamp SENT = new Stamp(0, Instant.parse("2026-11-25T08:00:00.310Z"), true);
    private static final Registers RAW = Registers.of(0x42F6, 0xE979);
    private static final Reading GOOD_BEFORE = Reading.good(new RealValue(41, 1), BEFORE, RAW);

    @Test
    void aGoodReading() {
        assertThat(payload(Reading.good(new RealValue(42.5, 1), ASKED, RAW))).isEqualTo("""
                        {"value":42.5,"unit":"%","quality":"good","readAt":"2026-11-25T08:00:00.250Z",\
                        "sentAt":"2026-11-25T08:00:00.310Z","validFor":30,"sequence":118}""");
    }

    @Test
    void aPointWithoutAUnitHasNone() {
        assertThat(PointPayload.of(
                        TestPlant.point("starts", Unit.NONE, TestPlant.TEN_SECONDS, "0", States.NONE),
                        Reading.good(IntegerValue.of(7), ASKED, RAW),
                        SENT,
                        30,
                        1))
                .isEqualTo("""
                        {"value":7,"quality":"good","readAt":"2026-11-25T08:00:00.250Z",\
                        "sentAt":"2026-11-25T08:00:00.310Z","validFor":30,"sequence":1}""");
    }

    @Test
    void aStateWithoutATextIsUncertainAndShown() {
        Reading reading =
                Reading.uncertain(new StateValue(3, null), Reason.UNKNOWN_STATE, ASKED, RAW, Reading.notReadYet());

        assertThat(payload(reading)).isEqualTo("""
                        {"value":{"number":3,"text":null},"unit":"%","quality":"uncertain","reason":"unknown-state",\
                        "readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.310Z",\
                        "validFor":30,"sequence":118}""");
    }

    @Test
    void aValueThatMeansNothingNowIsNullWithTheLastGoodOne() {
        Reading reading = Reading.uncertain(new RealValue(0, 1), Reason.NOT_APPLICABLE, ASKED, RAW, GOOD_BEFORE);

        assertThat(payload(reading)).isEqualTo("""
                        {"value":null,"unit":"%","quality":"uncertain","reason":"not-applicable",\
                        "lastGood":{"value":41.0,"readAt":"2026-11-25T07:59:58.000Z"},\
                        "readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.310Z",\
                        "validFor":30,"sequence":118}""");
    }

    @ParameterizedTest
    @EnumSource(
            value = Reason.class,
            names = {"NO_REPLY", "LINE_DOWN"})
    void aStaleReadingIsNullWithTheLastGoodOne(Reason reason) {
        assertThat(payload(GOOD_BEFORE.staled(reason))).isEqualTo("""
                        {"value":null,"unit":"%","quality":"stale","reason":"REASON",\
                        "lastGood":{"value":41.0,"readAt":"2026-11-25T07:59:58.000Z"},\
                        "readAt":"2026-11-25T07:59:58.000Z","sentAt":"2026-11-25T08:00:00.310Z",\
                        "validFor":30,"sequence":118}""".replace("REASON", reason.word()));
    }

    @Test
    void aPointThatWasNeverReadHasNoTimeOfReading() {
        assertThat(payload(Reading.notReadYet())).isEqualTo("""
                        {"value":null,"unit":"%","quality":"bad","reason":"not-read-yet",\
                        "sentAt":"2026-11-25T08:00:00.310Z","validFor":30,"sequence":118}""");
    }

    @Test
    void aRefusedPointHasTheExceptionCode() {
        assertThat(payload(Reading.refused(2, ASKED, Reading.notReadYet()))).isEqualTo("""
                        {"value":null,"unit":"%","quality":"bad","reason":"refused","exceptionCode":2,\
                        "readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.310Z",\
                        "validFor":30,"sequence":118}""");
    }

    @ParameterizedTest
    @EnumSource(
            value = Reason.class,
            names = {"OVER_RANGE", "UNDER_RANGE"})
    void aReadingOutOfRangeKeepsItsRegisters(Reason reason) {
        assertThat(payload(Reading.bad(reason, ASKED, RAW, GOOD_BEFORE)))
                .isEqualTo("""
                        {"value":null,"unit":"%","quality":"bad","reason":"REASON","raw":"42F6 E979",\
                        "lastGood":{"value":41.0,"readAt":"2026-11-25T07:59:58.000Z"},\
                        "readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.310Z",\
                        "validFor":30,"sequence":118}""".replace("REASON", reason.word()));
    }

    @ParameterizedTest
    @EnumSource(
            value = Reason.class,
            names = {"NO_SENSOR", "NOT_A_NUMBER", "UNREADABLE"})
    void aReadingWithoutAValueSaysWhy(Reason reason) {
        assertThat(payload(Reading.bad(reason, ASKED, RAW, Reading.notReadYet())))
                .isEqualTo("""
                        {"value":null,"unit":"%","quality":"bad","reason":"REASON",\
                        "readAt":"2026-11-25T08:00:00.250Z","sentAt":"2026-11-25T08:00:00.310Z",\
                        "validFor":30,"sequence":118}""".replace("REASON", reason.word()));
    }

    @Test
    void aClockThatIsNotBelievedIsSaidWhereverATimeComesFromIt() {
        Stamp unsure = new Stamp(0, ASKED.wall(), false);
        Reading now = Reading.good(new RealValue(42.5, 1), ASKED, RAW);
        Reading thenUnsure = Reading.good(new RealValue(42.5, 1), unsure, RAW);
        Reading lastGoodUnsure = Reading.bad(Reason.NO_SENSOR, ASKED, RAW, thenUnsure);

        assertThat(payload(now)).doesNotContain("clock");
        assertThat(payload(thenUnsure))
                .contains("\"sentAt\":\"2026-11-25T08:00:00.310Z\",\"clock\":\"unsure\",\"validFor\":30");
        assertThat(payload(lastGoodUnsure)).contains("\"clock\":\"unsure\"");
        assertThat(PointPayload.of(TestPlant.point("load"), now, unsure, 30, 1)).contains("\"clock\":\"unsure\"");
    }

    private static String payload(Reading reading) {
        return PointPayload.of(TestPlant.point("load"), reading, SENT, 30, 118);
    }
}
