package burnerbridge.benchmark.lines;

import burnerbridge.benchmark.program.ChildOptions;
import burnerbridge.benchmark.program.Program;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** The real daemon as a child process. */
final class Daemon implements AutoCloseable {
    private final Program program;

    private Daemon(Program program) {
        this.program = program;
    }

    static Daemon start(Contestant contestant, ChildOptions child, Path site, Path log) {
        List<String> command = new ArrayList<>(List.of(contestant.java().path(), "-Xmx" + child.heap()));
        command.addAll(contestant.options());
        command.addAll(List.of("-cp", child.classPath(), "burnerbridge.daemon.Main", "run", site.toString()));
        return new Daemon(Program.startInto(log, command));
    }

    boolean isAlive() {
        return program.isAlive();
    }

    Duration processorTime() {
        return program.processorTime();
    }

    ProcessState state() throws IOException {
        return ProcessState.of(program.pid());
    }

    @Override
    public void close() {
        program.close();
    }
}
