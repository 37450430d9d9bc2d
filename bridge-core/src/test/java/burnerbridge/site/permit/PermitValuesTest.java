package burnerbridge.site.permit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The definitions that a permit is made of. */
class PermitValuesTest {
    private static final PointId POINT = new PointId(new Name("boiler-1"), new Name("load-limit"));

    private static BigDecimal number(String text) {
        return new BigDecimal(text);
    }

    /** An address as a number, the first octet the most significant. */
    private static int address(String text) {
        return AddressBlock.parse(text).orElseThrow().address();
    }

    @ParameterizedTest
    @CsvSource({
        "192.0.2.0/24, 192.0.2.0, true",
        "192.0.2.0/24, 192.0.2.255, true",
        "192.0.2.0/24, 192.0.3.0, false",
        "192.0.2.10, 192.0.2.10, true",
        "192.0.2.10, 192.0.2.11, false",
        "0.0.0.0/0, 255.255.255.255, true",
        "128.0.0.0/1, 200.1.1.1, true",
        "128.0.0.0/1, 127.255.255.255, false",
        "198.51.100.254/31, 198.51.100.255, true",
        "198.51.100.254/31, 198.51.100.253, false"
    })
    void aBlockHoldsTheAddressesThatBeginLikeIt(String block, String address, boolean holds) {
        assertThat(AddressBlock.parse(block).orElseThrow().holds(address(address)))
                .isEqualTo(holds);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "192.0.2.1/24",
                "192.0.2.0/33",
                "192.0.2.0/024",
                "192.0.2.256",
                "192.0.2",
                "192.0.2.0/",
                "::1",
                "",
                " 192.0.2.1",
                "1.0.0.0/0"
            })
    void whatIsNoBlockIsNone(String text) {
        assertThat(AddressBlock.parse(text)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"192.0.2.0/24", "192.0.2.10", "0.0.0.0/0", "255.255.255.255", "10.0.0.0/8"})
    void aBlockIsShownAsItIsWritten(String text) {
        assertThat(AddressBlock.parse(text).orElseThrow()).hasToString(text);
    }

    @Test
    void aBlockMadeByHandHasNoBitBehindItsPrefixEither() {
        assertThatThrownBy(() -> new AddressBlock(1, 24)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new AddressBlock(0, 33)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aRangeHoldsBothItsEndsWhateverTheirDecimals() {
        Allowed.Range range = new Allowed.Range(number("20"), number("90.50"));
        assertThat(range.holds(number("20.000"))).isTrue();
        assertThat(range.holds(number("90.5"))).isTrue();
        assertThat(range.holds(number("19.9999"))).isFalse();
        assertThat(range.holds(number("90.51"))).isFalse();
        assertThat(range.text()).isEqualTo("20..90.50");
        assertThatThrownBy(() -> new Allowed.Range(number("2"), number("1"))).hasMessageContaining("(was 2..1)");
    }

    @Test
    void statesHoldTheirNumbersAndNothingBetweenThem() {
        Allowed.States states = new Allowed.States(Set.of(3L, 0L));
        assertThat(states.holds(number("3.0"))).isTrue();
        assertThat(states.holds(number("1"))).isFalse();
        assertThat(states.holds(number("2.5"))).isFalse();
        assertThat(states.text()).isEqualTo("0, 3");
        assertThatThrownBy(() -> new Allowed.States(Set.of())).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void aMemoryThatWearsTakesAtLeastOneWrite() {
        assertThat(Storage.VOLATILE.isVolatile()).isTrue();
        assertThat(Storage.nonVolatile(1).isVolatile()).isFalse();
        assertThatThrownBy(() -> Storage.nonVolatile(0)).isInstanceOf(IllegalArgumentException.class);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 4, 7, 8, 17, 20, 21, 23, 43, 90, 128 + 6})
    void noPermitIsMadeOfAFunctionThatDoesNotWriteOrIsNeverSent(int function) {
        assertThatThrownBy(() -> permit(function)).hasMessageContaining("(was " + function + ")");
    }

    @Test
    void aPermitIsForAskersOrForAHeartbeat() {
        for (int function : Functions.ALL) {
            assertThat(permit(function).beat()).isPresent();
            assertThat(permit(function).asked()).isEmpty();
        }
        Purpose.Asked asked = new Purpose.Asked(
                new Askers(List.of(), true),
                new Allowed.States(Set.of(0L)),
                Optional.empty(),
                Duration.ofMinutes(1),
                Purpose.Asked.USUAL_MQTT_PRIORITY,
                Optional.of(new Silence(Duration.ofMinutes(15), new Silence.Action.Release())));
        WritePermit permit = new WritePermit(POINT, asked, 6, Storage.VOLATILE, "summer");
        assertThat(permit.asked()).contains(asked);
        assertThat(permit.beat()).isEmpty();
    }

    private static WritePermit permit(int function) {
        return new WritePermit(
                POINT,
                new Purpose.Beat(Duration.ofSeconds(10), new Purpose.Pattern.Toggle()),
                function,
                Storage.VOLATILE,
                "minds us");
    }

    @Test
    void aCountRunsUpToWhatARegisterHolds() {
        assertThat(new Purpose.Pattern.Count(65535).limit()).isEqualTo(65535);
        assertThatThrownBy(() -> new Purpose.Pattern.Count(65536)).hasMessageContaining("(was 65536)");
        assertThatThrownBy(() -> new Purpose.Pattern.Count(0)).hasMessageContaining("(was 0)");
    }
}
