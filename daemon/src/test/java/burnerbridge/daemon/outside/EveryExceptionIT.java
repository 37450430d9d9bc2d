package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.table.ControllerLink.Cause;
import burnerbridge.table.ControllerLink.State;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Every exception code, said by devices that others wrote, from a site folder to the value table. A holding
 * register at 900 and the code is refused with that code; the names are those of the Modbus Application Protocol
 * V1.1b3, 7 (from memory), which has no 7 and no 9.
 */
class EveryExceptionIT {
    private static final int REFUSED_FROM = 900;

    @TestInstance(TestInstance.Lifecycle.PER_CLASS)
    abstract static class Device {
        @SuppressWarnings("NullAway.Init")
        private Path folder;

        private @Nullable FieldDevice device;
        private int sites;

        abstract FieldDevice start(Path folder) throws Exception;

        @BeforeAll
        void startDevice(@TempDir Path given) throws Exception {
            folder = given;
            device = start(given);
            try (FieldSite site = site("holding-register", 10, "bcd16")) {
                site.stepUntil(() -> reading(site).isGood());
            }
        }

        @AfterAll
        void end() throws Exception {
            if (device != null) {
                device.close();
            }
        }

        private FieldSite site(String table, int address, String format) throws IOException {
            String points = "name,table,address,format,role,every\n"
                    + String.join(",", "point", table, Integer.toString(address), format, "status", "100 ms");
            String line = Objects.requireNonNull(device).line();
            return new FieldSite(folder.resolve("site-" + sites++), line, "numbering: wire", points);
        }

        private FieldSite siteRefusedWith(int code) throws IOException {
            return site("holding-register", REFUSED_FROM + code, "uint16");
        }

        static Reading reading(FieldSite site) {
            return Objects.requireNonNull(site.readings().get("point"));
        }

        private static void assertRefused(FieldSite site, int code, String name) {
            site.stepUntil(site::isRead);
            assertThat(reading(site).reason()).as(name).isEqualTo(Reason.REFUSED);
            assertThat(reading(site).exceptionCode()).as(name).isEqualTo(code);
            assertThat(reading(site).value()).as(name).isNull();
        }

        void assertRefused(int code, String name) throws IOException {
            try (FieldSite site = siteRefusedWith(code)) {
                assertRefused(site, code, name);
            }
        }

        @ParameterizedTest
        @CsvSource({
            "1, illegal function",
            "2, illegal data address",
            "3, illegal data value",
            "4, server device failure",
            "7, no code of the protocol",
            "8, memory parity error",
            "9, no code of the protocol"
        })
        void aRefusalIsToldAtItsPointWithItsCode(int code, String name) throws Exception {
            assertRefused(code, name);
        }

        @ParameterizedTest
        @CsvSource({"coil, bit", "discrete-input, bit", "holding-register, uint16", "input-register, uint16"})
        void whatIsNotThereIsRefusedInEveryTable(String table, String format) throws Exception {
            try (FieldSite site = site(table, 5000, format)) {
                assertRefused(site, 2, "illegal data address");
            }
        }

        @ParameterizedTest
        @CsvSource({"5, acknowledge", "6, server device busy"})
        void aBusyDeviceIsThereAndRefusesNothing(int code, String name) throws Exception {
            try (FieldSite site = siteRefusedWith(code)) {
                site.stepUntil(() -> site.link().state() == State.UP);
                assertThat(reading(site).reason()).as(name).isEqualTo(Reason.NOT_READ_YET);
                assertThat(reading(site).exceptionCode()).as(name).isZero();
            }
        }

        @ParameterizedTest
        @CsvSource({"10, gateway path unavailable", "11, gateway target device failed to respond"})
        void aDeviceBehindAGatewayThatCannotReachItIsLost(int code, String name) throws Exception {
            try (FieldSite site = siteRefusedWith(code)) {
                site.stepUntil(
                        () -> site.link().state() == State.DOWN && site.link().cause() == Cause.NO_REPLY);
                assertThat(reading(site).reason()).as(name).isEqualTo(Reason.NOT_READ_YET);
                assertThat(reading(site).exceptionCode()).as(name).isZero();
            }
        }
    }

    /** Its library says any code, that of the other none past 11. */
    abstract static class Pymodbus extends Device {
        @Test
        void aCodeFarFromTheProtocolsIsToldAsItIs() throws Exception {
            assertRefused(0x63, "no code of the protocol");
        }
    }

    @Nested
    class PymodbusOnTcp extends Pymodbus {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.pymodbusOnTcp(folder);
        }
    }

    @Nested
    class PymodbusOnRtuOverTcp extends Pymodbus {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.pymodbusOnRtuOverTcp(folder);
        }
    }

    @Nested
    class PymodbusOnASerialPort extends Pymodbus {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.pymodbusOnASerialPort(folder);
        }
    }

    @Nested
    class LibmodbusOnTcp extends Device {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.libmodbusOnTcp(folder);
        }
    }

    @Nested
    class LibmodbusOnASerialPort extends Device {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.libmodbusOnASerialPort(folder);
        }
    }
}
