package burnerbridge.simulator.bench;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.simulator.modbus.AcceptingImage;
import burnerbridge.simulator.modbus.AcceptingImage.Accepted;
import burnerbridge.simulator.modbus.RegisterImage;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.net.InetAddress;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/**
 * A device for the bench. It serves registers that tell where they are, over one of three transports, and
 * misbehaves as it is told on standard input. Exit codes: 0 ended as asked, 2 wrong arguments, 3 the port
 * cannot be opened.
 */
@Command(
        name = "field-device",
        description = {
            "Serves registers that tell where they are, and misbehaves as told on standard input (try: help).",
            "Registers: " + AddressImage.TOLD + "."
        })
public final class Bench implements Callable<Integer> {
    private static final int NOT_REACHED = 3;
    private static final int LARGEST_UNIT = 247;

    @Spec
    private @Nullable CommandSpec spec;

    /** Exactly one of them. */
    private static final class Where {
        @Option(names = "--tcp", paramLabel = "PORT", description = "Modbus TCP; 0 for any free port.")
        private @Nullable Integer tcp;

        @Option(
                names = "--rtu-over-tcp",
                paramLabel = "PORT",
                description = "RTU frames over TCP, as behind a device server; 0 for any free port.")
        private @Nullable Integer rtuOverTcp;

        @Option(names = "--serial", paramLabel = "PATH", description = "RTU frames on a serial port.")
        private @Nullable Path serial;
    }

    @ArgGroup(multiplicity = "1")
    private @Nullable Where where;

    @Option(
            names = "--host",
            defaultValue = "127.0.0.1",
            description = "Address to listen on (default ${DEFAULT-VALUE}).")
    private String host = "127.0.0.1";

    @Option(names = "--baud", defaultValue = "9600", description = "Rate of RTU frames (default ${DEFAULT-VALUE}).")
    private int baud;

    @Option(
            names = "--bits",
            defaultValue = "10",
            description = "Bits of a character, start and stop bits included: 10 to 12 (default ${DEFAULT-VALUE}).")
    private int bits;

    @Option(
            names = "--turnaround",
            defaultValue = "0",
            description = "Milliseconds that every reply takes besides the silence before it (default 0).")
    private int turnaround;

    @Option(names = "--unit", split = ",", defaultValue = "1", description = "Unit ids, 1 to 247 (default 1).")
    private List<Integer> units = List.of(1);

    @Option(
            names = "--accept",
            split = ",",
            paramLabel = "TABLE:FIRST-LAST",
            description = "What can be written by functions 5, 6, 15, 16 and 22, as coil:16,holding-register:40-49;"
                    + " without it nothing can.")
    private List<String> accept = List.of();

    @Option(names = "--help", usageHelp = true, description = "Show this help.")
    @SuppressWarnings("UnusedVariable") // picocli looks at it
    private boolean help;

    /** Serves until it is told to end. */
    public static void main(String[] args) {
        System.exit(new CommandLine(new Bench()).execute(args));
    }

    @Override
    public Integer call() throws InterruptedException {
        PrintStream out = System.out;
        List<Accepted> accepted = accepted();
        Map<Integer, AcceptingImage> writable = accepted.isEmpty() ? Map.of() : writable(accepted);
        Map<Integer, ? extends RegisterImage> images = accepted.isEmpty() ? images() : writable;
        try (FieldDevice device = new FieldDevice(door(), images, UnknownUnit.SILENT)) {
            Conversation conversation = new Conversation(device, writable, turnaround(), out);
            device.start();
            out.println(device.transport() + (device.port() == 0 ? "" : ", port " + device.port()) + ", units "
                    + images.keySet().stream().sorted().toList() + "; \"help\" lists what it can be told");
            out.flush();
            obey(conversation);
            return CommandLine.ExitCode.OK;
        } catch (IOException e) {
            System.err.println("field-device: " + e.getMessage());
            return NOT_REACHED;
        }
    }

    /** With no more input the device goes on as it was told last. */
    private static void obey(Conversation conversation) throws IOException, InterruptedException {
        BufferedReader in = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
        for (String line = in.readLine(); line != null; line = in.readLine()) {
            if (!conversation.take(line)) {
                return;
            }
        }
        new CountDownLatch(1).await();
    }

    private Map<Integer, AddressImage> images() {
        for (int unit : units) {
            require(unit >= 1 && unit <= LARGEST_UNIT, "--unit: must be 1 to " + LARGEST_UNIT + " (was " + unit + ")");
        }
        return units.stream().distinct().collect(Collectors.toMap(Function.identity(), AddressImage::new));
    }

    private Map<Integer, AcceptingImage> writable(List<Accepted> accepted) {
        Map<Integer, AcceptingImage> writable = new HashMap<>();
        images().forEach((unit, image) -> writable.put(unit, new AcceptingImage(image, accepted)));
        return writable;
    }

    private List<Accepted> accepted() {
        List<Accepted> accepted = new ArrayList<>();
        for (String text : accept) {
            try {
                accepted.add(Tables.accepted(text));
            } catch (NotUnderstood e) {
                require(false, "--accept: " + e.getMessage());
            }
        }
        return accepted;
    }

    private Duration turnaround() {
        require(turnaround >= 0 && turnaround <= 10_000, "--turnaround: must be 0 to 10000 (was " + turnaround + ")");
        return Duration.ofMillis(turnaround);
    }

    private Door door() throws IOException {
        Where one = Objects.requireNonNull(where);
        InetAddress address = InetAddress.getByName(host);
        if (one.tcp != null) {
            return new Door.ModbusTcp(address, port("--tcp", one.tcp));
        }
        if (one.rtuOverTcp != null) {
            return new Door.RtuOverTcp(address, port("--rtu-over-tcp", one.rtuOverTcp), rate());
        }
        return new Door.RtuSerial(Objects.requireNonNull(one.serial), rate());
    }

    private int port(String option, int port) {
        require(port >= 0 && port <= 65535, option + ": must be 0 to 65535 (was " + port + ")");
        return port;
    }

    private WireRate rate() {
        require(baud >= 1, "--baud: must be 1 or more (was " + baud + ")");
        require(bits >= 10 && bits <= 12, "--bits: must be 10 to 12 (was " + bits + ")");
        return new WireRate(baud, bits);
    }

    private void require(boolean holds, String otherwise) {
        if (!holds) {
            throw new ParameterException(Objects.requireNonNull(spec).commandLine(), otherwise);
        }
    }
}
