package burnerbridge.benchmark.bacnet.device;

import burnerbridge.benchmark.program.ChildOptions;
import burnerbridge.benchmark.program.JavaProgram;
import burnerbridge.benchmark.program.Program;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;

/** A device in a process of its own, as this process sees it. */
public final class Device implements AutoCloseable {
    /** Of each of them. */
    public static final int INSTANCE = 3;

    private final Side side;
    private final int objects;
    private final int port;
    private final Program program;
    private final Duration start;
    private int changes;

    private Device(Side side, int objects, int port, Program program) {
        this.side = side;
        this.objects = objects;
        this.port = port;
        this.program = program;
        String ready = program.line();
        this.start = Duration.ofNanos(1000 * Long.parseLong(ready.substring("ready ".length())));
    }

    /** Started and answering. What it logs goes to our standard error. */
    public static Device start(Side side, int objects, ChildOptions child) {
        int port = freePort();
        return new Device(
                side,
                objects,
                port,
                Program.start(command(side, objects, child, port).toArray(new String[0])));
    }

    /** The same, with what it logs in a file. */
    public static Device startWithLog(Side side, int objects, ChildOptions child, Path log) {
        int port = freePort();
        return new Device(side, objects, port, Program.startWithErrorsInto(log, command(side, objects, child, port)));
    }

    private static List<String> command(Side side, int objects, ChildOptions child, int port) {
        return List.of(
                JavaProgram.OWN,
                "-Xmx" + child.heap(),
                "-cp",
                child.classPath(),
                ServerMain.class.getName(),
                side.name(),
                Integer.toString(objects),
                Integer.toString(port));
    }

    private static int freePort() {
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public Side side() {
        return side;
    }

    public int objects() {
        return objects;
    }

    public int port() {
        return port;
    }

    /** From making the first object to having answered for all; the virtual machine's own start is not in it. */
    public Duration start() {
        return start;
    }

    public Duration processorTime() {
        return program.processorTime();
    }

    public long pid() {
        return program.pid();
    }

    /** Changes all objects; says to what. Returns before it is done. */
    public int changeAll() {
        program.tell("all");
        return ++changes;
    }

    /** Changes the first object so often; says to what first. Returns before it is done. */
    public int changeOften(int times) {
        program.tell("single " + times);
        int first = changes + 1;
        changes += times;
        return first;
    }

    /** When each of those changes was made, by the clock that both processes read. */
    public long[] changedAt() {
        return Arrays.stream(program.line().split(" ", -1))
                .mapToLong(Long::parseLong)
                .toArray();
    }

    public void changeEverySecond() {
        program.tell("every-second");
    }

    public String state() {
        program.tell("state");
        return program.line();
    }

    @Override
    public void close() {
        program.close();
    }
}
