package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.model.HandClock;
import burnerbridge.model.Registers;
import burnerbridge.site.AddressRange;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.Points;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.UnitId;
import burnerbridge.site.guard.Guard;
import burnerbridge.site.permit.Functions;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class WritableLineTest {
    private static final LineDefinition.Endpoint TCP = new LineDefinition.Tcp("127.0.0.1", 1);
    private static final LineDefinition.Endpoint RTU = new LineDefinition.RtuOverTcp("127.0.0.1", 1, 9600);

    private static WritableLine line(
            LineDefinition.Endpoint endpoint, Map<UnitId, Guard> guards, WriteTemplate... templates) {
        LineDefinition line =
                new LineDefinition(new Name("annex"), endpoint, Duration.ofSeconds(1), Duration.ofSeconds(3));
        return Lines.writable(line, new HandClock(), List.of(templates), guards);
    }

    private static WriteTemplate of(int unit) {
        return new WriteTemplate(
                new UnitId(unit), Functions.SINGLE_REGISTER, AddressRange.of(RegisterTable.HOLDING_REGISTER, 44, 1), 0);
    }

    @Test
    void aTemplateThatReachesWhatIsProtectedMakesNoLine() {
        assertThatThrownBy(() -> line(TCP, Guards.ofUnit(), Guards.registers(498, 3)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage(
                        "line annex: the write of unit 17 holding-register wire 498..500 by function 16 would reach "
                                + "high-limit of boiler-1 at holding-register 501 (wire 500), whose role is safety-setting");
        assertThatThrownBy(() -> line(TCP, Guards.ofUnit(), Guards.bits(500, 1)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThat(line(TCP, Guards.ofUnit(), Guards.registers(498, 2))).isNotNull();
    }

    /** Who writes some bits of a register may have to write all of it. */
    @Test
    void someBitsOfARegisterCannotBeWrittenWhereAnyOtherOfItIsProtected() {
        Guard guard = Guards.of(
                true,
                Points.as(
                        Role.SETTING,
                        Points.point(
                                "a",
                                RegisterTable.HOLDING_REGISTER,
                                60,
                                new burnerbridge.site.PointFormat.RegisterBit(3, 3),
                                burnerbridge.site.Scaling.NONE,
                                burnerbridge.site.States.NONE)));
        assertThatThrownBy(() -> line(TCP, Map.of(Guards.UNIT, guard), Guards.bits(60, 1)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("would reach a of boiler-1");
    }

    @Test
    void aUnitOfWhichNothingIsKnownMakesNoLine() {
        assertThatThrownBy(() -> line(TCP, Map.of(), Guards.register(44)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("of which nothing says what is protected");
    }

    @Test
    void unit255IsWrittenOverDirectTcpAlone() {
        Map<UnitId, Guard> guards = Map.of(new UnitId(255), Guards.beside());
        assertThat(line(TCP, guards, of(255))).isNotNull();
        assertThatThrownBy(() -> line(RTU, guards, of(255)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("unit 255, which is written over direct Modbus TCP alone");
    }

    @Test
    void everybodyIsNoTemplate() {
        assertThatThrownBy(() -> of(0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("unit 0");
    }

    @Test
    void whatIsNoTemplateOfTheLineIsNeitherEncodedNorWritten() {
        LineWrites writes = line(TCP, Guards.ofUnit(), Guards.register(44)).writes();
        assertThat(writes.encode(Guards.register(44), Registers.of(900)))
                .isEqualTo(ScriptedPeer.hex("11 06 002C 0384"));
        assertThatThrownBy(() -> writes.encode(Guards.register(45), Registers.of(900)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("this line was made without the write of unit 17 holding-register wire 45 by function 6");
        assertThatThrownBy(() -> writes.write(Guards.register(45), Registers.of(900)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> writes.write(Guards.register(44), Registers.of(1, 2)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("takes 1 (was 2)");
    }

    @Test
    void aBitIsNeitherMoreNorLessThan0Or1() {
        LineWrites writes =
                line(TCP, Guards.ofUnit(), Guards.coil(16), Guards.coils(20, 2)).writes();
        assertThatThrownBy(() -> writes.encode(Guards.coil(16), Registers.of(0xFF00)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("bits of 0 or 1 (was 65280)");
        assertThatThrownBy(() -> writes.encode(Guards.coils(20, 2), Registers.of(1, 2)))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** Who holds the transport alone cannot make it write. */
    @Test
    void theTransportIsNoWriter() {
        WritableLine line = line(TCP, Guards.ofUnit(), Guards.register(44));
        assertThat(line.transport()).isNotInstanceOf(LineWrites.class);
        assertThat(line.writes()).isNotInstanceOf(LineTransport.class);
    }

    @Test
    void withoutAConnectionNothingIsSent() {
        WritableLine line = line(TCP, Guards.ofUnit(), Guards.register(44));
        assertThat(line.writes().write(Guards.register(44), Registers.of(900)))
                .isEqualTo(new WriteOutcome.NotSent("there is no connection to 127.0.0.1:1"));
        assertThat(line.writes().connections()).isZero();
        assertThat(line.transport().counts().requests()).isZero();
    }
}
