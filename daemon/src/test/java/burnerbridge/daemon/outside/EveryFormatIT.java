package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.PointSheet.Row;
import burnerbridge.model.Reading;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every format in every order, from a site folder to the value table, on devices that others wrote. The registers
 * are typed by hand in {@code outside/every-format/registers.txt}, each with its source, and what must be read
 * beside the points; every device is started and read once.
 */
class EveryFormatIT {

    @TestInstance(TestInstance.Lifecycle.PER_CLASS)
    abstract static class Device {
        private final Map<PointSheet, Map<String, Reading>> readings = new EnumMap<>(PointSheet.class);
        private @Nullable FieldDevice device;

        abstract FieldDevice start(Path folder) throws Exception;

        @BeforeAll
        void readEverything(@TempDir Path folder) throws Exception {
            FieldDevice started = start(folder);
            device = started;
            for (PointSheet sheet : PointSheet.values()) {
                Path at = folder.resolve(sheet.name());
                try (FieldSite site = new FieldSite(at, started.line(), sheet.settings, sheet.text())) {
                    site.stepUntil(site::isRead);
                    readings.put(sheet, site.readings());
                }
            }
        }

        @AfterAll
        void end() throws Exception {
            if (device != null) {
                device.close();
            }
        }

        @ParameterizedTest
        @MethodSource("burnerbridge.daemon.outside.PointSheet#allRows")
        void everyPointHasTheValueWorkedOutByHand(Row row) {
            Reading reading = Objects.requireNonNull(
                    readings.getOrDefault(row.sheet(), Map.of()).get(row.name()));
            assertThat(reading.reason().word()).as("%s", row).isEqualTo(row.reason());
            assertThat(reading.value() == null ? "" : reading.value().text())
                    .as("%s", row)
                    .isEqualTo(row.value());
        }
    }

    @Nested
    class PymodbusOnTcp extends Device {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.pymodbusOnTcp(folder);
        }
    }

    @Nested
    class PymodbusOnRtuOverTcp extends Device {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.pymodbusOnRtuOverTcp(folder);
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

    @Nested
    class J2modOnASerialPort extends Device {
        @Override
        FieldDevice start(Path folder) throws Exception {
            return FieldDevice.j2modOnASerialPort(folder);
        }
    }
}
