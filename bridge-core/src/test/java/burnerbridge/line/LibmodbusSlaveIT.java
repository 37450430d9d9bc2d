package burnerbridge.line;

import burnerbridge.outside.LibmodbusDevice;
import burnerbridge.site.LineDefinition;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.IntUnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Nested;

/** A slave in C, on each transport that its library has: it knows no RTU over TCP. */
class LibmodbusSlaveIT {

    abstract static class Libmodbus extends IndependentSlaveContract {
        private @Nullable Process slave;

        void open(String where) throws Exception {
            Path image = Files.writeString(
                    folder.resolve("image.txt"),
                    table("holding-register", i -> i * 500)
                            + table("input-register", i -> 65535 - i)
                            + table("coil", i -> i % 3 == 0 ? 1 : 0)
                            + table("discrete-input", i -> i % 2 == 0 ? 1 : 0));
            slave = new ProcessBuilder(LibmodbusDevice.build(folder).toString(), where, image.toString(), "writable")
                    .redirectErrorStream(true)
                    .redirectOutput(folder.resolve("log").toFile())
                    .start();
        }

        private static String table(String name, IntUnaryOperator value) {
            return IntStream.range(0, ADDRESSES)
                    .mapToObj(i -> Integer.toHexString(value.applyAsInt(i)))
                    .collect(Collectors.joining(" ", name + " 0 ", "\n"));
        }

        @Override
        void endSlave() throws Exception {
            if (slave != null) {
                slave.destroy();
                slave.waitFor();
            }
        }
    }

    @Nested
    class OnTcp extends Libmodbus {
        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            int port = freePort();
            open(Integer.toString(port));
            return new LineDefinition.Tcp("127.0.0.1", port);
        }
    }

    @Nested
    class OnASerialPort extends Libmodbus {
        private @Nullable PtyPair cable;

        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            PtyPair pair = new PtyPair(folder);
            cable = pair;
            open(pair.theirs.toString());
            return SerialTransportIT.serial(pair.ours, false);
        }

        @Override
        void endSlave() throws Exception {
            super.endSlave();
            if (cable != null) {
                cable.close();
            }
        }
    }
}
