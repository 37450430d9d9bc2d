package burnerbridge.write.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Askers;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Who asks, for what and in which slot, and how the audit and the answers have it. */
class AskTest {
    private static final PointId LOAD = new PointId(new Name("boiler-1"), new Name("load-demand"));
    private static final Askers NETWORK =
            new Askers(List.of(AddressBlock.parse("192.0.2.0/24").orElseThrow()), false);
    private static final Askers BROKER = new Askers(List.of(), true);
    private static final Source.Bacnet STATION = new Source.Bacnet(0xC0000207, 47808, 0);

    private static Ask ask(int slot) {
        return new Ask(LOAD, new Wanted.Nothing(), slot, STATION);
    }

    @Test
    void thereAreSixteenSlots() {
        assertThat(ask(1).slot()).isEqualTo(1);
        assertThat(ask(16).slot()).isEqualTo(16);
        assertThatThrownBy(() -> ask(0)).hasMessage("a slot is 1 to 16 (was 0)");
        assertThatThrownBy(() -> ask(17)).hasMessage("a slot is 1 to 16 (was 17)");
    }

    @Test
    void aStationIsAmongTheNetworksThatMayAskAndABrokerIsOneOfItsOwn() {
        assertThat(STATION.isAmong(NETWORK)).isTrue();
        assertThat(new Source.Bacnet(0xC0000307, 47808, 0).isAmong(NETWORK)).isFalse();
        assertThat(STATION.isAmong(BROKER)).isFalse();
        assertThat(new Source.Mqtt("optimiser").isAmong(BROKER)).isTrue();
        assertThat(new Source.Mqtt("optimiser").isAmong(NETWORK)).isFalse();
        assertThat(Source.Bridge.SILENCE.isAmong(new Askers(List.of(), false))).isTrue();
    }

    @Test
    void aSourceSaysWhoItIs() {
        assertThat(STATION.text()).isEqualTo("bacnet 192.0.2.7:47808");
        assertThat(new Source.Bacnet(0xC0000207, 47808, 12).text()).isEqualTo("bacnet 192.0.2.7:47808 network 12");
        assertThat(new Source.Mqtt("").text()).isEqualTo("mqtt");
        assertThat(new Source.Mqtt("optimiser").text()).isEqualTo("mqtt optimiser");
        assertThat(Source.Bridge.SILENCE.text()).isEqualTo("bridge silence");
    }

    /** Whoever publishes chooses the name: it must not forge a line of the audit or fill the disk. */
    @Test
    void aNameThatNobodyCheckedIsOneShortLine() {
        assertThat(new Source.Mqtt("a\nb\u001bc").by()).isEqualTo("a?b?c");
        assertThat(new Source.Mqtt("x".repeat(60)).by()).isEqualTo("x".repeat(60));
        assertThat(new Source.Mqtt("x".repeat(61)).by()).isEqualTo("x".repeat(59) + "…");
        assertThat(new Wanted.NoNumber("a\tb").text()).isEqualTo("a?b");
        assertThat(new Wanted.NoNumber("x".repeat(60)).what()).isEqualTo("x".repeat(60));
        assertThat(new Wanted.NoNumber("x".repeat(61)).what()).isEqualTo("x".repeat(59) + "…");
    }

    @ParameterizedTest
    @CsvSource({"35.50, 35.50", "1e3, 1000", "-20, -20", "1E-3, 0.001", "1e2000000000, 1E+2000000000"})
    void aNumberIsWrittenOutWhereItIsOneThatAnybodyMeans(String number, String text) {
        assertThat(new Wanted.Number(new BigDecimal(number)).text()).isEqualTo(text);
    }

    /** Its digits before the point and the places behind it: 399 of the first and third, 401 of the others. */
    @Test
    void moreDigitsThanAnyRegisterHasAreNotWrittenOut() {
        assertThat(new Wanted.Number(new BigDecimal(BigInteger.ONE, -199)).text())
                .isEqualTo("1" + "0".repeat(199));
        assertThat(new Wanted.Number(new BigDecimal(BigInteger.ONE, -200)).text())
                .isEqualTo("1E+200");
        assertThat(new Wanted.Number(new BigDecimal(BigInteger.ONE, 200)).text())
                .isEqualTo("0." + "0".repeat(199) + "1");
        assertThat(new Wanted.Number(new BigDecimal(BigInteger.ONE, 201)).text())
                .isEqualTo("1E-201");
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void whatIsNotFiniteIsNoNumber(double value) {
        assertThat(Wanted.Number.of(value)).isEqualTo(new Wanted.NoNumber(Double.toString(value)));
        assertThat(Wanted.Number.of(35.5)).isEqualTo(new Wanted.Number(new BigDecimal("35.5")));
    }

    @Test
    void aSlotIsGivenUpForNothing() {
        assertThat(new Wanted.Nothing().text()).isEqualTo("nothing");
    }
}
