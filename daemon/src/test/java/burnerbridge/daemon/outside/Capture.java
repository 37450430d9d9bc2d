package burnerbridge.daemon.outside;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.awaitility.Awaitility;

/** What an independent analyser saw of the bridge's three protocols on the loopback interface. */
final class Capture {
    private final Rig rig;
    private final Path file;
    private final Program analyser;

    Capture(Rig rig) {
        this.rig = rig;
        this.file = rig.file("capture.pcapng");
        String filter =
                "tcp port " + rig.modbusPort + " or tcp port " + rig.brokerPort + " or udp port " + rig.bacnetPort;
        analyser = rig.start("analyser", "tshark", "-i", "lo", "-f", filter, "-w", file.toString());
        Awaitility.await()
                .until(() -> analyser.said().contains("Capturing on") && Files.exists(file) && Files.size(file) > 0);
    }

    /** Ends the capture once a last datagram, which the caller sent, is in it. */
    void end(String lastFilter, int lastCount) {
        Awaitility.await().until(() -> count(lastFilter) >= lastCount);
        analyser.end();
    }

    /** The frames that a display filter keeps, each port decoded as its protocol. */
    int count(String displayFilter) throws IOException, InterruptedException {
        return lines(displayFilter, "frame.number").size();
    }

    /** One field of each frame that a display filter keeps. */
    List<String> lines(String displayFilter, String field) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("tshark", "-r", file.toString(), "-Y", displayFilter));
        command.addAll(List.of("-d", "tcp.port==" + rig.modbusPort + ",mbtcp"));
        command.addAll(List.of("-d", "tcp.port==" + rig.brokerPort + ",mqtt"));
        command.addAll(List.of("-d", "udp.port==" + rig.bacnetPort + ",bvlc"));
        command.addAll(List.of("-T", "fields", "-e", field));
        return OutsideProgram.output(command)
                .lines()
                // The analyser says on its error output that it runs as root.
                .filter(line -> !line.startsWith("Running as user"))
                .filter(line -> !line.isBlank())
                .toList();
    }
}
