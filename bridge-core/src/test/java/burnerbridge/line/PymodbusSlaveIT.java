package burnerbridge.line;

import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.LineDefinition;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.IntUnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Nested;

/** A slave in another language, on each transport. */
class PymodbusSlaveIT {

    abstract static class Pymodbus extends IndependentSlaveContract {
        private @Nullable Process slave;

        void open(String where) throws Exception {
            OutsideProgram.requirePython("pymodbus.server, serial", "python3-pymodbus python3-serial");
            Path image = Files.writeString(
                    folder.resolve("image.json"),
                    "{"
                            + String.join(
                                    ",",
                                    table("holding-register", i -> i * 500),
                                    table("input-register", i -> 65535 - i),
                                    table("coil", i -> i % 3 == 0 ? 1 : 0),
                                    table("discrete-input", i -> i % 2 == 0 ? 1 : 0))
                            + "}");
            Path script = OutsideProgram.file("field-device.py");
            slave = new ProcessBuilder(OutsideProgram.PYTHON, script.toString(), where, image.toString())
                    .redirectErrorStream(true)
                    .redirectOutput(folder.resolve("log").toFile())
                    .start();
        }

        private static String table(String name, IntUnaryOperator value) {
            return "\"" + name + "\":{"
                    + IntStream.range(0, ADDRESSES)
                            .mapToObj(i -> "\"" + i + "\":" + value.applyAsInt(i))
                            .collect(Collectors.joining(","))
                    + "}";
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
    class OnTcp extends Pymodbus {
        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            int port = freePort();
            open(Integer.toString(port));
            return new LineDefinition.Tcp("127.0.0.1", port);
        }
    }

    @Nested
    class OnRtuOverTcp extends Pymodbus {
        @Override
        LineDefinition.Endpoint startSlave() throws Exception {
            int port = freePort();
            open("rtu:" + port);
            return new LineDefinition.RtuOverTcp("127.0.0.1", port, 115200);
        }
    }

    @Nested
    class OnASerialPort extends Pymodbus {
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
