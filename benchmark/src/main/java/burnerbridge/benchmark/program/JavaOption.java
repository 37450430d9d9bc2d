package burnerbridge.benchmark.program;

import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Option;

/** With which Java the daemon runs, one after the other. A mixin. */
public final class JavaOption {
    @Option(
            names = "--java",
            paramLabel = "PROGRAM",
            description = "A java program to run the daemon; may be repeated. Default: this one.")
    private List<String> given = new ArrayList<>();

    public List<JavaProgram> programs() {
        return (given.isEmpty() ? List.of(JavaProgram.OWN) : given)
                .stream().map(JavaProgram::of).toList();
    }

    /** As they were given; none for the default. */
    public List<String> given() {
        return List.copyOf(given);
    }
}
