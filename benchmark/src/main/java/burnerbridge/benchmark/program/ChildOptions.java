package burnerbridge.benchmark.program;

import picocli.CommandLine.Option;

/** How the Java process that is measured is started. A mixin. */
public final class ChildOptions {
    @Option(names = "--heap", description = "-Xmx of the measured process (${DEFAULT-VALUE}).")
    private String heap;

    @Option(
            names = "--class-path",
            showDefaultValue = picocli.CommandLine.Help.Visibility.NEVER,
            description = "Of the measured process. Default: that of this program.")
    private String classPath = System.getProperty("java.class.path");

    /** @param heap where none is given */
    public ChildOptions(String heap) {
        this.heap = heap;
    }

    public String heap() {
        return heap;
    }

    public String classPath() {
        return classPath;
    }
}
