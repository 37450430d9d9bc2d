package burnerbridge.benchmark.start;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Options of Java that are compared, each alone and all together. */
enum Flags {
    NONE("no options", false),
    SERIAL("-XX:+UseSerialGC", false, "-XX:+UseSerialGC"),
    HEAP("-Xmx64m", false, "-Xmx64m"),
    STACK("-Xss256k", false, "-Xss256k"),
    TIERED("-XX:TieredStopAtLevel=1", false, "-XX:TieredStopAtLevel=1"),
    ARCHIVE("an archive of its classes (AppCDS)", true),
    TOGETHER("all of these together", true, "-XX:+UseSerialGC", "-Xmx64m", "-Xss256k", "-XX:TieredStopAtLevel=1"),
    LAUNCHER("as the launcher starts it", false, "-Xmx48m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"),
    WITH_ARCHIVE("the same with AppCDS", true, "-Xmx48m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"),
    /** As in the image: the archive is mapped where it was made for, and none of its pages need be changed. */
    IMAGE(
            "the same, not relocated",
            true,
            "-Xmx48m",
            "-XX:+UseSerialGC",
            "-XX:TieredStopAtLevel=1",
            "-XX:+UnlockDiagnosticVMOptions",
            "-XX:ArchiveRelocationMode=0");

    private final String title;
    private final boolean needsArchive;

    @SuppressWarnings("ImmutableEnumChecker") // it is: of List.of
    private final List<String> options;

    Flags(String title, boolean needsArchive, String... options) {
        this.title = title;
        this.needsArchive = needsArchive;
        this.options = List.of(options);
    }

    String title() {
        return title;
    }

    /** Whether a process must have run before and left an archive. */
    boolean needsArchive() {
        return needsArchive;
    }

    /** Without an archive. */
    List<String> options() {
        return options;
    }

    /** For a process that has its archive there. */
    List<String> optionsWith(Path archive) {
        return with("-XX:SharedArchiveFile=" + archive);
    }

    /** For the process that leaves the archive when it ends; the garbage collector is the same. */
    List<String> optionsToMake(Path archive) {
        return with("-XX:ArchiveClassesAtExit=" + archive);
    }

    private List<String> with(String option) {
        List<String> all = new ArrayList<>(options);
        all.add(option);
        return all;
    }
}
