package burnerbridge.daemon.box;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.Program;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Images and containers, made by root without an engine that runs all the time. The system that images are made of is
 * fetched once and stays in the storage of containers under a name of ours, and so does the Java in it.
 */
final class Containers {
    /** To be fetched anew: {@code podman rmi} with this and the next name. */
    private static final String BASE = "localhost/burner-bridge-test-base:trixie";

    private static final String JAVA = "localhost/burner-bridge-test-java:trixie";
    private static final String SUITE = "trixie";

    /** Neither a service manager nor its groups are needed. */
    private static final List<String> PODMAN = List.of("podman", "--runtime=runc", "--cgroup-manager=cgroupfs");

    private final Path folder;
    private int said;

    /** @param folder for what programs say, and for what is fetched */
    Containers(Path folder) throws IOException {
        this.folder = Files.createDirectories(folder);
    }

    static void require() {
        OutsideProgram.require("buildah", "buildah");
        OutsideProgram.require("podman", "podman");
        OutsideProgram.require("runc", "runc");
        OutsideProgram.require("debootstrap", "debootstrap");
        OutsideProgram.require("setpriv", "util-linux");
        OutsideProgram.require(
                "root".equals(System.getProperty("user.name")), "the right to make containers", "run it as root");
    }

    /** The command with what this machine needs before its first word. */
    static List<String> podman(List<String> words) {
        List<String> command = new ArrayList<>(PODMAN);
        command.addAll(words);
        return command;
    }

    /** What podman says; it must end well. */
    String podman(String... words) {
        return run(podman(List.of(words)));
    }

    /** Whether podman ends well. */
    boolean ends(String... words) {
        try (Program program = Program.start(log(), podman(List.of(words)))) {
            return program.awaitEnd() == 0;
        }
    }

    /**
     * Makes the image with the Dockerfile of the archive.
     *
     * @param archive the folder that came out of it
     */
    void build(Path archive, String image, String version) throws IOException {
        if (!ends("image", "exists", BASE)) {
            fetchBase();
        }
        bud(archive, "--target=java", "--tag=" + JAVA);
        bud(archive, "--build-arg=VERSION=" + version, "--target=bridge", "--tag=" + image + "-build");
        bud(archive, "--build-arg=VERSION=" + version, "--tag=" + image);
    }

    /** Takes the image away, but not the system and the Java that it was made of. */
    void remove(String image) {
        for (String name : List.of(image, image + "-build")) {
            if (ends("image", "exists", name)) {
                podman("rmi", name);
            }
        }
    }

    private void bud(Path archive, String... options) {
        List<String> command = new ArrayList<>(List.of(
                "buildah",
                "bud",
                "--pull-never",
                "--layers",
                "--network=host",
                "--isolation=chroot",
                "--format=docker"));
        command.add("--build-arg=RUNTIME_IMAGE=" + BASE);
        command.addAll(List.of(options));
        command.addAll(List.of("--file=" + archive.resolve("container/Dockerfile"), archive.toString()));
        run(command);
    }

    private void fetchBase() throws IOException {
        Path root = folder.resolve("base");
        run(List.of("rm", "-rf", root.toString()));
        run(List.of("debootstrap", "--variant=minbase", SUITE, root.toString()));
        Path sources = root.resolve("etc/apt/sources.list");
        List<String> lines = new ArrayList<>(Files.readAllLines(sources));
        lines.add(lines.get(0).replaceFirst("/debian/? " + SUITE + " ", "/debian-security " + SUITE + "-security "));
        Files.write(sources, lines);
        Path tar = folder.resolve("base.tar");
        run(List.of(
                "tar", "-C", root.toString(), "--exclude=./var/cache/apt/archives/*.deb", "-cf", tar.toString(), "."));
        podman("import", tar.toString(), BASE);
        Files.delete(tar);
        run(List.of("rm", "-rf", root.toString()));
    }

    /** What a program says on both its outputs; it must end well. */
    String run(List<String> command) {
        try (Program program = Program.start(log(), command)) {
            assertThat(program.awaitEnd())
                    .as(String.join(" ", command) + "\n" + program.said())
                    .isZero();
            // The storage may tell of things that are no concern of ours.
            return String.join(
                    "\n",
                    program.said()
                            .lines()
                            .filter(line -> !line.startsWith("time=\""))
                            .toList());
        }
    }

    /** A file of its own for what a program says. */
    Path log() {
        try {
            Path log = folder.resolve("said-" + said++);
            Files.deleteIfExists(log);
            return log;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The numbers, on this machine, of the processes that see the same processes as this one. */
    static List<Long> processesBeside(long process) throws IOException {
        Path name = Files.readSymbolicLink(Path.of("/proc", Long.toString(process), "ns/pid"));
        try (Stream<Path> all = Files.list(Path.of("/proc"))) {
            return all.filter(entry -> entry.getFileName().toString().matches("\\d+"))
                    .filter(entry -> {
                        try {
                            return Files.readSymbolicLink(entry.resolve("ns/pid"))
                                    .equals(name);
                        } catch (IOException e) {
                            return false; // it has ended meanwhile
                        }
                    })
                    .map(entry -> Long.parseLong(entry.getFileName().toString()))
                    .toList();
        }
    }
}
