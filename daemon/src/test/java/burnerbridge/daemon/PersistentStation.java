package burnerbridge.daemon;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;

/** A station that asks for the same again and again, whoever hears it, until all is told. A program: {@code FOLDER PORT}. */
public final class PersistentStation {
    private static final int PATIENCE_MILLIS = 300;

    private PersistentStation() {}

    public static void main(String[] arguments) throws IOException {
        Path told = Path.of(arguments[0]).resolve(PartedPlant.TOLD);
        InetSocketAddress own = new InetSocketAddress("10.77.0.2", 0);
        InetSocketAddress bridge = new InetSocketAddress("10.77.0.1", Integer.parseInt(arguments[1]));
        try (HandMadeStation station = new HandMadeStation(own, bridge, PATIENCE_MILLIS)) {
            while (!Files.exists(told)) {
                station.write(60);
            }
        }
        System.out.println(Files.readString(told));
    }
}
