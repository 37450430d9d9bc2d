package burnerbridge.benchmark.program;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** The daemon as it is packaged, and the example site that it runs. A mixin. */
public final class PackagedDaemon {
    @Option(
            names = "--site",
            defaultValue = "${sys:burnerbridge.site}",
            description = "The folder of the example site; benchmark/run knows it.")
    private Path site = Path.of("");

    @Option(
            names = "--class-path",
            defaultValue = "${sys:burnerbridge.daemon.classpath:-${sys:java.class.path}}",
            description = "Of the daemon; benchmark/run knows it.")
    private String classPath = "";

    public Path site() {
        return site;
    }

    public String classPath() {
        return classPath;
    }
}
